// `houseleek log`: an event into the logbook of a project, and the events that are in it.
#include "studies/logbook.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "logbook/event_fields.hpp"
#include "studies/event_door.hpp"

namespace houseleek::studies {
namespace {

Issue issue_of_corrects(std::int64_t number, std::string message, std::string hint) {
  Issue issue;
  issue.code = IssueCode::unknown_name;
  issue.path = "corrects";
  issue.value = std::to_string(number);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

/// The event that is corrected.
Result<logbook::EventRecord> find_corrected(const store::Project& project, std::int64_t number) {
  const std::vector<logbook::EventRecord> records = store::read_events(project);
  const auto found = std::find_if(records.begin(), records.end(),
                                  [number](const logbook::EventRecord& record) { return record.number == number; });
  if (found == records.end()) {
    return Unexpected{
        {issue_of_corrects(number, fmt::format("there is no event {}; the logbook has {}", number, records.size()),
                           "houseleek log PROJECT lists the events with their numbers")}};
  }
  if (found->superseded_by) {
    return Unexpected{{issue_of_corrects(
        number, fmt::format("event {} has been corrected already, by event {}", number, *found->superseded_by),
        fmt::format("correct event {}", *found->superseded_by))}};
  }
  return *found;
}

/// The words of a correction with what it keeps of the event before.
logbook::EventWords with_kept(logbook::EventWords words, const logbook::Event& before) {
  const bool is_same_kind = logbook::rule_of(before.kind).word == words.kind;
  for (auto& [key, text] : logbook::fields_of(before)) {
    if (key == "zone" || (!is_same_kind && key != "at")) continue;
    const std::string& kept_key = key;
    const bool is_said = std::any_of(words.fields.begin(), words.fields.end(),
                                     [&kept_key](const auto& field) { return field.first == kept_key; });
    if (!is_said) words.fields.emplace_back(key, text);
  }
  return words;
}

}  // namespace

Result<logbook::EventRecord> log_event(const store::Project& project, const LogRequest& request) {
  logbook::EventWords words = request.words;
  if (request.corrects) {
    const Result<logbook::EventRecord> before = find_corrected(project, *request.corrects);
    if (!before) return Unexpected{before.error()};
    words = with_kept(std::move(words), before.value().event);
  } else if (words.kind == "withdrawn") {
    Issue issue = issue_of_corrects(0, "to withdraw an event, say which", "--corrects and its number");
    issue.code = IssueCode::missing_field;
    issue.value.clear();
    return Unexpected{{issue}};
  }
  const Result<logbook::Event> event = EventDoor(project).read(words, request.now_utc_s);
  if (!event) return Unexpected{event.error()};
  logbook::EventRecord record;
  record.noted_utc_s = request.now_utc_s;
  record.supersedes = request.corrects;
  record.event = event.value();
  record.number = store::add_event(project, {record.event, record.supersedes, record.noted_utc_s});
  return record;
}

Result<std::vector<logbook::EventRecord>> list_events(const store::Project& project, const LogFilter& filter) {
  std::optional<logbook::EventKind> kind;
  if (!filter.kind.empty()) {
    kind = logbook::kind_from_text(filter.kind);
    expects(kind.has_value(), "a kind of event");
  }
  std::int64_t since_utc_s = std::numeric_limits<std::int64_t>::min();
  if (!filter.since.empty()) {
    const Result<CivilMoment> since = moment_from_text(filter.since, zone_of_project(project), "since");
    if (!since) return Unexpected{since.error()};
    since_utc_s = since.value().utc_s;
    // A day alone begins at midnight, not at its noon.
    if (!since.value().is_time_known) since_utc_s -= n_seconds_in_civil_day / 2;
  }
  std::vector<logbook::EventRecord> records = store::read_events(project);
  std::erase_if(records, [&](const logbook::EventRecord& record) {
    const bool is_gone = record.superseded_by || record.event.kind == logbook::EventKind::withdrawn;
    if (is_gone && !filter.has_superseded) return true;
    if (kind && record.event.kind != *kind) return true;
    if (record.event.at.utc_s < since_utc_s) return true;
    for (const auto& [key, text] : filter.fields) {
      for (const logbook::TextField& field : logbook::text_fields()) {
        if (field.key == key && record.event.*field.member != text) return true;
      }
    }
    return false;
  });
  std::stable_sort(records.begin(), records.end(),
                   [](const auto& a, const auto& b) { return a.event.at.utc_s < b.event.at.utc_s; });
  return records;
}

std::string zone_of_project(const store::Project& project) { return EventDoor(project).zone(); }

}  // namespace houseleek::studies
