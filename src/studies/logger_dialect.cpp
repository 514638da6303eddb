// A logger's dialect told from the first lines of its file.
#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <map>

#include "base/civil_time.hpp"
#include "base/zone.hpp"
#include "climate/file_rows.hpp"
#include "climate/file_words.hpp"
#include "studies/logger_file.hpp"
#include "studies/logger_stamp.hpp"

namespace houseleek::studies {
namespace {

using climate::DateOrder;
using climate::Unit;

constexpr double most_of = 0.9;  // a title or a note among the rows must not decide what a column is
constexpr std::int64_t longest_jump_s = 2 * n_seconds_in_civil_day;

std::optional<climate::StampText> time_from(std::string_view field) {
  const std::string_view text = climate::trimmed(field);
  std::optional<climate::StampText> stamp = climate::stamp_text_from(text);
  // Four digits alone may be a clock time, and a number just as well.
  if (stamp && !stamp->has_date && !stamp->epoch_s && text.find(':') == std::string_view::npos) return std::nullopt;
  return stamp;
}

bool is_number(std::string_view field) {
  std::string text(climate::trimmed(field));
  if (text.find('.') == std::string::npos) std::replace(text.begin(), text.end(), ',', '.');
  return number_from_text(text).has_value();
}

class DialectFinder {
 public:
  DialectFinder(std::vector<DelimitedRow> rows, std::string_view file_name, const std::string& zone,
                const LoggerRules& rules)
      : rows_(std::move(rows)), file_name_(file_name), zone_(zone), rules_(rules) {}

  Result<LoggerDialect> find(char delimiter) {
    dialect_.delimiter = delimiter;
    find_width();
    if (!find_times()) return Unexpected{std::move(issues_)};
    find_mark();
    find_columns();
    find_date_order();
    find_clock();
    if (!issues_.empty()) return Unexpected{std::move(issues_)};
    return std::move(dialect_);
  }

 private:
  [[nodiscard]] bool is_whole(const DelimitedRow& row) const {
    const bool has_empty_tail = row.size() == dialect_.n_fields + 1 && climate::trimmed(row.back().text).empty();
    return row.size() == dialect_.n_fields || has_empty_tail;
  }

  void find_width() {
    std::map<std::size_t, int> n_rows_by_width;
    for (const DelimitedRow& row : rows_) ++n_rows_by_width[row.size()];
    const auto usual = std::max_element(n_rows_by_width.begin(), n_rows_by_width.end(),
                                        [](const auto& a, const auto& b) { return a.second < b.second; });
    dialect_.n_fields = usual->first;
  }

  [[nodiscard]] Issue issue_at(const DelimitedField& field, std::string_view path, std::string message,
                               std::string hint) const {
    Issue issue;
    issue.code = IssueCode::inconsistent;
    issue.path = path;
    issue.file = file_name_;
    issue.line = field.line;
    issue.column = field.column;
    issue.value = field.text;
    issue.message = std::move(message);
    issue.hint = std::move(hint);
    return issue;
  }

  /// The fields of the time, and where the rows begin.
  bool find_times() {
    std::size_t n_rows = 0;
    std::vector<std::size_t> n_dates(dialect_.n_fields, 0);
    std::vector<std::size_t> n_clocks(dialect_.n_fields, 0);
    for (const DelimitedRow& row : rows_) {
      if (!is_whole(row)) continue;
      ++n_rows;
      for (std::size_t at = 0; at < dialect_.n_fields; ++at) {
        const std::optional<climate::StampText> stamp = time_from(row[at].text);
        if (!stamp) continue;
        (stamp->has_date || stamp->epoch_s ? n_dates : n_clocks)[at] += 1;
      }
    }
    // A header and a line of units are no times.
    const double least = most_of * std::max(1.0, static_cast<double>(n_rows) - 2.0);
    const auto first_of = [least](const std::vector<std::size_t>& counts) {
      return std::find_if(counts.begin(), counts.end(),
                          [least](std::size_t n) { return static_cast<double>(n) >= least; });
    };
    const auto date = first_of(n_dates);
    if (date == n_dates.end()) {
      issues_.push_back(issue_at(rows_.back().front(), "time", "no column of this file holds dates",
                                 "a logger's file has a column with a date and a time in each row"));
      return false;
    }
    dialect_.time_fields = {static_cast<std::size_t>(date - n_dates.begin())};
    const auto clock = first_of(n_clocks);
    if (clock != n_clocks.end()) dialect_.time_fields.push_back(static_cast<std::size_t>(clock - n_clocks.begin()));
    while (first_row_ < rows_.size() && !(is_whole(rows_[first_row_]) && stamp_of(rows_[first_row_]))) ++first_row_;
    dialect_.n_lines_before_rows = rows_[first_row_].front().line - 1;
    const climate::StampText first = *stamp_of(rows_[first_row_]);
    if (!first.has_clock && !first.epoch_s) {
      issues_.push_back(issue_at(rows_[first_row_][dialect_.time_fields.front()], "time",
                                 "the rows have a date and no time of day", "readings want both"));
      return false;
    }
    return true;
  }

