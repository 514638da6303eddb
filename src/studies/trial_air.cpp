// A year of weather with the outside air that a sensor measured.
#include <algorithm>
#include <cmath>

#include "climate/known_days.hpp"
#include "studies/trial_fit.hpp"

namespace houseleek::studies {
namespace {

constexpr std::int64_t longest_gap_s = 7200;

/// Between the readings around a moment; nothing where there are none, or too far apart.
std::optional<double> value_at(const logbook::LoggerColumn& column, std::int64_t at_s) {
  const auto after = std::lower_bound(column.time_s.begin(), column.time_s.end(), at_s);
  if (after == column.time_s.end()) return std::nullopt;
  const auto i = static_cast<std::size_t>(after - column.time_s.begin());
  if (*after == at_s) return column.value_c[i];
  if (i == 0 || *after - column.time_s[i - 1] > longest_gap_s) return std::nullopt;
  const double share =
      static_cast<double>(at_s - column.time_s[i - 1]) / static_cast<double>(*after - column.time_s[i - 1]);
  return column.value_c[i - 1] + share * (column.value_c[i] - column.value_c[i - 1]);
}

}  // namespace

MeasuredAir with_measured_air(const climate::WeatherYear& year, const logbook::LoggerColumn& outdoor,
                              const RunSpan& span) {
  MeasuredAir measured{year, 0};
  climate::WeatherYear& weather = measured.weather;
  const int n_year = year.n_hours();
  for (int hour = -span.spin_up_hours; hour <= span.n_hours; ++hour) {
    const std::optional<double> air_c =
        value_at(outdoor, span.first_day * logbook::n_seconds_in_day + std::int64_t{hour} * 3600);
    if (!air_c) continue;
    ++measured.n_hours_measured;
    const int wrapped = ((span.first_hour + hour) % n_year + n_year) % n_year;
    const auto set = [&](std::size_t mark) { climate::set_air_temperature(weather, year, mark, *air_c); };
    set(static_cast<std::size_t>(wrapped));
    // The year's end and its beginning are one moment where hours wrap.
    if (wrapped == 0) set(static_cast<std::size_t>(n_year));
  }
  return measured;
}

}  // namespace houseleek::studies
