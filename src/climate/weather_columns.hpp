// Columns of hourly weather: names in our own layout, words in a design, units, limits.
#pragma once
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

namespace houseleek::climate {

enum class WeatherColumn : std::size_t {
  air_temperature,
  vapour_pressure,
  dew_point,
  relative_humidity,
  wind,
  sky_longwave,
  global,
  diffuse,
  rain,
  rain_0_10,
  rain_10_20,
  rain_20_30,
  rain_30_40,
  rain_40_50,
  rain_50_60,
  count
};
inline constexpr std::size_t n_weather_columns = static_cast<std::size_t>(WeatherColumn::count);
inline constexpr std::size_t n_rain_slots = 6;
inline constexpr std::size_t first_rain_slot = static_cast<std::size_t>(WeatherColumn::rain_0_10);

/// What a column's numbers are: at the moment of the stamp, the mean of an interval, or its sum.
enum class ColumnKind { at_stamp, mean, sum };

struct WeatherColumnInfo {
  std::string_view name;  // in our own layout, unit included
  std::string_view word;  // in [climate.columns], without unit
  ColumnKind kind;
  double least;
  double most;
};

inline constexpr std::string_view time_column_name = "time";

/// No air on earth has been hotter than this by more than some tenths of a kelvin.
inline constexpr double hottest_air_c = 56.0;

/// Limits: what the engine's functions of air bear (temperature and vapour), else what no instrument on earth has
///         shown.
inline constexpr std::array<WeatherColumnInfo, n_weather_columns> weather_columns = {{
    {"air_temperature_c", "air_temperature", ColumnKind::at_stamp, -60.0, hottest_air_c},
    {"vapour_pressure_pa", "vapour_pressure", ColumnKind::at_stamp, 0.1, 10000.0},
    {"dew_point_c", "dew_point", ColumnKind::at_stamp, -60.0, 45.0},
    {"relative_humidity_percent", "relative_humidity", ColumnKind::at_stamp, 1.0, 100.0},
    {"wind_m_per_s", "wind", ColumnKind::at_stamp, 0.0, 75.0},
    {"sky_longwave_w_per_m2", "sky_longwave", ColumnKind::at_stamp, 50.0, 600.0},
    {"global_w_per_m2", "global", ColumnKind::mean, -20.0, 1500.0},
    {"diffuse_w_per_m2", "diffuse", ColumnKind::mean, -20.0, 1000.0},
    {"rain_mm", "rain", ColumnKind::sum, 0.0, 400.0},
    {"rain_0_10_mm", "rain_0_10", ColumnKind::sum, 0.0, 150.0},
    {"rain_10_20_mm", "rain_10_20", ColumnKind::sum, 0.0, 150.0},
    {"rain_20_30_mm", "rain_20_30", ColumnKind::sum, 0.0, 150.0},
    {"rain_30_40_mm", "rain_30_40", ColumnKind::sum, 0.0, 150.0},
    {"rain_40_50_mm", "rain_40_50", ColumnKind::sum, 0.0, 150.0},
    {"rain_50_60_mm", "rain_50_60", ColumnKind::sum, 0.0, 150.0},
}};

[[nodiscard]] constexpr std::size_t index_of(WeatherColumn column) { return static_cast<std::size_t>(column); }
[[nodiscard]] constexpr const WeatherColumnInfo& info_of(WeatherColumn column) {
  return weather_columns[index_of(column)];
}

/// The column with this name of our own layout.
[[nodiscard]] constexpr std::optional<WeatherColumn> column_with_name(std::string_view name) {
  for (std::size_t i = 0; i < n_weather_columns; ++i) {
    if (weather_columns[i].name == name) return static_cast<WeatherColumn>(i);
  }
  return std::nullopt;
}

}  // namespace houseleek::climate
