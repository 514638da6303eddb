// Global radiation of a generated year: months, days, hours.
#include "climate/generate_sun.hpp"

#include <fmt/format.h>

#include "climate/calendar.hpp"
#include "climate/clearness.hpp"
#include "climate/scale_to_sum.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"
#include "physics/radiation.hpp"
#include "physics/sun.hpp"
#include "stats/sampling.hpp"

namespace houseleek::climate {
namespace {

constexpr double mj_per_watt_hour = 0.0036;
constexpr double hour_turn_rad = 15.0 * physics::radians_per_degree;
constexpr double dark_month_mj_per_m2_d = 1.0;

double outside_w_per_m2(const WeatherYear& sun, std::size_t hour) {
  return sun.sun_normal_w_per_m2[hour] * sun.sun_mean_sine[hour];
}

double middle_rad(const WeatherYear& sun, std::size_t hour) {
  const double middle = sun.sun_hour_angle_rad[hour] + 0.5 * hour_turn_rad;
  return middle > physics::pi    ? middle - 2.0 * physics::pi
         : middle < -physics::pi ? middle + 2.0 * physics::pi
                                 : middle;
}

/// Extraterrestrial sums of the days, Wh/m2.
std::vector<double> outside_of_days_wh_per_m2(const WeatherYear& sun) {
  std::vector<double> sums(n_days_in_year, 0.0);
  for (std::size_t hour = 0; hour < n_hours_in_year; ++hour) sums[hour / n_hours_in_day] += outside_w_per_m2(sun, hour);
  return sums;
}

Months daylight_of_months_h(const WeatherYear& sun) {
  Months months{};
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const std::size_t noon = day * n_hours_in_day + n_hours_in_day / 2;
    const double sunset_rad = physics::sunset_hour_angle_rad({sun.sun_a[noon], sun.sun_b[noon]});
    months[static_cast<std::size_t>(month_of_day[day])] += 24.0 / physics::pi * sunset_rad;
  }
  return months;
}

Issue issue_of_month(std::string_view name, std::size_t month, double value, std::string message, std::string hint) {
  Issue issue;
  issue.code = IssueCode::inconsistent;
  issue.path = fmt::format("{}[{}]", name, month);
  issue.value = fmt::format("{}", value);
  issue.message = issue.path + std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

/// Brings clearness to its range where hardly any sun shines; elsewhere a value outside is an issue.
class RangeKeeper {
 public:
  explicit RangeKeeper(const Months& outside_mj_per_m2_d) : outside_mj_per_m2_d_(outside_mj_per_m2_d) {}
  [[nodiscard]] bool is_in_range(double clearness) const {
    return clearness >= least_mean_clearness && clearness <= most_mean_clearness;
  }
  [[nodiscard]] bool is_dark(std::size_t month) const { return outside_mj_per_m2_d_[month] < dark_month_mj_per_m2_d; }
  double kept(std::size_t month, double clearness, MonthlyClearness& months) const {
    if (is_in_range(clearness)) return clearness;
    const double bound = clearness < least_mean_clearness ? least_mean_clearness : most_mean_clearness;
    if (outside_mj_per_m2_d_[month] > 0.0) {
      months.notes.push_back(fmt::format(
          "global_w_per_m2: month {} has less than {} MJ/m2 a day of sun outside the air; its clearness is taken as {}",
          month + 1, dark_month_mj_per_m2_d, bound));
    }
    return bound;
  }

 private:
  const Months& outside_mj_per_m2_d_;
};

Result<MonthlyClearness> from_global(const Months& global_mj_per_m2_d, const Months& outside_mj_per_m2_d) {
  const RangeKeeper range(outside_mj_per_m2_d);
  MonthlyClearness months;
  Issues issues;
  for (std::size_t month = 0; month < n_months; ++month) {
    const double outside = outside_mj_per_m2_d[month];
    const double clearness = outside > 0.0 ? global_mj_per_m2_d[month] / outside : 0.0;
    const bool is_too_bright = global_mj_per_m2_d[month] > outside + 0.05;  // half of the last printed digit
    if (is_too_bright || (!range.is_in_range(clearness) && !range.is_dark(month))) {
      issues.push_back(issue_of_month(
          "global_mj_per_m2_d", month, global_mj_per_m2_d[month],
          fmt::format(" is {}; the sun sends {:.2f} outside the air, and {:.0f} to {:.0f} % of it can arrive",
                      global_mj_per_m2_d[month], outside, 100.0 * least_mean_clearness, 100.0 * most_mean_clearness),
          "MJ a square metre and day: 1 kWh is 3.6 MJ; January comes first, also south of the equator"));
      continue;
    }
    months.mean[month] = range.kept(month, clearness, months);
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  months.notes.push_back(
      "global_w_per_m2: by the radiation given; days by the distribution of Bendt et al., hours by Aguiar and "
      "Collares-Pereira");
  return months;
}

Result<MonthlyClearness> from_sunshine(const Months& sunshine_h, const WeatherYear& sun,
                                       const Months& outside_mj_per_m2_d, const GenerateOptions& options) {
  const RangeKeeper range(outside_mj_per_m2_d);
  const Months daylight_h = daylight_of_months_h(sun);
  MonthlyClearness months;
  Issues issues;
  for (std::size_t month = 0; month < n_months; ++month) {
    if (sunshine_h[month] > daylight_h[month] + 0.5) {
      issues.push_back(issue_of_month(
          "sunshine_h", month, sunshine_h[month],
          fmt::format(" is {}; the month has {:.1f} hours of daylight", sunshine_h[month], daylight_h[month]),
          "hours of the whole month; January comes first, also south of the equator"));
      continue;
    }
    double share = daylight_h[month] > 0.0 ? sunshine_h[month] / daylight_h[month] : 0.0;
    if (share > 1.0) share = 1.0;  // less than half an hour above, by rounding of the normal
    months.mean[month] = range.kept(month, options.angstrom_overcast_frac + options.angstrom_rise_frac * share, months);
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  months.notes.push_back(
      fmt::format("global_w_per_m2: months from sunshine, {} + {} n/N (FAO-56 Eq. 35); days by the distribution of "
                  "Bendt et al., hours by Aguiar and Collares-Pereira",
                  options.angstrom_overcast_frac, options.angstrom_rise_frac));
  return months;
}

MonthlyClearness from_temperature(const MonthlyNormals& normals, const WeatherYear& sun,
                                  const GenerateOptions& options) {
  MonthlyClearness months;
  const double clear_frac = physics::clear_sky_frac(sun.place.elevation_m);
  const double most = clear_frac < most_mean_clearness ? clear_frac : most_mean_clearness;
  int n_limited = 0;
  for (std::size_t month = 0; month < n_months; ++month) {
    const double range_k = normals.max_c[month] - normals.min_c[month];
    months.mean[month] = options.hargreaves_per_sqrt_k * numerics::sqrt(range_k);
    if (months.mean[month] > most) {
      months.mean[month] = most;
      ++n_limited;
    }
  }
  months.notes.push_back(fmt::format(
      "global_w_per_m2: months estimated from the daily range of temperature, {} sqrt(Tmax - Tmin) (FAO-56 Eq. 50; 10 "
      "to 20 % uncertain); days by the distribution of Bendt et al., hours by Aguiar and Collares-Pereira",
      options.hargreaves_per_sqrt_k));
  if (n_limited > 0)
    months.notes.push_back(
        fmt::format("global_w_per_m2: {} months of these are held at the clear sky (FAO-56 Eq. 37)", n_limited));
  return months;
}

/// Holding the day's sum takes about 1/n from the correlation of n neighbouring hours; the lag drawn with is greater by
/// that.
double drawn_lag(const WeatherYear& sun, int day, double clearness) {
  constexpr double most = 0.8;
  int n_hours = 0;
  for (int i = 0; i < n_hours_in_day; ++i)
    n_hours += sun.sun_mean_sine[static_cast<std::size_t>(day * n_hours_in_day + i)] > 0.0 ? 1 : 0;
  if (n_hours == 0) return 0.0;
  const double lag = clearness_lag_of_hours(clearness) + 1.0 / static_cast<double>(n_hours);
  return lag < most ? lag : most;
}

/// A normal number between two bounds, by inversion.
double cut_normal(double share, double low, double high) {
  constexpr double least_share = 1e-12;
  const double below_low = stats::standard_normal_cdf(low);
  const double below_high = stats::standard_normal_cdf(high);
  if (below_high - below_low < least_share) return numerics::abs(low) < numerics::abs(high) ? low : high;
  const double below = below_low + share * (below_high - below_low);
  if (below >= 1.0) return high;
  const double value = stats::standard_normal_quantile(below);
  return value < low ? low : value > high ? high : value;
}

/// A day's clearness as it is drawn: never above the day's limit, right in the mean.
double drawn_clearness(const ClearnessOfDays& of_month, double mean, double limit, double score) {
  if (limit <= mean) return limit;
  const double share = stats::standard_normal_cdf(score);
  return clearness_quantile(limit < of_month.most ? clearness_of_days_below(mean, limit) : of_month, share);
}

}  // namespace

Months outside_of_months_mj_per_m2_d(const WeatherYear& sun) {
  const std::vector<double> days = outside_of_days_wh_per_m2(sun);
  Months months{};
  for (std::size_t day = 0; day < n_days_in_year; ++day) {
    const std::size_t month = static_cast<std::size_t>(month_of_day[day]);
    months[month] += mj_per_watt_hour * days[day] / static_cast<double>(n_days_in_month[month]);
  }
  return months;
}

Result<MonthlyClearness> clearness_of_months(const WeatherYear& sun, const MonthlyNormals& normals,
                                             const GenerateOptions& options) {
  const Months outside_mj_per_m2_d = outside_of_months_mj_per_m2_d(sun);
  if (normals.global_mj_per_m2_d) return from_global(*normals.global_mj_per_m2_d, outside_mj_per_m2_d);
  if (normals.sunshine_h) return from_sunshine(*normals.sunshine_h, sun, outside_mj_per_m2_d, options);
  return from_temperature(normals, sun, options);
}

ClearnessScores draw_clearness_scores(const GeneratorKey& key, double lag) {
  const RandomVariable variable = key.variable("climate.clearness_of_day");
  const double new_share = numerics::sqrt(1.0 - lag * lag);
  ClearnessScores scores;
  for (int day = 0; day < n_days_in_year; ++day) {
    const double news = stats::random_normal(variable, key.place(day));
    scores.news.push_back(news);
    scores.score.push_back(day == 0 ? news : lag * scores.score.back() + new_share * news);
  }
  return scores;
}

Result<std::vector<double>> clearness_of_year_days(const WeatherYear& sun, const Months& month_clearness,
                                                   const ClearnessScores& scores, MonthRule rule) {
  const std::vector<double> outside_wh_per_m2 = outside_of_days_wh_per_m2(sun);
  std::vector<double> limit(n_days_in_year, 0.0);
  for (std::size_t hour = 0; hour < n_hours_in_year; ++hour) {
    if (sun.sun_mean_sine[hour] <= 0.0) continue;
    const std::size_t day = hour / n_hours_in_day;
    limit[day] +=
        highest_clearness_of_hour(middle_rad(sun, hour)) * outside_w_per_m2(sun, hour) / outside_wh_per_m2[day];
  }
  std::vector<double> clearness;
  Issues issues;
  for (std::size_t month = 0; month < n_months; ++month) {
    const ClearnessOfDays distribution = clearness_of_days(month_clearness[month]);
    std::vector<LimitedValue> days;
    double wanted = 0.0;
    for (int i = first_day_of_month[month]; i < first_day_of_month[month + 1]; ++i) {
      const std::size_t day = static_cast<std::size_t>(i);
      const double raw = clearness_quantile(distribution, stats::standard_normal_cdf(scores.score[day]));
      days.push_back({raw, limit[day] < distribution.most ? limit[day] : distribution.most, outside_wh_per_m2[day]});
      wanted += month_clearness[month] * outside_wh_per_m2[day];
    }
    const auto scaled = scaled_to_sum(days, wanted);
    if (!scaled) {
      issues.push_back(issue_of_month(
          "global_mj_per_m2_d", month, month_clearness[month],
          fmt::format(": {:.1f} % of the sun outside the air would have to arrive, more than clear days let through",
                      100.0 * month_clearness[month]),
          ""));
      continue;
    }
    for (std::size_t i = 0; i < scaled->size(); ++i) {
      const std::size_t day = static_cast<std::size_t>(first_day_of_month[month]) + i;
      const double here = rule == MonthRule::vary
                              ? drawn_clearness(distribution, month_clearness[month], limit[day], scores.score[day])
                              : (*scaled)[i];
      clearness.push_back(days[i].weight > 0.0 ? here : 0.0);
    }
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  return clearness;
}

std::vector<double> global_of_hours(const WeatherYear& sun, const std::vector<double>& day_clearness,
                                    const GeneratorKey& key) {
  const RandomVariable variable = key.variable("climate.clearness_of_hour");
  std::vector<double> global_w_per_m2(n_hours_in_year, 0.0);
  for (int day = 0; day < n_days_in_year; ++day) {
    const double clearness = day_clearness[static_cast<std::size_t>(day)];
    const double lag = drawn_lag(sun, day, clearness);
    const double news_sd = numerics::sqrt(1.0 - lag * lag);
    std::vector<LimitedValue> hours(n_hours_in_day, {0.0, 0.0, 0.0});
    double wanted = 0.0;
    double carried = 0.0;  // y of the hour before, times the lag
    double sd = 1.0;       // the day's first hour draws the whole of y
    for (int i = 0; i < n_hours_in_day; ++i) {
      const std::size_t hour = static_cast<std::size_t>(day * n_hours_in_day + i);
      const double mean_sine = sun.sun_mean_sine[hour];
      if (mean_sine <= 0.0) continue;
      const double angle_rad = middle_rad(sun, hour);
      const double middle_sine = sun.sun_a[hour] + sun.sun_b[hour] * numerics::cos(angle_rad);
      const ClearnessOfHour curve = clearness_of_hour(clearness, middle_sine > mean_sine ? middle_sine : mean_sine);
      const double highest = highest_clearness_of_hour(angle_rad);
      const double low = (-curve.mean / curve.sd - carried) / sd;
      const double high = ((highest - curve.mean) / curve.sd - carried) / sd;
      const double y = carried + sd * cut_normal(random_uniform(variable, key.place(day, i)), low, high);
      carried = lag * y;
      sd = news_sd;
      const double raw = curve.mean + curve.sd * y;
      const double outside = outside_w_per_m2(sun, hour);
      hours[static_cast<std::size_t>(i)] = {raw > 0.0 ? raw : 0.0, highest,
                                            outside};  // rounding may leave it just below zero
      wanted += clearness * outside;
    }
    const auto scaled = scaled_to_sum(hours, wanted);
    // The day's clearness was held at the mean of these limits; rounding may take it a hair above.
    for (std::size_t i = 0; i < n_hours_in_day; ++i) {
      const double hour_clearness = scaled ? (*scaled)[i] : hours[i].limit;
      global_w_per_m2[static_cast<std::size_t>(day) * n_hours_in_day + i] = hour_clearness * hours[i].weight;
    }
  }
  return global_w_per_m2;
}

}  // namespace houseleek::climate
