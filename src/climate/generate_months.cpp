// How far the months of a made year lie from the normals.
#include "climate/generate_months.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "climate/calendar.hpp"
#include "climate/summary.hpp"
#include "numerics/elementary.hpp"
#include "stats/sampling.hpp"

namespace houseleek::climate {
namespace {

constexpr double slow_lag = 0.6;
constexpr double most_of_days_frac = 0.75;  // of the variance of a month's mean
constexpr double usual_rain_times = 1.2;

double mean_c(const MonthlyNormals& normals, std::size_t month) {
  return 0.5 * (normals.max_c[month] + normals.min_c[month]);
}

double square(double x) { return x * x; }

/// Standard deviation of the logarithm of a factor of mean one that brings the wet days' variance to the wanted one.
double log_sd_of_factor(double wanted_sd_mm, double wet_days_sd_mm, double rain_mm) {
  const double more = square(wanted_sd_mm) - square(wet_days_sd_mm);
  if (!(more > 0.0)) return 0.0;
  return numerics::sqrt(numerics::log(1.0 + more / (square(wet_days_sd_mm) + square(rain_mm))));
}

/// Of the mean of n scores that run on from day to day by this lag.
double mean_clearness_score_sd(int n_days, double lag) {
  double sum = static_cast<double>(n_days);
  double kept = 1.0;
  for (int k = 1; k < n_days; ++k) {
    kept *= lag;
    sum += 2.0 * static_cast<double>(n_days - k) * kept;
  }
  return numerics::sqrt(sum) / static_cast<double>(n_days);
}

}  // namespace

Months usual_month_mean_sd_k(const MonthlyNormals& normals) {
  constexpr double most_in_summer_k = 1.2;
  const std::size_t hottest = static_cast<std::size_t>(hottest_months(normals)[0]);
  const std::size_t coldest = static_cast<std::size_t>(coldest_months(normals)[0]);
  const double range_k = mean_c(normals, hottest) - mean_c(normals, coldest);
  const double in_summer_k = std::min(most_in_summer_k, 0.6 + 0.05 * range_k);
  const double more_in_winter_k = std::max(0.0, 0.08 * range_k - 0.6);
  Months sd_k{};
  for (std::size_t month = 0; month < n_months; ++month) {
    const double coldness = range_k > 0.0 ? (mean_c(normals, hottest) - mean_c(normals, month)) / range_k : 0.0;
    sd_k[month] = in_summer_k + more_in_winter_k * square(coldness);
  }
  return sd_k;
}

Months rain_sd_of_wet_days_mm(const RainNormals& normals) {
  Months sd_mm{};
  for (std::size_t month = 0; month < n_months; ++month) {
    const double n_wet = normals.rain_days[month];
    if (normals.rain_mm[month] <= 0.0 || n_wet <= 0.0) continue;
    const double wet_frac = n_wet / static_cast<double>(n_days_in_month[month]);
    const WetDayChain chain = wet_day_chain(wet_frac);
    const double lag = chain.after_wet_frac - chain.after_dry_frac;
    const double mean_mm = normals.rain_mm[month] / n_wet;
    const double of_amounts = n_wet / wet_day_gamma_shape(mean_mm);
    const double of_count = n_wet * (1.0 - wet_frac) * (1.0 + lag) / (1.0 - lag);
    sd_mm[month] = mean_mm * numerics::sqrt(of_amounts + of_count);
  }
  return sd_mm;
}

MonthDepartures draw_month_departures(const MonthlyNormals& normals, const RainNormals& rain, const GeneratorKey& key,
                                      const GenerateOptions& options) {
  const RandomVariable slow = key.variable("climate.month_temperature");
  const RandomVariable wetness = key.variable("climate.month_rain");
  const double day_sd_k = temperature_sd_k(normals, options);
  const Months wanted_sd_k = normals.month_mean_sd_k ? *normals.month_mean_sd_k : usual_month_mean_sd_k(normals);
  const Months wet_days_sd_mm = rain_sd_of_wet_days_mm(rain);
  MonthDepartures months;
  months.mean_sd_k = wanted_sd_k;
  double memory = 0.0;
  int n_too_even = 0;
  for (std::size_t month = 0; month < n_months; ++month) {
    const int day = first_day_of_month[month];
    const double news = stats::random_normal(slow, key.place(day));
    memory = month == 0 ? news : slow_lag * memory + numerics::sqrt(1.0 - slow_lag * slow_lag) * news;
    const double days_sd_k = day_sd_k * mean_score_sd(n_days_in_month[month], options.clearness_lag);
    const double of_days_sd_k = std::min(days_sd_k, numerics::sqrt(most_of_days_frac) * wanted_sd_k[month]);
    months.day_share[month] = days_sd_k > 0.0 ? of_days_sd_k / days_sd_k : 0.0;
    months.slow_k[month] = numerics::sqrt(square(wanted_sd_k[month]) - square(of_days_sd_k)) * memory;

    const double wanted_sd_mm =
        normals.month_rain_sd_mm ? (*normals.month_rain_sd_mm)[month] : usual_rain_times * wet_days_sd_mm[month];
    n_too_even += wanted_sd_mm < wet_days_sd_mm[month] ? 1 : 0;
    const double log_sd = log_sd_of_factor(wanted_sd_mm, wet_days_sd_mm[month], rain.rain_mm[month]);
    const double score = stats::random_normal(wetness, key.place(day));
    months.rain_factor[month] = numerics::exp(log_sd * (score - 0.5 * log_sd));
  }
  const auto [least, most] = std::minmax_element(wanted_sd_k.begin(), wanted_sd_k.end());
  months.statement = fmt::format(
      "further years of the same normals have months that depart from them: mean temperature by {:.1f} to {:.1f} K "
      "(standard deviation{}), rain by {}, sun and wind as their days scatter",
      *least, *most, normals.month_mean_sd_k ? ", as given" : ", estimated; 0.75 to 1.35 times that is likely too",
      normals.month_rain_sd_mm
          ? "the standard deviation given"
          : fmt::format("{} times what wet days alone would do (estimated, 1 to 1.5)", usual_rain_times));
  if (n_too_even > 0) {
    months.statement += fmt::format(
        "; in {} months wet days alone scatter more than the standard deviation of rain that is given", n_too_even);
  }
  return months;
}

Months sun_warms_months(const WeatherYear& sun) {
  constexpr double in_full_sun = 0.55;
  constexpr double full_sun_mj_per_m2_d = 30.0;
  Months correlation = outside_of_months_mj_per_m2_d(sun);
  for (double& value : correlation) value = in_full_sun * std::min(1.0, value / full_sun_mj_per_m2_d);
  return correlation;
}

MonthShifts shifts_of_months(const ShiftInputs& inputs, const GenerateOptions& options) {
  constexpr double most_of_range_frac = 0.5;
  const double day_sd_k = temperature_sd_k(inputs.normals, options);
  const double drop_k = options.wet_day_max_drop_k;
  MonthShifts shifts;
  for (std::size_t month = 0; month < n_months; ++month) {
    const double n = static_cast<double>(n_days_in_month[month]);
    double high_k = inputs.rain.rain_mm[month] > 0.0 ? drop_k * inputs.rain.rain_days[month] / n : 0.0;
    double low_k = 0.0;
    double clearness = 0.0;
    for (int day = first_day_of_month[month]; day < first_day_of_month[month + 1]; ++day) {
      const std::size_t d = static_cast<std::size_t>(day);
      high_k += (day_sd_k * inputs.scores.max[d] - (inputs.is_wet[d] ? drop_k : 0.0)) / n;
      low_k += day_sd_k * inputs.scores.min[d] / n;
      clearness += inputs.clearness.score[d] / n;
    }
    clearness /= mean_clearness_score_sd(n_days_in_month[month], options.clearness_lag);
    const double by_sun = inputs.sun_correlation[month];
    const double share = inputs.departures.day_share[month];
    const double middle_k =
        numerics::sqrt(1.0 - by_sun * by_sun) * (0.5 * share * (high_k + low_k) + inputs.departures.slow_k[month]) +
        by_sun * inputs.departures.mean_sd_k[month] * clearness;
    const double most_k = most_of_range_frac * (inputs.normals.max_c[month] - inputs.normals.min_c[month]);
    const double wider_k = std::clamp(share * (high_k - low_k), -most_k, most_k);
    shifts.max_k[month] = middle_k + 0.5 * wider_k;
    shifts.min_k[month] = middle_k - 0.5 * wider_k;
  }
  return shifts;
}

}  // namespace houseleek::climate
