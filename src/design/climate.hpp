// [climate]: twelve monthly normals, or a file of hourly weather.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace houseleek::design {

using Months = std::array<double, 12>;  // January first

/// Long-term means of each month.
struct MonthlyNormals {
  Months max_c{};                                   // mean daily maximum
  Months min_c{};                                   // mean daily minimum
  Months rain_mm{};                                 // month's sum
  std::optional<Months> rain_days;                  // days with rain, in the month
  std::optional<Months> sunshine_h;                 // month's sum
  std::optional<Months> global_mj_per_m2_d;         // mean daily sum on the level
  std::optional<Months> relative_humidity_percent;  // mean of day and night
  std::optional<Months> dew_point_c;
  std::optional<Months> wind_m_per_s;      // mean at 10 m over open land
  std::optional<Months> month_mean_sd_k;   // standard deviation between years of the month's mean temperature
  std::optional<Months> month_rain_sd_mm;  // and of its rain
  bool operator==(const MonthlyNormals&) const = default;
};

enum class WeatherDelimiter { comma, semicolon, tab, bar, blank };
enum class WeatherDecimalMark { point, comma };
enum class WeatherDateOrder { year_first, day_first, month_first };
enum class WeatherStamps { start, end };
enum class WeatherClock { standard, daylight_saving, utc };

/// A column of the weather file, by the name in its header or by its number from 1.
struct WeatherFileColumn {
  std::string key;  // what it holds: one of weather_column_keys
  std::string name;
  int number = 0;
  std::string unit;  // one of weather_unit_words, or empty
  bool operator==(const WeatherFileColumn&) const = default;
};

/// [climate.layout] and [climate.columns]: what the person fixes about the file. The rest is told by the file.
struct WeatherLayout {
  std::optional<WeatherDelimiter> delimiter;
  std::optional<WeatherDecimalMark> decimal_mark;
  std::optional<int> header_line;  // 0: none
  std::optional<WeatherDateOrder> date_order;
  std::optional<WeatherStamps> stamps;
  std::optional<WeatherClock> clock;
  std::vector<std::string> missing;
  std::vector<WeatherFileColumn> columns;
  bool operator==(const WeatherLayout&) const = default;
};

/// Normals, a file or both are there; with both the file is the weather, and the normals are what it is compared with.
struct Climate {
  std::optional<MonthlyNormals> normals;
  std::optional<std::string> file;  // path as written, relative to the design file
  std::optional<int> year;          // of a file with several
  WeatherLayout layout;             // of the file
  std::uint64_t seed = 1;
  bool operator==(const Climate&) const = default;
};

}  // namespace houseleek::design
