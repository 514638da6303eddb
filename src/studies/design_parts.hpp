// Parts of the modules of a design, what their lives are believed to be, and where those figures stand.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "upkeep/part_lives.hpp"

namespace houseleek::studies {

struct DesignPart {
  upkeep::RecipePart part;
  std::optional<catalogue::Spread> life_years;
  std::string life_path;  // material[jute fabric].service_life_in_sun_years; empty: no figure stands there
};

/// Of every recipe: net, cover sheet, layers, spacers where it is raised, ties; as money counts them.
[[nodiscard]] std::vector<DesignPart> parts_of_design(const design::Design& design);

/// The life that is believed of a part of some material: the design's own, else that of a counted part of the catalogue
/// of this name, else of a material; nullopt where nobody says.
[[nodiscard]] std::optional<catalogue::Spread> believed_life(const std::vector<DesignPart>& parts,
                                                             const catalogue::Catalogue& catalogue,
                                                             const std::string& part, const std::string& material);

}  // namespace houseleek::studies
