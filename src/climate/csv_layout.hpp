// Columns of our weather file: names, limits, and what a missing value means.
#pragma once
#include <array>
#include <cstddef>
#include <string_view>

namespace houseleek::climate {

enum class CsvColumn : std::size_t {
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
inline constexpr std::size_t n_csv_columns = static_cast<std::size_t>(CsvColumn::count);
inline constexpr std::size_t n_rain_slots = 6;
inline constexpr std::size_t first_rain_slot = static_cast<std::size_t>(CsvColumn::rain_0_10);

struct CsvColumnLimits {
  std::string_view name;
  double least;
  double most;
};

inline constexpr std::string_view csv_time_name = "time";

/// Limits: what the engine's functions of air bear (temperature and vapour), else what no instrument on earth has
///         shown.
inline constexpr std::array<CsvColumnLimits, n_csv_columns> csv_columns = {{
    {"air_temperature_c", -60.0, 56.0},
    {"vapour_pressure_pa", 0.1, 10000.0},
    {"dew_point_c", -60.0, 45.0},
    {"relative_humidity_percent", 1.0, 100.0},
    {"wind_m_per_s", 0.0, 75.0},
    {"sky_longwave_w_per_m2", 50.0, 600.0},
    {"global_w_per_m2", -20.0, 1500.0},
    {"diffuse_w_per_m2", -20.0, 1000.0},
    {"rain_mm", 0.0, 400.0},
    {"rain_0_10_mm", 0.0, 150.0},
    {"rain_10_20_mm", 0.0, 150.0},
    {"rain_20_30_mm", 0.0, 150.0},
    {"rain_30_40_mm", 0.0, 150.0},
    {"rain_40_50_mm", 0.0, 150.0},
    {"rain_50_60_mm", 0.0, 150.0},
}};

[[nodiscard]] constexpr std::size_t index_of(CsvColumn column) { return static_cast<std::size_t>(column); }

}  // namespace houseleek::climate
