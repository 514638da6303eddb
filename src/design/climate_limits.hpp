// Limits of [climate.layout] and [climate.columns], and the words they know.
#pragma once
#include <array>
#include <string_view>
#include <utility>

#include "base/toml_fields.hpp"
#include "design/climate.hpp"

namespace houseleek::design {

namespace limits {
inline constexpr NumberRule weather_year{.key = "year", .least = 1600, .most = 2400};
inline constexpr NumberRule header_line{.key = "header_line", .least = 0, .most = 10000};
inline constexpr NumberRule column_number{.key = "number", .least = 1, .most = 1000};
inline constexpr std::size_t most_missing_words = 20;
}  // namespace limits

/// A key of [climate.columns] and the units it may have, parted by blanks; none for parts of the time.
struct WeatherColumnWords {
  std::string_view key;
  std::string_view units;
};

inline constexpr std::array<WeatherColumnWords, 17> weather_column_words = {{
    {"time", ""},
    {"date", ""},
    {"clock_time", ""},
    {"year", ""},
    {"month", ""},
    {"day", ""},
    {"hour", ""},
    {"minute", ""},
    {"air_temperature", "degC degF K"},
    {"relative_humidity", "% fraction"},
    {"dew_point", "degC degF K"},
    {"vapour_pressure", "Pa hPa kPa mmHg"},
    {"wind", "m/s km/h mph kn"},
    {"global", "W/m2 Wh/m2 MJ/m2 kJ/m2 J/cm2"},
    {"diffuse", "W/m2 Wh/m2 MJ/m2 kJ/m2 J/cm2"},
    {"sky_longwave", "W/m2 Wh/m2 MJ/m2 kJ/m2 J/cm2"},
    {"rain", "mm inch mm/h"},
}};

}  // namespace houseleek::design
