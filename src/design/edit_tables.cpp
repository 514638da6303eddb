// Whole tables of a description: taken out, put in, moved, with every other byte as it was.
#include "design/edit_tables.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "design/text_places.hpp"

namespace houseleek::design {
namespace {

/// Items of one list that a person edits by hand are far fewer.
constexpr std::size_t most_index_digits = 6;

std::size_t begin_of_line(std::string_view text, std::size_t at) {
  if (at == 0) return 0;
  const std::size_t before = text.rfind('\n', at - 1);
  return before == std::string_view::npos ? 0 : before + 1;
}

/// One past the line's end.
std::size_t end_of_line(std::string_view text, std::size_t at) {
  const std::size_t end = text.find('\n', at);
  return end == std::string_view::npos ? text.size() : end + 1;
}

/// One past the last byte of a table and of all tables in it.
std::size_t end_of_all(const RawDesign& description, const TomlNode& table) {
  // A header's own line where nothing stands below it.
  std::size_t end = first_char(description, table) == '['
                        ? end_of_line(description.text, offset_of(description.text, table.begin)) - 1
                        : 0;
  end = std::max(end, end_of_own_keys(description, table));
  for (const TomlMember& member : table.members) {
    if (member.node.kind == TomlKind::table) end = std::max(end, end_of_all(description, member.node));
    if (member.node.kind != TomlKind::array || !is_under_header(description, member.node)) continue;
    for (const TomlNode& item : member.node.items) end = std::max(end, end_of_all(description, item));
  }
  return end;
}

/// Bytes from the header's line to the last line of a table under a header.
struct Span {
  std::size_t begin = 0;
  std::size_t end = 0;
};

std::optional<Span> span_of(const RawDesign& description, const TomlNode& table) {
  if (table.kind != TomlKind::table || first_char(description, table) != '[') return std::nullopt;
  const std::string& text = description.text;
  return Span{begin_of_line(text, offset_of(text, table.begin)), end_of_line(text, end_of_all(description, table))};
}

std::string header_of(const std::vector<PathStep>& list) {
  std::string name;
  for (const PathStep& step : list) name += (name.empty() ? "" : ".") + step.key;
  return fmt::format("[[{}]]", name);
}

std::string ended(std::string_view text) {
  return std::string(text) + (text.empty() || text.back() == '\n' ? "" : "\n");
}

}  // namespace

std::optional<std::vector<PathStep>> read_path(std::string_view path) {
  std::vector<PathStep> steps;
  std::size_t at = 0;
  while (at <= path.size()) {
    const std::size_t dot = std::min(path.find('.', at), path.size());
    const std::string_view word = path.substr(at, dot - at);
    PathStep step;
    const std::size_t bracket = std::min(word.find('['), word.size());
    step.key = word.substr(0, bracket);
    const bool is_key = !step.key.empty() && std::all_of(step.key.begin(), step.key.end(), [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
    });
    if (!is_key) return std::nullopt;
    if (bracket < word.size()) {
      const std::string_view digits = word.substr(bracket + 1, word.size() - bracket - 2);
      const bool is_index = word.back() == ']' && !digits.empty() && digits.size() <= most_index_digits &&
                            std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; });
      if (!is_index) return std::nullopt;
      std::size_t index = 0;
      for (const char digit : digits) index = 10 * index + static_cast<std::size_t>(digit - '0');
      step.index = index;
    }
    steps.push_back(std::move(step));
    at = dot + 1;
  }
  return steps;
}

const TomlNode* find_node(const TomlNode& root, const std::vector<PathStep>& path) {
  const TomlNode* node = &root;
  for (const PathStep& step : path) {
    if (node->kind != TomlKind::table) return nullptr;
    node = find_member(*node, step.key);
    if (node == nullptr) return nullptr;
    if (!step.index) continue;
    if (node->kind != TomlKind::array || *step.index >= node->items.size()) return nullptr;
    node = &node->items[*step.index];
  }
  return node;
}

std::optional<TextChange> remove_table(const RawDesign& description, const TomlNode& table) {
  const std::optional<Span> span = span_of(description, table);
  if (!span) return std::nullopt;
  return TextChange{span->begin, span->end - span->begin, ""};
}

