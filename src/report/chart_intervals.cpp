// Differences with their intervals, one below the other, about zero.
#include "report/chart_intervals.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

// A name stands above its line, so that it may be long.
constexpr double plot_left = 24.0;  // room for the first mark's label
constexpr double words_width = 130.0;
constexpr double row_pitch = 44.0;
constexpr double line_below_name = 16.0;
constexpr double dot_side = 8.0;
constexpr double rows_top = 40.0;
constexpr int most_ticks = 6;
constexpr std::size_t most_name_characters = 70;

}  // namespace

Html html_from(const IntervalChart& chart) {
  expects(!chart.rows.empty(), "differences to draw");
  double least = 0.0;
  double most = 0.0;
  for (const IntervalRow& row : chart.rows) {
    least = std::min({least, row.low, row.value});
    most = std::max({most, row.high, row.value});
  }
  const Ticks ticks = nice_ticks(least, most, most_ticks);
  Drawing drawing = chart.drawing;
  const double bottom = rows_top + row_pitch * static_cast<double>(chart.rows.size());
  drawing.height = bottom + 24.0;
  const Scale x{ticks.values.front(), ticks.values.back(), plot_left, drawing.width - words_width};
  Html content = svg_text(0.0, 14.0, chart.heading, "heading");
  for (const double value : ticks.values) {
    content += svg_line(x(value), rows_top - 8.0, x(value), bottom, value == 0.0 ? "grid zero" : "grid");
    content += svg_text(x(value), bottom + 15.0, tick_label(value, ticks.step), "tick", Anchor::middle);
  }
  content += svg_text(drawing.width - words_width + 20.0, bottom + 15.0, chart.unit, "unit");
  for (std::size_t i = 0; i < chart.rows.size(); ++i) {
    const IntervalRow& row = chart.rows[i];
    const double name_y = rows_top + row_pitch * static_cast<double>(i) + 12.0;
    const double y = name_y + line_below_name;
    content += svg_text(0.0, name_y, short_name(row.name, most_name_characters), "name");
    content += svg_line(x(row.low), y, x(row.high), y, "whisker");
    for (const double end : {row.low, row.high}) content += svg_line(x(end), y - 4.0, x(end), y + 4.0, "whisker");
    content += svg_box({x(row.value) - 0.5 * dot_side, y - 0.5 * dot_side, dot_side, dot_side}, "bar " + row.css_class);
    content += svg_text(drawing.width - words_width + 12.0, y + 4.0, row.words, "value");
    content += svg_box({0.0, name_y - 12.0, drawing.width - words_width, row_pitch}, "hit",
                       fmt::format("{}: {} {} ({} to {})", row.name, number_in_print(row.value), chart.unit,
                                   number_in_print(row.low), number_in_print(row.high)));
  }
  return drawing_from(drawing, content);
}

}  // namespace houseleek::report
