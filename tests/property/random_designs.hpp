// Invented designs from a seed: any climate, deck, rooms, recipes and patches that the program is meant to accept.
#pragma once
#include <cstdint>
#include <string>

#include "catalogue/catalogue.hpp"

namespace houseleek::tests {

inline constexpr int n_random_climates = 5;
inline constexpr int n_random_decks = 10;

/// The text of a design file; the same seed and number give the same text. `number` counts through climates, hemispheres
/// and kinds of deck, so that any ten in a row meet every one; everything else is drawn.
[[nodiscard]] std::string random_design_text(std::uint64_t seed, std::uint32_t number,
                                             const catalogue::Catalogue& catalogue);

}  // namespace houseleek::tests
