// Which cautions of the catalogue apply to a design.
#pragma once
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"

namespace houseleek::checks {

/// True if the design meets the condition (one of catalogue::caution_conditions). Materials and plants count where a
/// recipe that is laid somewhere has them (all recipes while nothing is laid), materials also where they fill a container.
/// - no_allowable_load: value, who, when or includes is missing
/// - no_span_model: nobody said how the deck carries, or its kind is for an engineer alone
/// - not_shown_in_wind: a module that lies there and whose gust, at the low end, is below that of the place, or the gust of
///   the place is not known
/// - upstand: the roof's edge is higher than the deck somewhere, or nobody said how high
/// - raised_modules, raised_net, watered, fan (in a room), hollow (on the roof), containers
/// - timber_deck: wood in the deck
/// - organic_medium: a material whose solids are a fifth or more organic, or that burns by a fifth of its mass or more
///   beside its plastic
/// - heavy_module: 25 kg or more soaked, at the likely weight
/// - mineral_fibres, dust, spores, foil, salty_finds, live_shoots, poisonous_mulch: a material with that hazard
/// - poisonous_plant, irritating_plant (skin or spines), tree: a plant with that hazard, or of that group
/// - invasive_plant: a plant with a listing for the design's country; country_not_given: no country, and a plant that is
///   listed anywhere
/// - animal_gap: raised, edges open, six millimetres or more
/// - plastic_over_organic: a plastic cover or net over organic_medium
/// - bitumen_meets_plasticised, polystyrene_meets_plasticised: both in one module, or in the module and the membrane
/// - polystyrene_used; food_doubtful: an eaten plant over a bitumen membrane or with a material that is not known to be
///   fit beside food
[[nodiscard]] bool is_condition_met(const design::ValidDesign& design, std::string_view condition,
                                    const catalogue::Catalogue& catalogue);

/// In the order of the catalogue.
[[nodiscard]] std::vector<catalogue::Caution> find_cautions(const design::ValidDesign& design,
                                                            const catalogue::Catalogue& catalogue);

}  // namespace houseleek::checks
