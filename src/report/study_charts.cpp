// Charts by the hour: temperatures on the days with the warmest and the coldest air, and the year in one picture.
#include "report/study_charts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "report/chart_lines.hpp"
#include "report/chart_year.hpp"
#include "report/study_words.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t hours_per_day = 24;
constexpr std::size_t window_days = 3;
constexpr std::size_t most_rooms_mapped = 6;

/// Some days of the kept hours.
struct Window {
  std::size_t first_day = 0;
  std::size_t n_days = 0;
  [[nodiscard]] std::size_t first_hour() const { return first_day * hours_per_day; }
  [[nodiscard]] std::size_t n_hours() const { return n_days * hours_per_day; }
};

/// The days that follow each other with the highest (or lowest) mean of the air.
Window extreme_days(const std::vector<double>& air_c, bool is_warmest) {
  const std::vector<double> means_c = daily_means(air_c);
  expects(!means_c.empty(), "a whole day");
  Window best{0, std::min(window_days, means_c.size())};
  const auto mean_of = [&](std::size_t first) {
    double sum_c = 0.0;
    for (std::size_t day = first; day < first + best.n_days; ++day) sum_c += means_c[day];
    return sum_c;
  };
  for (std::size_t first = 1; first + best.n_days <= means_c.size(); ++first) {
    const double here = mean_of(first);
    const double there = mean_of(best.first_day);
    if (is_warmest ? here > there : here < there) best.first_day = first;
  }
  return best;
}

std::vector<double> part_of(const std::vector<double>& column, const Window& window) {
  const auto first = column.begin() + static_cast<std::ptrdiff_t>(window.first_hour());
  return {first, first + static_cast<std::ptrdiff_t>(window.n_hours())};
}

int day_of_year(const YearColumns& columns, std::size_t kept_day) {
  return columns.first_hour / static_cast<int>(hours_per_day) + static_cast<int>(kept_day);
}

std::string window_words(const YearColumns& columns, const Window& window) {
  return fmt::format("{} to {}", day_words(day_of_year(columns, window.first_day)),
                     day_words(day_of_year(columns, window.first_day + window.n_days - 1)));
}

/// The recipe of which most is laid, in the form in which it lies; none where nothing is laid.
const ModuleColumns* main_modules(const YearColumns& columns) {
  const auto found = std::max_element(columns.modules.begin(), columns.modules.end(),
                                      [](const auto& a, const auto& b) { return a.area_m2 < b.area_m2; });
  return found == columns.modules.end() ? nullptr : &*found;
}

struct StackLine {
  const ClosedColumns* stack = nullptr;
  std::string label;
  std::string css_class;
};

/// Bare, the main recipe, the rivals: at most five.
std::vector<StackLine> lines_of(const YearColumns& columns) {
  const ModuleColumns* modules = main_modules(columns);
  std::vector<StackLine> lines;
  for (const ClosedColumns& stack : columns.stacks) {
    if (stack.form == "bare") lines.push_back({&stack, "bare", "bare"});
    if (modules != nullptr && stack.name == modules->recipe && stack.form == modules->form) {
      lines.push_back({&stack, "modules", "planted"});
    }
    if (stack.form == "rival") lines.push_back({&stack, stack.name == "white" ? "painted" : stack.name, stack.name});
  }
  return lines;
}

using Column = std::vector<double> ClosedColumns::*;

double most_in(const ClosedColumns& stack, Column column, const Window& window) {
  const std::vector<double> part = part_of(stack.*column, window);
  return *std::max_element(part.begin(), part.end());
}

Html temperature_panel(const ChartSource& source, Column column, const Window& window, std::string id,
                       std::string_view what) {
  const YearColumns& columns = source.columns;
  LineChart chart;
  chart.unit = "\u00B0C";
  chart.heading = fmt::format("{} air, {}", what, window_words(columns, window));
  double least = 1e9;
  double most = -1e9;
  for (const StackLine& line : lines_of(columns)) {
    chart.lines.push_back({line.label, line.css_class, part_of(line.stack->*column, window)});
    const auto [low, high] = std::minmax_element(chart.lines.back().values.begin(), chart.lines.back().values.end());
    least = std::min(least, *low);
    most = std::max(most, *high);
  }
  chart.ticks = nice_ticks(least, most, 6);
  for (std::size_t hour = 0; hour < window.n_hours(); ++hour) {
    const std::size_t of_day = hour % hours_per_day;
    const std::string day = day_words(day_of_year(columns, window.first_day + hour / hours_per_day));
    chart.step_labels.push_back(fmt::format("{}, {}:00", day, of_day + 1));
    if (of_day == 0) chart.spans.push_back({static_cast<int>(hours_per_day), day});
  }
  chart.drawing.id = std::move(id);
  chart.drawing.title = chart.heading;
  chart.drawing.description = "Highest in these days:";
  for (const StackLine& line : lines_of(columns)) {
    chart.drawing.description +=
        fmt::format(" {} {} \u00B0C;", line.label, number_in_print(most_in(*line.stack, column, window)));
  }
  chart.drawing.description.back() = '.';
  return html_from(chart);
}

