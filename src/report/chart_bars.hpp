// Lying bars with their ranges, and standing bars in parts: a few values side by side.
#pragma once
#include <optional>

#include "report/chart_parts.hpp"

namespace houseleek::report {

struct Bar {
  std::string name;
  std::string css_class;
  double value = 0.0;
  std::optional<double> low;  // both or none
  std::optional<double> high;
  std::string words;  // at the bar's end
};

struct BarMark {
  double value = 0.0;
  std::string words;
};

/// Bars from zero to the right, one below the other.
struct BarChart {
  Drawing drawing;  // its height follows the bars
  std::string heading;
  std::string unit;
  std::vector<Bar> bars;
  std::optional<BarMark> mark;  // a line across all bars
  double most = 0.0;            // the scale reaches at least here, so that panels can be compared
};
[[nodiscard]] Html html_from(const BarChart& chart);

/// A bar a step, made of parts that add up, from below.
struct PileChart {
  Drawing drawing;
  std::string unit;
  std::vector<std::string> part_names;     // beside the last bar
  std::vector<std::string> part_classes;   // how each is drawn
  std::vector<std::vector<double>> piles;  // parts of each step
  std::vector<std::optional<Bar>> ends;    // low and high end of each whole step; may be empty
  std::vector<std::string> step_names;
};
[[nodiscard]] Html html_from(const PileChart& chart);

}  // namespace houseleek::report
