// A weather file as columns by the hour of the year: header, rows, stamps, numbers, gaps.
#include "climate/csv_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "base/delimited.hpp"
#include "base/nearest_name.hpp"
#include "climate/calendar.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::climate {
namespace {

constexpr int time_column = -1;
constexpr int unknown_column = -2;

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// A field as an issue quotes it: long ones are cut.
std::string quoted(std::string_view text) {
  constexpr std::size_t longest = 40;
  return text.size() <= longest ? fmt::format("'{}'", text) : fmt::format("'{}...'", text.substr(0, longest));
}

std::vector<std::string> known_names() {
  std::vector<std::string> names = {std::string(csv_time_name)};
  for (const CsvColumnLimits& column : csv_columns) names.emplace_back(column.name);
  return names;
}

int column_of_name(std::string_view name) {
  if (name == csv_time_name) return time_column;
  for (std::size_t i = 0; i < n_csv_columns; ++i) {
    if (name == csv_columns[i].name) return static_cast<int>(i);
  }
  return unknown_column;
}

Issue issue_at(const CsvTable& table, const DelimitedField& field, IssueCode code, std::string_view path) {
  Issue issue;
  issue.code = code;
  issue.path = path;
  issue.file = table.file_name;
  issue.line = field.line;
  issue.column = field.column;
  issue.value = field.text;
  return issue;
}

/// Which column each field of a row belongs to; issues go to the table. Nothing if rows cannot be read by it.
class Header {
 public:
  Header(const DelimitedRow& row, CsvTable& table) : table_(table), first_(row.front()) {
    for (const DelimitedField& field : row) add(field);
    require();
  }
  [[nodiscard]] const std::vector<int>& columns() const { return columns_; }
  [[nodiscard]] bool has(CsvColumn column) const {
    return std::find(columns_.begin(), columns_.end(), static_cast<int>(index_of(column))) != columns_.end();
  }

 private:
  void add(const DelimitedField& field) {
    const std::string_view name = trimmed(field.text);
    const int column = column_of_name(name);
    if (column == unknown_column) {
      Issue issue = issue_at(table_, field, IssueCode::unknown_field, name);
      issue.message = fmt::format("there is no column called {}", quoted(name));
      const auto nearest = find_nearest_name(name, known_names());
      issue.hint = nearest ? fmt::format("did you mean {}?", *nearest) : "take the column out, or rename it";
      if (name.find_first_of(";\t") != std::string_view::npos) issue.hint = "fields are parted by commas";
      table_.issues.push_back(std::move(issue));
    } else if (std::find(columns_.begin(), columns_.end(), column) != columns_.end()) {
      Issue issue = issue_at(table_, field, IssueCode::inconsistent, name);
      issue.message = fmt::format("column {} is here a second time", name);
      table_.issues.push_back(std::move(issue));
      columns_.push_back(unknown_column);
      return;
    }
    columns_.push_back(column);
  }

  void miss(std::string_view name, std::string_view hint) {
    Issue issue = issue_at(table_, first_, IssueCode::missing_field, name);
    issue.value.clear();
    issue.message = fmt::format("column {} is missing", name);
    issue.hint = hint;
    table_.issues.push_back(std::move(issue));
  }

  void require() {
    if (std::find(columns_.begin(), columns_.end(), time_column) == columns_.end()) {
      miss(csv_time_name, "the first line must name the columns");
    }
    for (const CsvColumn column : {CsvColumn::air_temperature, CsvColumn::global}) {
      if (!has(column)) miss(csv_columns[index_of(column)].name, "");
    }
    require_rain();
    const int n_humidity = static_cast<int>(has(CsvColumn::vapour_pressure)) +
                           static_cast<int>(has(CsvColumn::dew_point)) +
                           static_cast<int>(has(CsvColumn::relative_humidity));
    if (n_humidity > 1) {
      clash("relative_humidity_percent",
            "give one of vapour_pressure_pa, dew_point_c and relative_humidity_percent; there are more");
    }
  }

  void require_rain() {
    std::size_t n_slots = 0;
    for (std::size_t i = 0; i < n_rain_slots; ++i) n_slots += has(static_cast<CsvColumn>(first_rain_slot + i)) ? 1 : 0;
    if (has(CsvColumn::rain) && n_slots > 0) {
      clash("rain_mm", "give either rain_mm or the six columns of ten minutes; there are both");
    } else if (!has(CsvColumn::rain) && n_slots == 0) {
      miss("rain_mm", "rain cannot be estimated; a year without rain is a column of zeros");
    } else if (n_slots > 0 && n_slots < n_rain_slots) {
      for (std::size_t i = first_rain_slot; i < first_rain_slot + n_rain_slots; ++i) {
        if (!has(static_cast<CsvColumn>(i))) miss(csv_columns[i].name, "rain in six parts of the hour needs all six");
      }
    }
  }

