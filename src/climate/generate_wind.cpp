// Wind of a generated year.
#include "climate/generate_wind.hpp"

#include "climate/calendar.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"
#include "stats/sampling.hpp"

namespace houseleek::climate {

std::vector<double> wind_of_marks_m_per_s(const WeatherYear& sun, const Months& mean_m_per_s, const GeneratorKey& key,
                                          const GenerateOptions& options, MonthRule rule) {
  constexpr double windiest_rad = 3.0 * 15.0 * physics::radians_per_degree;  // 15 h solar, as an hour angle
  const RandomVariable variable = key.variable("climate.wind");
  const double news_share = numerics::sqrt(1.0 - options.wind_lag * options.wind_lag);
  std::vector<double> wind(n_hours_in_year);
  Months raw_mean{};
  double score = 0.0;
  for (int day = 0; day < n_days_in_year; ++day) {
    const std::size_t month = static_cast<std::size_t>(month_of_day[static_cast<std::size_t>(day)]);
    for (int i = 0; i < n_hours_in_day; ++i) {
      const std::size_t hour = static_cast<std::size_t>(day * n_hours_in_day + i);
      const double news = stats::random_normal(variable, key.place(day, i));
      score = hour == 0 ? news : options.wind_lag * score + news_share * news;
      const double weibull = numerics::sqrt(-numerics::log(stats::standard_normal_cdf(-score)));
      const double daily =
          1.0 + options.wind_afternoon_frac * numerics::cos(sun.sun_hour_angle_rad[hour] - windiest_rad);
      wind[hour] = daily * weibull;
      raw_mean[month] += wind[hour] / static_cast<double>(n_days_in_month[month] * n_hours_in_day);
    }
  }
  if (rule == MonthRule::vary) raw_mean.fill(0.5 * numerics::sqrt(physics::pi));
  for (std::size_t hour = 0; hour < n_hours_in_year; ++hour) {
    const std::size_t month = static_cast<std::size_t>(month_of_day[hour / n_hours_in_day]);
    wind[hour] *= mean_m_per_s[month] / raw_mean[month];
  }
  wind.push_back(wind.front());
  return wind;
}

}  // namespace houseleek::climate
