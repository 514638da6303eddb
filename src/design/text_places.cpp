// Where the values of a description stand in its text.
#include "design/text_places.hpp"

#include <algorithm>

namespace houseleek::design {
namespace {

bool is_later_byte(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

}  // namespace

std::size_t offset_of(std::string_view text, TextPlace place) {
  std::size_t at = 0;
  for (int line = 1; line < place.line; ++line) {
    const std::size_t end = text.find('\n', at);
    if (end == std::string_view::npos) return text.size();
    at = end + 1;
  }
  for (int column = 1; column < place.column && at < text.size(); ++column) {
    ++at;
    while (at < text.size() && is_later_byte(text[at])) ++at;
  }
  return at;
}

char first_char(const RawDesign& description, const TomlNode& node) {
  const std::size_t at = offset_of(description.text, node.begin);
  return at < description.text.size() ? description.text[at] : '\0';
}

bool is_under_header(const RawDesign& description, const TomlNode& node) {
  if (node.kind == TomlKind::table) return first_char(description, node) == '[';
  if (node.kind != TomlKind::array || node.items.empty()) return false;
  return node.items.front().kind == TomlKind::table && first_char(description, node.items.front()) == '[';
}

std::size_t end_of_own_keys(const RawDesign& description, const TomlNode& table) {
  std::size_t end = 0;
  for (const TomlMember& member : table.members) {
    if (is_under_header(description, member.node)) continue;
    const bool is_dotted = member.node.kind == TomlKind::table && first_char(description, member.node) != '{';
    end = std::max(
        end, is_dotted ? end_of_own_keys(description, member.node) : offset_of(description.text, member.node.end));
  }
  return end;
}

}  // namespace houseleek::design