  void clash(std::string_view path, std::string_view message) {
    Issue issue = issue_at(table_, first_, IssueCode::inconsistent, path);
    issue.value.clear();
    issue.message = message;
    table_.issues.push_back(std::move(issue));
  }

  CsvTable& table_;
  DelimitedField first_;
  std::vector<int> columns_;
};

/// Puts rows into the hours of their stamps.
class RowFiller {
 public:
  RowFiller(const Header& header, const Place& place, CsvTable& table)
      : header_(header), place_(place), table_(table), line_of_hour_(n_hours_in_year, 0) {
    for (std::size_t i = 0; i < n_csv_columns; ++i) {
      if (header.has(static_cast<CsvColumn>(i))) table.columns[i].resize(n_hours_in_year);
    }
  }

  void add(const DelimitedRow& row) {
    if (row.size() != header_.columns().size()) {
      Issue issue = issue_at(table_, row.front(), IssueCode::syntax, "");
      issue.value = fmt::format("{}", row.size());
      issue.limit = fmt::format("{}", header_.columns().size());
      issue.message = fmt::format("this row has {} fields; the header has {}", row.size(), header_.columns().size());
      table_.issues.push_back(std::move(issue));
      return;
    }
    const auto time = std::find(header_.columns().begin(), header_.columns().end(), time_column);
    const std::optional<int> hour = hour_of(row[static_cast<std::size_t>(time - header_.columns().begin())]);
    for (std::size_t i = 0; i < row.size(); ++i) {
      const int column = header_.columns()[i];
      if (column < 0) continue;
      const CsvCell cell = cell_of(row[i], static_cast<std::size_t>(column));
      if (hour) table_.columns[static_cast<std::size_t>(column)][static_cast<std::size_t>(*hour)] = cell;
    }
  }

  [[nodiscard]] bool has_any_stamp() const { return table_.year != 0; }

 private:
  /// Nothing if the stamp cannot be used, or on 29 February.
  std::optional<int> hour_of(const DelimitedField& field) {
    const std::optional<TimeStamp> stamp = time_stamp_from_text(trimmed(field.text));
    if (!stamp) {
      report(field, IssueCode::wrong_type,
             fmt::format("time is {}; it must be like 2023-01-31T05:00", quoted(field.text)), "");
      return std::nullopt;
    }
    if (table_.year == 0) table_.year = stamp->year;
    if (!is_usable(*stamp, field)) return std::nullopt;
    const int rank = (stamp->month * 32 + stamp->day) * n_hours_in_day + stamp->hour;
    const bool is_backward = rank < last_rank_;
    const bool is_same = rank == last_rank_;
    last_rank_ = rank;
    if (is_leap_day(*stamp)) {
      ++table_.n_leap_day_rows;
      if (is_same || is_backward) report_order(field, 0);
      return std::nullopt;
    }
    const int hour = hour_of_year(*stamp);
    int& line = line_of_hour_[static_cast<std::size_t>(hour)];
    if (line != 0 || is_backward) {
      report_order(field, line);
      if (line != 0) return std::nullopt;
    }
    line = field.line;
    return hour;
  }

  bool is_usable(const TimeStamp& stamp, const DelimitedField& field) {
    if (stamp.year != table_.year) {
      report(field, IssueCode::inconsistent,
             fmt::format("time is in the year {}; the file began with {}", stamp.year, table_.year),
             "a file holds one calendar year");
      return false;
    }
    if (stamp.minute != 0 || stamp.second != 0) {
      report(field, IssueCode::out_of_range,
             fmt::format("time is {}; a row must begin at a full hour", quoted(field.text)), "");
      return false;
    }
    if (stamp.utc_offset_min && static_cast<double>(*stamp.utc_offset_min) != 60.0 * place_.utc_offset_h) {
      report(field, IssueCode::inconsistent,
             fmt::format("time is {}; the place's standard time is {:+} h from UTC", quoted(field.text),
                         place_.utc_offset_h),
             "write local standard time the whole year round, without daylight saving");
      return false;
    }
    return true;
  }

  void report_order(const DelimitedField& field, int earlier_line) {
    const std::string message =
        earlier_line != 0
            ? fmt::format("time {} is here a second time; the first is in line {}", quoted(field.text), earlier_line)
            : fmt::format("time {} goes back", quoted(field.text));
    report(field, IssueCode::inconsistent, message,
           "clocks put back in autumn? write local standard time the whole year round");
  }