  [[nodiscard]] std::optional<climate::StampText> stamp_of(const DelimitedRow& row) const {
    if (!is_whole(row)) return std::nullopt;
    std::optional<climate::StampText> stamp = time_from(row[dialect_.time_fields.front()].text);
    if (!stamp || dialect_.time_fields.size() == 1) return stamp;
    const std::optional<climate::StampText> clock = time_from(row[dialect_.time_fields.back()].text);
    return clock ? std::optional(joined_stamp(*stamp, *clock)) : std::nullopt;
  }

  [[nodiscard]] bool is_time_field(std::size_t at) const {
    const auto& fields = dialect_.time_fields;
    return std::find(fields.begin(), fields.end(), at) != fields.end();
  }

  void find_mark() {
    const DelimitedField* comma = nullptr;
    const DelimitedField* point = nullptr;
    for (std::size_t row = first_row_; row < rows_.size(); ++row) {
      if (!is_whole(rows_[row])) continue;
      for (std::size_t at = 0; at < dialect_.n_fields; ++at) {
        const DelimitedField& field = rows_[row][at];
        if (is_time_field(at) || !is_number(field.text)) continue;
        if (field.text.find(',') != std::string::npos) comma = &field;
        if (field.text.find('.') != std::string::npos) point = &field;
      }
    }
    dialect_.has_decimal_comma = comma != nullptr;
    if (comma != nullptr && point != nullptr) {
      issues_.push_back(issue_at(*comma, "decimal_mark", "some numbers have a decimal comma, others a point",
                                 "export the file once more, all numbers alike"));
    }
    dialect_.findings.push_back({"decimal mark", comma != nullptr ? "comma" : "point", "in the first rows"});
  }

  /// The words above a column: its header, with the unit of a line of units below it.
  [[nodiscard]] std::string header_of(std::size_t at) const {
    std::string header;
    for (std::size_t row = 0; row < first_row_; ++row) {
      if (!is_whole(rows_[row])) continue;
      const std::string text(climate::trimmed(rows_[row][at].text));
      if (header.empty()) {
        header = text;
      } else if (climate::unit_from_text(text)) {
        header += fmt::format(" ({})", text);
      }
    }
    return header;
  }

  /// The unit in brackets, or the last word; what is left is the name.
  [[nodiscard]] static std::optional<Unit> take_unit(std::string& header) {
    for (const auto& [open, close] : {std::pair{'(', ')'}, std::pair{'[', ']'}}) {
      const std::size_t begin = header.find(open);
      const std::size_t end = header.find(close, begin == std::string::npos ? 0 : begin);
      if (begin == std::string::npos || end == std::string::npos) continue;
      const std::optional<Unit> unit = climate::unit_from_text(header.substr(begin + 1, end - begin - 1));
      if (!unit) continue;
      header = std::string(climate::trimmed(header.substr(0, begin)));
      return unit;
    }
    const std::size_t last = header.find_last_of(" ,_");
    if (last == std::string::npos) return std::nullopt;
    const std::optional<Unit> unit = climate::unit_from_text(header.substr(last + 1));
    if (unit) header = std::string(climate::trimmed(header.substr(0, header.find_last_not_of(" ,_", last) + 1)));
    return unit;
  }

  /// T1, temperature, or a column without a header: likely a thermometer that does not say its unit.
  [[nodiscard]] static bool may_be_temperature(const std::string& header) {
    if (header.empty()) return true;
    if (climate::meaning_of_header(header).quantity == climate::WeatherColumn::air_temperature) return true;
    const std::string folded = climate::folded_header(header);
    if (folded.find("temp") != std::string::npos) return true;
    return folded.front() == 't' && folded.find_first_not_of("0123456789 ", 1) == std::string::npos;
  }

