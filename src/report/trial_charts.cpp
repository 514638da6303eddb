// The charts of a trial: paired days, differences with intervals, fitted against measured.
#include "report/trial_charts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/civil_time.hpp"
#include "base/utf8.hpp"
#include "report/chart_intervals.hpp"
#include "report/chart_lines.hpp"
#include "report/trial_text.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::array<std::string_view, 5> line_classes = {"planted", "bare", "white", "net", "board"};
constexpr std::size_t most_day_names = 6;
constexpr std::size_t most_fit_steps = 168;  // a week by the hour
constexpr std::size_t most_fit_panels = 8;
constexpr double wide = 640.0;

/// Days that every series has, in order.
std::vector<int> shared_days(const std::vector<TrialSeries>& series) {
  std::map<int, std::size_t> counts;
  std::size_t n_series = 0;
  for (const TrialSeries& one : series) {
    if (one.days.empty()) continue;
    ++n_series;
    for (const trials::DayValue& day : one.days) ++counts[day.day];
  }
  std::vector<int> days;
  for (const auto& [day, n] : counts) {
    if (n == n_series) days.push_back(day);
  }
  return days;
}

struct SideLine {
  std::string side;
  std::vector<double> values;  // by shared day
};

std::vector<SideLine> side_lines(const std::vector<TrialSeries>& series, const std::vector<int>& days) {
  std::vector<SideLine> lines;
  std::vector<double> counts;
  for (const TrialSeries& one : series) {
    if (one.days.empty()) continue;
    auto line = std::find_if(lines.begin(), lines.end(), [&one](const SideLine& l) { return l.side == one.side; });
    if (line == lines.end()) {
      line = lines.insert(lines.end(), {one.side, std::vector<double>(days.size(), 0.0)});
      counts.push_back(0.0);
    }
    counts[static_cast<std::size_t>(line - lines.begin())] += 1.0;
    for (const trials::DayValue& value : one.days) {
      const auto at = std::lower_bound(days.begin(), days.end(), value.day);
      if (at != days.end() && *at == value.day)
        line->values[static_cast<std::size_t>(at - days.begin())] += value.value;
    }
  }
  for (std::size_t i = 0; i < lines.size(); ++i) {
    for (double& value : lines[i].values) value /= counts[i];
  }
  return lines;
}

Ticks ticks_of(const LineChart& chart) {
  double least = 1e300;
  double most = -1e300;
  for (const Line& line : chart.lines) {
    for (const double value : line.values) {
      least = std::min(least, value);
      most = std::max(most, value);
    }
  }
  return nice_ticks(least, most, 6);
}

/// Names of days below the axis, a few of them.
void name_days(LineChart& chart, const std::vector<int>& days) {
  const std::size_t pitch = (days.size() + most_day_names - 1) / most_day_names;
  for (std::size_t i = 0; i < days.size(); ++i) chart.step_labels.push_back(text_from_day(days[i]));
  for (std::size_t i = 0; i + 1 < days.size(); i += pitch) {
    const std::size_t n = std::min(pitch, days.size() - 1 - i);
    chart.spans.push_back({static_cast<int>(n), n == pitch ? text_from_day(days[i]).substr(5) : ""});
  }
}

std::string css_of(std::size_t line) { return std::string(line_classes.at(line % line_classes.size())); }

/// Temperatures have a degree sign where they are levels and K where they are differences.
std::string level_unit(trials::Measure measure) {
  const bool is_level = measure == trials::Measure::maximum || measure == trials::Measure::minimum;
  return is_level ? "\u00B0C" : std::string(trials::unit_of(measure));
}

/// What stands at a line's end: the side's name where it and differences of such names have room, else a letter that the
/// legend explains.
std::vector<std::string> end_labels(const std::vector<SideLine>& sides) {
  constexpr std::size_t most_characters = 9;
  const bool has_room = sides.size() == 2 && std::all_of(sides.begin(), sides.end(), [](const SideLine& line) {
                          return count_characters(line.side) <= most_characters;
                        });
  std::vector<std::string> labels;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    labels.push_back(has_room ? sides[i].side : std::string(1, static_cast<char>('A' + i % 26)));
  }
  return labels;
}

}  // namespace

