// Monthly figures of a weather year, and which months of the normals are hottest and coldest.
#pragma once
#include <array>
#include <vector>

#include "climate/normals.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// Rain of a calendar day from which it counts as a wet day.
inline constexpr double usual_wet_day_mm = 0.1;

/// Month by month. A day's highest and lowest temperature are those of its 25 marks, both midnights included.
struct YearSummary {
  Months max_c{};                   // mean of the days' highest
  Months min_c{};                   // mean of the days' lowest
  Months mean_c{};                  // of the marks
  Months rain_mm{};                 // sum
  Months wet_days{};                // count
  Months global_mj_per_m2_d{};      // mean of the days' sums
  Months vapour_pressure_pa{};      // mean of the marks
  Months relative_humidity_frac{};  // mean of the marks, over liquid water
  Months wind_m_per_s{};            // mean of the marks
};

/// Monthly figures of a year of 8760 hours.
/// Equation: means and sums as the fields say; a mean of the marks counts those at the starts of the month's hours
/// Symbols:  -
/// Shape:    year in, twelve values a figure out; pure.
/// Units:    as the names say; 1 W/m2 through a day is 0.0864 MJ/m2.
/// Valid:    years of 8760 hours.
/// Errors:   ContractViolation if the columns have another length.
/// Source:   definitions.   Checked by: Summary.OfColumnsThatAreKnown.
[[nodiscard]] YearSummary summarise(const WeatherYear& year, double wet_day_mm = usual_wet_day_mm);

/// Highest and lowest temperature of a day (from 0) of a column at marks.
struct DayExtremes {
  double max_c;
  double min_c;
};
[[nodiscard]] DayExtremes extremes_of_day(const std::vector<double>& air_temperature_c, int day);

/// A calendar day: mean of its 24 marks, highest and lowest of its 25, sum of its rain.
struct DayFigures {
  double mean_c = 0.0;
  double max_c = 0.0;
  double min_c = 0.0;
  double rain_mm = 0.0;
};

/// All days of a year of 8760 hours.
[[nodiscard]] std::vector<DayFigures> figures_of_days(const WeatherYear& year);

/// Months, 0 is January, by the middle of mean maximum and mean minimum; the earlier first where two are equal.
using ThreeMonths = std::array<int, 3>;
[[nodiscard]] ThreeMonths hottest_months(const MonthlyNormals& normals);  // hottest first
[[nodiscard]] ThreeMonths coldest_months(const MonthlyNormals& normals);  // coldest first

}  // namespace houseleek::climate
