// Changes to a description that leave every other byte of its text as it is.
#include "design/edit_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>

#include "base/contract.hpp"
#include "base/nearest_name.hpp"
#include "design/text_places.hpp"

namespace houseleek::design {
namespace {

TextChange new_line(const RawDesign& description, std::size_t behind, std::string_view line) {
  const std::string& text = description.text;
  const std::size_t end = text.find('\n', behind);
  if (end == std::string::npos) return {text.size(), 0, fmt::format("\n{}\n", line)};
  return {end + 1, 0, fmt::format("{}\n", line)};
}

/// The member of a list of tables that has this name.
const TomlNode* find_named(const TomlNode& root, std::string_view list, std::string_view name) {
  const TomlNode* tables = find_member(root, list);
  if (tables == nullptr) return nullptr;
  for (const TomlNode& table : tables->items) {
    const TomlNode* own = find_member(table, "name");
    if (own != nullptr && folded_name(own->text) == folded_name(name)) return &table;
  }
  return nullptr;
}

std::optional<TextChange> checked_change(const RawDesign& description, const TomlNode& table, std::string_view key,
                                         std::string_view value) {
  const TomlNode* there = find_member(table, key);
  if (there != nullptr && is_under_header(description, *there)) return std::nullopt;
  return change_key(description, table, key, value);
}

}  // namespace

std::string with_changes(std::string_view text, std::vector<TextChange> changes) {
  std::stable_sort(changes.begin(), changes.end(),
                   [](const TextChange& a, const TextChange& b) { return a.at < b.at; });
  std::string changed;
  std::size_t at = 0;
  for (const TextChange& change : changes) {
    expects(change.at >= at && change.at + change.n_bytes <= text.size(), "changes that do not overlap");
    changed += text.substr(at, change.at - at);
    changed += change.text;
    at = change.at + change.n_bytes;
  }
  changed += text.substr(at);
  return changed;
}

std::string toml_text_from(std::string_view text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      quoted += '\\';
      quoted += c;
    } else if (static_cast<unsigned char>(c) < 0x20U || c == 0x7F) {
      quoted += fmt::format("\\u{:04X}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    } else {
      quoted += c;
    }
  }
  return quoted + "\"";
}

TextChange change_key(const RawDesign& description, const TomlNode& table, std::string_view key,
                      std::string_view value) {
  const std::string& text = description.text;
  if (const TomlNode* there = find_member(table, key)) {
    expects(!is_under_header(description, *there), "a value that is written in one piece");
    const std::size_t begin = offset_of(text, there->begin);
    return {begin, offset_of(text, there->end) - begin, std::string(value)};
  }
  const std::string line = fmt::format("{} = {}", key, value);
  if (first_char(description, table) == '{') {
    const std::size_t brace = offset_of(text, table.end) - 1;
    expects(text[brace] == '}', "the end of a table in braces");
    if (table.members.empty()) return {brace, 0, fmt::format(" {} ", line)};
    const std::size_t last = text.find_last_not_of(" \t", brace - 1);
    return {last + 1, 0, ", " + line};
  }
  const std::size_t own = end_of_own_keys(description, table);
  return new_line(description, own > 0 ? own : offset_of(text, table.begin), line);
}

std::optional<TextChange> change_figure(const RawDesign& description, const Design& read, std::string_view path,
                                        std::string_view value) {
  constexpr std::string_view material_prefix = "material[";
  const TomlNode& root = description.root;
  if (path.starts_with(material_prefix)) {
    const std::size_t close = path.rfind("].");
    expects(close != std::string_view::npos, "a property of a material");
    const std::string_view name = path.substr(material_prefix.size(), close - material_prefix.size());
    const std::string_view key = path.substr(close + 2);
    if (const TomlNode* own = find_named(root, "material", name)) return checked_change(description, *own, key, value);
    return append_tables(description,
                         fmt::format("[[material]]\nname = {}\n{} = {}\n", toml_text_from(name), key, value));
  }
  const TomlNode* table = &root;
  std::string_view rest = path;
  while (true) {
    const std::size_t dot = rest.find('.');
    const std::string_view step = rest.substr(0, dot);
    if (dot == std::string_view::npos) return checked_change(description, *table, step, value);
    const std::string_view key = step.substr(0, step.find('['));
    const TomlNode* next = find_member(*table, key);
    if (next != nullptr && key.size() < step.size()) {
      std::size_t index = 0;
      for (const char digit : step.substr(key.size() + 1, step.size() - key.size() - 2)) {
        index = 10 * index + static_cast<std::size_t>(digit - '0');
      }
      next = index < next->items.size() ? &next->items[index] : nullptr;
      if (next == nullptr) return std::nullopt;
    }
    if (path.starts_with("roof.finish.") && key == "finish" && (next == nullptr || next->kind == TomlKind::text)) {
      const bool is_albedo = rest.substr(dot + 1) == "albedo";
      const std::string written =
          is_albedo ? fmt::format("{{ albedo = {}, emissivity = {} }}", value, read.roof.finish.emissivity)
                    : fmt::format("{{ albedo = {}, emissivity = {} }}", read.roof.finish.albedo, value);
      return change_key(description, *table, "finish", written);
    }
    rest.remove_prefix(dot + 1);
    if (next == nullptr) {
      // Tables that are not there, one in the other.
      if (key.size() < step.size()) return std::nullopt;
      std::string inner(value);
      while (!rest.empty()) {
        const std::size_t last = rest.rfind('.');
        inner = fmt::format("{{ {} = {} }}", last == std::string_view::npos ? rest : rest.substr(last + 1), inner);
        rest = last == std::string_view::npos ? std::string_view() : rest.substr(0, last);
      }
      return change_key(description, *table, key, inner);
    }
    if (next->kind != TomlKind::table) return std::nullopt;
    table = next;
  }
}

TextChange append_tables(const RawDesign& description, std::string_view tables) {
  const bool has_end = description.text.empty() || description.text.back() == '\n';
  return {description.text.size(), 0, fmt::format("{}\n{}", has_end ? "" : "\n", tables)};
}

}  // namespace houseleek::design
