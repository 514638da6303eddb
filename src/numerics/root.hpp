// A root between two places where a function differs in sign, in a number of calls bounded beforehand.
#pragma once
#include <optional>

#include "base/contract.hpp"
#include "numerics/lane.hpp"

namespace houseleek::numerics {

struct Bracket {
  double low = 0.0;
  double high = 0.0;
  double tolerance = 0.0;  // the root is wanted within this much, in the unit of the argument
};

struct Root {
  double x = 0.0;           // within `half_width` of a change of sign
  double half_width = 0.0;  // at most the tolerance, unless two neighbouring doubles are all that is left
  int calls = 0;            // calls of the function
};

/// A root of f within a bracket; nothing where f has the same sign at both ends or is not a number.
/// Equation: interpolate, truncate, project: regula falsi, moved towards the middle, kept within what bisection would
///           have reached
/// Symbols:  kappa_1 = 0.2 / (high - low), kappa_2 = 2, n_0 = 1
/// Shape:    one function of one variable, called at most ceil(log2((high - low) / (2 tolerance))) + 4 times.
/// Units:    those of the caller.
/// Valid:    low <= high and tolerance > 0 (else a contract violation); f continuous, or the change of sign is found.
/// Errors:   |x - root| <= tolerance.
/// Source:   [oliveira2020] algorithm 1.
/// Checked by: FindRoot.WithinToleranceAndCalls
template <class F>
[[nodiscard]] inline std::optional<Root> find_root(const F& f, const Bracket& bracket) {
  expects(bracket.low <= bracket.high && bracket.tolerance > 0.0, "low <= high and a positive tolerance");
  double a = bracket.low;
  double b = bracket.high;
  double at_a = f(a);
  double at_b = f(b);
  int calls = 2;
  if (at_a == 0.0) return Root{a, 0.0, calls};
  if (at_b == 0.0) return Root{b, 0.0, calls};
  if (!((at_a < 0.0 && at_b > 0.0) || (at_a > 0.0 && at_b < 0.0))) return std::nullopt;
  const double sign = at_a < 0.0 ? 1.0 : -1.0;
  const double width_at_start = b - a;
  // tolerance 2^(n_half + n_0): halved at each step, it is what bisection still may be wrong by.
  double allowed = 2.0 * bracket.tolerance;
  while (allowed < width_at_start) allowed *= 2.0;
  while (b - a > 2.0 * bracket.tolerance) {
    const double middle = a + 0.5 * (b - a);
    if (!(a < middle && middle < b)) break;
    const double false_position = (at_b * a - at_a * b) / (at_b - at_a);
    const double towards = middle >= false_position ? 1.0 : -1.0;
    const double shift = 0.2 * (b - a) * ((b - a) / width_at_start);
    const double truncated = shift <= abs(middle - false_position) ? false_position + towards * shift : middle;
    const double reach = max(allowed - 0.5 * (b - a), 0.0);
    double x = abs(truncated - middle) <= reach ? truncated : middle - towards * reach;
    if (!(a < x && x < b)) x = middle;
    const double at_x = f(x);
    ++calls;
    allowed *= 0.5;
    if (sign * at_x > 0.0) {
      b = x;
      at_b = at_x;
    } else if (sign * at_x < 0.0) {
      a = x;
      at_a = at_x;
    } else if (at_x == 0.0) {
      return Root{x, 0.0, calls};
    } else {
      return std::nullopt;
    }
  }
  return Root{a + 0.5 * (b - a), 0.5 * (b - a), calls};
}

}  // namespace houseleek::numerics