std::optional<TextChange> insert_table(const RawDesign& description, const std::vector<PathStep>& list,
                                       std::size_t index, std::string_view keys) {
  expects(!list.empty(), "the name of a list");
  const std::string table = fmt::format("{}\n{}", header_of(list), ended(keys));
  const TomlNode* there = find_node(description.root, list);
  if (there == nullptr) {
    if (list.size() == 1) return append_tables(description, table);
    const TomlNode* parent = find_node(description.root, {list.begin(), list.end() - 1});
    if (parent == nullptr) return std::nullopt;
    const std::optional<Span> span = span_of(description, *parent);
    if (!span) return std::nullopt;
    const bool has_end = span->end == 0 || description.text[span->end - 1] == '\n';
    return TextChange{span->end, 0, (has_end ? "" : "\n") + table};
  }
  if (there->kind != TomlKind::array || !is_under_header(description, *there)) return std::nullopt;
  if (index < there->items.size()) {
    const std::optional<Span> span = span_of(description, there->items[index]);
    if (!span) return std::nullopt;
    return TextChange{span->begin, 0, table};
  }
  const std::optional<Span> last = span_of(description, there->items.back());
  if (!last) return std::nullopt;
  const bool has_end = description.text[last->end - 1] == '\n';
  return TextChange{last->end, 0, (has_end ? "" : "\n") + table};
}

std::optional<std::vector<TextChange>> move_table(const RawDesign& description, const std::vector<PathStep>& list,
                                                  std::size_t from, std::size_t to) {
  const TomlNode* there = find_node(description.root, list);
  if (there == nullptr || there->kind != TomlKind::array) return std::nullopt;
  if (from >= there->items.size() || to >= there->items.size()) return std::nullopt;
  const std::optional<Span> source = span_of(description, there->items[from]);
  const std::optional<Span> target = span_of(description, there->items[to]);
  if (!source || !target) return std::nullopt;
  if (from == to) return std::vector<TextChange>{};
  const std::string text = ended(std::string_view(description.text).substr(source->begin, source->end - source->begin));
  const std::size_t at = to > from ? target->end : target->begin;
  const bool has_end = at == 0 || description.text[at - 1] == '\n';
  return std::vector<TextChange>{{source->begin, source->end - source->begin, ""},
                                 {at, 0, (has_end ? "" : "\n") + text}};
}

std::optional<TextChange> remove_key(const RawDesign& description, const TomlNode& table, std::string_view key) {
  const auto found = std::find_if(table.members.begin(), table.members.end(),
                                  [key](const TomlMember& member) { return member.key == key; });
  if (found == table.members.end() || is_under_header(description, found->node)) return std::nullopt;
  const std::string& text = description.text;
  const std::size_t begin = offset_of(text, found->key_place);
  const std::size_t end = offset_of(text, found->node.end);
  if (first_char(description, table) == '{') {
    // With the comma behind it, or else the one before it.
    const std::size_t behind = text.find_first_not_of(" \t", end);
    if (behind != std::string::npos && text[behind] == ',') {
      const std::size_t next = text.find_first_not_of(" \t", behind + 1);
      return TextChange{begin, next - begin, ""};
    }
    const std::size_t before = text.find_last_not_of(" \t", begin - 1);
    const std::size_t from = text[before] == ',' ? before : begin;
    return TextChange{from, end - from, ""};
  }
  return TextChange{begin_of_line(text, begin), end_of_line(text, end) - begin_of_line(text, begin), ""};
}

std::optional<TextChange> replace_key(const RawDesign& description, const TomlNode& table, std::string_view key,
                                      std::string_view words) {
  const auto found = std::find_if(table.members.begin(), table.members.end(),
                                  [key](const TomlMember& member) { return member.key == key; });
  if (found == table.members.end() || is_under_header(description, found->node)) return std::nullopt;
  const std::size_t begin = offset_of(description.text, found->key_place);
  return TextChange{begin, offset_of(description.text, found->node.end) - begin, std::string(words)};
}

std::string written_value(const RawDesign& description, const TomlNode& value) {
  const std::size_t begin = offset_of(description.text, value.begin);
  return description.text.substr(begin, offset_of(description.text, value.end) - begin);
}

}  // namespace houseleek::design
