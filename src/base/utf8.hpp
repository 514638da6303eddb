// Characters of a UTF-8 text: walked, counted, checked.
#pragma once
#include <cstddef>
#include <string_view>

namespace houseleek {

/// Bytes of the well-formed character that starts at `at`; 0 if it is not well formed.
[[nodiscard]] std::size_t character_bytes(std::string_view text, std::size_t at);

[[nodiscard]] bool is_utf8(std::string_view text);

/// Characters of a well-formed text (bytes that are not well formed count one each).
[[nodiscard]] std::size_t count_characters(std::string_view text);

/// Byte offset of the character with this index (from 0), or the text's size.
[[nodiscard]] std::size_t offset_of_character(std::string_view text, std::size_t index);

/// The line with this number (from 1) without its line end; empty if there is none.
[[nodiscard]] std::string_view line_of_text(std::string_view text, int line);

}  // namespace houseleek
