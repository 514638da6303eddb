// Hours in which a room is too warm or too cold, against limits that follow the weather of the days before.
#include "studies/comfort_hours.hpp"

#include "base/contract.hpp"
#include "climate/calendar.hpp"

namespace houseleek::studies {
namespace {

constexpr int night_from_hour = 22;
constexpr int night_to_hour = 7;
constexpr int turns_of_the_year = 3;

bool is_night(int hour_of_day) { return hour_of_day >= night_from_hour || hour_of_day < night_to_hour; }

}  // namespace

std::vector<double> running_means_c(const climate::WeatherYear& weather) {
  expects(weather.n_hours() == climate::n_hours_in_year, "a weather year of 8760 hours");
  std::vector<double> day_means_c;
  double year_mean_c = 0.0;
  for (int day = 0; day < climate::n_days_in_year; ++day) {
    double sum_c = 0.0;
    for (int hour = 0; hour < climate::n_hours_in_day; ++hour) {
      sum_c += weather.air_temperature_c[static_cast<std::size_t>(climate::n_hours_in_day * day + hour)];
    }
    day_means_c.push_back(sum_c / climate::n_hours_in_day);
    year_mean_c += day_means_c.back() / climate::n_days_in_year;
  }
  std::vector<double> means_c(climate::n_days_in_year);
  double running_c = year_mean_c;
  for (int turn = 0; turn < turns_of_the_year; ++turn) {
    for (std::size_t day = 0; day < means_c.size(); ++day) {
      const double yesterday_c = day_means_c[day == 0 ? means_c.size() - 1 : day - 1];
      running_c = physics::next_running_mean_c(running_c, yesterday_c);
      means_c[day] = running_c;
    }
  }
  return means_c;
}

LimitsByDay adaptive_limits_by_day(const climate::WeatherYear& weather) {
  LimitsByDay limits;
  for (const double mean_c : running_means_c(weather)) {
    limits.push_back(physics::adaptive_limits(mean_c, physics::ComfortCategory::ii));
  }
  return limits;
}

ComfortSums sum_comfort(const LimitsByDay& limits, const HoursOfRoom& hours) {
  expects(limits.size() == climate::n_days_in_year, "limits for every day");
  ComfortSums sums;
  for (std::size_t i = 0; i < hours.operative_c.size(); ++i) {
    const int hour_of_year = (hours.first_hour + static_cast<int>(i)) % climate::n_hours_in_year;
    if (hours.nights_only && !is_night(hour_of_year % climate::n_hours_in_day)) continue;
    const std::optional<physics::AdaptiveLimits>& limit =
        limits[static_cast<std::size_t>(hour_of_year / climate::n_hours_in_day)];
    if (!limit) {
      ++sums.n_without_limit;
      continue;
    }
    const double operative_c = hours.operative_c[i];
    if (operative_c < limit->lower_c) ++sums.n_below;
    if (operative_c <= limit->upper_c) continue;
    ++sums.n_above;
    sums.degree_hours_above_k_h += operative_c - limit->upper_c;
    const double allowance_k =
        hours.fan_speed_m_per_s ? physics::fan_allowance_k(*hours.fan_speed_m_per_s, operative_c) : 0.0;
    if (operative_c > limit->upper_c + allowance_k) ++sums.n_above_with_fan;
  }
  return sums;
}

}  // namespace houseleek::studies
