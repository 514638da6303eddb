// Quantiles of a sample: what share of like cases would lie below.
#pragma once
#include <vector>

namespace houseleek::stats {

/// The value below which a share of the cases lies from which the sample was taken.
/// Equation: Q(p) = (1 - g) x_j + g x_(j+1), j = floor(n p + m), g = n p + m - j, m = (p + 1) / 3
/// Symbols:  x_1 <= ... <= x_n: the sample in order; x_j is x_1 for j < 1 and x_n for j > n - 1 (the eighth definition:
///           the share below x_k is taken to be (k - 1/3) / (n + 1/3), about its median whatever the distribution)
/// Shape:    any order in, scalar out; pure.
/// Units:    those of the sample.
/// Valid:    at least one value, 0 <= p <= 1 (else a contract violation). Beyond the outermost shares it is the
///           outermost value: with 20 values, 3 % and 97 % are as far as it can tell.
/// Errors:   rounding.
/// Source:   [hyndman1996] definition 8.   Checked by: QTL-01 to QTL-07.
[[nodiscard]] double quantile(std::vector<double> sample, double share_frac);

}  // namespace houseleek::stats
