// How hard it rains once in so many years: units, Gumbel's distribution of yearly maxima, its fits and their range.
#pragma once
#include <span>

namespace houseleek::physics {

/// Intensity from the unit of drainage tables.
/// Equation: 1 l/(s ha) = 0.36 mm/h
/// Symbols:  -
/// Shape:    scalar in, scalar out; pure.
/// Units:    l/(s ha) in; mm/h out.
/// Valid:    any.
/// Errors:   none.
/// Source:   definition.   Checked by: RAIN-01.
[[nodiscard]] constexpr double mm_per_h_from_l_per_s_ha(double intensity_l_per_s_ha) {
  return 0.36 * intensity_l_per_s_ha;
}

/// Flow off a roof under steady rain.
/// Equation: Q = r A C
/// Symbols:  r: rain; A = area_m2; C = runoff_frac
/// Shape:    scalars in, scalar out; pure.
/// Units:    mm/h, m2, fraction in; l/s out.
/// Valid:    zero or more.
/// Errors:   ContractViolation if negative.
/// Source:   [en12056] section 4 (text seen: the formula).   Checked by: RAIN-02.
[[nodiscard]] double roof_flow_l_per_s(double rain_mm_per_h, double area_m2, double runoff_frac);

/// Largest values of equal stretches of time: P(X <= x) = exp(-exp(-(x - location)/scale)).
struct Gumbel {
  double location = 0.0;
  double scale = 1.0;
};

/// What is reached or passed once in so many years.
/// Equation: x = u - a ln(-ln(1 - 1/T))
/// Symbols:  u: location; a: scale; T = return_years
/// Shape:    struct and scalar in, scalar out; pure.
/// Units:    years in; those of the location out.
/// Valid:    T above 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [gumbel1958], [chow1988] section 12.2 (from memory).   Checked by: RAIN-05 to RAIN-09.
[[nodiscard]] double gumbel_quantile(const Gumbel& gumbel, double return_years);

/// Gumbel's distribution with this mean and standard deviation.
/// Equation: a = sqrt(6) s/pi; u = mean - 0.5772 a
/// Symbols:  s = standard_deviation; 0.5772...: Euler's constant
/// Shape:    scalars in, struct out; pure.
/// Units:    those of the mean.
/// Valid:    standard deviation positive.
/// Errors:   ContractViolation if not.
/// Source:   [chow1988] Eq. 12.2.12 (from memory).   Checked by: RAIN-05, RAIN-07.
[[nodiscard]] Gumbel gumbel_from_moments(double mean, double standard_deviation);

/// Fit to maxima by their mean and standard deviation (of n - 1).
/// Equation: as gumbel_from_moments
/// Symbols:  -
/// Shape:    two or more values in any order, struct out; pure.
/// Units:    those of the values.
/// Valid:    values that are not all alike.
/// Errors:   ContractViolation if there are fewer or all are alike.
/// Source:   [chow1988] section 12.2 (from memory).   Checked by: RAIN-07.
[[nodiscard]] Gumbel fit_gumbel_by_moments(std::span<const double> maxima);

/// Fit to maxima by L-moments.
/// Equation: a = l2/ln 2; u = l1 - 0.5772 a; l1 = b0, l2 = 2 b1 - b0, b1 = sum (j - 1) x_j/(n (n - 1))
/// Symbols:  x_j: the values from the least, j from 1
/// Shape:    two or more values in any order, struct out; pure.
/// Units:    those of the values.
/// Valid:    values that are not all alike.
/// Errors:   ContractViolation if there are fewer or all are alike.
/// Source:   [hosking1990] (from memory).   Checked by: RAIN-08.
[[nodiscard]] Gumbel fit_gumbel_by_l_moments(std::span<const double> maxima);

/// Fit to maxima by the greatest likelihood.
/// Equation: a = mean - sum x e^(-x/a)/sum e^(-x/a); u = -a ln(mean e^(-x/a))
/// Symbols:  x: the values
/// Shape:    two or more values in any order, struct out; pure.
/// Units:    those of the values.
/// Valid:    values that are not all alike.
/// Errors:   relative 1e-12 in a; ContractViolation if there are fewer or all are alike.
/// Source:   [gumbel1958] (from memory).   Checked by: RAIN-09.
[[nodiscard]] Gumbel fit_gumbel_by_likelihood(std::span<const double> maxima);

/// Logarithm of the likelihood of maxima.
/// Equation: sum(-ln a - y - e^-y), y = (x - u)/a
/// Symbols:  x: the values; u, a: location, scale
/// Shape:    struct and values in, scalar out; pure.
/// Units:    pure number.
/// Valid:    scale positive.
/// Errors:   ContractViolation if not.
/// Source:   [gumbel1958] (from memory).   Checked by: RAIN-09.
[[nodiscard]] double gumbel_log_likelihood(const Gumbel& gumbel, std::span<const double> maxima);

struct QuantileRange {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
};

/// What is reached once in so many years, with a range of 95 % that the years at hand leave open.
/// Equation: likely by likelihood; half width 1.96 s, s^2 = (a^2/n)(1 + (6/pi^2)(1 - 0.5772 + y)^2),
///           y = -ln(-ln(1 - 1/T)); widened to hold the fits by moments and by L-moments
/// Symbols:  a: scale; n: how many values; T = return_years
/// Shape:    values and scalar in, struct out; pure.
/// Units:    those of the values; years.
/// Valid:    s is that of many years; with fewer than about 20 the range is too narrow. The low end is not below zero
///           (a depth of rain). Future rain is taken to be like past rain.
/// Errors:   as the fits.
/// Source:   information matrix of Gumbel's distribution [kimball1946] (from memory), docs/equations/drainage.md.
///           Checked by: RAIN-10, GumbelRange.CoversTheTruth.
[[nodiscard]] QuantileRange gumbel_quantile_range(std::span<const double> maxima, double return_years);

}  // namespace houseleek::physics
