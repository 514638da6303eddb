// What things cost in one draw: every price, life and quantity that is not known exactly, drawn between its ends.
#pragma once
#include <cstdint>

#include "money/plain_sums.hpp"

namespace houseleek::money {

/// One of the draws of a study. Prices of different things are drawn apart from one another; one thing has one price
/// in a draw, wherever it is met: in modules and in rivals alike.
struct Draw {
  std::uint64_t seed = 0;
  std::uint32_t number = 0;
};

/// Equation: stats::split_triangular_quantile of the factor's ends, at the share that seed, path and number give
/// Units:    of the factor.
/// Source:   docs/equations/ranges.md.   Checked by: tests/money/draws_test.cpp.
[[nodiscard]] double drawn(const Factor& factor, const Draw& draw);

struct DrawnCost {
  double outlay = 0.0;
  double replacement_per_year = 0.0;  // parts without a life are never replaced
};

/// Sums of all parts.
/// Errors:   ContractViolation where a price is missing.
[[nodiscard]] DrawnCost draw_cost(const Cost& cost, const Draw& draw);

}  // namespace houseleek::money
