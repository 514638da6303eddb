// A small chart of a few lines over hours, each named at its end.
#include "report/chart_lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/contract.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr double left = 40.0;
constexpr double right = 78.0;  // room for the names of lines
constexpr double top = 44.0;
constexpr double bottom = 26.0;
constexpr double label_height = 14.0;
constexpr double mark_height = 9.0;

std::string path_of(const Line& line, const Scale& x, const Scale& y) {
  std::string path;
  for (std::size_t i = 0; i < line.values.size(); ++i) {
    path += fmt::format("{}{} {}", i == 0 ? "M" : "L", place_text(x(static_cast<double>(i))),
                        place_text(y(line.values[i])));
  }
  return path;
}

std::string hover_at(const LineChart& chart, std::size_t step) {
  std::string text = chart.step_labels.at(step);
  for (const Line& line : chart.lines) {
    text += fmt::format("\n{} {} {}", line.name, number_in_print(line.values[step]), chart.unit);
  }
  return text;
}

}  // namespace

std::vector<double> spread_labels(std::vector<double> wanted, double gap, double low, double high) {
  std::vector<std::size_t> order(wanted.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return wanted[a] < wanted[b]; });
  double least = low;
  for (const std::size_t i : order) {
    wanted[i] = std::max(wanted[i], least);
    least = wanted[i] + gap;
  }
  double most = high;
  for (std::size_t i = order.size(); i-- > 0;) {
    wanted[order[i]] = std::min(wanted[order[i]], most);
    most = wanted[order[i]] - gap;
  }
  return wanted;
}

Html html_from(const LineChart& chart) {
  expects(!chart.lines.empty() && !chart.lines.front().values.empty(), "lines to draw");
  const std::size_t n_steps = chart.lines.front().values.size();
  const Drawing& drawing = chart.drawing;
  const Scale x{0.0, static_cast<double>(std::max<std::size_t>(1, n_steps - 1)), left, drawing.width - right};
  const Scale y{chart.ticks.values.front(), chart.ticks.values.back(), drawing.height - bottom, top};
  Html content = svg_text(0.0, 14.0, chart.heading, "heading");
  content += left_axis(chart.ticks, y, left, drawing.width - right, chart.unit);
  int step = 0;
  for (const AxisSpan& span : chart.spans) {
    const double from_x = x(step);
    step += span.n_steps;
    content += svg_line(from_x, y.place_high, from_x, y.place_low + 4.0, "grid");
    content += svg_text(0.5 * (from_x + x(step)), drawing.height - 8.0, span.name, "tick", Anchor::middle);
  }
  for (const std::size_t mark : chart.marks) {
    const double at_x = x(static_cast<double>(mark));
    content += svg_line(at_x, y.place_low, at_x, y.place_low - mark_height, "line planted");
  }
  std::vector<double> ends;
  for (const Line& line : chart.lines) {
    expects(line.values.size() == n_steps, "lines of one length");
    content += element("path", {{"d", path_of(line, x, y)}, {"class", "line " + line.css_class}});
    ends.push_back(y(line.values.back()) + 4.0);
  }
  const std::vector<double> places = spread_labels(ends, label_height, top + 4.0, drawing.height - bottom + 4.0);
  for (std::size_t i = 0; i < chart.lines.size(); ++i) {
    const double from_y = ends[i] - 4.0;
    content += svg_line(drawing.width - right + 1.0, from_y, drawing.width - right + 8.0, places[i] - 4.0, "leader");
    content +=
        svg_text(drawing.width - right + 11.0, places[i], chart.lines[i].name, "name " + chart.lines[i].css_class);
  }
  const double step_width = n_steps > 1 ? x(1.0) - x(0.0) : x.place_high - x.place_low;
  for (std::size_t i = 0; i < n_steps; ++i) {
    content += svg_box({x(static_cast<double>(i)) - 0.5 * step_width, top, step_width, y.place_low - top}, "hit",
                       hover_at(chart, i));
  }
  return drawing_from(drawing, content);
}

}  // namespace houseleek::report
