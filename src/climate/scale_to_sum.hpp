// Values brought to a wanted sum by one factor, none passing its own limit.
#pragma once
#include <optional>
#include <vector>

namespace houseleek::climate {

struct LimitedValue {
  double value;   // zero or more
  double limit;   // zero or more
  double weight;  // in the sum; zero or more
};

/// Equation: v_i = min(c value_i, limit_i), c such that sum v_i weight_i = wanted_sum
/// Symbols:  c: one factor for all, found exactly by fixing those at their limit and repeating
/// Shape:    n in, n out in the same order; nullopt if even all limits together stay below the wanted sum.
/// Units:    any, kept.
/// Valid:    values that are not all zero where weights are not, unless the wanted sum is zero; if they are, all are
///           taken as one.
/// Errors:   ContractViolation for negative numbers.
/// Source:   our own, docs/equations/climate.md.   Checked by: ScaledToSum.KeepsLimitsAndSum.
[[nodiscard]] std::optional<std::vector<double>> scaled_to_sum(const std::vector<LimitedValue>& values,
                                                               double wanted_sum);

}  // namespace houseleek::climate
