// What a project holds, row by row: revisions of the design, events of the logbook, results.
#include "store/records.hpp"

#include <fmt/format.h>

#include <initializer_list>
#include <map>

#include "base/contract.hpp"
#include "logbook/event_fields.hpp"
#include "store/row_hash.hpp"

namespace houseleek::store {
namespace {

void check_row(const Project& project, std::string_view what, std::int64_t number, bool is_as_written) {
  if (is_as_written) return;
  throw StoreError(fmt::format(
      "{}: the file is damaged: {} {} is not as it was written\n  hint: go back to a copy of it; do not write "
      "in this one",
      project.name(), what, number));
}

std::string hash_of(const Revision& revision) {
  RowHash hash;
  hash.add(revision.number);
  hash.add(revision.saved_utc_s);
  hash.add(revision.toml_text);
  hash.add(revision.note);
  return hash.hex();
}

Revision revision_from(const Project& project, const Statement& row) {
  Revision revision = {row.number(0), row.number(1), row.text(2), row.text(3)};
  check_row(project, "revision", revision.number, hash_of(revision) == row.text(4));
  return revision;
}

constexpr std::string_view revision_columns = "SELECT revision, saved_utc_s, toml_text, note, sha256 FROM revision";

std::string hash_of(const logbook::EventRecord& record) {
  const logbook::Event& event = record.event;
  RowHash hash;
  hash.add(record.number);
  hash.add(record.noted_utc_s);
  hash.add(record.supersedes);
  hash.add(logbook::rule_of(event.kind).word);
  hash.add(event.at.utc_s);
  hash.add(std::int64_t{event.at.offset_s});
  hash.add(std::int64_t{event.at.is_time_known});
  hash.add(event.zone);
  for (const logbook::TextField& field : logbook::text_fields()) hash.add(event.*field.member);
  for (const logbook::NumberField& field : logbook::number_fields()) hash.add(event.*field.member);
  for (const logbook::DayField& field : logbook::day_fields()) hash.add(event.*field.member);
  return hash.hex();
}

/// The columns of an event in their order, from the one table of its fields.
std::string event_columns() {
  std::string columns = "event, noted_utc_s, supersedes, kind, at_utc_s, at_offset_s, is_time_known, zone";
  for (const logbook::TextField& field : logbook::text_fields()) columns += fmt::format(", {}", field.key);
  for (const logbook::NumberField& field : logbook::number_fields()) columns += fmt::format(", {}", field.key);
  for (const logbook::DayField& field : logbook::day_fields()) columns += fmt::format(", {}", field.key);
  return columns + ", sha256";
}

/// ?, ?, ? for as many columns.
std::string places_for(const std::string& columns) {
  std::string places = "?";
  for (const char c : columns) places += c == ',' ? ", ?" : "";
  return places;
}

std::int64_t next_number(const Project& project, std::string_view table) {
  return project.database().number_from(fmt::format("SELECT coalesce(max({0}), 0) + 1 FROM {0}", table));
}

/// Writes rows of events; the statement is compiled once.
class EventInsert {
 public:
  explicit EventInsert(const Project& project)
      : insert_(project.database(),
                fmt::format("INSERT INTO event ({}) VALUES ({})", event_columns(), places_for(event_columns()))) {}

  void add(const logbook::EventRecord& record) {
    const logbook::Event& event = record.event;
    const std::string hash = hash_of(record);
    int at = 0;
    insert_.bind(at++, record.number);
    insert_.bind(at++, record.noted_utc_s);
    insert_.bind(at++, record.supersedes);
    insert_.bind(at++, logbook::rule_of(event.kind).word);
    insert_.bind(at++, event.at.utc_s);
    insert_.bind(at++, std::int64_t{event.at.offset_s});
    insert_.bind(at++, std::int64_t{event.at.is_time_known});
    insert_.bind(at++, std::string_view(event.zone));
    for (const logbook::TextField& field : logbook::text_fields()) {
      const std::string& text = event.*field.member;
      insert_.bind(at++, text.empty() ? std::nullopt : std::optional<std::string_view>(text));
    }
    for (const logbook::NumberField& field : logbook::number_fields()) insert_.bind(at++, event.*field.member);
    for (const logbook::DayField& field : logbook::day_fields()) insert_.bind(at++, event.*field.member);
    insert_.bind(at++, std::string_view(hash));
    insert_.run();
  }

