// Differences with their intervals, one below the other, about zero.
#pragma once
#include "report/chart_parts.hpp"

namespace houseleek::report {

struct IntervalRow {
  std::string name;  // above it
  double value = 0.0;
  double low = 0.0;
  double high = 0.0;
  std::string words;      // right of it
  std::string css_class;  // of the dot: "planted" where told apart, "bare" where not
};

struct IntervalChart {
  Drawing drawing;  // its height follows the rows
  std::string heading;
  std::string unit;
  std::vector<IntervalRow> rows;
};
[[nodiscard]] Html html_from(const IntervalChart& chart);

}  // namespace houseleek::report
