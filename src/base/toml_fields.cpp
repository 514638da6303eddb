// Fields of a TOML table read one by one; every problem is collected with its place, nothing is thrown or clamped.
#include "base/toml_fields.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <cmath>

#include "base/nearest_name.hpp"
#include "base/utf8.hpp"

namespace houseleek {
namespace {

constexpr std::size_t longest_text_bytes = 500;  // names and short notes; each is printed whole in answers
constexpr std::size_t longest_shown = 40;        // characters of a wrong value in a message

std::string_view word_from_kind(TomlKind kind) {
  switch (kind) {
    case TomlKind::table:
      return "a table";
    case TomlKind::array:
      return "a list";
    case TomlKind::text:
      return "a text";
    case TomlKind::integer:
    case TomlKind::number:
      return "a number";
    case TomlKind::flag:
      return "true or false";
    case TomlKind::date:
      return "a date";
  }
  return "";
}

std::string shortened(std::string_view text) {
  if (count_characters(text) <= longest_shown) return std::string(text);
  return std::string(text.substr(0, offset_of_character(text, longest_shown))) + "...";
}

bool is_in(double value, const NumberRule& rule) {
  return (rule.is_least_open ? value > rule.least : value >= rule.least) && value <= rule.most;
}

/// A number that would be in range had the person slipped in the unit.
std::string hint_from_slip(double value, const NumberRule& rule) {
  struct Slip {
    std::string_view unit;
    double factor;
    std::string_view sentence;
  };
  constexpr Slip slips[] = {{"mm", 1000.0, "give millimetres, not metres"},
                            {"mm", 10.0, "give millimetres, not cm"},
                            {"m", 0.001, "give metres, not millimetres"},
                            {"m", 0.01, "give metres, not cm"},
                            {"share", 0.01, "give a share from 0 to 1, not a percentage"}};
  for (const Slip& slip : slips) {
    // Rounded: 0.07 * 1000 is not 70 in binary.
    const double meant = std::round(value * slip.factor * 1e6) / 1e6;
    if (slip.unit == rule.unit && is_in(meant, rule)) return fmt::format("{}; did you mean {}?", slip.sentence, meant);
  }
  if (rule.unit == "degC" && value > rule.most) {
    const double from_fahrenheit_c = std::round((value - 32.0) / 1.8 * 10.0) / 10.0;
    const double from_kelvin_c = std::round((value - 273.15) * 100.0) / 100.0;
    if (is_in(from_fahrenheit_c, rule)) {
      return fmt::format("give degrees Celsius; {} degF is {} degC", value, from_fahrenheit_c);
    }
    if (is_in(from_kelvin_c, rule)) return fmt::format("give degrees Celsius; {} K is {} degC", value, from_kelvin_c);
  }
  if (value < 0.0 && is_in(-value, rule)) return fmt::format("did you mean {}?", -value);
  return std::string(rule.hint);
}

/// "50 mm" typed where 50 belongs.
std::string hint_from_text(std::string_view text, const NumberRule& rule) {
  double value = 0.0;
  const auto parsed = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  if (parsed.ec == std::errc() && parsed.ptr != text.data()) {
    return fmt::format("write the number alone, without quotes: {} = {}", rule.key,
                       text.substr(0, static_cast<std::size_t>(parsed.ptr - text.data())));
  }
  return fmt::format("write a number without quotes, {}", text_from_rule(rule));
}

Issue issue_at(const FieldReader& reader, IssueCode code, const TomlNode& at, std::string path, std::string limit,
               std::string message, std::string hint) {
  Issue issue;
  issue.code = code;
  issue.path = std::move(path);
  issue.file = std::string(reader.file_name);
  issue.line = at.begin.line;
  issue.column = at.begin.column;
  issue.value = written_text(reader, at);
  issue.limit = std::move(limit);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

const TomlNode* find_of_kind(FieldReader& reader, const TableView& table, std::string_view key, TomlKind kind) {
  const TomlNode* node = find_member(*table.node, key);
  if (node == nullptr || node->kind == kind) return node;
  const std::string path = path_from(table, key);
  add_issue(reader, IssueCode::wrong_type, *node, path, std::string(word_from_kind(kind)),
            fmt::format("{} is {}; it must be {}", path, written_text(reader, *node), word_from_kind(kind)), "");
  return nullptr;
}

}  // namespace

std::string path_from(const TableView& table, std::string_view key) {
  return table.path.empty() ? std::string(key) : fmt::format("{}.{}", table.path, key);
}

std::string path_from(const TableView& table, std::string_view key, std::size_t index) {
  return fmt::format("{}[{}]", path_from(table, key), index);
}

std::string written_text(const FieldReader& reader, const TomlNode& node) {
  if (node.kind == TomlKind::table || node.kind == TomlKind::array) return std::string(word_from_kind(node.kind));
  const std::string_view line = line_of_text(reader.text, node.begin.line);
  const std::size_t begin = offset_of_character(line, static_cast<std::size_t>(std::max(node.begin.column - 1, 0)));
  std::string_view written = line.substr(begin);
  if (node.end.line == node.begin.line && node.end.column > node.begin.column) {
    written =
        written.substr(0, offset_of_character(written, static_cast<std::size_t>(node.end.column - node.begin.column)));
  }
  return shortened(written);
}

void add_issue(FieldReader& reader, IssueCode code, const TomlNode& at, std::string path, std::string limit,
               std::string message, std::string hint) {
  reader.issues.push_back(
      issue_at(reader, code, at, std::move(path), std::move(limit), std::move(message), std::move(hint)));
}

void add_warning(FieldReader& reader, IssueCode code, const TomlNode& at, std::string path, std::string limit,
                 std::string message, std::string hint) {
  add_issue(reader, code, at, std::move(path), std::move(limit), std::move(message), std::move(hint));
  reader.issues.back().severity = Severity::warning;
}

std::string text_from_rule(const NumberRule& rule) {
  const std::string_view unit = rule.unit == "share" ? "" : rule.unit;
  const std::string_view blank = unit.empty() ? "" : " ";
  if (rule.is_least_open) return fmt::format("greater than {} and at most {}{}{}", rule.least, rule.most, blank, unit);
  return fmt::format("from {} to {}{}{}", rule.least, rule.most, blank, unit);
}

std::optional<double> checked_number(FieldReader& reader, const TomlNode& node, const std::string& path,
                                     const NumberRule& rule) {
  const std::string limit = text_from_rule(rule);
  if (node.kind != TomlKind::integer && node.kind != TomlKind::number) {
    const std::string hint = node.kind == TomlKind::text ? hint_from_text(node.text, rule) : std::string(rule.hint);
    add_issue(reader, IssueCode::wrong_type, node, path, limit,
              fmt::format("{} is {}; it must be a number {}", path, written_text(reader, node), limit), hint);
    return std::nullopt;
  }
  if (!std::isfinite(node.number)) {
    add_issue(reader, IssueCode::out_of_range, node, path, limit,
              fmt::format("{} is {}; it must be a number {}", path, written_text(reader, node), limit),
              "leave the line out if you do not know the figure");
    return std::nullopt;
  }
  if (!is_in(node.number, rule)) {
    add_issue(reader, IssueCode::out_of_range, node, path, limit,
              fmt::format("{} is {}; it must be {}", path, written_text(reader, node), limit),
              hint_from_slip(node.number, rule));
    return std::nullopt;
  }
  return node.number;
}

std::optional<double> read_number(FieldReader& reader, const TableView& table, const NumberRule& rule) {
  const TomlNode* node = find_member(*table.node, rule.key);
  if (node == nullptr) return std::nullopt;
  return checked_number(reader, *node, path_from(table, rule.key), rule);
}

std::optional<std::int64_t> read_integer(FieldReader& reader, const TableView& table, const NumberRule& rule) {
  const TomlNode* node = find_member(*table.node, rule.key);
  if (node == nullptr) return std::nullopt;
  const std::string path = path_from(table, rule.key);
  const std::optional<double> number = checked_number(reader, *node, path, rule);
  if (!number) return std::nullopt;
  if (node->kind == TomlKind::integer) return node->integer;
  if (*number == std::floor(*number)) return static_cast<std::int64_t>(*number);
  add_issue(
      reader, IssueCode::wrong_type, *node, path, text_from_rule(rule),
      fmt::format("{} is {}; it must be a whole number {}", path, written_text(reader, *node), text_from_rule(rule)),
      "");
  return std::nullopt;
}

std::optional<std::string> read_text(FieldReader& reader, const TableView& table, std::string_view key) {
  const TomlNode* node = find_of_kind(reader, table, key, TomlKind::text);
  if (node == nullptr) return std::nullopt;
  if (node->text.size() > longest_text_bytes) {
    const std::string path = path_from(table, key);
    add_issue(reader, IssueCode::out_of_range, *node, path, fmt::format("{} bytes", longest_text_bytes),
              fmt::format("{} is longer than {} bytes", path, longest_text_bytes), "put long notes into comments");
    return std::nullopt;
  }
  return node->text;
}

std::optional<bool> read_flag(FieldReader& reader, const TableView& table, std::string_view key) {
  const TomlNode* node = find_of_kind(reader, table, key, TomlKind::flag);
  if (node == nullptr) return std::nullopt;
  return node->is_true;
}

std::optional<std::vector<double>> read_numbers(FieldReader& reader, const TableView& table, const NumberRule& rule,
                                                std::size_t n_items) {
  const TomlNode* list = find_of_kind(reader, table, rule.key, TomlKind::array);
  if (list == nullptr) return std::nullopt;
  const std::string path = path_from(table, rule.key);
  bool is_whole = true;
  if (list->items.size() != n_items) {
    add_issue(reader, IssueCode::inconsistent, *list, path, fmt::format("{} numbers", n_items),
              fmt::format("{} has {} entries; it must have {}", path, list->items.size(), n_items),
              n_items == 12 ? "one for each month, January first" : std::string(rule.hint));
    is_whole = false;
  }
  std::vector<double> values;
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    const std::optional<double> value = checked_number(reader, list->items[i], path_from(table, rule.key, i), rule);
    if (value) values.push_back(*value);
    is_whole = is_whole && value.has_value();
  }
  if (!is_whole) return std::nullopt;
  return values;
}

std::optional<TableView> read_table(FieldReader& reader, const TableView& table, std::string_view key) {
  const TomlNode* node = find_of_kind(reader, table, key, TomlKind::table);
  if (node == nullptr) return std::nullopt;
  return TableView{node, path_from(table, key)};
}

std::vector<TableView> read_tables(FieldReader& reader, const TableView& table, std::string_view key) {
  std::vector<TableView> tables;
  const TomlNode* list = find_member(*table.node, key);
  if (list == nullptr) return tables;
  if (list->kind == TomlKind::table) {
    const std::string path = path_from(table, key);
    add_issue(reader, IssueCode::wrong_type, *list, path, "a list of tables",
              fmt::format("{} is one table; it must be a list of tables", path),
              fmt::format("write [[{}]] with double brackets", path));
    return tables;
  }
  list = find_of_kind(reader, table, key, TomlKind::array);
  if (list == nullptr) return tables;
  for (std::size_t i = 0; i < list->items.size(); ++i) {
    const std::string path = path_from(table, key, i);
    if (list->items[i].kind == TomlKind::table) {
      tables.push_back({&list->items[i], path});
    } else {
      add_issue(reader, IssueCode::wrong_type, list->items[i], path, "a table",
                fmt::format("{} is {}; it must be a table", path, written_text(reader, list->items[i])), "");
    }
  }
  return tables;
}

bool has_field(FieldReader& reader, const TableView& table, std::string_view key, std::string_view hint) {
  if (find_member(*table.node, key) != nullptr) return true;
  const std::string path = path_from(table, key);
  add_issue(reader, IssueCode::missing_field, *table.node, path, "", fmt::format("{} is missing", path),
            std::string(hint));
  reader.issues.back().value.clear();
  return false;
}

bool has_entries(FieldReader& reader, const TableView& table, std::string_view key, std::string_view hint) {
  if (!has_field(reader, table, key, hint)) return false;
  const TomlNode& list = *find_member(*table.node, key);
  if (list.kind != TomlKind::array || !list.items.empty()) return true;
  const std::string path = path_from(table, key);
  add_issue(reader, IssueCode::missing_field, list, path, "at least one entry", fmt::format("{} is empty", path),
            std::string(hint));
  return false;
}

double read_required_number(FieldReader& reader, const TableView& table, const NumberRule& rule) {
  const std::string hint =
      rule.hint.empty() ? fmt::format("add {} = a number {}", rule.key, text_from_rule(rule)) : std::string(rule.hint);
  if (!has_field(reader, table, rule.key, hint)) return rule.least;
  return read_number(reader, table, rule).value_or(rule.least);
}

std::string read_required_text(FieldReader& reader, const TableView& table, std::string_view key,
                               std::string_view hint) {
  if (!has_field(reader, table, key, hint)) return {};
  const std::optional<std::string> text = read_text(reader, table, key);
  if (text && folded_name(*text).empty()) {
    const std::string path = path_from(table, key);
    add_issue(reader, IssueCode::out_of_range, *find_member(*table.node, key), path, "some text",
              fmt::format("{} is empty", path), std::string(hint));
  }
  return text.value_or("");
}

void check_keys(FieldReader& reader, const TableView& table, std::span<const std::string_view> known) {
  std::vector<std::string> unused;
  for (const std::string_view name : known) unused.emplace_back(name);
  for (const TomlMember& member : table.node->members) {
    bool is_known = false;
    for (const std::string_view name : known) is_known = is_known || member.key == name;
    if (is_known) continue;
    const std::string path = path_from(table, member.key);
    const std::optional<std::string> nearest = find_nearest_name(member.key, unused);
    TomlNode at = member.node;
    at.begin = member.key_place;
    add_issue(
        reader, IssueCode::unknown_field, at, path, joined_names(unused),
        fmt::format("{} is not known here", path_from(table, shortened(member.key))),
        nearest ? fmt::format("did you mean {}?", *nearest) : fmt::format("known here: {}", joined_names(unused)));
    reader.issues.back().value = member.key;
  }
}

std::string joined_names(std::span<const std::string> names) {
  std::string joined;
  for (const std::string& name : names) joined += (joined.empty() ? "" : ", ") + name;
  return joined;
}

void add_unknown_choice(FieldReader& reader, const TomlNode& at, const std::string& path,
                        std::span<const std::string> known) {
  const std::optional<std::string> nearest = find_nearest_name(at.text, known);
  add_issue(reader, IssueCode::unknown_name, at, path, joined_names(known),
            fmt::format("{} is {}; it must be one of {}", path, written_text(reader, at), joined_names(known)),
            nearest ? fmt::format("did you mean \"{}\"?", *nearest) : "");
}

void add_unknown_name(FieldReader& reader, const TomlNode& at, const std::string& path, std::string_view what,
                      std::span<const std::string> known) {
  const std::optional<std::string> nearest = find_nearest_name(at.text, known);
  constexpr std::size_t most_listed = 12;
  std::string hint;
  if (nearest) {
    hint = fmt::format("did you mean \"{}\"?", *nearest);
  } else if (known.empty()) {
    hint = fmt::format("there is no {} to name yet", what);
  } else if (known.size() <= most_listed) {
    hint = fmt::format("known: {}", joined_names(known));
  }
  add_issue(reader, IssueCode::unknown_name, at, path, fmt::format("a known {}", what),
            fmt::format("{} is {}; no {} of that name is known", path, written_text(reader, at), what),
            std::move(hint));
}

}  // namespace houseleek
