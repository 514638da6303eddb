// How clear days and hours are: distributions and curves that turn a monthly mean into a sequence.
#include "climate/clearness.hpp"

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::climate {
namespace {

constexpr double nearly_flat = 1e-3;  // |y| below which series take the place of differences of near numbers

/// Mean of the cut exponential on 0 to 1; grows from 0 to 1 with y.
double mean_of_cut_exponential(double y) {
  if (numerics::abs(y) < nearly_flat) return 0.5 + y / 12.0 - y * y * y / 720.0;
  return 1.0 / (1.0 - numerics::exp(-y)) - 1.0 / y;
}

}  // namespace

ClearnessOfDays clearness_of_days(double mean_clearness) { return clearness_of_days_below(mean_clearness, 1.0); }

ClearnessOfDays clearness_of_days_below(double mean_clearness, double limit) {
  expects(mean_clearness >= least_mean_clearness && mean_clearness <= most_mean_clearness,
          "a mean clearness from 0.10 to 0.80");
  expects(limit > mean_clearness, "a limit above the mean");
  ClearnessOfDays days;
  const double d = mean_clearness - 0.75;
  const double d4 = d * d * d * d;
  days.most = 0.6313 + 0.267 * mean_clearness - 11.9 * d4 * d4;
  if (limit < days.most) days.most = limit;
  const double share = (mean_clearness - days.least) / (days.most - days.least);
  double low = -500.0;
  double high = 500.0;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (mean_of_cut_exponential(middle) < share ? low : high) = middle;
  }
  days.steepness = 0.5 * (low + high);
  return days;
}

double clearness_quantile(const ClearnessOfDays& days, double share_frac) {
  expects(share_frac >= 0.0 && share_frac <= 1.0, "a share from 0 to 1");
  const double y = days.steepness;
  const double width = days.most - days.least;
  if (numerics::abs(y) < 1e-7) return days.least + width * share_frac;
  // Written so that no exponential overflows: its argument is never positive.
  if (y > 0.0) return days.most + width * numerics::log(share_frac + (1.0 - share_frac) * numerics::exp(-y)) / y;
  return days.least + width * numerics::log((1.0 - share_frac) + share_frac * numerics::exp(y)) / y;
}

double clearness_sd(const ClearnessOfDays& days) {
  const double y = days.steepness;
  const double width = days.most - days.least;
  if (numerics::abs(y) < 1e-2) return width * numerics::sqrt(1.0 / 12.0 - y * y / 240.0);
  const double half = numerics::exp(-0.5 * numerics::abs(y));
  const double sinh_term = half / (1.0 - half * half);
  return width * numerics::sqrt(1.0 / (y * y) - sinh_term * sinh_term);
}

ClearnessOfHour clearness_of_hour(double day_clearness, double sine_of_elevation) {
  expects(day_clearness >= 0.0 && day_clearness <= 0.9 && sine_of_elevation > 0.0 && sine_of_elevation <= 1.0 + 1e-9,
          "a clearness from 0 to 0.9 and a sun above the horizon");
  const double k = day_clearness;
  const double level = -0.19 + 1.12 * k + 0.24 * numerics::exp(-8.0 * k);
  const double rise = 0.32 - 1.6 * (k - 0.5) * (k - 0.5);
  const double depth = 0.19 + 2.27 * k * k - 2.51 * k * k * k;
  const double height = 0.14 * numerics::exp(-20.0 * (k - 0.35) * (k - 0.35));
  const double growth = 3.0 * (k - 0.45) * (k - 0.45) + 16.0 * k * k * k * k * k;
  return {.mean = level + rise * numerics::exp(-depth / sine_of_elevation),
          .sd = height * numerics::exp(growth * (1.0 - sine_of_elevation))};
}

double clearness_lag_of_hours(double day_clearness) { return 0.38 + 0.06 * numerics::cos(7.4 * day_clearness - 2.5); }

double highest_clearness_of_hour(double hour_angle_rad) { return 0.88 * numerics::cos(0.4 * hour_angle_rad); }

}  // namespace houseleek::climate
