// A weather file of any layout turned into a year of hours: the steps in their order, and which year is used.
#include "climate/read_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

#include "base/issue_text.hpp"
#include "climate/build_year.hpp"
#include "climate/file_body.hpp"
#include "climate/file_choose_units.hpp"
#include "climate/file_clock.hpp"
#include "climate/file_columns.hpp"
#include "climate/file_rows.hpp"
#include "climate/hour_table.hpp"
#include "climate/judge_table.hpp"
#include "climate/sun_columns.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::climate {
namespace {

void append(Issues& issues, Issues more) {
  for (Issue& issue : more) issues.push_back(std::move(issue));
}

/// Rows by the calendar year they begin in.
std::map<int, int> rows_by_year(const RowTimes& times) {
  std::map<int, int> n_by_year;
  for (std::size_t row = 0; row < times.begin_min.size(); ++row) {
    if (!times.is_known[row]) continue;
    int minute_of_day = 0;
    ++n_by_year[date_from_minute(times.begin_min[row], minute_of_day).year];
  }
  return n_by_year;
}

std::string text_of_years(const std::vector<int>& years) {
  std::string text;
  for (const int year : years) text += fmt::format("{}{}", text.empty() ? "" : ", ", year);
  return text;
}

class YearChooser {
 public:
  YearChooser(const FileBody& body, const RowTimes& times, const FileRequest& request, FileReport& report)
      : body_(body), times_(times), request_(request), report_(report) {}

  Result<HourTable> choose() {
    for (const auto& [year, n_rows] : rows_by_year(times_)) {
      years_.push_back(year);
      n_rows_.push_back(n_rows);
    }
    for (const int year : years_) {
      if (is_complete(table_of(year, false))) report_.complete_years.push_back(year);
    }
    if (request_.nth_year > 0) return of_ensemble();
    if (request_.rules.year) return chosen_by_person(*request_.rules.year);
    const std::string all = text_of_years(years_);
    if (!report_.complete_years.empty()) {
      const int year = report_.complete_years.back();
      report_.findings.push_back(
          {"year", fmt::format("{}", year),
           years_.size() == 1
               ? std::string("the file has no other")
               : fmt::format("the latest without a longer gap of {}; [climate] year = ... takes another", all)});
      return table_of(year, false);
    }
    return best_of_incomplete(all);
  }

 private:
  [[nodiscard]] HourTable table_of(int year, bool has_neighbours) const {
    return hours_of_year(body_, times_, request_.file_name, year, has_neighbours);
  }

  Result<HourTable> chosen_by_person(int year) {
    if (std::find(years_.begin(), years_.end(), year) == years_.end()) {
      return Unexpected{
          {issue_of_year(fmt::format("{}", year), text_of_years(years_),
                         fmt::format("climate.year is {}; the file has {}", year, text_of_years(years_)))}};
    }
    report_.findings.push_back({"year", fmt::format("{}", year), "fixed under [climate]"});
    return table_of(year, false);
  }

  /// The other years of an ensemble: complete ones only, the year in use first.
  Result<HourTable> of_ensemble() {
    std::vector<int> years(report_.complete_years.rbegin(), report_.complete_years.rend());
    if (request_.rules.year) {
      std::erase(years, *request_.rules.year);
      years.insert(years.begin(), *request_.rules.year);
    }
    const std::size_t nth = static_cast<std::size_t>(request_.nth_year);
    if (nth < years.size()) return table_of(years[nth], false);
    return Unexpected{{issue_of_year(
        fmt::format("{}", nth + 1), fmt::format("{}", years.size()),
        years.size() <= 1 ? std::string("the file holds one year of weather; a range cannot come from it")
                          : fmt::format("the file holds {} complete years ({}), not {}", years.size(),
                                        text_of_years(report_.complete_years), nth + 1))}};
  }

  /// Twelve months across the turn of a year, or a UTC year at another longitude, are one year with its ends swapped.
  Result<HourTable> best_of_incomplete(const std::string& all) {
    std::size_t best = 0;
    for (std::size_t i = 0; i < years_.size(); ++i) {
      if (n_rows_[i] >= n_rows_[best]) best = i;
    }
    HourTable with_neighbours = table_of(years_[best], true);
    if (years_.size() > 1 && is_complete(with_neighbours)) {
      report_.findings.push_back({"year", fmt::format("{}", years_[best]),
                                  fmt::format("most rows of {}; {} hours of the years beside complete it", all,
                                              with_neighbours.n_borrowed_hours)});
      return with_neighbours;
    }
    report_.findings.push_back({"year", fmt::format("{}", years_[best]), fmt::format("most rows of {}", all)});
    return table_of(years_[best], false);
  }

