// A small chart of a few lines over hours, each named at its end.
#pragma once
#include <span>

#include "report/chart_parts.hpp"

namespace houseleek::report {

struct Line {
  std::string name;       // at the line's end
  std::string css_class;  // how it is drawn
  std::vector<double> values;
};

/// A piece of the horizontal axis with its name below its middle.
struct AxisSpan {
  int n_steps = 0;
  std::string name;
};

struct LineChart {
  Drawing drawing;
  std::string heading;  // above the panel
  std::string unit;
  std::vector<Line> lines;  // of one length
  Ticks ticks;
  std::vector<std::string> step_labels;  // one a step: what the pointer shows
  std::vector<AxisSpan> spans;           // of the horizontal axis, one after the other
  std::vector<std::size_t> marks;        // steps at whose foot something happened
};

[[nodiscard]] Html html_from(const LineChart& chart);

/// Places for labels that want to stand at `wanted`, at least `gap` apart, between `low` and `high` where they fit;
/// the order of the wanted places is kept.
[[nodiscard]] std::vector<double> spread_labels(std::vector<double> wanted, double gap, double low, double high);

}  // namespace houseleek::report
