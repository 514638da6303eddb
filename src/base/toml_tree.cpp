// A TOML file as a plain tree whose every node knows its place in the text.
#define TOML_EXCEPTIONS 0
// With NDEBUG the parser turns its own checks into promises to the optimiser, and some do not hold for broken files
// (a header "[=" reaches one); without it they would abort. As nothing at all they leave the parser's error paths alone.
#undef NDEBUG
#define TOML_ASSERT(expr) static_cast<void>(0)
#include "base/toml_tree.hpp"

#include <toml++/toml.h>

#include <algorithm>
#include <sstream>

#include "base/toml_scan.hpp"

namespace houseleek {
namespace {

TextPlace place_from(const toml::source_position& position) {
  return {static_cast<int>(position.line), static_cast<int>(position.column)};
}

template <class T>
std::string iso_text_from(const T& date_or_time) {
  std::ostringstream stream;
  stream << date_or_time;
  return stream.str();
}

TomlNode node_from(const toml::node& source) {
  TomlNode node;
  node.begin = place_from(source.source().begin);
  node.end = place_from(source.source().end);
  switch (source.type()) {
    case toml::node_type::table: {
      node.kind = TomlKind::table;
      for (const auto& [key, child] : *source.as_table()) {
        node.members.push_back({std::string(key.str()), place_from(key.source().begin), node_from(child)});
      }
      // The parser sorts by name; people read by place.
      std::stable_sort(node.members.begin(), node.members.end(),
                       [](const TomlMember& a, const TomlMember& b) { return a.key_place < b.key_place; });
      break;
    }
    case toml::node_type::array:
      node.kind = TomlKind::array;
      for (const auto& child : *source.as_array()) node.items.push_back(node_from(child));
      break;
    case toml::node_type::string:
      node.kind = TomlKind::text;
      node.text = source.as_string()->get();
      break;
    case toml::node_type::integer:
      node.kind = TomlKind::integer;
      node.integer = source.as_integer()->get();
      node.number = static_cast<double>(node.integer);
      break;
    case toml::node_type::floating_point:
      node.kind = TomlKind::number;
      node.number = source.as_floating_point()->get();
      break;
    case toml::node_type::boolean:
      node.kind = TomlKind::flag;
      node.is_true = source.as_boolean()->get();
      break;
    case toml::node_type::date:
      node.kind = TomlKind::date;
      node.text = iso_text_from(source.as_date()->get());
      break;
    case toml::node_type::time:
      node.kind = TomlKind::date;
      node.text = iso_text_from(source.as_time()->get());
      break;
    case toml::node_type::date_time:
      node.kind = TomlKind::date;
      node.text = iso_text_from(source.as_date_time()->get());
      break;
    case toml::node_type::none:
      expects(false, "a parsed node to have a type");
  }
  return node;
}

}  // namespace

Result<TomlNode> parse_toml(std::string_view text, std::string_view file_name, const TomlLimits& limits) {
  if (std::optional<Issue> unreadable = find_unreadable(text, file_name, limits)) {
    return Unexpected{{std::move(*unreadable)}};
  }
  const toml::parse_result parsed = toml::parse(text);
  if (!parsed) {
    const TextPlace place = place_from(parsed.error().source().begin);
    Issue issue;
    issue.code = IssueCode::syntax;
    issue.file = std::string(file_name);
    issue.line = place.line;
    issue.column = place.column;
    issue.message = std::string(parsed.error().description());
    issue.hint = "the file is not well-formed TOML from here on; further problems show once this is mended";
    return Unexpected{{std::move(issue)}};
  }
  return node_from(parsed.table());
}

const TomlNode* find_member(const TomlNode& table, std::string_view key) {
  for (const TomlMember& member : table.members) {
    if (member.key == key) return &member.node;
  }
  return nullptr;
}

}  // namespace houseleek
