// How long a module stands dry: a store of water, day by day through years of rain.
#pragma once
#include <array>
#include <span>
#include <vector>

#include "simulation/group.hpp"

namespace houseleek::planting {

/// What a module's store does on its own.
struct StoreOfModule {
  double capacity_mm = 0.0;                            // between wilting and field capacity, over the rooted layers
  std::array<double, 12> evaporation_mm_per_day = {};  // of moist days, January first
  std::vector<simulation::Watering> watering;          // rules of the recipe; none: rain alone
};

/// The longest run of days that end with an empty store.
struct DrySpell {
  int days = 0;
  int last_day = 0;  // of the year, from 0
};

/// Longest run of dry days in a year of 365 days that follows itself.
/// Equation: S' = max(0, min(C, S + rain + water) - e_m); a day is dry if S' = 0
/// Symbols:  C: capacity; e_m: evaporation of the day's month, which does not slow before the store is empty (it does in
///           truth: the spell is on the careful side); water by the recipe's rules: each d-th day of a season, or all of
///           its depth where S/C is below the rule's share in the morning
/// Shape:    a store and 365 days of rain in, a spell out; pure; the year is run twice and the second counts, with a
///           run that began in the first.
/// Units:    mm, days.
/// Valid:    capacity above 0, no negative rain or evaporation. More capacity never gives a longer spell where watering
///           does not ask for the store.
/// Errors:   ContractViolation outside.
/// Source:   definition (bookkeeping).   Checked by: DRY-01 to DRY-03, DrySpell.MoreStoreNeverLonger.
[[nodiscard]] DrySpell longest_dry_spell(const StoreOfModule& store, std::span<const double> rain_mm);

}  // namespace houseleek::planting
