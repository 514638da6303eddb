// A table of events into a project's logbook: typed in elsewhere, or taken out of another project.
#include "studies/event_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/delimited.hpp"
#include "base/nearest_name.hpp"
#include "logbook/event_fields.hpp"
#include "studies/event_door.hpp"

namespace houseleek::studies {
namespace {

constexpr std::size_t most_issues = 50;
/// Columns of an export that are not read.
constexpr std::string_view exported_columns[] = {"number", "noted_at", "supersedes", "is_time_known", "zone"};

struct Columns {
  std::vector<std::string> keys;  // by place; empty: not read
  std::size_t kind = 0;
  std::optional<std::size_t> superseded_by;
};

std::vector<std::string> known_columns() {
  std::vector<std::string> known = {"kind", "at", "superseded_by"};
  for (const std::string_view column : exported_columns) known.emplace_back(column);
  for (const logbook::TextField& field : logbook::text_fields()) known.emplace_back(field.key);
  for (const logbook::NumberField& field : logbook::number_fields()) known.emplace_back(field.key);
  for (const logbook::DayField& field : logbook::day_fields()) known.emplace_back(field.key);
  return known;
}

Issue issue_at(const std::string& file_name, const DelimitedField& field, std::string path, std::string message,
               std::string hint) {
  Issue issue;
  issue.code = IssueCode::unknown_field;
  issue.path = std::move(path);
  issue.file = file_name;
  issue.line = field.line;
  issue.column = field.column;
  issue.value = field.text;
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

Result<Columns> read_header(const DelimitedRow& header, const std::string& file_name) {
  const std::vector<std::string> known = known_columns();
  Columns columns;
  Issues issues;
  bool has_kind = false;
  for (std::size_t i = 0; i < header.size(); ++i) {
    const std::string key = folded_name(header[i].text);
    const bool is_twice = std::find(columns.keys.begin(), columns.keys.end(), key) != columns.keys.end();
    columns.keys.emplace_back();
    if (std::find(known.begin(), known.end(), key) == known.end()) {
      const std::optional<std::string> nearest = find_nearest_name(key, known);
      issues.push_back(issue_at(file_name, header[i], "column",
                                fmt::format("there is no column \"{}\" for events", header[i].text),
                                nearest ? fmt::format("did you mean \"{}\"?", *nearest)
                                        : "columns are kind, at and the fields that houseleek log --help lists"));
      continue;
    }
    if (is_twice) {
      issues.push_back(issue_at(file_name, header[i], "column", fmt::format("the column {} is there twice", key), ""));
      continue;
    }
    if (key == "superseded_by") columns.superseded_by = i;
    const bool is_exported =
        std::find(std::begin(exported_columns), std::end(exported_columns), key) != std::end(exported_columns);
    if (is_exported || key == "superseded_by") continue;
    if (key == "kind") {
      has_kind = true;
      columns.kind = i;
    }
    columns.keys.back() = key;
  }
  if (!has_kind && issues.empty()) {
    issues.push_back(issue_at(file_name, header.front(), "kind", "the first line names no column kind",
                              "kind,at,module,... as houseleek export --tables writes events.csv"));
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  return columns;
}

/// The place in the file of a problem with one field of an event.
void place_issue(Issue& issue, const Columns& columns, const DelimitedRow& row, const std::string& file_name) {
  issue.file = file_name;
  issue.line = row.front().line;
  issue.column = row.front().column;
  for (std::size_t i = 0; i < columns.keys.size(); ++i) {
    if (columns.keys[i] != issue.path) continue;
    issue.line = row[i].line;
    issue.column = row[i].column;
  }
}

}  // namespace

Result<EventCounts> import_events(const store::Project& project, const NamedText& file, std::int64_t now_utc_s) {
  const Result<std::vector<DelimitedRow>> rows = parse_delimited(file.text, file.name);
  if (!rows) return Unexpected{rows.error()};
  if (rows.value().empty()) {
    return Unexpected{{issue_at(file.name, {"", 1, 1, false}, "", "the file holds no table of events",
                                "its first line names the columns: kind,at,module,...")}};
  }
  const Result<Columns> header = read_header(rows.value().front(), file.name);
  if (!header) return Unexpected{header.error()};
  const Columns& columns = header.value();
  const EventDoor door(project);
  // How often each event stands in the logbook: a file that comes in twice adds nothing.
  std::map<std::vector<std::pair<std::string, std::string>>, std::size_t> known;
  const auto key_of = [](const logbook::Event& event) {
    auto fields = logbook::fields_of(event);
    fields.emplace_back("kind", logbook::rule_of(event.kind).word);
    return fields;
  };
  for (const logbook::EventRecord& record : store::read_events(project)) {
    if (!record.superseded_by) ++known[key_of(record.event)];
  }
  EventCounts counts;
  std::vector<logbook::Event> events;
  Issues issues;
  for (std::size_t i = 1; i < rows.value().size() && issues.size() < most_issues; ++i) {
    const DelimitedRow& row = rows.value()[i];
    ++counts.n_rows;
    if (row.size() != columns.keys.size()) {
      issues.push_back(
          issue_at(file.name, row.front(), "",
                   fmt::format("this row has {} fields; the first line names {}", row.size(), columns.keys.size()),
                   "a comma in a note wants the note in quotes"));
      continue;
    }
    if (row[columns.kind].text == "withdrawn" || (columns.superseded_by && !row[*columns.superseded_by].text.empty())) {
      ++counts.n_no_longer;
      continue;
    }
    logbook::EventWords words;
    for (std::size_t at = 0; at < row.size(); ++at) {
      if (columns.keys[at] == "kind") {
        words.kind = row[at].text;
      } else if (!columns.keys[at].empty() && !row[at].text.empty()) {
        words.fields.emplace_back(columns.keys[at], row[at].text);
      }
    }
    const Result<logbook::Event> event = door.read(words, now_utc_s);
    if (!event) {
      for (Issue issue : event.error()) {
        place_issue(issue, columns, row, file.name);
        issues.push_back(std::move(issue));
      }
      continue;
    }
    const auto found = known.find(key_of(event.value()));
    if (found != known.end() && found->second > 0) {
      --found->second;
      ++counts.n_known_before;
      continue;
    }
    events.push_back(event.value());
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  counts.n_added = events.size();
  if (!events.empty()) store::add_events(project, events, now_utc_s);
  return counts;
}

}  // namespace houseleek::studies
