// A logger's rows, streamed into a project.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/civil_time.hpp"
#include "base/delimited.hpp"
#include "climate/file_rows.hpp"
#include "climate/file_units.hpp"
#include "studies/logger_file.hpp"
#include "studies/logger_stamp.hpp"

namespace houseleek::studies {
namespace {

constexpr std::size_t most_issues = 50;
/// What loggers write where they have no value; nothing on a roof is that cold.
constexpr std::array<double, 5> missing_values = {-99.0, -99.9, -999.0, -999.9, -9999.0};

/// A field without its quotes and the blanks around it.
std::string_view bare(std::string_view field) {
  field = climate::trimmed(field);
  if (field.size() >= 2 && field.front() == '"' && field.back() == '"') {
    field = climate::trimmed(field.substr(1, field.size() - 2));
  }
  return field;
}

}  // namespace

struct LoggerImport::State {
  State(const store::Project& project, const LoggerDialect& given, const Source& given_source)
      : dialect(given),
        source(given_source),
        writer(project, given_source.file_name, given_source.now_utc_s),
        clock(given.clock, given_source.zone, given.is_newest_first) {
    for (const LoggerColumnUse& use : dialect.columns) {
      const std::optional<std::int64_t> sensor = writer.sensor(use.sensor, use.quantity);
      sensors.push_back(sensor.value_or(0));
      if (!sensor) {
        add_issue(0, use.sensor, use.quantity,
                  fmt::format("the sensor \"{}\" is known with another quantity", use.sensor),
                  "give this logger another name with --logger");
      }
    }
  }

  LoggerDialect dialect;
  Source source;
  store::ReadingWriter writer;
  LoggerClock clock;
  std::vector<std::int64_t> sensors;
  std::string rest;  // of a line whose end has not come yet
  int line = 0;
  std::vector<std::string_view> fields;
  std::string number;
  LoggerCounts counts;
  bool has_moment = false;
  Issues issues;

  void add_issue(std::size_t field, std::string path, std::string_view value, std::string message, std::string hint) {
    Issue issue;
    issue.code = IssueCode::wrong_type;
    issue.path = std::move(path);
    issue.file = source.file_name;
    issue.line = line;
    // Columns count characters; what stands before a field of numbers and times has one byte each.
    issue.column =
        field < fields.size() && line > 0 ? static_cast<int>(fields[field].data() - fields[0].data()) + 1 : 1;
    issue.value = value;
    issue.message = std::move(message);
    issue.hint = std::move(hint);
    issues.push_back(std::move(issue));
  }

  void split(std::string_view text) {
    fields.clear();
    bool is_inside = false;
    std::size_t begin = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
      if (i < text.size()) {
        if (text[i] == '"') is_inside = !is_inside;
        if (is_inside || text[i] != dialect.delimiter) continue;
      }
      const std::string_view field = text.substr(begin, i - begin);
      if (dialect.delimiter != ' ' || !field.empty()) fields.push_back(field);
      begin = i + 1;
    }
    if (fields.size() == dialect.n_fields + 1 && climate::trimmed(fields.back()).empty()) fields.pop_back();
  }

