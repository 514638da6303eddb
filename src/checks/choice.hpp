// The best choice of at most so many things under linear conditions and pairs that exclude each other.
#pragma once
#include <span>
#include <utility>
#include <vector>

namespace houseleek::checks {

/// sum over chosen of take <= room.
struct Condition {
  std::vector<double> take;  // one a thing, not below zero
  double room = 0.0;
};

struct Choice {
  std::vector<int> chosen;  // rising
  double value = 0.0;
  bool is_exact = false;  // false: the branches ran out, and this is the best found so far
};

/// Greatest sum of values of at most `most` things.
/// Equation: depth first by falling value; a branch ends where the values still to come cannot beat the best
/// Shape:    values above zero; conditions and pairs over their indices; pure, same choice for the same input.
[[nodiscard]] Choice choose_best(std::span<const double> values, std::span<const Condition> conditions,
                                 std::span<const std::pair<int, int>> excluded, int most, long most_branches);

/// Never more things than this: for each condition, the smallest takes that fit.
[[nodiscard]] int most_that_fit(std::span<const Condition> conditions, int n_things, int most);

}  // namespace houseleek::checks