 private:
  Statement insert_;
};

std::string hash_of(const StoredResult& result) {
  RowHash hash;
  hash.add(result.number);
  hash.add(result.revision);
  hash.add(result.made_utc_s);
  for (const std::string* text : {&result.command, &result.engine_version, &result.options_json, &result.seed,
                                  &result.input_hash, &result.answer_json}) {
    hash.add(*text);
  }
  return hash.hex();
}

/// Asked once more with the right to write: another program may have been quicker than whoever asked before.
void check_not_superseded(const Project& project, std::int64_t number) {
  Statement later(project.database(), "SELECT event FROM event WHERE supersedes = ?");
  later.bind(0, number);
  if (!later.step()) return;
  throw StoreError(
      fmt::format("{}: event {} has just been corrected, by event {}; nothing was written\n  hint: look at event {}, "
                  "and correct that one",
                  project.name(), number, later.number(0), later.number(0)));
}

}  // namespace

std::int64_t add_revision(const Project& project, const NewRevision& revision) {
  expects(revision.toml_text.find('\0') == std::string_view::npos, "a text without a zero byte");
  Transaction transaction(project.database());
  Revision row = {next_number(project, "revision"), revision.now_utc_s, std::string(revision.toml_text),
                  std::string(revision.note)};
  const std::string hash = hash_of(row);
  Statement insert(project.database(),
                   "INSERT INTO revision (revision, saved_utc_s, toml_text, note, sha256) VALUES (?, ?, ?, ?, ?)");
  insert.bind(0, row.number);
  insert.bind(1, row.saved_utc_s);
  insert.bind(2, std::string_view(row.toml_text));
  insert.bind(3, std::string_view(row.note));
  insert.bind(4, std::string_view(hash));
  insert.run();
  transaction.commit();
  return row.number;
}

std::vector<Revision> read_revisions(const Project& project) {
  std::vector<Revision> revisions;
  Statement rows(project.database(), fmt::format("{} ORDER BY revision", revision_columns));
  while (rows.step()) revisions.push_back(revision_from(project, rows));
  return revisions;
}

std::optional<Revision> read_newest_revision(const Project& project) {
  Statement rows(project.database(), fmt::format("{} ORDER BY revision DESC LIMIT 1", revision_columns));
  return rows.step() ? std::optional(revision_from(project, rows)) : std::nullopt;
}

std::optional<Revision> read_revision(const Project& project, std::int64_t number) {
  Statement rows(project.database(), fmt::format("{} WHERE revision = ?", revision_columns));
  rows.bind(0, number);
  return rows.step() ? std::optional(revision_from(project, rows)) : std::nullopt;
}

std::int64_t add_event(const Project& project, const NewEvent& added) {
  Transaction transaction(project.database());
  logbook::EventRecord record;
  record.number = next_number(project, "event");
  record.noted_utc_s = added.now_utc_s;
  record.supersedes = added.supersedes;
  record.event = added.event;
  if (record.supersedes) check_not_superseded(project, *record.supersedes);
  EventInsert(project).add(record);
  transaction.commit();
  return record.number;
}

void add_events(const Project& project, std::span<const logbook::Event> events, std::int64_t now_utc_s) {
  Transaction transaction(project.database());
  EventInsert insert(project);
  logbook::EventRecord record;
  record.number = next_number(project, "event");
  record.noted_utc_s = now_utc_s;
  for (const logbook::Event& event : events) {
    record.event = event;
    insert.add(record);
    ++record.number;
  }
  transaction.commit();
}

std::vector<logbook::EventRecord> read_events(const Project& project) {
  std::vector<logbook::EventRecord> records;
  std::map<std::int64_t, std::int64_t> superseded_by;
  Statement rows(project.database(), fmt::format("SELECT {} FROM event ORDER BY event", event_columns()));
  while (rows.step()) {
    logbook::EventRecord record;
    int at = 0;
    record.number = rows.number(at++);
    record.noted_utc_s = rows.number(at++);
    record.supersedes = rows.optional_number(at++);
    logbook::Event& event = record.event;
    const std::optional<logbook::EventKind> kind = logbook::kind_from_text(rows.text(at++));
    check_row(project, "event", record.number, kind.has_value());
    event.kind = *kind;
    event.at.utc_s = rows.number(at++);
    event.at.offset_s = static_cast<int>(rows.number(at++));
    event.at.is_time_known = rows.number(at++) != 0;
    event.zone = rows.text(at++);
    for (const logbook::TextField& field : logbook::text_fields()) event.*field.member = rows.text(at++);
    for (const logbook::NumberField& field : logbook::number_fields()) event.*field.member = rows.optional_real(at++);
    for (const logbook::DayField& field : logbook::day_fields()) event.*field.member = rows.optional_number(at++);
    check_row(project, "event", record.number, hash_of(record) == rows.text(at));
    if (record.supersedes) superseded_by[*record.supersedes] = record.number;
    records.push_back(std::move(record));
  }
  for (logbook::EventRecord& record : records) {
    const auto found = superseded_by.find(record.number);
    if (found != superseded_by.end()) record.superseded_by = found->second;
  }
  return records;
}

std::int64_t add_result(const Project& project, const StoredResult& result) {
  Transaction transaction(project.database());
  StoredResult row = result;
  row.number = next_number(project, "result");
  const std::string hash = hash_of(row);
  Statement insert(project.database(),
                   "INSERT INTO result (result, revision, made_utc_s, command, engine_version, options_json, seed, "
                   "input_hash, answer_json, sha256) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
  int at = 0;
  insert.bind(at++, row.number);
  insert.bind(at++, row.revision);
  insert.bind(at++, row.made_utc_s);
  for (const std::string* text : std::initializer_list<const std::string*>{
           &row.command, &row.engine_version, &row.options_json, &row.seed, &row.input_hash, &row.answer_json, &hash}) {
    insert.bind(at++, std::string_view(*text));
  }
  insert.run();
  transaction.commit();
  return row.number;
}

std::vector<StoredResult> read_results(const Project& project) {
  std::vector<StoredResult> results;
  Statement rows(project.database(),
                 "SELECT result, revision, made_utc_s, command, engine_version, options_json, seed, input_hash, "
                 "answer_json, sha256 FROM result ORDER BY result");
  while (rows.step()) {
    StoredResult result = {rows.number(0), rows.number(1), rows.number(2), rows.text(3), rows.text(4),
                           rows.text(5),   rows.text(6),   rows.text(7),   rows.text(8)};
    check_row(project, "result", result.number, hash_of(result) == rows.text(9));
    results.push_back(std::move(result));
  }
  return results;
}

}  // namespace houseleek::store