  [[nodiscard]] Issue issue_of_year(std::string value, std::string limit, std::string message) const {
    Issue issue;
    issue.code = IssueCode::out_of_range;
    issue.path = "climate.year";
    issue.file = request_.file_name;
    issue.line = body_.line.front();
    issue.column = body_.column_of_time.front();
    issue.value = std::move(value);
    issue.limit = std::move(limit);
    issue.message = std::move(message);
    return issue;
  }

  const FileBody& body_;
  const RowTimes& times_;
  const FileRequest& request_;
  FileReport& report_;
  std::vector<int> years_;
  std::vector<int> n_rows_;
};

void report_columns(const FileBody& body, FileReport& report) {
  for (const NumberColumn& column : body.columns) {
    UsedColumn used;
    used.name = info_of(*column.use.quantity).name;
    used.header = column.use.header;
    used.number = static_cast<int>(column.use.at) + 1;
    used.unit = text_from_unit(*column.use.unit);
    used.unit_evidence = column.use.unit_evidence;
    for (const FileNumber& number : column.numbers) ++(number.is_known ? used.n_values : used.n_missing);
    report.columns.push_back(std::move(used));
  }
  std::sort(report.columns.begin(), report.columns.end(),
            [](const UsedColumn& a, const UsedColumn& b) { return a.number < b.number; });
}

/// Six parts of an hour are parts of a row that is an hour.
Issues issues_of_parts(const FileBody& body, std::string_view file_name) {
  const NumberColumn* part = body.find(WeatherColumn::rain_0_10);
  if (part == nullptr || body.step_min == 60) return {};
  Issue issue;
  issue.code = IssueCode::inconsistent;
  issue.path = info_of(WeatherColumn::rain_0_10).name;
  issue.file = file_name;
  issue.line = body.line.front();
  issue.column = part->numbers.front().column;
  issue.message =
      fmt::format("rain in six parts of the hour needs one row an hour; rows are {} minutes apart", body.step_min);
  return {std::move(issue)};
}

}  // namespace

Result<WeatherFile> read_weather_file(const FileRequest& request) {
  constexpr int any_year = 2000;
  Issues issues = issues_of_place(request.place, any_year, "place");
  if (!issues.empty()) return Unexpected{std::move(issues)};
  FileReport report;
  const Result<FileRows> rows = split_rows(request.text, request.file_name, request.rules, report);
  if (!rows) return Unexpected{sorted_by_place(rows.error())};
  const Result<FileColumns> columns = find_columns(rows.value(), request.file_name, request.rules, report);
  if (!columns) return Unexpected{sorted_by_place(columns.error())};
  Result<FileBody> read = read_body(rows.value(), columns.value(), request.file_name, request.rules, report);
  if (!read) return Unexpected{sorted_by_place(read.error())};
  FileBody body = std::move(read).value();
  append(issues, issues_of_parts(body, request.file_name));
  const Result<RowTimes> times =
      find_clock(body, columns.value(), request.place, request.offsets, request.file_name, request.rules, report);
  if (!times) {
    append(issues, times.error());
    append(issues, std::move(body.issues));
    return Unexpected{sorted_by_place(std::move(issues))};
  }
  append(issues, choose_units(body, times.value(), request.place, request.file_name));
  append(issues, std::move(body.issues));
  const bool has_all_units = std::all_of(body.columns.begin(), body.columns.end(),
                                         [](const NumberColumn& column) { return column.use.unit.has_value(); });
  if (!has_all_units && !issues.empty()) return Unexpected{sorted_by_place(std::move(issues))};
  for (NumberColumn& column : body.columns) {
    // Only a column without any value is left: it has its issue as a gap.
    if (!column.use.unit) column.use.unit = units_of(*column.use.quantity).front();
  }
  report_columns(body, report);
  Result<HourTable> chosen = YearChooser(body, times.value(), request, report).choose();
  if (!chosen) {
    append(issues, chosen.error());
    return Unexpected{sorted_by_place(std::move(issues))};
  }
  HourTable table = std::move(chosen).value();
  append(table.issues, std::move(issues));
  issues = issues_of_place(request.place, table.year, "time");
  if (!issues.empty()) {
    issues.front().file = request.file_name;
    return Unexpected{std::move(issues)};
  }
  WeatherYear sun = make_year_with_sun(request.place, table.year);
  add_issues_of_gaps(table);
  judge_table(table, sun);
  if (!table.issues.empty()) return Unexpected{sorted_by_place(std::move(table.issues))};
  WeatherFile file;
  file.year = build_year(table, std::move(sun), report);
  file.report = std::move(report);
  return file;
}

}  // namespace houseleek::climate
