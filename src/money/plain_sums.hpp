// What modules and rivals cost to make, what wears out of them in a year, what the water costs: plain sums of ranges.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "design/defaults.hpp"
#include "design/parse.hpp"
#include "results/figure.hpp"
#include "results/interval.hpp"

namespace houseleek::money {

/// Plants bought as cuttings; a design says how much they cover, not how many they are.
inline constexpr design::Default cuttings_per_m2{
    "cuttings on a square metre that plants cover", 9, 16, 25, design::defaults::own, catalogue::Certainty::estimate};

/// A figure that is not known exactly, by its place among what is assumed: prices[ties]. The same place is the same
/// figure wherever it is met.
struct Factor {
  std::string path;
  results::Interval range;
};

/// One thing that is bought for the unit in question (a module, a square metre): what its cost is the product of, and
/// its life.
struct CostPart {
  std::string name;             // of the material or price item
  double amount = 1.0;          // what is exact of the quantity, in the unit of the price
  std::vector<Factor> factors;  // what is not exact of it
  Factor price;
  std::optional<Factor> life_years;
  // Of materials alone: what the part weighs dry, and what making a kg of it gave off.
  double mass_amount = 0.0;  // 0: its weight is not known
  std::vector<Factor> mass_factors;
  std::optional<Factor> carbon_kg_per_kg;
};
[[nodiscard]] results::Interval cost_of(const CostPart& part);

struct Cost {
  std::vector<CostPart> parts;
  std::vector<std::string> unpriced;      // things of which no price is known
  std::vector<std::string> without_life;  // things of which no life is known; they are counted as never replaced
};

/// What one module of a recipe is made of.
/// Equation: a layer costs p d rho, p or p d for a price by kg, m2 or m3, times the module's area; a price by the piece
///           counts once a module; cuttings: n_cuttings * cover * area; with a spacer set where raised, ties and labour
///           once a module, and a frame by m2 for a raised net
/// Symbols:  d: thickness; rho: dry density; cover: share of the module that plants cover
/// Shape:    one recipe in, parts out in the order of the recipe; pure.
/// Units:    money of Design::prices.
/// Valid:    no offcuts, no overlap, no packs: what lies in the module.
/// Errors:   ContractViolation if there is no such recipe; what has no price is listed.
/// Source:   definition.   Checked by: tests/money/plain_sums_test.cpp.
[[nodiscard]] Cost cost_of_module(const design::ValidDesign& design, int recipe, design::Placed placed);

/// A square metre of each plain rival.
[[nodiscard]] Cost cost_of_white_per_m2(const design::ValidDesign& design);
[[nodiscard]] Cost cost_of_net_per_m2(const design::ValidDesign& design);
[[nodiscard]] Cost cost_of_board_per_m2(const design::ValidDesign& design);

/// Sum of all parts; not there while a price is missing.
[[nodiscard]] std::optional<results::Interval> outlay_of(const Cost& cost);
/// Sum of cost over life of the parts that have one; not there while a price is missing.
[[nodiscard]] std::optional<results::Interval> replacement_per_year(const Cost& cost);

/// Sorted, every name once.
[[nodiscard]] std::vector<std::string> once_each(const std::vector<std::string>& names);

/// The modules of one patch.
struct PatchCost {
  int recipe = 0;
  int n_modules = 0;
  Cost per_module;
};
/// Every patch of the design, in its order.
[[nodiscard]] std::vector<PatchCost> patch_costs(const design::ValidDesign& design);

/// Modules of one recipe as placed in the design.
struct RecipeOutlay {
  int recipe = 0;
  int n_modules = 0;
  results::Figure per_module;  // as in the recipe's first patch
  results::Figure outlay;
  results::Figure replacement_per_year;
};

struct PlantedOutlay {
  std::vector<RecipeOutlay> recipes;  // those laid somewhere, in the order of the design
  results::Figure outlay;
  results::Figure replacement_per_year;
  std::vector<std::string> unpriced;      // each once, sorted
  std::vector<std::string> without_life;  // each once, sorted
};

/// Outlay and replacement of all modules that are laid.
[[nodiscard]] PlantedOutlay planted_outlay(const design::ValidDesign& design);

}  // namespace houseleek::money