Html paired_days_chart(const MeasureAnswer& measure, const std::string& id) {
  const std::vector<int> days = shared_days(measure.series);
  const std::vector<SideLine> sides = side_lines(measure.series, days);
  if (days.size() < 2 || sides.size() < 2) return {};
  const std::vector<std::string> labels = end_labels(sides);
  LineChart levels;
  levels.drawing = {
      .id = id + "-levels", .title = heading_of(measure.measure) + ", day by day", .description = "", .width = wide};
  levels.heading = "Mean of each side";
  levels.unit = level_unit(measure.measure);
  TableData table;
  table.heads = {"Day"};
  for (std::size_t i = 0; i < sides.size(); ++i) {
    levels.lines.push_back({labels[i], css_of(i), sides[i].values});
    table.heads.push_back(sides[i].side);
  }
  levels.ticks = ticks_of(levels);
  name_days(levels, days);
  LineChart differences;
  differences.drawing = {
      .id = id + "-differences", .title = "Differences, day by day", .description = "", .width = wide};
  differences.heading = "Difference of the same day";
  differences.unit = std::string(trials::unit_of(measure.measure));
  for (const trials::SideComparison& one : measure.verdict.comparisons) {
    const auto find = [&sides](const std::string& name) {
      return std::find_if(sides.begin(), sides.end(), [&name](const SideLine& line) { return line.side == name; });
    };
    const auto side = find(one.side);
    const auto against = find(one.against);
    if (side == sides.end() || against == sides.end()) continue;
    std::vector<double> values;
    for (std::size_t d = 0; d < days.size(); ++d) values.push_back(side->values[d] - against->values[d]);
    const std::string name = fmt::format("{} less {}", one.side, one.against);
    differences.drawing.description +=
        fmt::format("{}: {} of {} days below zero. ", name,
                    std::count_if(values.begin(), values.end(), [](double v) { return v < 0.0; }), values.size());
    const auto label = [&](const auto& line) -> const std::string& {
      return labels[static_cast<std::size_t>(line - sides.begin())];
    };
    const std::string ends = fmt::format("{} less {}", label(side), label(against));
    differences.lines.push_back(
        {measure.verdict.comparisons.size() == 1 ? "" : ends, css_of(differences.lines.size()), std::move(values)});
    table.heads.push_back(name);
  }
  if (differences.lines.empty()) return {};
  // Zero belongs into the picture: what lies on one side of it is what the verdict speaks of.
  double least = 0.0;
  double most = 0.0;
  for (const Line& line : differences.lines) {
    for (const double value : line.values) {
      least = std::min(least, value);
      most = std::max(most, value);
    }
  }
  differences.ticks = nice_ticks(least, most, 6);
  name_days(differences, days);
  levels.drawing.description = fmt::format("{} days that every module has.", days.size());
  for (std::size_t d = 0; d < days.size(); ++d) {
    std::vector<std::string> row = {text_from_day(days[d])};
    for (const Line& line : levels.lines) row.push_back(number_in_print(line.values[d]));
    for (const Line& line : differences.lines) row.push_back(number_in_print(line.values[d]));
    table.rows.push_back(std::move(row));
  }
  ChartFigure figure;
  figure.id = id;
  figure.title = heading_of(measure.measure) + ": days held against each other.";
  figure.caption =
      fmt::format("{} days that every module has; each side's mean, and the differences of the same day.", days.size());
  std::vector<LegendItem> legend;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    const std::string& side = sides[i].side;
    legend.push_back({css_of(i), labels[i] == side ? side : fmt::format("{}: {}", labels[i], side), true});
  }
  figure.legend = legend_from(legend);
  figure.panels = {html_from(levels), html_from(differences)};
  figure.table = std::move(table);
  figure.is_wide = true;
  return html_from(figure);
}

