// `houseleek log`: an event into the logbook of a project, and the events that are in it.
#include "studies/logbook.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "base/nearest_name.hpp"
#include "base/zone.hpp"
#include "design/parse.hpp"
#include "logbook/event_fields.hpp"

namespace houseleek::studies {
namespace {

struct NamedList {
  std::string_view field;  // of an event
  std::string_view table;  // of a design
};
constexpr NamedList named_lists[] = {{"recipe", "recipe"}, {"room", "room"}, {"container", "container"}};

/// What the logbook must know of a design. Taken from the text, not from a validated design: an older revision that
/// today's rules would refuse still has a place and names.
TomlNode root_of(const store::Project& project, const store::Revision& revision) {
  Result<design::RawDesign> raw = design::parse_design(revision.toml_text, project.name());
  expects(raw.has_value(), "revisions that were checked when they were saved");
  return std::move(raw).value().root;
}

std::string text_at(const TomlNode& root, std::string_view table, std::string_view key) {
  const TomlNode* node = find_member(root, table);
  if (node != nullptr) node = find_member(*node, key);
  return node == nullptr ? std::string() : node->text;
}

std::vector<std::string> names_in(const TomlNode& root, std::string_view table) {
  std::vector<std::string> names;
  const TomlNode* list = find_member(root, table);
  if (list == nullptr) return names;
  for (const TomlNode& item : list->items) {
    const TomlNode* name = find_member(item, "name");
    if (name != nullptr) names.push_back(name->text);
  }
  return names;
}

/// Names that no revision of the design knows.
Issues check_names(const store::Project& project, const logbook::Event& event, const TomlNode& newest) {
  Issues issues;
  for (const NamedList& list : named_lists) {
    std::string name;
    for (const logbook::TextField& field : logbook::text_fields()) {
      if (field.key == list.field) name = event.*field.member;
    }
    if (name.empty()) continue;
    const std::vector<std::string> known = names_in(newest, list.table);
    const auto is_among = [&name](const std::vector<std::string>& names) {
      return std::find(names.begin(), names.end(), name) != names.end();
    };
    if (is_among(known)) continue;
    const std::vector<store::Revision> revisions = store::read_revisions(project);
    const bool was_known = std::any_of(revisions.begin(), revisions.end(), [&](const store::Revision& revision) {
      return is_among(names_in(root_of(project, revision), list.table));
    });
    if (was_known) continue;
    std::string all;
    for (const std::string& one : known) all += (all.empty() ? "" : ", ") + one;
    Issue issue;
    issue.code = IssueCode::unknown_name;
    issue.path = list.field;
    issue.value = name;
    issue.limit = all;
    issue.message = fmt::format("no {} of the design is called \"{}\"", list.field, name);
    const std::optional<std::string> nearest = find_nearest_name(name, known);
    issue.hint = nearest       ? fmt::format("did you mean \"{}\"?", *nearest)
                 : all.empty() ? fmt::format("the design has none; say it in the note, or as the item")
                               : "the design has: " + all;
    issues.push_back(std::move(issue));
  }
  return issues;
}

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
  const std::optional<store::Revision> newest = store::read_newest_revision(project);
  expects(newest.has_value(), "a project with a design");
  const TomlNode root = root_of(project, *newest);
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
  const Result<logbook::Event> event = logbook::read_event(
      words, {text_at(root, "site", "time_zone"), request.now_utc_s, text_at(root, "prices", "currency")});
  if (!event) return Unexpected{event.error()};
  const Issues unknown = check_names(project, event.value(), root);
  if (!unknown.empty()) return Unexpected{unknown};
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
    const std::optional<store::Revision> newest = store::read_newest_revision(project);
    expects(newest.has_value(), "a project with a design");
    const std::string zone = text_at(root_of(project, *newest), "site", "time_zone");
    const Result<CivilMoment> since = moment_from_text(filter.since, zone, "since");
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

std::string zone_of_project(const store::Project& project) {
  const std::optional<store::Revision> newest = store::read_newest_revision(project);
  expects(newest.has_value(), "a project with a design");
  return text_at(root_of(project, *newest), "site", "time_zone");
}

}  // namespace houseleek::studies
