// Events into a project's logbook: their words read, and names held against its designs.
#include "studies/event_door.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest_name.hpp"
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

TomlNode newest_root(const store::Project& project) {
  const std::optional<store::Revision> newest = store::read_newest_revision(project);
  expects(newest.has_value(), "a project with a design");
  return root_of(project, *newest);
}

}  // namespace

EventDoor::EventDoor(const store::Project& project)
    : project_(&project),
      newest_(newest_root(project)),
      zone_(text_at(newest_, "site", "time_zone")),
      currency_(text_at(newest_, "prices", "currency")) {}

Result<logbook::Event> EventDoor::read(const logbook::EventWords& words, std::int64_t now_utc_s) const {
  Result<logbook::Event> event = logbook::read_event(words, {zone_, now_utc_s, currency_});
  if (!event) return event;
  Issues unknown = check_names(*project_, event.value(), newest_);
  if (!unknown.empty()) return Unexpected{std::move(unknown)};
  return event;
}

}  // namespace houseleek::studies