Html differences_chart(const TrialJudgeAnswer& answer, const std::string& id) {
  std::map<std::string, IntervalChart> charts;
  TableData table;
  table.heads = {"Difference", "low", "value", "high", "unit", "confidence", "outcome"};
  for (const MeasureAnswer& measure : answer.measures) {
    const std::string unit(trials::unit_of(measure.measure));
    for (const trials::SideComparison& one : measure.verdict.comparisons) {
      if (!one.difference) continue;
      const bool is_told = one.outcome == trials::Outcome::higher || one.outcome == trials::Outcome::lower;
      const std::string words = is_told ? "told apart" : "not told apart";
      const std::string name = fmt::format("{}: {} less {}", heading_of(measure.measure), one.side, one.against);
      IntervalChart& chart = charts[unit];
      // Measure by measure below each other; whose difference it is stands in the heading where there is one pair.
      const std::string label = measure.verdict.comparisons.size() == 1 ? heading_of(measure.measure) : name;
      chart.rows.push_back({label, one.difference->value, one.difference->low, one.difference->high, words,
                            is_told ? "planted" : "bare"});
      chart.heading = measure.verdict.comparisons.size() == 1 ? fmt::format("{} less {}", one.side, one.against)
                                                              : "Differences of the sides";
      table.rows.push_back({name, number_in_print(one.difference->low), number_in_print(one.difference->value),
                            number_in_print(one.difference->high), unit,
                            fmt::format("{:.1f} %", 100.0 * one.interval_confidence_frac), words});
    }
  }
  if (charts.empty()) return {};
  ChartFigure figure;
  figure.id = id;
  figure.title = "Differences with their intervals.";
  figure.caption = "The box is the difference seen, the line its interval. A line that crosses zero: not told apart.";
  int number = 0;
  for (auto& [unit, chart] : charts) {
    chart.unit = unit;
    chart.drawing = {.id = fmt::format("{}-{}", id, ++number),
                     .title = "Differences with their intervals, " + unit,
                     .description = "",
                     .width = wide};
    for (const IntervalRow& row : chart.rows) {
      chart.drawing.description += fmt::format("{}: {} ({} to {}). ", row.name, number_in_print(row.value),
                                               number_in_print(row.low), number_in_print(row.high));
    }
    figure.panels.push_back(html_from(chart));
  }
  figure.table = std::move(table);
  figure.is_wide = true;
  return html_from(figure);
}

Html fitted_chart(const TrialFitAnswer& answer, const std::string& id) {
  ChartFigure figure;
  figure.id = id;
  figure.title = "Measured, and the model before and after the fit.";
  figure.caption = fmt::format("The first {} readings of each place; units \u00B0C.", most_fit_steps);
  figure.is_wide = true;
  figure.table.heads = {"Place and time", "measured", "before", "fitted"};
  for (std::size_t p = 0; p < std::min(most_fit_panels, answer.series.size()); ++p) {
    const FitSeries& series = answer.series[p];
    const std::size_t n = std::min(most_fit_steps, series.at_s.size());
    if (n < 2) continue;
    const auto part = [n](const std::vector<double>& column) {
      return std::vector<double>(column.begin(), column.begin() + static_cast<std::ptrdiff_t>(n));
    };
    LineChart chart;
    chart.drawing = {.id = fmt::format("{}-{}", id, p + 1),
                     .title = series.place + ": measured, before and fitted",
                     .description = fmt::format("{} readings.", n),
                     .width = wide};
    chart.heading = fmt::format("{} ({})", series.place, series.probe);
    chart.unit = "\u00B0C";
    chart.lines = {{"measured", "bare", part(series.measured_c)},
                   {"before", "white", part(series.before_c)},
                   {"fitted", "planted", part(series.fitted_c)}};
    chart.ticks = ticks_of(chart);
    for (std::size_t i = 0; i < n; ++i) {
      const std::string at = text_from_utc(series.at_s[i]);
      chart.step_labels.push_back(at.substr(0, at.size() - 1));
      figure.table.rows.push_back({fmt::format("{}, {}", series.place, chart.step_labels.back()),
                                   number_in_print(series.measured_c[i]), number_in_print(series.before_c[i]),
                                   number_in_print(series.fitted_c[i])});
    }
    figure.panels.push_back(html_from(chart));
  }
  return figure.panels.empty() ? Html() : html_from(figure);
}

}  // namespace houseleek::report