TableData temperature_table(const YearColumns& columns, Column column, const std::vector<Window>& windows) {
  TableData table;
  table.heads = {"Hour's end", "outside air"};
  for (const ClosedColumns& stack : columns.stacks) {
    const bool is_recipe = stack.form == "flat" || stack.form == "raised";
    table.heads.push_back(is_recipe ? fmt::format("{}, {}", stack.name, stack.form) : stack.name);
  }
  for (const Window& window : windows) {
    for (std::size_t i = window.first_hour(); i < window.first_hour() + window.n_hours(); ++i) {
      std::vector<std::string> row{
          fmt::format("{}, {}:00", day_words(day_of_year(columns, i / hours_per_day)), i % hours_per_day + 1),
          number_in_print(columns.air_c[i])};
      for (const ClosedColumns& stack : columns.stacks) row.push_back(number_in_print((stack.*column)[i]));
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

std::string legend_words(const StackLine& line) {
  if (line.css_class == "planted") return fmt::format("modules: {}, {}", line.stack->name, line.stack->form);
  if (line.css_class == "white") return "painted white";
  if (line.css_class == "net") return "raised net";
  return line.css_class == "board" ? "ballasted board" : "bare";
}

Html line_legend(const YearColumns& columns) {
  std::vector<LegendItem> items;
  for (const StackLine& line : lines_of(columns)) items.push_back({line.css_class, legend_words(line), true});
  return legend_from(items);
}

Html temperature_chart(const ChartSource& source, Column column, const std::string& id, std::string_view part) {
  const YearColumns& columns = source.columns;
  const Window warm = extreme_days(columns.air_c, true);
  const Window cold = extreme_days(columns.air_c, false);
  ChartFigure figure;
  figure.id = id;
  std::vector<std::string> reached;
  for (const StackLine& line : lines_of(columns)) {
    reached.push_back(fmt::format("{} {} \u00B0C", line.label, number_in_print(most_in(*line.stack, column, warm))));
  }
  figure.title = fmt::format("{} at its hottest in the warmest days: {}.", part, joined(reached));
  figure.caption = fmt::format(
      "Closed covers over {}, the largest room, running free; ends of hours. The two panels have scales of their own.",
      columns.stacks.front().room);
  figure.caption += year_words(source);
  figure.legend = line_legend(columns);
  figure.panels = {temperature_panel(source, column, warm, id + "-warm", "Warmest"),
                   temperature_panel(source, column, cold, id + "-cold", "Coldest")};
  figure.table = temperature_table(columns, column, {warm, cold});
  return html_from(figure);
}

std::vector<double> planted_minus_bare(const YearColumns& columns, std::size_t room,
                                       std::vector<double> RoomColumns::*column) {
  const std::vector<double>& planted = columns.covers[index_of(CoverKind::planted)].rooms[room].*column;
  const std::vector<double>& bare = columns.covers[index_of(CoverKind::bare)].rooms[room].*column;
  std::vector<double> difference(planted.size());
  for (std::size_t i = 0; i < difference.size(); ++i) difference[i] = planted[i] - bare[i];
  return difference;
}

/// How many hours are cooler, and the extremes, in a sentence.
std::string difference_words(const std::vector<double>& difference) {
  const auto [least, most] = std::minmax_element(difference.begin(), difference.end());
  const auto n_warmer = std::count_if(difference.begin(), difference.end(), [](double k) { return k > 0.0; });
  return fmt::format("at most {} K cooler and {} K warmer; warmer in {} of {} hours",
                     number_in_print(std::max(0.0, -*least)), number_in_print(std::max(0.0, *most)), n_warmer,
                     difference.size());
}

Html map_panel(const YearColumns& columns, const std::vector<double>& difference, const DifferenceClasses& classes,
               std::string id, std::string heading) {
  YearMap map;
  map.drawing.id = std::move(id);
  map.drawing.title = heading + ", planted minus bare, every hour of the kept days";
  map.drawing.description = difference_words(difference);
  map.heading = std::move(heading);
  map.unit = std::string("K");
  map.first_hour = columns.first_hour;
  map.values = difference;
  map.classes = classes;
  return html_from(map);
}

}  // namespace

std::string year_words(const ChartSource& source) {
  const int n_years = source.document.at("engine").at("n_years").get<int>();
  return n_years == 1 ? ""
                      : fmt::format(" Hours of the first of {} years; figures in tables are medians of all.", n_years);
}

Html membrane_chart(const ChartSource& source) {
  return temperature_chart(source, &ClosedColumns::membrane_c, "chart-membrane", "Membrane");
}

Html ceiling_chart(const ChartSource& source) {
  return temperature_chart(source, &ClosedColumns::ceiling_c, "chart-ceiling", "Ceiling");
}

Html ceiling_map(const ChartSource& source) {
  const YearColumns& columns = source.columns;
  const std::vector<RoomColumns>& rooms = columns.covers[index_of(CoverKind::bare)].rooms;
  const auto largest = std::find_if(rooms.begin(), rooms.end(),
                                    [&](const RoomColumns& room) { return room.name == columns.stacks.front().room; });
  expects(largest != rooms.end(), "the largest room among the rooms");
  const auto room = static_cast<std::size_t>(largest - rooms.begin());
  const std::vector<double> difference = planted_minus_bare(columns, room, &RoomColumns::ceiling_c);
  const DifferenceClasses classes = classes_of(difference);
  ChartFigure figure;
  figure.id = "chart-ceiling-year";
  figure.title =
      fmt::format("The ceiling of {} with the modules as laid out: {}.", largest->name, difference_words(difference));
  figure.caption = "Planted minus bare, mean over the room's ceiling, ends of hours. Hatched: warmer than bare.";
  figure.caption += year_words(source);
  figure.legend = legend_from(classes, "K");
  figure.panels = {map_panel(columns, difference, classes, "map-ceiling", fmt::format("Ceiling of {}", largest->name))};
  figure.table = month_table(columns.first_hour, difference);
  figure.is_wide = true;
  return html_from(figure);
}

Html room_maps(const ChartSource& source) {
  const YearColumns& columns = source.columns;
  const std::vector<RoomColumns>& rooms = columns.covers[index_of(CoverKind::bare)].rooms;
  const std::size_t n_shown = std::min(rooms.size(), most_rooms_mapped);
  std::vector<std::vector<double>> differences;
  std::vector<double> all;
  for (std::size_t room = 0; room < rooms.size(); ++room) {
    differences.push_back(planted_minus_bare(columns, room, &RoomColumns::operative_c));
    all.insert(all.end(), differences.back().begin(), differences.back().end());
  }
  const DifferenceClasses classes = classes_of(all);
  ChartFigure figure;
  figure.id = "chart-rooms-year";
  figure.title = fmt::format("Rooms through the year with the modules as laid out: {}.", difference_words(all));
  figure.caption = "Operative temperature, planted minus bare, means of hours. Hatched: warmer than bare.";
  figure.caption += year_words(source);
  if (n_shown < rooms.size()) figure.caption += fmt::format(" The first {} of {} rooms.", n_shown, rooms.size());
  figure.legend = legend_from(classes, "K");
  for (std::size_t room = 0; room < n_shown; ++room) {
    figure.panels.push_back(
        map_panel(columns, differences[room], classes, fmt::format("map-room-{}", room), rooms[room].name));
    TableData of_room = month_table(columns.first_hour, differences[room]);
    if (figure.table.heads.empty()) {
      figure.table.heads = of_room.heads;
      figure.table.heads.front() = std::string("Room, mean of month");
    }
    for (std::vector<std::string>& row : of_room.rows) {
      row.front() = fmt::format("{}, {}", rooms[room].name, row.front());
      figure.table.rows.push_back(std::move(row));
    }
  }
  figure.is_wide = true;
  return html_from(figure);
}

}  // namespace houseleek::report
