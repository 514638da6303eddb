// Changes to a description that a page asks for: each one a small edit of its text, the whole read again at the end.
#include "studies/edit.hpp"

#include <fmt/format.h>

#include <optional>

#include "design/edit_tables.hpp"
#include "design/parse.hpp"
#include "design/text_places.hpp"
#include "studies/edit_modules.hpp"
#include "studies/toml_words.hpp"

namespace houseleek::studies {
namespace {

using report::Json;

/// One tap changes a handful of things; a list beyond this is no person's.
constexpr std::size_t most_changes = 100;

Issue issue_of(std::size_t index, std::string_view key, std::string value, std::string message, std::string hint) {
  Issue issue;
  issue.code = IssueCode::inconsistent;
  issue.path = fmt::format("changes[{}]{}{}", index, key.empty() ? "" : ".", key);
  issue.value = std::move(value);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

std::optional<std::size_t> index_in(const Json& change, std::string_view key) {
  const auto found = change.find(key);
  if (found == change.end() || !found->is_number_unsigned()) return std::nullopt;
  return found->get<std::size_t>();
}

std::string text_in(const Json& change, std::string_view key) {
  const auto found = change.find(key);
  return found != change.end() && found->is_string() ? found->get<std::string>() : std::string();
}

std::optional<std::vector<design::TextChange>> one(std::optional<design::TextChange> change) {
  if (!change) return std::nullopt;
  return std::vector<design::TextChange>{std::move(*change)};
}

/// One change at a time, on the text that the changes before it have left.
struct Editor {
  const catalogue::Catalogue& catalogue;
  design::RawDesign description;
  std::size_t index = 0;
  Issues issues;

  void refuse(std::string_view key, std::string value, std::string message, std::string hint) {
    issues.push_back(issue_of(index, key, std::move(value), std::move(message), std::move(hint)));
  }

  void take(std::vector<design::TextChange> changes) {
    const std::string text = design::with_changes(description.text, std::move(changes));
    Result<design::RawDesign> parsed = design::parse_design(text, description.file_name);
    if (!parsed) {
      // What was written is no TOML any more: the text was put together in a way that this editing does not know.
      issues.insert(issues.end(), parsed.error().begin(), parsed.error().end());
      return;
    }
    description = std::move(parsed).value();
  }

  void take_or_refuse(std::string_view key, const std::string& path,
                      std::optional<std::vector<design::TextChange>> changes) {
    if (changes) return take(std::move(*changes));
    refuse(key, path, fmt::format("{} is not there, or is written in a way that cannot be changed here", path),
           "change it in the file itself");
  }

  void set(const Json& change) {
    const std::string path = text_in(change, "set");
    const std::optional<std::vector<design::PathStep>> steps = design::read_path(path);
    if (!steps || steps->back().index) {
      return refuse("set", path, "no path to a value", "a path looks like recipe[0].layer[1].thickness_mm");
    }
    const auto value = change.find("value");
    if (value == change.end()) return refuse("value", "", "the new value is missing", "null takes the key out");
    const std::vector<design::PathStep> above(steps->begin(), steps->end() - 1);
    const TomlNode* table = design::find_node(description.root, above);
    if (value->is_null()) {
      if (table == nullptr || find_member(*table, steps->back().key) == nullptr) return;  // it is not there as it is
      return take_or_refuse("set", path, one(design::remove_key(description, *table, steps->back().key)));
    }
    const std::optional<std::string> words = toml_from(*value);
    if (!words)
      return refuse("value", value->dump(), "a value that a description cannot hold",
                    "numbers, texts, true or false, lists and tables of them");
    const Result<design::ValidDesign> read = design::validate_design(description, catalogue);
    // change_figure() makes tables that are missing on the way; it needs a design only for the figures of a finish.
    if (table == nullptr || table->kind != TomlKind::table) {
      if (!read) {
        issues.insert(issues.end(), read.error().begin(), read.error().end());
        return;
      }
      return take_or_refuse("set", path, one(design::change_figure(description, *read.value(), path, *words)));
    }
    const TomlNode* there = find_member(*table, steps->back().key);
    const bool is_one_piece = there == nullptr || !design::is_under_header(description, *there);
    take_or_refuse(
        "set", path,
        is_one_piece ? one(design::change_key(description, *table, steps->back().key, *words)) : std::nullopt);
  }

  void insert(const Json& change) {
    const std::string path = text_in(change, "insert");
    const std::optional<std::vector<design::PathStep>> steps = design::read_path(path);
    const auto fields = change.find("fields");
    if (!steps || steps->back().index)
      return refuse("insert", path, "no path to a list", "a path looks like recipe[0].layer");
    const std::optional<std::string> lines = fields == change.end() ? std::nullopt : toml_lines_from(*fields);
    if (!lines) return refuse("fields", "", "the fields of what is put in are missing", "a table of keys and values");
    const std::size_t before = index_in(change, "before").value_or(static_cast<std::size_t>(-1));
    take_or_refuse("insert", path, one(design::insert_table(description, *steps, before, *lines)));
  }

  void remove(const Json& change) {
    const std::string path = text_in(change, "remove");
    const std::optional<std::vector<design::PathStep>> steps = design::read_path(path);
    const TomlNode* node = steps ? design::find_node(description.root, *steps) : nullptr;
    if (node == nullptr) return refuse("remove", path, "it is not there", "a path looks like recipe[0].layer[1]");
    take_or_refuse("remove", path, one(design::remove_table(description, *node)));
  }

  void move(const Json& change) {
    const std::string path = text_in(change, "move");
    const std::optional<std::vector<design::PathStep>> steps = design::read_path(path);
    const std::optional<std::size_t> from = index_in(change, "from");
    const std::optional<std::size_t> to = index_in(change, "to");
    if (!steps || !from || !to) return refuse("move", path, "a list, from and to are wanted", "numbers count from 0");
    take_or_refuse("move", path, design::move_table(description, *steps, *from, *to));
  }

  void change_modules(const Json& change) {
    const Result<design::ValidDesign> read = design::validate_design(description, catalogue);
    if (!read) {
      issues.insert(issues.end(), read.error().begin(), read.error().end());
      return;
    }
    const Result<std::vector<design::TextChange>> changes = edit_modules(description, *read.value(), change);
    if (changes) return take(changes.value());
    for (Issue issue : changes.error()) {
      issue.path = fmt::format("changes[{}].{}", index, issue.path);
      issues.push_back(std::move(issue));
    }
  }

  void apply(const Json& change) {
    if (change.contains("set")) return set(change);
    if (change.contains("insert")) return insert(change);
    if (change.contains("modules")) return change_modules(change);
    if (change.contains("remove")) return remove(change);
    if (change.contains("move")) return move(change);
    refuse("", change.dump(), "no change that is known", "set, insert, remove, move or modules");
  }
};

}  // namespace

Result<std::string> edit_description(const NamedText& file, const Json& changes,
                                     const catalogue::Catalogue& catalogue) {
  Result<design::RawDesign> parsed = design::parse_design(file.text, file.name);
  if (!parsed) return Unexpected{parsed.error()};
  if (!changes.is_array() || changes.empty() || changes.size() > most_changes) {
    Issue issue;
    issue.code = IssueCode::wrong_type;
    issue.path = "changes";
    issue.limit = fmt::format("from 1 to {}", most_changes);
    issue.message = "a list of changes is wanted";
    return Unexpected{{issue}};
  }
  Editor editor{.catalogue = catalogue, .description = std::move(parsed).value(), .index = 0, .issues = {}};
  for (const Json& change : changes) {
    if (change.is_object()) {
      editor.apply(change);
    } else {
      editor.refuse("", change.dump(), "a change is a table", "");
    }
    if (!editor.issues.empty()) return Unexpected{std::move(editor.issues)};
    ++editor.index;
  }
  const Result<design::ValidDesign> read = design::validate_design(editor.description, catalogue);
  if (!read) return Unexpected{read.error()};
  return std::move(editor.description.text);
}

}  // namespace houseleek::studies
