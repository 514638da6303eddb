// Characters of a UTF-8 text: walked, counted, checked.
#include "base/utf8.hpp"

namespace houseleek {
namespace {

unsigned byte_at(std::string_view text, std::size_t at) { return static_cast<unsigned char>(text[at]); }

}  // namespace

std::size_t character_bytes(std::string_view text, std::size_t at) {
  const unsigned first = byte_at(text, at);
  if (first < 0x80U) return 1;
  const std::size_t n_bytes = first >= 0xF0U ? 4 : first >= 0xE0U ? 3 : 2;
  if (first < 0xC2U || first > 0xF4U || at + n_bytes > text.size()) return 0;
  for (std::size_t i = 1; i < n_bytes; ++i) {
    if ((byte_at(text, at + i) & 0xC0U) != 0x80U) return 0;
  }
  const unsigned second = byte_at(text, at + 1);
  // Overlong forms, surrogates, and beyond the last code point (RFC 3629, section 4).
  if ((first == 0xE0U && second < 0xA0U) || (first == 0xEDU && second > 0x9FU)) return 0;
  if ((first == 0xF0U && second < 0x90U) || (first == 0xF4U && second > 0x8FU)) return 0;
  return n_bytes;
}

bool is_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t n_bytes = character_bytes(text, at);
    if (n_bytes == 0) return false;
    at += n_bytes;
  }
  return true;
}

std::size_t count_characters(std::string_view text) {
  std::size_t n_characters = 0;
  for (std::size_t at = 0; at < text.size(); ++n_characters) {
    const std::size_t n_bytes = character_bytes(text, at);
    at += n_bytes == 0 ? 1 : n_bytes;
  }
  return n_characters;
}

std::size_t offset_of_character(std::string_view text, std::size_t index) {
  std::size_t at = 0;
  for (std::size_t i = 0; i < index && at < text.size(); ++i) {
    const std::size_t n_bytes = character_bytes(text, at);
    at += n_bytes == 0 ? 1 : n_bytes;
  }
  return at;
}

std::string_view line_of_text(std::string_view text, int line) {
  if (line < 1) return {};
  std::size_t begin = 0;
  for (int i = 1; i < line; ++i) {
    const std::size_t line_end = text.find('\n', begin);
    if (line_end == std::string_view::npos) return {};
    begin = line_end + 1;
  }
  const std::size_t line_end = text.find('\n', begin);
  std::string_view found = text.substr(begin, line_end == std::string_view::npos ? line_end : line_end - begin);
  if (!found.empty() && found.back() == '\r') found.remove_suffix(1);
  return found;
}

}  // namespace houseleek