  void find_columns() {
    std::vector<std::string> headers;
    for (std::size_t at = 0; at < dialect_.n_fields; ++at) {
      if (!is_time_field(at)) add_column(at, headers);
    }
    if (dialect_.columns.empty() && issues_.empty()) {
      issues_.push_back(issue_at(rows_[first_row_].front(), "columns", "no column of this file holds temperatures",
                                 "a header says the quantity and its unit: temperature (degC)"));
    }
    for (std::size_t i = 0; i < dialect_.columns.size(); ++i) {
      LoggerColumnUse& use = dialect_.columns[i];
      use.sensor = rules_.logger;
      if (dialect_.columns.size() > 1) use.sensor += " " + headers[i];
      dialect_.findings.push_back({fmt::format("column {}", use.at + 1), use.sensor,
                                   fmt::format("{} in {}", use.quantity, climate::text_from_unit(use.unit))});
    }
  }

  void add_column(std::size_t at, std::vector<std::string>& headers) {
    std::size_t n_values = 0;
    std::size_t n_numbers = 0;
    for (std::size_t row = first_row_; row < rows_.size(); ++row) {
      if (!is_whole(rows_[row]) || climate::is_missing_word(rows_[row][at].text)) continue;
      ++n_values;
      n_numbers += is_number(rows_[row][at].text) ? 1 : 0;
    }
    std::string header = header_of(at);
    const std::string shown = header.empty() ? fmt::format("column {}", at + 1) : header;
    const bool is_humidity = climate::meaning_of_header(header).quantity == climate::WeatherColumn::relative_humidity;
    std::optional<Unit> unit = take_unit(header);
    const bool has_numbers = n_values > 0 && static_cast<double>(n_numbers) >= most_of * static_cast<double>(n_values);
    if (is_humidity && !unit) unit = Unit::percent;
    if (has_numbers && !unit && may_be_temperature(header)) {
      if (!rules_.unit) {
        issues_.push_back(issue_at(rows_[first_row_][at], "unit",
                                   fmt::format("the column \"{}\" does not say its unit", shown),
                                   "say it with --unit degC (or degF)"));
        return;
      }
      unit = rules_.unit;
    }
    const bool is_temperature = unit == Unit::deg_c || unit == Unit::deg_f || unit == Unit::kelvin;
    const bool is_kept = has_numbers && (is_temperature || (is_humidity && unit == Unit::percent));
    if (!is_kept) {
      dialect_.findings.push_back({fmt::format("column {}", at + 1), "left out", shown});
      return;
    }
    dialect_.columns.push_back({at, "", is_temperature ? "temperature_c" : "humidity_percent", *unit});
    headers.push_back(header.empty() ? shown : header);
  }

  /// Dates that are none, and days that jump.
  [[nodiscard]] int count_faults(DateOrder order) const {
    int n_faults = 0;
    std::optional<std::int64_t> last_s;
    for (std::size_t row = first_row_; row < rows_.size(); ++row) {
      const std::optional<climate::StampText> stamp = stamp_of(rows_[row]);
      if (!stamp || stamp->epoch_s) continue;
      const std::optional<std::int64_t> at_s = shown_second(*stamp, order);
      if (!at_s || (last_s && std::abs(*at_s - *last_s) > longest_jump_s)) ++n_faults;
      if (at_s) last_s = at_s;
    }
    return n_faults;
  }

  void find_date_order() {
    const climate::StampText first = *stamp_of(rows_[first_row_]);
    if (first.is_year_first || first.epoch_s) return;
    if (rules_.date_order) {
      dialect_.date_order = *rules_.date_order;
      return;
    }
    const int n_day_first = count_faults(DateOrder::day_first);
    const int n_month_first = count_faults(DateOrder::month_first);
    if (n_day_first == n_month_first) {
      issues_.push_back(issue_at(rows_[first_row_][dialect_.time_fields.front()], "date_order",
                                 "the dates may be read with the day first or with the month first",
                                 "say it with --date-order day_first (or month_first)"));
      return;
    }
    dialect_.date_order = n_day_first < n_month_first ? DateOrder::day_first : DateOrder::month_first;
    dialect_.findings.push_back({"date order", n_day_first < n_month_first ? "day_first" : "month_first",
                                 "read otherwise dates are not on the calendar, or jump"});
  }

