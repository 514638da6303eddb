// Numbers drawn from a figure of which a low end, a likely value and a high end are known and nothing else.
#pragma once
#include "base/random.hpp"

namespace houseleek::stats {

/// Not negative, low <= likely <= high.
struct Ends {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
};

/// The value below which the share p lies: half of the cases on either side of the likely value, and on each side ever
/// fewer towards its end, which none passes.
/// Equation: y(p) = b - (b - a) (1 - sqrt(2 p)) for p <= 1/2, b + (c - b) (1 - sqrt(2 (1 - p))) above;
///           x = exp(y) with a, b, c the logarithms of the ends where low > 0, else x = y with the ends themselves
/// Symbols:  a, b, c: low, likely, high
/// Shape:    ends in, scalar out; pure; rises with p.
/// Units:    those of the ends.
/// Valid:    ends that rise and are not negative, 0 < p < 1 (else a contract violation).
/// Errors:   relative 4e-16 times the logarithm of high over low.
/// Source:   the triangular distribution where the ends lie equally far from the likely value; for other ends its two
///           halves are set together at the median (own choice: docs/equations/ranges.md).
/// Checked by: SPL-01 to SPL-04, SplitTriangular.*
[[nodiscard]] double split_triangular_quantile(const Ends& ends, double share_frac);

/// A number drawn by inversion: under one seed the same variable and place give the same share, whatever the ends.
[[nodiscard]] inline double random_split_triangular(const RandomVariable& variable, const RandomPlace& place,
                                                    const Ends& ends) {
  return split_triangular_quantile(ends, random_uniform(variable, place));
}

}  // namespace houseleek::stats
