// Lying bars with their ranges, and standing bars in parts: a few values side by side.
#include "report/chart_bars.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "base/contract.hpp"
#include "report/chart_lines.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr double names_width = 96.0;
constexpr double words_width = 62.0;
constexpr double bar_pitch = 27.0;
constexpr double bar_height = 15.0;
constexpr double bars_top = 34.0;
constexpr int most_ticks = 5;
constexpr double digit_width = 7.5;  // of text of 12 px

/// A thin line with ends, along x or along y.
Html whisker(double low_x, double high_x, double y) {
  return svg_line(low_x, y, high_x, y, "whisker") + svg_line(low_x, y - 3.5, low_x, y + 3.5, "whisker") +
         svg_line(high_x, y - 3.5, high_x, y + 3.5, "whisker");
}

Html upright_whisker(double x, double low_y, double high_y) {
  return svg_line(x, low_y, x, high_y, "whisker") + svg_line(x - 3.5, low_y, x + 3.5, low_y, "whisker") +
         svg_line(x - 3.5, high_y, x + 3.5, high_y, "whisker");
}

std::string hover_of(const Bar& bar, const std::string& unit) {
  std::string text = fmt::format("{}: {} {}", bar.name, number_in_print(bar.value), unit);
  if (bar.low && bar.high) text += fmt::format(" ({} to {})", number_in_print(*bar.low), number_in_print(*bar.high));
  return text;
}

}  // namespace

Html html_from(const BarChart& chart) {
  double most = std::max(chart.most, chart.mark ? chart.mark->value : 0.0);
  for (const Bar& bar : chart.bars) most = std::max({most, bar.value, bar.high.value_or(0.0)});
  const Ticks ticks = nice_ticks(0.0, most > 0.0 ? most : 1.0, most_ticks);
  Drawing drawing = chart.drawing;
  const double bars_bottom = bars_top + bar_pitch * static_cast<double>(chart.bars.size());
  drawing.height = bars_bottom + (chart.mark ? 40.0 : 24.0);
  const Scale x{0.0, ticks.values.back(), names_width, drawing.width - words_width};
  Html content = svg_text(0.0, 14.0, chart.heading, "heading");
  for (const double value : ticks.values) {
    content += svg_line(x(value), bars_top - 6.0, x(value), bars_bottom, value == 0.0 ? "grid zero" : "grid");
    content += svg_text(x(value), bars_bottom + 15.0, tick_label(value, ticks.step), "tick", Anchor::middle);
  }
  content += svg_text(drawing.width - words_width + 20.0, bars_bottom + 15.0, chart.unit, "unit");
  if (chart.mark) {
    const double at = x(chart.mark->value);
    content += svg_line(at, bars_top - 8.0, at, bars_bottom + 20.0, "mark");
    content += svg_text(std::min(at, drawing.width - 8.0), bars_bottom + 33.0, chart.mark->words, "value", Anchor::end);
  }
  for (std::size_t i = 0; i < chart.bars.size(); ++i) {
    const Bar& bar = chart.bars[i];
    const double y = bars_top + bar_pitch * static_cast<double>(i);
    const double middle = y + 0.5 * bar_height;
    content += svg_text(names_width - 8.0, middle + 4.5, bar.name, "name", Anchor::end);
    content +=
        svg_box({x(0.0), y, x(bar.value) - x(0.0), bar_height}, "bar " + bar.css_class, hover_of(bar, chart.unit));
    double end = x(bar.value);
    if (bar.low && bar.high) {
      content += whisker(x(*bar.low), x(*bar.high), middle);
      end = std::max(end, x(*bar.high));
    }
    if (chart.mark) {
      // Words on the line would be read with it: they stand behind it instead.
      const double at = x(chart.mark->value);
      const double words_end = end + 6.0 + digit_width * static_cast<double>(bar.words.size());
      if (at > end - 6.0 && at < words_end) end = at;
    }
    content += svg_text(end + 6.0, middle + 4.5, bar.words, "value");
  }
  return drawing_from(drawing, content);
}

Html html_from(const PileChart& chart) {
  constexpr double left = 52.0;
  constexpr double right = 130.0;
  constexpr double top = 26.0;
  constexpr double bottom = 30.0;
  expects(!chart.piles.empty(), "bars to draw");
  double most = 0.0;
  for (std::size_t i = 0; i < chart.piles.size(); ++i) {
    most = std::max(most, std::accumulate(chart.piles[i].begin(), chart.piles[i].end(), 0.0));
    if (!chart.ends.empty() && chart.ends[i]) most = std::max(most, chart.ends[i]->high.value_or(0.0));
  }
  const Ticks ticks = nice_ticks(0.0, most > 0.0 ? most : 1.0, most_ticks);
  const Drawing& drawing = chart.drawing;
  const Scale y{0.0, ticks.values.back(), drawing.height - bottom, top};
  Html content = left_axis(ticks, y, left, drawing.width - right, chart.unit);
  const double pitch = (drawing.width - right - left) / static_cast<double>(chart.piles.size());
  std::vector<double> part_places;
  for (std::size_t i = 0; i < chart.piles.size(); ++i) {
    const double x = left + pitch * (static_cast<double>(i) + 0.2);
    double below = 0.0;
    std::string hover = chart.step_names[i];
    Html boxes;
    part_places.clear();
    for (std::size_t part = 0; part < chart.piles[i].size(); ++part) {
      const double above = below + chart.piles[i][part];
      hover += fmt::format("\n{} {} {}", chart.part_names[part], number_in_print(chart.piles[i][part]), chart.unit);
      boxes += svg_box({x, y(above), 0.6 * pitch, y(below) - y(above)}, "bar " + chart.part_classes[part]);
      part_places.push_back(y(0.5 * (below + above)) + 4.0);
      below = above;
    }
    content += boxes;
    if (!chart.ends.empty() && chart.ends[i] && chart.ends[i]->low && chart.ends[i]->high) {
      content += upright_whisker(x + 0.3 * pitch, y(*chart.ends[i]->low), y(*chart.ends[i]->high));
      hover += fmt::format("\nall together {} to {} {}", number_in_print(*chart.ends[i]->low),
                           number_in_print(*chart.ends[i]->high), chart.unit);
    }
    content += svg_box({x - 0.2 * pitch, top, pitch, drawing.height - bottom - top}, "hit", hover);
    content += svg_text(x + 0.3 * pitch, drawing.height - 10.0, chart.step_names[i], "tick", Anchor::middle);
  }
  const std::vector<double> places = spread_labels(part_places, 16.0, top, drawing.height - bottom + 4.0);
  for (std::size_t part = 0; part < places.size(); ++part) {
    content += svg_text(drawing.width - right + 8.0, places[part], chart.part_names[part], "name");
  }
  return drawing_from(drawing, content);
}

}  // namespace houseleek::report
