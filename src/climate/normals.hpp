// Twelve monthly normals: what anyone can type about a climate.
#pragma once
#include <array>
#include <optional>
#include <string>

#include "base/result.hpp"

namespace houseleek::climate {

using Months = std::array<double, 12>;  // January first

/// Long-term means of each month. Where dew point and relative humidity are both there, the dew point is used; where
/// global radiation and sunshine are both there, global radiation is used.
struct MonthlyNormals {
  Months max_c{};                                     // mean daily maximum
  Months min_c{};                                     // mean daily minimum
  Months rain_mm{};                                   // month's sum
  std::optional<Months> rain_days = {};               // days with rain, in the month
  std::optional<Months> sunshine_h = {};              // month's sum of bright sunshine
  std::optional<Months> global_mj_per_m2_d = {};      // mean daily sum on the level
  std::optional<Months> relative_humidity_frac = {};  // mean of day and night
  std::optional<Months> dew_point_c = {};             // mean of day and night
  std::optional<Months> wind_m_per_s = {};            // mean at 10 m over open land
  std::optional<Months> month_mean_sd_k = {};         // between years: standard deviation of the month's mean
  std::optional<Months> month_rain_sd_mm = {};        // between years: of the month's sum
  bool operator==(const MonthlyNormals&) const = default;
};

/// All problems of the normals: numbers that are not finite or out of range, months that contradict themselves. `path`
/// goes before names. What only the place can tell (more sunshine than daylight) is found by generate_year.
[[nodiscard]] Issues issues_of_normals(const MonthlyNormals& normals, const std::string& path);

}  // namespace houseleek::climate
