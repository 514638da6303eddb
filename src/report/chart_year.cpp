// A year at a glance: one square an hour, days from left to right and hours downwards; and daily columns above each
// other.
#include "report/chart_year.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "report/palette.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr int hours_per_day = climate::n_hours_in_day;
constexpr int most_hatches = 3;
constexpr double left = 40.0;
constexpr double right = 8.0;
constexpr double width = left + 730.0 + right;  // two units a day: whole numbers keep the file small

int day_of(int first_hour, std::size_t i) { return (first_hour + static_cast<int>(i)) / hours_per_day; }
int hour_of(int first_hour, std::size_t i) { return (first_hour + static_cast<int>(i)) % hours_per_day; }

std::string swatch_class(int of_class) {
  return of_class >= 0 ? fmt::format("ramp{}", of_class) : fmt::format("hatch{}", std::min(-of_class, most_hatches));
}

/// Runs of hours of one day in one class, as one path a class.
std::map<int, std::string> paths_of(const YearMap& map, const Scale& x, const Scale& y) {
  std::map<int, std::string> paths;
  const int first_day = day_of(map.first_hour, 0);
  const std::string day_width = place_text(x(1.0) - x(0.0));
  for (std::size_t i = 0; i < map.values.size();) {
    const int of_class = class_of(map.classes, map.values[i]);
    const int day = day_of(map.first_hour, i);
    std::size_t end = i;
    while (end < map.values.size() && day_of(map.first_hour, end) == day &&
           class_of(map.classes, map.values[end]) == of_class) {
      ++end;
    }
    const int hour = hour_of(map.first_hour, i);
    const double height = y(hour + static_cast<double>(end - i)) - y(hour);
    paths[of_class] += fmt::format("M{} {}h{}v{}h-{}z", place_text(x(day - first_day)), place_text(y(hour)), day_width,
                                   place_text(height), day_width);
    i = end;
  }
  return paths;
}

/// Lines and names of months along the horizontal axis, for days that begin with `first_day`.
Html month_axis(int first_day, int n_days, const Scale& x, double from_y, double to_y) {
  Html axis;
  for (int day = first_day; day < first_day + n_days; ++day) {
    const auto of_year = static_cast<std::size_t>(day % climate::n_days_in_year);
    const auto month = static_cast<std::size_t>(climate::month_of_day[of_year]);
    const bool is_first = static_cast<int>(of_year) == climate::first_day_of_month[month];
    if (!is_first && day != first_day) continue;
    const double at = x(day - first_day);
    axis += svg_line(at, from_y, at, to_y + 4.0, "grid");
    axis += svg_text(at + 3.0, to_y + 15.0, month_letters[month], "tick");
  }
  return axis;
}

std::string hover_of_day(const YearMap& map, std::size_t first, std::size_t end) {
  const auto begin = map.values.begin();
  const auto [least, most] =
      std::minmax_element(begin + static_cast<std::ptrdiff_t>(first), begin + static_cast<std::ptrdiff_t>(end));
  const auto at = [&](auto found) { return hour_of(map.first_hour, static_cast<std::size_t>(found - begin)); };
  return fmt::format("{}: {} {} in the hour from {}:00, {} {} from {}:00", day_words(day_of(map.first_hour, first)),
                     number_in_print(*least), map.unit, at(least), number_in_print(*most), map.unit, at(most));
}

}  // namespace

DifferenceClasses classes_of(const std::vector<double>& differences) {
  expects(!differences.empty(), "differences");
  const auto [least, most] = std::minmax_element(differences.begin(), differences.end());
  const double below = std::max(0.0, -*least);
  const double above = std::max(0.0, *most);
  DifferenceClasses classes;
  const double larger = std::max(below, above);
  if (larger > 0.0) classes.step = nice_step(0.0, larger, static_cast<int>(n_ramp_steps));
  classes.n_below = static_cast<int>(std::ceil(below / classes.step - 1e-9));
  classes.n_above = static_cast<int>(std::ceil(above / classes.step - 1e-9));
  return classes;
}

