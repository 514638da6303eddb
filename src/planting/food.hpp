// Whether one may eat what grows in a module: its materials, the membrane under it, and the water it is given.
#pragma once
#include <string>
#include <vector>

#include "catalogue/words.hpp"
#include "design/design.hpp"

namespace houseleek::planting {

struct FoodWord {
  catalogue::NearFood word = catalogue::NearFood::yes;  // the worst of its reasons
  std::vector<std::string> because;                     // empty: nothing against it is known
};

/// Judges a recipe by every layer, its cover sheet and its net: what the catalogue does not vouch for is doubtful. The
/// membrane under it does not touch the roots of a module, so it counts for water caught from this roof alone
/// (food_from_roof_water).
[[nodiscard]] FoodWord food_in(const design::Recipe& recipe);

/// One material that roots or water touch: the filling of a bag or tub.
[[nodiscard]] FoodWord food_of_material(const catalogue::Material& material);

/// Water caught from this roof, for food: doubtful over bitumen, which may hold poison against roots, and where the
/// membrane is not vouched for.
[[nodiscard]] FoodWord food_from_roof_water(const design::Roof& roof);

/// yes, doubtful, no.
[[nodiscard]] std::string word_of(catalogue::NearFood word);

}  // namespace houseleek::planting
