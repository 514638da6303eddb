// The mean of days that resemble their neighbours, with an interval that knows it.
#pragma once
#include <cstddef>
#include <span>

namespace houseleek::stats {

/// An estimate with its interval and what stands behind it.
struct Estimate {
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  double standard_error = 0.0;
  double degrees_of_freedom = 0.0;
  double two_sided_share = 1.0;  // how often chance alone goes at least so far from zero (p)
  bool operator==(const Estimate&) const = default;
};

/// Value, error and degrees of freedom made into an interval and a share. An error of exactly 0 is a contract
/// violation: nothing varied, so nothing can be said of how sure the value is.
[[nodiscard]] Estimate make_estimate(double value, double standard_error, double degrees_of_freedom,
                                     double confidence_frac);

/// Cosines that the long-run variance is made of, and so the degrees of freedom of its t.
inline constexpr int n_long_run_cosines = 3;

/// Variance of the mean of a series times its length, neighbours' likeness included.
/// Equation: (1/q) sum_j L_j^2, L_j = sqrt(2/n) sum_t x_t cos(pi j (t - 1/2) / n), j = 1..q
/// Symbols:  q = n_long_run_cosines; n length; x the values in order of time
/// Shape:    n values, evenly spaced (days left out: the rest closes up); pure.
/// Units:    square of the values'.
/// Valid:    n >= 2 q + 1 (else a contract violation); a slow trend through the whole series counts as variance.
/// Errors:   coverage of the interval measured in tests/stats/long_run_long_test.cpp.
/// Source:   [lazarus2018] (equal-weighted cosine estimator, fixed-b critical values t_q); q = 3 is ours.
/// Checked by: LRV-01, LRV-02, LRV-03
[[nodiscard]] double long_run_variance(std::span<const double> values);

/// The mean with the interval mean -+ t_q sqrt(long-run variance / n).
[[nodiscard]] Estimate long_run_mean(std::span<const double> values, double confidence_frac);

/// Correlation of neighbouring values about their mean; 0 where nothing varies.
[[nodiscard]] double lag_one_correlation(std::span<const double> values);

}  // namespace houseleek::stats
