// Fields of a TOML table read one by one; every problem is collected with its place, nothing is thrown or clamped.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "base/toml_tree.hpp"

namespace houseleek {

/// One file being read, and what was wrong with it so far.
struct FieldReader {
  std::string_view text;
  std::string_view file_name;
  Issues issues;
};

/// A table and the path that leads to it; "" for the whole file.
struct TableView {
  const TomlNode* node = nullptr;
  std::string path;
};

/// What a number must be. The unit is the word after it in messages: mm, degC, W/(m2 K); share: from 0 to 1.
struct NumberRule {
  std::string_view key = "";
  double least = 0.0;
  double most = 0.0;
  std::string_view unit = "";
  bool is_least_open = false;  // greater than least, not equal to it
  std::string_view hint = "";  // for a missing or wrong number where no slip of units explains it
};

[[nodiscard]] std::string path_from(const TableView& table, std::string_view key);
[[nodiscard]] std::string path_from(const TableView& table, std::string_view key, std::size_t index);

/// The node as written in the file, cut after 40 characters; of a table or list "a table", "a list".
[[nodiscard]] std::string written_text(const FieldReader& reader, const TomlNode& node);

/// Adds an issue at the node's place.
void add_issue(FieldReader& reader, IssueCode code, const TomlNode& at, std::string path, std::string limit,
               std::string message, std::string hint);
/// The same as a warning: the design stands.
void add_warning(FieldReader& reader, IssueCode code, const TomlNode& at, std::string path, std::string limit,
                 std::string message, std::string hint);

/// "from 3 to 500 mm", "greater than 0 and at most 5".
[[nodiscard]] std::string text_from_rule(const NumberRule& rule);

/// Judges one number; the value, or nullopt and an issue.
[[nodiscard]] std::optional<double> checked_number(FieldReader& reader, const TomlNode& node, const std::string& path,
                                                   const NumberRule& rule);

/// Absent: nullopt and no issue. Wrong: nullopt and an issue.
[[nodiscard]] std::optional<double> read_number(FieldReader& reader, const TableView& table, const NumberRule& rule);
/// A whole number, 2 or 2.0; the rule's limits must lie within what 64 bits hold.
[[nodiscard]] std::optional<std::int64_t> read_integer(FieldReader& reader, const TableView& table,
                                                       const NumberRule& rule);
[[nodiscard]] std::optional<std::string> read_text(FieldReader& reader, const TableView& table, std::string_view key);
[[nodiscard]] std::optional<bool> read_flag(FieldReader& reader, const TableView& table, std::string_view key);
/// A list with exactly `n_items` numbers.
[[nodiscard]] std::optional<std::vector<double>> read_numbers(FieldReader& reader, const TableView& table,
                                                              const NumberRule& rule, std::size_t n_items);
[[nodiscard]] std::optional<TableView> read_table(FieldReader& reader, const TableView& table, std::string_view key);
/// The tables of a list; empty if absent.
[[nodiscard]] std::vector<TableView> read_tables(FieldReader& reader, const TableView& table, std::string_view key);

/// True if the field is there; otherwise adds an issue that says what belongs in it.
[[nodiscard]] bool has_field(FieldReader& reader, const TableView& table, std::string_view key, std::string_view hint);

/// The same for a list, which must also hold something.
[[nodiscard]] bool has_entries(FieldReader& reader, const TableView& table, std::string_view key,
                               std::string_view hint);

/// A number that must be there; on any problem an issue, and the rule's least value to carry on with.
[[nodiscard]] double read_required_number(FieldReader& reader, const TableView& table, const NumberRule& rule);
[[nodiscard]] std::string read_required_text(FieldReader& reader, const TableView& table, std::string_view key,
                                             std::string_view hint);

/// Every key must be one of these; otherwise an issue that names the nearest.
void check_keys(FieldReader& reader, const TableView& table, std::span<const std::string_view> known);

/// The list of names for a hint: a, b, c.
[[nodiscard]] std::string joined_names(std::span<const std::string> names);

/// An issue for a name that nothing answers to, with the nearest known one.
void add_unknown_name(FieldReader& reader, const TomlNode& at, const std::string& path, std::string_view what,
                      std::span<const std::string> known);

/// An issue for a word that is not of a fixed list.
void add_unknown_choice(FieldReader& reader, const TomlNode& at, const std::string& path,
                        std::span<const std::string> known);

/// One of a fixed list of words. Absent or wrong: nullopt (wrong: with an issue).
template <class E>
[[nodiscard]] std::optional<E> read_choice(FieldReader& reader, const TableView& table, std::string_view key,
                                           std::span<const std::pair<std::string_view, E>> choices) {
  const std::optional<std::string> word = read_text(reader, table, key);
  if (!word) return std::nullopt;
  std::vector<std::string> known;
  for (const auto& [name, value] : choices) {
    if (*word == name) return value;
    known.emplace_back(name);
  }
  add_unknown_choice(reader, *find_member(*table.node, key), path_from(table, key), known);
  return std::nullopt;
}

}  // namespace houseleek