int class_of(const DifferenceClasses& classes, double difference) {
  if (difference > 0.0)
    return -std::min(classes.n_above, static_cast<int>(std::ceil(difference / classes.step - 1e-9)));
  const int below = static_cast<int>(std::ceil(-difference / classes.step - 1e-9)) - 1;
  return std::clamp(below, 0, std::max(0, classes.n_below - 1));
}

Html legend_from(const DifferenceClasses& classes, std::string_view unit) {
  std::vector<LegendItem> items;
  const auto words = [&](int from, int to) {
    return fmt::format("{} to {} {}", tick_label(from * classes.step, classes.step),
                       tick_label(to * classes.step, classes.step), unit);
  };
  for (int i = classes.n_below; i-- > 0;) items.push_back({swatch_class(i), words(-i - 1, -i), false});
  const int n_hatches = std::min(classes.n_above, most_hatches);
  for (int i = 1; i <= n_hatches; ++i) {
    const int to = i == n_hatches ? classes.n_above : i;
    items.push_back({swatch_class(-i), "warmer, " + words(i - 1, to), false});
  }
  return legend_from(items);
}

Html html_from(const YearMap& map) {
  constexpr double top = 24.0;
  constexpr double hour_height = 5.0;
  expects(!map.values.empty(), "hours to draw");
  const int first_day = day_of(map.first_hour, 0);
  const int n_days = day_of(map.first_hour, map.values.size() - 1) - first_day + 1;
  const Scale x{0.0, static_cast<double>(n_days), left, width - right};
  const Scale y{0.0, static_cast<double>(hours_per_day), top, top + hour_height * hours_per_day};
  Drawing drawing = map.drawing;
  drawing.width = width;
  drawing.height = y.place_high + 22.0;
  drawing.is_wide = true;
  Html squares;
  for (const auto& [of_class, path] : paths_of(map, x, y)) {
    squares += element("path", {{"d", path}, {"class", swatch_class(of_class)}});
  }
  Html hits;
  for (std::size_t i = 0; i < map.values.size();) {
    std::size_t end = i;
    while (end < map.values.size() && day_of(map.first_hour, end) == day_of(map.first_hour, i)) ++end;
    const double from_x = x(day_of(map.first_hour, i) - first_day);
    hits += svg_box({from_x, top, x(1.0) - x(0.0), y.place_high - top}, "hit", hover_of_day(map, i, end));
    i = end;
  }
  Html content = svg_text(0.0, 13.0, map.heading, "heading");
  content += element("g", {{"class", "squares"}}, squares) + month_axis(first_day, n_days, x, top, y.place_high);
  for (const int hour : {0, 6, 12, 18, 24}) {
    content += svg_text(left - 6.0, y(hour) + 4.0, fmt::format("{} h", hour), "tick", Anchor::end);
  }
  return drawing_from(drawing, content + hits);
}

