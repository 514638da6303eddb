// A year at a glance: one square an hour, days from left to right and hours downwards; and daily columns above each
// other.
#pragma once
#include "report/chart_parts.hpp"

namespace houseleek::report {

/// Differences in classes of a round width: deeper for farther below zero, hatched above it.
struct DifferenceClasses {
  double step = 1.0;
  int n_below = 0;  // classes below zero, at most n_ramp_steps
  int n_above = 0;
};
[[nodiscard]] DifferenceClasses classes_of(const std::vector<double>& differences);

/// 0 is the class just below zero, 1 the next; -1 the class just above zero, -2 the next. Zero itself is in 0.
[[nodiscard]] int class_of(const DifferenceClasses& classes, double difference);

[[nodiscard]] Html legend_from(const DifferenceClasses& classes, std::string_view unit);

struct YearMap {
  Drawing drawing;  // size is set
  std::string heading;
  std::string unit;
  int first_hour = 0;          // of the year
  std::vector<double> values;  // one an hour
  DifferenceClasses classes;
};
[[nodiscard]] Html html_from(const YearMap& map);

/// Means by month (rows) and by three hours of the day (columns).
[[nodiscard]] TableData month_table(int first_hour, const std::vector<double>& values);

/// One value a day: a line between zero and one hundred percent, with bars of depth below it.
struct DailyChart {
  Drawing drawing;  // size is set
  std::string heading;
  int first_day = 0;                 // of the year
  std::vector<double> line_percent;  // may be empty
  std::vector<double> watering_mm;
  std::vector<double> rain_mm;
};
[[nodiscard]] Html html_from(const DailyChart& chart);

/// Sums or means of the 24 hours of each whole day.
[[nodiscard]] std::vector<double> daily_sums(const std::vector<double>& hours);
[[nodiscard]] std::vector<double> daily_means(const std::vector<double>& hours);

}  // namespace houseleek::report