  void take_line(std::string_view text) {
    ++line;
    if (line <= dialect.n_lines_before_rows || issues.size() >= most_issues) return;
    if (!text.empty() && text.back() == '\r') text.remove_suffix(1);
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos || text[first] == '#') return;
    split(text);
    ++counts.n_rows;
    if (fields.size() != dialect.n_fields) {
      return add_issue(0, "", fmt::format("{}", fields.size()),
                       fmt::format("this row has {} fields; the others have {}", fields.size(), dialect.n_fields),
                       "a row that was cut off? take it out, or export the file once more");
    }
    const std::optional<std::int64_t> at_utc_s = moment();
    if (!at_utc_s) return;
    const bool is_first = !has_moment;
    has_moment = true;
    counts.first_utc_s = is_first ? *at_utc_s : std::min(counts.first_utc_s, *at_utc_s);
    counts.last_utc_s = is_first ? *at_utc_s : std::max(counts.last_utc_s, *at_utc_s);
    for (std::size_t i = 0; i < dialect.columns.size(); ++i) take_value(dialect.columns[i], sensors[i], *at_utc_s);
  }

  std::optional<std::int64_t> moment() {
    const std::size_t at = dialect.time_fields.front();
    const std::string_view text = bare(fields[at]);
    std::optional<climate::StampText> stamp = climate::stamp_text_from(text);
    if (stamp && dialect.time_fields.size() == 2) {
      const std::optional<climate::StampText> time = climate::stamp_text_from(bare(fields[dialect.time_fields.back()]));
      stamp = time ? std::optional(joined_stamp(*stamp, *time)) : std::nullopt;
    }
    const bool has_offset = stamp && (stamp->epoch_s || stamp->utc_offset_min);
    const bool is_whole = stamp && (stamp->epoch_s || (stamp->has_date && stamp->has_clock));
    const std::optional<std::int64_t> shown_s =
        is_whole && has_offset == dialect.has_offsets ? shown_second(*stamp, dialect.date_order) : std::nullopt;
    if (!shown_s) {
      add_issue(at, "time", text, fmt::format("time is {}; the rows above have another form", climate::quoted(text)),
                "take the row out, or export the file once more");
      return std::nullopt;
    }
    if (dialect.has_offsets) return shown_s;
    const std::optional<std::int64_t> utc_s = clock.utc_from(*shown_s);
    if (!utc_s) {
      add_issue(at, "time", text,
                fmt::format("time is {}; clocks of {} were put forward over that time and never showed it",
                            climate::quoted(text), source.zone),
                "the logger's clock was not put forward: --clock standard");
    }
    return utc_s;
  }

  void take_value(const LoggerColumnUse& use, std::int64_t sensor, std::int64_t at_utc_s) {
    const std::string_view text = bare(fields[use.at]);
    std::optional<double> value;
    if (dialect.has_decimal_comma) {
      number = text;
      std::replace(number.begin(), number.end(), ',', '.');
      value = number_from_text(number);
    } else {
      value = number_from_text(text);
    }
    const bool is_missing =
        value ? std::find(missing_values.begin(), missing_values.end(), *value) != missing_values.end()
              : climate::is_missing_word(text);
    if (is_missing) {
      ++counts.n_missing;
      return;
    }
    if (!value) {
      return add_issue(use.at, use.sensor, text,
                       fmt::format("{} is {}; it must be a number", use.sensor, climate::quoted(text)),
                       "a missing value is an empty field");
    }
    if (use.unit != climate::Unit::deg_c) value = climate::value_in_our_unit(*value, use.unit, 1.0);
    if (writer.add(sensor, at_utc_s, *value) != store::Added::other_value) return;
    add_issue(use.at, use.sensor, text,
              fmt::format("{} has another value at {} already", use.sensor, text_from_utc(at_utc_s)),
              "another logger? give it another name with --logger; a wrong clock? see --clock");
  }
};

LoggerImport::LoggerImport(const store::Project& project, const LoggerDialect& dialect, const Source& source)
    : state_(std::make_unique<State>(project, dialect, source)) {}

LoggerImport::~LoggerImport() = default;

void LoggerImport::take(std::string_view piece) {
  State& state = *state_;
  while (!piece.empty()) {
    const std::size_t end = piece.find('\n');
    if (end == std::string_view::npos) {
      state.rest += piece;
      return;
    }
    if (state.rest.empty()) {
      state.take_line(piece.substr(0, end));
    } else {
      state.rest += piece.substr(0, end);
      state.take_line(state.rest);
      state.rest.clear();
    }
    piece.remove_prefix(end + 1);
  }
}

Result<LoggerCounts> LoggerImport::finish() {
  State& state = *state_;
  if (!state.rest.empty()) state.take_line(state.rest);
  state.rest.clear();
  if (!state.issues.empty()) return Unexpected{std::move(state.issues)};
  const store::ReadingCounts kept = state.writer.commit();
  state.counts.n_added = kept.n_added;
  state.counts.n_known_before = kept.n_known_before;
  return state.counts;
}

}  // namespace houseleek::studies