  CsvCell cell_of(const DelimitedField& field, std::size_t column) {
    CsvCell cell;
    cell.line = field.line;
    cell.column = field.column;
    if (trimmed(field.text).empty()) return cell;
    const CsvColumnLimits& limits = csv_columns[column];
    const std::optional<double> number = number_from_text(field.text);
    if (!number) {
      Issue issue = issue_at(table_, field, IssueCode::wrong_type, limits.name);
      issue.message = fmt::format("{} is {}; it must be a number", limits.name, quoted(field.text));
      issue.hint = "a missing value is an empty field";
      table_.issues.push_back(std::move(issue));
      return cell;
    }
    cell.value = *number;
    cell.is_known = true;
    if (*number < limits.least || *number > limits.most) {
      Issue issue = issue_at(table_, field, IssueCode::out_of_range, limits.name);
      issue.limit = fmt::format("{} to {}", limits.least, limits.most);
      issue.message = fmt::format("{} is {}; it must be from {} to {}", limits.name, trimmed(field.text), limits.least,
                                  limits.most);
      issue.hint = "a missing value is an empty field";
      table_.issues.push_back(std::move(issue));
    }
    return cell;
  }

  void report(const DelimitedField& field, IssueCode code, std::string message, std::string hint) {
    Issue issue = issue_at(table_, field, code, csv_time_name);
    issue.message = std::move(message);
    issue.hint = std::move(hint);
    table_.issues.push_back(std::move(issue));
  }

  const Header& header_;
  const Place& place_;
  CsvTable& table_;
  std::vector<int> line_of_hour_;
  int last_rank_ = 0;
};

/// Runs of hours without a value, round the end of the year.
struct Run {
  int first_hour;
  int n_hours;
};

std::vector<Run> runs_without_value(const CsvCells& cells) {
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
int first_hour_with_row(const CsvCells& cells, const Run& run) {
  for (int i = 0; i < run.n_hours; ++i) {
    const int hour = (run.first_hour + i) % static_cast<int>(cells.size());
    if (cells[static_cast<std::size_t>(hour)].line != 0) return hour;
  }
  return -1;
}

/// A cell that does have a row: the first behind the run, or the last before it at the end of the year.
CsvCell neighbour_of(const CsvCells& cells, const Run& run) {
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

Issue issue_of_cell(const CsvTable& table, CsvColumn column, const CsvCell& cell, IssueCode code, std::string message,
                    std::string hint) {
  Issue issue;
  issue.code = code;
  issue.path = csv_columns[index_of(column)].name;
  issue.file = table.file_name;
  issue.line = cell.line;
  issue.column = cell.column;
  issue.value = fmt::format("{}", cell.value);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

Result<CsvTable> read_csv_table(std::string_view text, std::string_view file_name, const Place& place) {
  const Result<std::vector<DelimitedRow>> parsed = parse_delimited(text, file_name);
  if (!parsed) return Unexpected{parsed.error()};
  CsvTable table;
  table.file_name = file_name;
  const std::vector<DelimitedRow>& rows = parsed.value();
  if (rows.size() < 2) {
    Issue issue;
    issue.code = IssueCode::missing_field;
    issue.file = table.file_name;
    issue.message = rows.empty() ? "the file is empty" : "the file has no rows below its first line";
    issue.hint = "a header line that names the columns, then one row an hour";
    return Unexpected{{std::move(issue)}};
  }
  const Header header(rows.front(), table);
  if (!table.issues.empty()) return Unexpected{std::move(table.issues)};
  RowFiller filler(header, place, table);
  for (std::size_t i = 1; i < rows.size(); ++i) filler.add(rows[i]);
  if (!filler.has_any_stamp()) return Unexpected{std::move(table.issues)};
  for (const CsvCell& cell : table.cells(CsvColumn::air_temperature)) table.n_missing_rows += cell.line == 0 ? 1 : 0;
  return table;
}

void add_issues_of_gaps(CsvTable& table) {
  bool are_rows_judged = false;
  for (std::size_t i = 0; i < n_csv_columns; ++i) {
    const CsvCells& cells = table.columns[i];
    if (cells.empty()) continue;
    for (const Run& run : runs_without_value(cells)) {
      if (run.n_hours <= longest_gap_h) continue;
      const int hour = first_hour_with_row(cells, run);
      if (hour < 0 && are_rows_judged) continue;
      Issue issue;
      issue.code = IssueCode::missing_field;
      issue.file = table.file_name;
      const CsvCell cell = hour < 0 ? neighbour_of(cells, run) : cells[static_cast<std::size_t>(hour)];
      issue.line = cell.line;
      issue.column = hour < 0 ? 1 : cell.column;
      issue.path = hour < 0 ? csv_time_name : csv_columns[i].name;
      issue.value = fmt::format("{} h", run.n_hours);
      issue.limit = fmt::format("{} h", longest_gap_h);
      issue.message = fmt::format("{} for {} hours from {}; gaps of up to {} hours are filled in",
                                  hour < 0 ? "there are no rows" : fmt::format("{} has no value", csv_columns[i].name),
                                  run.n_hours, text_from_hour_of_year(table.year, run.first_hour), longest_gap_h);
      table.issues.push_back(std::move(issue));
    }
    are_rows_judged = true;
  }
}

}  // namespace houseleek::climate
