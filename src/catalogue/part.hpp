// Parts that are counted, not layered: ties, spacers, bags, pots, tubs, boxes.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "catalogue/spread.hpp"
#include "catalogue/words.hpp"

namespace houseleek::catalogue {

enum class PartUse { tie, spacer, container, fixing };

inline constexpr std::pair<std::string_view, PartUse> part_use_words[] = {
    {"tie", PartUse::tie}, {"spacer", PartUse::spacer}, {"container", PartUse::container}, {"fixing", PartUse::fixing}};

/// One piece, dry and empty. Its price stands in catalogue/prices.toml under the same name.
struct Part {
  std::string name;
  std::string form;
  PartUse use = PartUse::tie;
  std::optional<Family> family;
  std::vector<Hazard> hazards;
  std::optional<NearFood> near_food;
  Origin words_from;  // of form, use, family, hazards and near_food

  Spread mass_kg;                                   // of one piece
  Spread carbon_kg_per_kg;                          // CO2 equivalent of making it, carbon in plants not counted
  Spread plastic_frac;                              // of its mass
  Spread service_life_years;                        // shaded, in its usual place
  std::optional<Spread> service_life_in_sun_years;  // in full sun
  std::optional<Spread> pieces_per_module;          // of about 1 m2
  std::optional<Spread> volume_l;                   // of a container, filled
  std::optional<Spread> height_mm;                  // of a spacer: the gap it makes; of a container: its own
  std::optional<Spread> foot_area_cm2;              // of one piece on the roof
  std::optional<Spread> blocked_frac;               // of the gap's opening, seen from the side, by a module's spacers
  std::optional<Spread> breaking_force_n;           // of a tie or fixing, new
  bool operator==(const Part&) const = default;
};

}  // namespace houseleek::catalogue
