// A year of hours made from twelve monthly normals.
#pragma once
#include <cstdint>
#include <optional>

#include "base/result.hpp"
#include "climate/normals.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// What the method leaves open. Each default is stated here alone; docs/equations/climate.md says where it comes from.
struct GenerateOptions {
  int year = 2025;                       // whose sun shines; its 29 February, if any, is left out
  double hargreaves_per_sqrt_k = 0.16;   // radiation from the daily range: 0.16 inland, 0.19 at a coast
  double angstrom_overcast_frac = 0.25;  // radiation from sunshine hours
  double angstrom_rise_frac = 0.50;
  double clearness_lag = 0.29;                  // of the normal score, from day to day
  double rain_follows_cloud_frac = 0.85;        // correlation of rain and cloud scores; 0 to 1
  double least_wet_day_mm = 0.1;                // rain of a wet day is never less
  double wet_day_max_drop_k = 2.0;              // a wet day's maximum lies lower than a dry one's; 1 to 4 K
  std::optional<double> temperature_sd_k = {};  // of daily extremes; else 2 to 4 K with the range between months
  double hottest_solar_hour_h = 14.0;
  double driest_month_dew_point_drop_k = 2.5;  // below the minimum where no rain falls; 2 to 3 K
  double rain_intensity_mm_per_h = 1.5;        // median of the mean intensity of a day's rain
  double rain_intensity_log_sd = 0.8;
  double wind_lag = 0.9;             // of the hourly normal score
  double wind_afternoon_frac = 0.3;  // how far the mean at 15 h solar lies above the day's mean
  double warmer_by_k = 0.0;          // added to maximum, minimum and dew point; relative humidity is kept
};

/// A year of weather by the hour.
/// Equation: docs/equations/climate.md
/// Symbols:  draw: the how-manieth year of an ensemble; each random number is a function of seed, variable, draw, day
///           and index alone
/// Shape:    normals in, a year of 8760 hours out; the last mark is the first; pure.
/// Units:    as the names say.
/// Valid:    draw 0: monthly mean maximum and minimum of calendar days (25 marks), rain, global radiation and, where
///           given, humidity and wind equal the normals. Draws 1, 2 ...: their months depart from the normals, by
///           nothing in the mean of many draws. Days and hours are plausible, not observed. No cloudbursts: not for
///           drainage.
/// Errors:   Result with all issues of place and normals; an issue too where a month's radiation or humidity cannot be
///           reached.
/// Source:   docs/equations/climate.md.
///           Checked by: Generator.MonthlyMeansAreTheNormals and what stands beside it; CLI-YEAR-01 to CLI-YEAR-08.
[[nodiscard]] Result<WeatherYear> generate_year(const Place& place, const MonthlyNormals& normals, std::uint64_t seed,
                                                int draw, const GenerateOptions& options = {});

}  // namespace houseleek::climate
