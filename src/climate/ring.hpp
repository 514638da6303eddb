// A year taken as a ring: its end is the neighbour of its beginning.
#pragma once
#include <vector>

namespace houseleek::climate {

/// Fills what is not known on the straight line between the nearest known values before and behind, round the end.
/// Equation: v_i = v_p + (v_n - v_p) (i - p) / (n - p)
/// Symbols:  p, n: nearest known before and behind i, counted on round the ring
/// Shape:    values and flags of equal length in, values out; pure.
/// Units:    any, kept.
/// Valid:    at least one value is known; one alone fills all.
/// Errors:   ContractViolation if none is known or the lengths differ.
/// Source:   straight line, docs/equations/climate.md.   Checked by: Ring.FillsRoundTheEnd.
[[nodiscard]] std::vector<double> filled_on_ring(std::vector<double> values, const std::vector<bool>& is_known);

}  // namespace houseleek::climate
