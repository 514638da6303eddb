// Rain of a generated year: wet days, their amounts, ten minutes.
#include "climate/generate_rain.hpp"

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "numerics/elementary.hpp"
#include "stats/sampling.hpp"

namespace houseleek::climate {
namespace {

constexpr int slots_per_day = 144;
constexpr double shortest_storm_slots = 3.0;
constexpr double longest_storm_slots = 72.0;
constexpr double peak_share = 0.375;

/// Share of a triangle's area left of x, peak at peak_share.
double triangle_share(double x) {
  if (x < peak_share) return x * x / peak_share;
  return 1.0 - (1.0 - x) * (1.0 - x) / (1.0 - peak_share);
}

}  // namespace

Months estimated_rain_days(const Months& rain_mm) {
  Months days{};
  for (std::size_t month = 0; month < n_months; ++month) {
    days[month] = static_cast<double>(n_days_in_month[month]) * (1.0 - numerics::exp(-rain_mm[month] / 150.0));
  }
  return days;
}

WetDayChain wet_day_chain(double wet_day_frac) {
  expects(wet_day_frac >= 0.0 && wet_day_frac <= 1.0, "a share of wet days from 0 to 1");
  const double after_dry = 0.75 * wet_day_frac;
  return {after_dry, 0.25 + after_dry};
}

double wet_day_gamma_shape(double mean_mm) {
  expects(mean_mm > 0.0, "rain on a wet day");
  const double scale_mm = -2.16 + 1.83 * mean_mm;
  return scale_mm > mean_mm ? mean_mm / scale_mm : 1.0;
}

std::vector<bool> wet_days_of_year(const RainNormals& normals, const ClearnessScores& clearness,
                                   const GeneratorKey& key, const GenerateOptions& options, MonthRule rule) {
  const RandomVariable variable = key.variable("climate.wet_day");
  const double follows = options.rain_follows_cloud_frac;
  const double own = numerics::sqrt(1.0 - follows * follows);
  std::vector<bool> is_wet(n_days_in_year, false);
  constexpr int day_before = -1;
  bool was_wet = stats::random_event(variable, key.place(day_before),
                                     normals.rain_days[0] / static_cast<double>(n_days_in_month[0]));
  for (std::size_t month = 0; month < n_months; ++month) {
    const WetDayChain chain = wet_day_chain(normals.rain_days[month] / static_cast<double>(n_days_in_month[month]));
    int dimmest_day = first_day_of_month[month];
    bool is_any_wet = false;
    for (int day = first_day_of_month[month]; day < first_day_of_month[month + 1]; ++day) {
      const std::size_t d = static_cast<std::size_t>(day);
      const double score = follows * clearness.news[d] + own * stats::random_normal(variable, key.place(day));
      const double chance = was_wet ? chain.after_wet_frac : chain.after_dry_frac;
      was_wet = normals.rain_mm[month] > 0.0 && stats::standard_normal_cdf(score) < chance;
      is_wet[d] = was_wet;
      is_any_wet = is_any_wet || was_wet;
      if (clearness.score[d] < clearness.score[static_cast<std::size_t>(dimmest_day)]) dimmest_day = day;
    }
    if (rule == MonthRule::vary) continue;
    if (!is_any_wet && normals.rain_mm[month] > 0.0) is_wet[static_cast<std::size_t>(dimmest_day)] = true;
  }
  return is_wet;
}

std::vector<double> rain_of_days_mm(const RainNormals& normals, const std::vector<bool>& is_wet,
                                    const GeneratorKey& key, const GenerateOptions& options) {
  const RandomVariable variable = key.variable("climate.rain_of_day");
  std::vector<double> rain_mm(n_days_in_year, 0.0);
  for (std::size_t month = 0; month < n_months; ++month) {
    double gamma_sum = 0.0;
    int n_wet = 0;
    for (int day = first_day_of_month[month]; day < first_day_of_month[month + 1]; ++day) {
      const std::size_t d = static_cast<std::size_t>(day);
      if (!is_wet[d]) continue;
      const double mean_mm = normals.rain_mm[month] / normals.rain_days[month];
      rain_mm[d] = stats::random_gamma(variable, key.place(day), {.shape = wet_day_gamma_shape(mean_mm), .scale = 1.0});
      gamma_sum += rain_mm[d];
      ++n_wet;
    }
    if (n_wet == 0) continue;
    const double even_mm = normals.rain_mm[month] / static_cast<double>(n_wet);
    const double least_mm = options.least_wet_day_mm < 0.5 * even_mm ? options.least_wet_day_mm : 0.5 * even_mm;
    const double rest_mm = normals.rain_mm[month] - static_cast<double>(n_wet) * least_mm;
    for (int day = first_day_of_month[month]; day < first_day_of_month[month + 1]; ++day) {
      const std::size_t d = static_cast<std::size_t>(day);
      if (is_wet[d]) rain_mm[d] = least_mm + rest_mm * rain_mm[d] / gamma_sum;
    }
  }
  return rain_mm;
}

std::vector<double> drawn_rain_of_days_mm(const RainNormals& normals, const std::vector<bool>& is_wet,
                                          const Months& rain_factor, const GeneratorKey& key,
                                          const GenerateOptions& options) {
  const RandomVariable variable = key.variable("climate.rain_of_day");
  std::vector<double> rain_mm(n_days_in_year, 0.0);
  for (int day = 0; day < n_days_in_year; ++day) {
    const std::size_t d = static_cast<std::size_t>(day);
    if (!is_wet[d]) continue;
    const std::size_t month = static_cast<std::size_t>(month_of_day[d]);
    const double usual_mm = normals.rain_mm[month] / normals.rain_days[month];
    const double shape = wet_day_gamma_shape(usual_mm);
    const double mean_mm = rain_factor[month] * usual_mm;
    const double least_mm = options.least_wet_day_mm < 0.5 * mean_mm ? options.least_wet_day_mm : 0.5 * mean_mm;
    const double gamma = stats::random_gamma(variable, key.place(day), {.shape = shape, .scale = 1.0 / shape});
    rain_mm[d] = least_mm + (mean_mm - least_mm) * gamma;
  }
  return rain_mm;
}

std::vector<double> rain_of_slots_mm(const std::vector<double>& days_mm, const GeneratorKey& key,
                                     const GenerateOptions& options) {
  const RandomVariable storm = key.variable("climate.storm");
  const RandomVariable burst = key.variable("climate.burst");
  constexpr int intensity_index = 0;
  constexpr int start_index = 1;
  std::vector<double> slots_mm(static_cast<std::size_t>(n_days_in_year) * slots_per_day, 0.0);
  for (int day = 0; day < n_days_in_year; ++day) {
    const double rain_mm = days_mm[static_cast<std::size_t>(day)];
    if (rain_mm <= 0.0) continue;
    const double spread = options.rain_intensity_log_sd * stats::random_normal(storm, key.place(day, intensity_index));
    const double intensity_mm_per_h = options.rain_intensity_mm_per_h * numerics::exp(spread);
    double length = 6.0 * rain_mm / intensity_mm_per_h;
    if (length < shortest_storm_slots) length = shortest_storm_slots;
    if (length > longest_storm_slots) length = longest_storm_slots;
    const int n_slots = static_cast<int>(length + 0.5);
    const double room = static_cast<double>(slots_per_day - n_slots + 1);
    const int first = static_cast<int>(room * random_uniform(storm, key.place(day, start_index)));
    const std::size_t offset = static_cast<std::size_t>(day * slots_per_day + first);
    double sum = 0.0;
    for (int slot = 0; slot < n_slots; ++slot) {
      const double begin = static_cast<double>(slot) / static_cast<double>(n_slots);
      const double end = static_cast<double>(slot + 1) / static_cast<double>(n_slots);
      const double exponential = -numerics::log(random_uniform(burst, key.place(day, slot)));
      const double weight = (triangle_share(end) - triangle_share(begin)) * exponential;
      slots_mm[offset + static_cast<std::size_t>(slot)] = weight;
      sum += weight;
    }
    for (int slot = 0; slot < n_slots; ++slot) slots_mm[offset + static_cast<std::size_t>(slot)] *= rain_mm / sum;
  }
  return slots_mm;
}

}  // namespace houseleek::climate