TableData month_table(int first_hour, const std::vector<double>& values) {
  constexpr int block_h = 3;
  constexpr int n_blocks = hours_per_day / block_h;
  std::array<std::array<double, n_blocks>, climate::n_months> sums{};
  std::array<std::array<int, n_blocks>, climate::n_months> counts{};
  for (std::size_t i = 0; i < values.size(); ++i) {
    const auto day = static_cast<std::size_t>(day_of(first_hour, i) % climate::n_days_in_year);
    const auto month = static_cast<std::size_t>(climate::month_of_day[day]);
    const auto block = static_cast<std::size_t>(hour_of(first_hour, i) / block_h);
    sums[month][block] += values[i];
    ++counts[month][block];
  }
  TableData table;
  table.heads.emplace_back("Mean of month");
  for (int block = 0; block < n_blocks; ++block) {
    table.heads.push_back(fmt::format("{}\u2013{} h", block * block_h, (block + 1) * block_h));
  }
  for (std::size_t month = 0; month < sums.size(); ++month) {
    if (std::all_of(counts[month].begin(), counts[month].end(), [](int n) { return n == 0; })) continue;
    std::vector<std::string> row{std::string(month_letters[month])};
    for (std::size_t block = 0; block < n_blocks; ++block) {
      row.push_back(counts[month][block] == 0 ? "" : number_in_print(sums[month][block] / counts[month][block]));
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

std::vector<double> daily_sums(const std::vector<double>& hours) {
  std::vector<double> days;
  for (std::size_t i = 0; i + hours_per_day <= hours.size(); i += hours_per_day) {
    const auto first = hours.begin() + static_cast<std::ptrdiff_t>(i);
    days.push_back(std::accumulate(first, first + hours_per_day, 0.0));
  }
  return days;
}

std::vector<double> daily_means(const std::vector<double>& hours) {
  std::vector<double> days = daily_sums(hours);
  for (double& day : days) day /= hours_per_day;
  return days;
}

Html html_from(const DailyChart& chart) {
  constexpr double store_top = 40.0;
  constexpr double store_bottom = 146.0;
  constexpr double depth_top = 184.0;
  constexpr double depth_bottom = 244.0;
  constexpr double pairs = 0.45;  // of a day's width
  const std::size_t n_days = chart.watering_mm.size();
  expects(n_days > 0 && chart.rain_mm.size() == n_days, "days to draw");
  Drawing drawing = chart.drawing;
  drawing.width = width;
  drawing.height = depth_bottom + 22.0;
  drawing.is_wide = true;
  const Scale x{0.0, static_cast<double>(n_days), left, width - right};
  double least_percent = 0.0;
  double most_percent = 100.0;
  for (const double value : chart.line_percent) {
    least_percent = std::min(least_percent, value);
    most_percent = std::max(most_percent, value);
  }
  const Scale store{least_percent, most_percent, store_bottom, store_top};
  const double most_mm = std::max(*std::max_element(chart.watering_mm.begin(), chart.watering_mm.end()),
                                  *std::max_element(chart.rain_mm.begin(), chart.rain_mm.end()));
  const Ticks depths = nice_ticks(0.0, most_mm > 0.0 ? most_mm : 1.0, 2);
  const Scale depth{0.0, depths.values.back(), depth_bottom, depth_top};
  Html content = svg_text(0.0, 13.0, chart.heading, "heading");
  content += left_axis({50.0, {0.0, 50.0, 100.0}}, store, left, width - right, "%");
  content += left_axis(depths, depth, left, width - right, "mm a day");
  content += month_axis(chart.first_day, static_cast<int>(n_days), x, store_top, depth_bottom);
  std::string path;
  for (std::size_t i = 0; i < chart.line_percent.size(); ++i) {
    path += fmt::format("{}{} {}", i == 0 ? "M" : "L", place_text(x(static_cast<double>(i) + 0.5)),
                        place_text(store(chart.line_percent[i])));
  }
  if (!path.empty()) content += element("path", {{"d", path}, {"class", "line planted thin"}});
  const double bar_width = std::max(1.0, pairs * (x(1.0) - x(0.0)));
  Html hits;
  for (std::size_t i = 0; i < n_days; ++i) {
    const auto day = static_cast<double>(i);
    const auto bar = [&](double mm, double offset, std::string_view css_class) {
      if (mm <= 0.0) return;
      content += svg_box({x(day + offset), depth(mm), bar_width, depth_bottom - depth(mm)}, css_class);
    };
    bar(chart.rain_mm[i], 0.05, "bar quiet");
    bar(chart.watering_mm[i], 0.5, "bar deep");
    std::string hover = day_words(chart.first_day + static_cast<int>(i));
    if (i < chart.line_percent.size()) hover += fmt::format(": {:.0f} % full", chart.line_percent[i]);
    hover += fmt::format("\nwatering {} mm, rain {} mm", number_in_print(chart.watering_mm[i]),
                         number_in_print(chart.rain_mm[i]));
    hits += svg_box({x(day), store_top, x(1.0) - x(0.0), depth_bottom - store_top}, "hit", hover);
  }
  return drawing_from(drawing, content + hits);
}

}  // namespace houseleek::report
