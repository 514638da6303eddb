// Markup that is well formed by construction, as HTML and as XML: the one place where text is escaped.
#include "report/html.hpp"

#include <algorithm>
#include <array>

#include "base/contract.hpp"
#include "base/utf8.hpp"

namespace houseleek::report {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";

bool is_forbidden(std::string_view character) {
  const auto first = static_cast<unsigned char>(character.front());
  if (character.size() == 1) {
    return first == 0x7F || (first < 0x20 && first != '\t' && first != '\n' && first != '\r');
  }
  // U+0080 to U+009F are controls; U+FFFE and U+FFFF are no characters.
  if (character.size() == 2) return first == 0xC2 && static_cast<unsigned char>(character[1]) < 0xA0;
  return character == "\xEF\xBF\xBE" || character == "\xEF\xBF\xBF";
}

void append_escaped(std::string& out, std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t n_bytes = character_bytes(text, at);
    const std::string_view character = text.substr(at, std::max<std::size_t>(1, n_bytes));
    at += character.size();
    if (n_bytes == 0 || is_forbidden(character)) {
      out += replacement;
    } else if (character == "&") {
      out += "&amp;";
    } else if (character == "<") {
      out += "&lt;";
    } else if (character == ">") {
      out += "&gt;";
    } else if (character == "\"") {
      out += "&quot;";
    } else if (character == "'") {
      out += "&#39;";
    } else {
      out += character;
    }
  }
}

bool is_void(std::string_view name) {
  constexpr std::array<std::string_view, 4> voids = {"br", "meta", "hr", "col"};
  return std::find(voids.begin(), voids.end(), name) != voids.end();
}

}  // namespace

Html html_from(std::string_view text) {
  Html html;
  append_escaped(html.text_, text);
  return html;
}

Html element(std::string_view name, const Attributes& attributes, const Html& children) {
  std::string text(1, '<');
  text.append(name);
  for (const auto& [key, value] : attributes) {
    text.append(" ").append(key).append("=\"");
    append_escaped(text, value);
    text += '"';
  }
  if (is_void(name)) {
    expects(children.is_empty(), "nothing inside an element without content");
    return Html(text.append("/>"));
  }
  return Html(text.append(">").append(children.text_).append("</").append(name).append(">"));
}

Html element_of(std::string_view name, std::string_view text) { return element(name, {}, html_from(text)); }

Html name_from(std::string_view text) { return element("bdi", {}, html_from(text)); }

Html style_element(std::string_view css) {
  expects(css.find_first_of("<&") == std::string_view::npos, "a style sheet without markup");
  return Html(std::string("<style>").append(css).append("</style>"));
}

}  // namespace houseleek::report
