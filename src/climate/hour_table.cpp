// Gaps of an hour table: runs of hours without a value, and their places.
#include "climate/hour_table.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "climate/calendar.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::climate {
namespace {

/// Runs of hours without a value, round the end of the year.
struct Run {
  int first_hour;
  int n_hours;
};

std::vector<Run> runs_without_value(const HourCells& cells) {
  std::vector<Run> runs;
  const int n = static_cast<int>(cells.size());
  const auto is_known = [&](int hour) { return cells[static_cast<std::size_t>(hour % n)].is_known; };
  int start = 0;
  while (start < n && !is_known(start)) ++start;
  if (start == n) return {{0, n}};
  for (int hour = start; hour < start + n; ++hour) {
    if (is_known(hour)) continue;
    Run run = {hour % n, 0};
    while (!is_known(hour)) {
      ++run.n_hours;
      ++hour;
    }
    runs.push_back(run);
  }
  return runs;
}

/// First hour of a run that has a row, whose field is then empty or wrong; -1 if no hour of the run has a row.
int first_hour_with_row(const HourCells& cells, const Run& run) {
  for (int i = 0; i < run.n_hours; ++i) {
    const int hour = (run.first_hour + i) % static_cast<int>(cells.size());
    if (cells[static_cast<std::size_t>(hour)].line != 0) return hour;
  }
  return -1;
}

/// A cell that does have a row: the first behind the run, or the last before it at the end of the year.
HourCell neighbour_of(const HourCells& cells, const Run& run) {
  const int n = static_cast<int>(cells.size());
  for (int hour = run.first_hour + run.n_hours; hour < n; ++hour) {
    if (cells[static_cast<std::size_t>(hour)].line != 0) return cells[static_cast<std::size_t>(hour)];
  }
  for (int hour = n - 1; hour >= 0; --hour) {
    if (cells[static_cast<std::size_t>(hour)].line != 0) return cells[static_cast<std::size_t>(hour)];
  }
  return {};
}

}  // namespace

Issue issue_of_cell(const HourTable& table, WeatherColumn column, const HourCell& cell, IssueCode code,
                    std::string message, std::string hint) {
  Issue issue;
  issue.code = code;
  issue.path = weather_columns[index_of(column)].name;
  issue.file = table.file_name;
  issue.line = cell.line;
  issue.column = cell.column;
  issue.value = fmt::format("{}", cell.value);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

void add_issues_of_gaps(HourTable& table) {
  bool are_rows_judged = false;
  for (std::size_t i = 0; i < n_weather_columns; ++i) {
    const HourCells& cells = table.columns[i];
    if (cells.empty()) continue;
    for (const Run& run : runs_without_value(cells)) {
      if (run.n_hours <= longest_gap_h) continue;
      const int hour = first_hour_with_row(cells, run);
      if (hour < 0 && are_rows_judged) continue;
      Issue issue;
      issue.code = IssueCode::missing_field;
      issue.file = table.file_name;
      const HourCell cell = hour < 0 ? neighbour_of(cells, run) : cells[static_cast<std::size_t>(hour)];
      issue.line = cell.line;
      issue.column = hour < 0 ? 1 : cell.column;
      issue.path = hour < 0 ? time_column_name : weather_columns[i].name;
      issue.value = fmt::format("{} h", run.n_hours);
      issue.limit = fmt::format("{} h", longest_gap_h);
      issue.message =
          fmt::format("{} for {} hours from {}; gaps of up to {} hours are filled in",
                      hour < 0 ? "there are no rows" : fmt::format("{} has no value", weather_columns[i].name),
                      run.n_hours, text_from_hour_of_year(table.year, run.first_hour), longest_gap_h);
      table.issues.push_back(std::move(issue));
    }
    are_rows_judged = true;
  }
}

bool is_complete(const HourTable& table) {
  for (const HourCells& cells : table.columns) {
    if (cells.empty()) continue;
    for (const Run& run : runs_without_value(cells)) {
      if (run.n_hours > longest_gap_h) return false;
    }
  }
  return true;
}

}  // namespace houseleek::climate
