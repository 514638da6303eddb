// [climate]: twelve monthly normals, or a file of hourly weather.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>

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
  std::optional<Months> wind_m_per_s;  // mean at 10 m over open land
  bool operator==(const MonthlyNormals&) const = default;
};

/// Exactly one of normals and file is there.
struct Climate {
  std::optional<MonthlyNormals> normals;
  std::optional<std::string> file;  // path as written, relative to the design file; one documented CSV layout
  std::uint64_t seed = 1;
  bool operator==(const Climate&) const = default;
};

}  // namespace houseleek::design
