// Which cautions of the catalogue apply to a design.
#pragma once
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"

namespace houseleek::checks {

/// True if the design meets the condition (one of catalogue::caution_conditions).
/// - no_allowable_load: value, who, when or includes is missing
/// - raised_modules, raised_net, watered, organic_medium: of a recipe that is laid somewhere; of any while none is
/// - timber_deck: softwood, hardwood, plywood, OSB or wood fibre board in the deck
/// - organic_medium: solids of a layer that are a fifth or more organic; straw, twigs, cones, wool, hemp, coir, cork,
///   shells or jute anywhere in the module
/// - fan: in a room; hollow: on the roof
[[nodiscard]] bool is_condition_met(const design::ValidDesign& design, std::string_view condition);

/// In the order of the catalogue.
[[nodiscard]] std::vector<catalogue::Caution> find_cautions(const design::ValidDesign& design,
                                                            const catalogue::Catalogue& catalogue);

}  // namespace houseleek::checks
