// Still water behind blocked outlets and in hollows: how much, how heavy, and how long it stays.
#pragma once
#include <span>
#include <vector>

#include "checks/drainage_flow.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

struct StillPool {
  std::vector<double> depth_m;  // by square
  double volume_m3 = 0.0;
  double max_depth_m = 0.0;
  double mean_depth_m = 0.0;  // volume over the whole deck
  double weight_kn = 0.0;
  double heaviest_kn_per_m2 = 0.0;  // water alone, on the deepest square
};

/// Still water that has filled everything up to the lowest lip of the exits that take water.
/// Equation: depth = w - z with w from plan::fill_hollows; weight = 9.80665 kN/m3 times volume
/// Shape:    deck in, struct out; pure.
/// Units:    see the fields.
/// Valid:    no rain on top: see steady_depths_m for that. Water in the pores of modules counts, modules do not.
/// Errors:   exact for the squares as they are.
/// Source:   definition.   Checked by: StillPool tests.
[[nodiscard]] StillPool find_still_pool(const FlowSquares& squares);

/// The pool that these depths make.
[[nodiscard]] StillPool pool_of(const FlowSquares& squares, std::vector<double> depth_m);

/// How long standing water stays once the rest has left: depth over what the air takes in a day.
/// Units:    mm, mm/day in; days out.
/// Valid:    under modules the air takes less than in the open: the low end of evaporation is for them.
/// Errors:   ContractViolation if evaporation is not positive.
[[nodiscard]] results::Interval days_to_dry(double standing_mm, const results::Interval& evaporation_mm_per_day);

}  // namespace houseleek::checks
