// What of a recipe burns when it is dry, whether it is the mineral layer that rules presume, and dry days in a row.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

// The presumption for a layer that needs no fire test. Source: [fll_fire], from memory.
inline constexpr double mineral_layer_mm = 30.0;
inline constexpr double most_organic_frac = 0.20;

struct FuelPart {
  std::string material;
  results::Interval burning_frac;  // of its dry mass, plastics among it
  results::Interval fuel_mj_per_m2;
};

struct RecipeFuel {
  int recipe = 0;
  results::Interval burning_frac;      // of the dry mass of media and cores together
  results::Interval fuel_mj_per_m2;    // all layers, sheets and nets, dry; without plants
  results::Interval plants_mj_per_m2;  // dried out where they stand
  double mineral_mm = 0.0;             // of layers with at most a fifth organic matter
  std::vector<FuelPart> parts;
  std::vector<std::string> not_counted;  // materials that burn and whose heat nobody gave
  std::vector<std::string> against;      // why it does not meet the usual mineral-layer presumption
  std::string statement;
};

/// Fuel of every recipe.
/// Equation: fuel = sum of d rho h; what of a body burns, m = sum of d rho c/sum of d rho. Where the catalogue has no c,
///           it is taken from the organic share of solids by volume f: c = f r_o/(f r_o + (1 - f) r_m), r_o = 1500, r_m =
///           2650 kg/m3
/// Symbols:  d: thickness; rho: dry density; h: heat of the whole dry mass; c: share of it that burns
/// Shape:    one row a recipe; pure.
/// Units:    MJ/m2 of module.
/// Valid:    everything dry; nothing is said of whether or how it catches fire.
/// Errors:   none; a material of neither figure counts as one that does not burn, unless it is organic.
/// Source:   docs/equations/fire.md; [fll_fire].   Checked by: tests/checks/fire_load_test.cpp.
[[nodiscard]] std::vector<RecipeFuel> compute_recipe_fuels(const design::ValidDesign& design);

/// What the fuel of plants assumes; nothing where no recipe has any.
[[nodiscard]] std::vector<design::Assumption> assumed_fire(const design::ValidDesign& design);

/// Days in a row on which the module is dry enough to burn.
struct DrySpells {
  int n_days = 0;  // that belong to a spell
  int n_spells = 0;
  int longest_days = 0;
};

/// Below a tenth of what the module holds for its plants, for three days: our own rule, after what dead plants take to dry.
inline constexpr double fire_dry_store_frac = 0.1;
inline constexpr int fire_dry_after_days = 3;

/// Counts days of spells: a spell begins once the store has been below the threshold for `after_days` days.
/// Shape:    one value a day, in order; the first days of a spell count once it has lasted.   Units: share.
/// Errors:   ContractViolation for a value that is no number or a count below one.
[[nodiscard]] DrySpells count_fire_dry_days(std::span<const double> store_frac_by_day,
                                            double threshold_frac = fire_dry_store_frac,
                                            int after_days = fire_dry_after_days);

}  // namespace houseleek::checks
