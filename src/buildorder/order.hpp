// In which order to build: the best gain for the money of every season, one module at a time.
#pragma once
#include <string>
#include <vector>

#include "buildorder/problem.hpp"

namespace houseleek::buildorder {

struct Step {
  int place = 0;
  int season = 0;
  double cost = 0.0;  // of this one more
  double gain = 0.0;  // of this one more
};

struct OrderOptions {
  std::size_t most_exact = 14;  // places up to which every order is looked at
  int most_rounds = 2000;       // of judging and looking again
  int most_refills = 200;       // tried where not every order is
  int most_swaps = 4000;        // the same
};

struct Order {
  std::vector<Step> steps;
  double value = 0.0;          // sum over seasons of the gain at their ends
  double most_possible = 0.0;  // no order has more
  bool is_exact = false;
  std::vector<int> pins_left_out;
  std::vector<Condition> conditions;  // those of the problem, and what judging added

  /// Never more than this is lost against the best order.
  [[nodiscard]] double most_loss() const { return most_possible - value; }
};

/// The order that has most pins early, then the greatest value, then gains early for little money.
/// Equation: greatest sum_s pins in S_s, then greatest sum_s G(S_s), then least sum over steps of gain of the step times
///           all spent by then; S_1 <= S_2 <= ... grown place by place, C(S_s) <= b_1 + ... + b_s, every set on the way
///           allowed
/// Symbols:  S_s: laid at the end of season s; G: gain; C: cost; b: money of a season
/// Shape:    problem in; pure; the same order for the same problem.
/// Valid:    responses and costs that are finite, n_kinds kinds; takes not below zero.
/// Errors:   exact up to most_exact places; beyond, best of two greedy orders, refills and swaps, with `most_possible` from
///           Lagrange's multipliers for money and conditions over the concave hulls of the responses: a bound for any
///           multipliers, so rounding alone could break it.
/// Cost:     exact: 2^places times places times seasons; else places^2 times seasons, and a bound of 400 rounds.
/// Source:   docs/equations/order.md.   Checked by: tests/buildorder/order_test.cpp (brute force, integer programming).
[[nodiscard]] Order find_order(const Problem& problem, const OrderOptions& options = {});

}  // namespace houseleek::buildorder
