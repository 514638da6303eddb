// A weather year written as a file of our own layout.
#include "climate/write_csv.hpp"

#include <fmt/format.h>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/time_stamp.hpp"
#include "climate/weather_columns.hpp"

namespace houseleek::climate {

std::string write_year_csv(const WeatherYear& year) {
  expects(year.n_hours() == n_hours_in_year, "a weather year of 8760 hours");
  std::string text = std::string(time_column_name);
  for (const WeatherColumn column :
       {WeatherColumn::air_temperature, WeatherColumn::vapour_pressure, WeatherColumn::wind,
        WeatherColumn::sky_longwave, WeatherColumn::global, WeatherColumn::diffuse}) {
    text += fmt::format(",{}", weather_columns[index_of(column)].name);
  }
  for (std::size_t part = 0; part < n_rain_slots; ++part)
    text += fmt::format(",{}", weather_columns[first_rain_slot + part].name);
  text += '\n';
  for (int i = 0; i < n_hours_in_year; ++i) {
    const std::size_t hour = static_cast<std::size_t>(i);
    text += fmt::format("{},{},{},{},{},{},{}", text_from_hour_of_year(year.year, i), year.air_temperature_c[hour],
                        year.vapour_pressure_pa[hour], year.wind_m_per_s[hour], year.sky_longwave_w_per_m2[hour],
                        year.global_w_per_m2[hour], year.diffuse_w_per_m2[hour]);
    for (std::size_t part = 0; part < n_rain_slots; ++part) {
      text += fmt::format(",{}", year.rain_mm_per_10_min[hour * n_rain_slots + part]);
    }
    text += '\n';
  }
  return text;
}

}  // namespace houseleek::climate
