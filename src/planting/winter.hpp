// The coldest night that plants must be ready for: not of the mean winter but of one in so many years.
#pragma once
#include <span>
#include <string>

namespace houseleek::planting {

/// Return period that plants are judged by: a module's own life is shorter.
inline constexpr double winter_return_years = 20.0;
/// Below so many years a fit says too little, and the spread between years is assumed instead.
inline constexpr int least_fitted_years = 20;

/// The lowest temperature once in `return_years`, with the range that the years at hand leave open.
struct ColdestNight {
  double low_c = 0.0;
  double likely_c = 0.0;
  double high_c = 0.0;
  double mean_c = 0.0;  // of the years' lowest
  int n_years = 0;
  bool is_spread_assumed = false;
};

/// Equation: T = 100 - x_R, x_R the quantile of Gumbel's distribution of maxima at R years, of x = 100 - t
/// Symbols:  t: the years' lowest temperatures; R: return_years. From 20 years on x_R is fitted with its range of 95 %
///           (physics::gumbel_quantile_range). With fewer, its mean is that of the years and its standard deviation
///           assumed: 2.5 K, 1.5 to 4 K (ours, no source); the range then also holds 1.96 s/sqrt(n) of the mean.
/// Shape:    one value a year; struct out; pure.
/// Units:    degC in and out; years.
/// Valid:    at least one year; -90 degC to 60 degC; R above 1.
/// Errors:   ContractViolation outside.
/// Source:   [gumbel1958] (from memory); assumed spread: own estimate.
///           Checked by: WIN-01, WIN-02, ColdestNight.CoversTheTruth.
[[nodiscard]] ColdestNight coldest_night(std::span<const double> yearly_lowest_c, double return_years);

}  // namespace houseleek::planting
