// Student's t, its power against a true difference, and the exact interval of a share (Boost.Math behind it).
#pragma once
#include <cstddef>

namespace houseleek::stats {

/// t below which the share p of Student's distribution lies; 0 < p < 1, degrees of freedom at least 0.1 (else a
/// contract violation). Source: [boostmath]. Checked by: STT-01, STT-02.
[[nodiscard]] double student_quantile(double p, double degrees_of_freedom);

/// Share of Student's distribution at least as far from zero as t, on both sides together.
[[nodiscard]] double student_two_sided_share(double t, double degrees_of_freedom);

struct PowerQuestion {
  double true_difference = 0.0;     // in the unit of the standard error
  double standard_error = 1.0;      // of the estimated difference; above 0
  double degrees_of_freedom = 1.0;  // behind the standard error; at least 1
  double confidence_frac = 0.95;    // of the two-sided interval
};

/// Probability that the interval of the estimated difference leaves zero out.
/// Equation: P(|T| > t_c), T noncentral t with noncentrality difference / standard error; both tails counted
/// Source:   [boostmath]; [cohen1988] for the use. Checked by: PWR-01, PWR-02.
[[nodiscard]] double power_of_t(const PowerQuestion& question);

struct ShareInterval {
  double low = 0.0;
  double high = 1.0;
};

/// Interval of a share from `n_events` of `n_all` that holds the truth at least with the wanted confidence.
/// Equation: quantiles of beta(x, n - x + 1) and beta(x + 1, n - x)
/// Source:   [clopper1934]. Checked by: CLP-01.
[[nodiscard]] ShareInterval exact_share_interval(std::size_t n_events, std::size_t n_all, double confidence_frac);

}  // namespace houseleek::stats