  void find_clock() {
    const climate::StampText first = *stamp_of(rows_[first_row_]);
    const std::optional<std::int64_t> first_s = shown_second(first, dialect_.date_order);
    const std::optional<climate::StampText> last = stamp_of(rows_.back());
    const std::optional<std::int64_t> last_s = last ? shown_second(*last, dialect_.date_order) : std::nullopt;
    dialect_.is_newest_first = first_s && last_s && *last_s < *first_s;
    dialect_.has_offsets = first.epoch_s || first.utc_offset_min;
    if (dialect_.has_offsets) return;
    const bool says_utc = climate::meaning_of_header(header_of(dialect_.time_fields.front())).says_utc;
    if (rules_.clock || says_utc) {
      dialect_.clock = rules_.clock.value_or(climate::FileClock::utc);
      return;
    }
    const int year = first_s ? std::stoi(text_from_utc(*first_s).substr(0, 4)) : 1970;
    const std::optional<ZoneInfo> zone = find_zone(zone_, year);
    expects(zone.has_value(), "a time zone that is known");
    if (!zone->has_daylight_saving) return;
    issues_.push_back(issue_at(rows_[first_row_][dialect_.time_fields.front()], "clock",
                               "the file does not say whether the logger's clock was put forward in summer",
                               "say it with --clock standard (never put forward), daylight_saving or utc"));
  }

  std::vector<DelimitedRow> rows_;
  std::string_view file_name_;
  const std::string& zone_;
  const LoggerRules& rules_;
  LoggerDialect dialect_;
  std::size_t first_row_ = 0;
  Issues issues_;
};

/// What one way to part the fields makes of a file.
struct Attempt {
  Result<LoggerDialect> dialect;
  std::vector<climate::Finding> findings;
};

Attempt attempt(std::string_view first_lines, std::string_view file_name, const std::string& zone,
                const LoggerRules& rules, std::optional<char> delimiter) {
  climate::FileReport report;
  climate::FileRules file_rules;
  file_rules.delimiter = delimiter;
  Result<climate::FileRows> rows = climate::split_rows(first_lines, file_name, file_rules, report);
  if (!rows) return {Unexpected{rows.error()}, {}};
  const char found = rows.value().delimiter;
  return {DialectFinder(std::move(rows).value().rows, file_name, zone, rules).find(found), report.findings};
}

bool is_about(const Attempt& attempt, std::initializer_list<std::string_view> paths) {
  if (attempt.dialect) return false;
  const Issues& issues = attempt.dialect.error();
  return std::any_of(issues.begin(), issues.end(), [paths](const Issue& issue) {
    return std::any_of(paths.begin(), paths.end(), [&issue](std::string_view path) { return issue.path == path; });
  });
}

}  // namespace

Result<LoggerDialect> find_logger_dialect(std::string_view first_lines, std::string_view file_name,
                                          const std::string& zone, const LoggerRules& rules) {
  Attempt best = attempt(first_lines, file_name, zone, rules, std::nullopt);
  if (is_about(best, {"climate.layout.delimiter"})) {
    // By the counts of fields several signs could part them; dates and temperatures come out under one.
    std::vector<Attempt> others;
    for (const char delimiter : {',', ';', '\t', '|', ' '}) {
      Attempt other = attempt(first_lines, file_name, zone, rules, delimiter);
      if (other.dialect || !is_about(other, {"", "time", "columns"})) others.push_back(std::move(other));
    }
    if (others.size() != 1) {
      Issues issues = best.dialect.error();
      for (Issue& issue : issues) {
        issue.path = "delimiter";
        issue.hint = "export the file once more, with a semicolon between the fields";
      }
      return Unexpected{std::move(issues)};
    }
    best = std::move(others.front());
    for (climate::Finding& finding : best.findings) {
      if (finding.about == "delimiter") finding.evidence = "under it alone the rows hold dates and temperatures";
    }
  }
  if (!best.dialect) return Unexpected{best.dialect.error()};
  LoggerDialect found = std::move(best.dialect).value();
  found.findings.insert(found.findings.begin(), best.findings.begin(), best.findings.end());
  return found;
}

}  // namespace houseleek::studies
