// Where the values of a description stand in its text.
#pragma once
#include <cstddef>
#include <string_view>

#include "design/parse.hpp"

namespace houseleek::design {

/// The byte at which a place begins; columns count characters.
[[nodiscard]] std::size_t offset_of(std::string_view text, TextPlace place);

/// The byte a node begins with; zero at the end of the text.
[[nodiscard]] char first_char(const RawDesign& description, const TomlNode& node);

/// Under a header of its own: [roof.finish], [[recipe]].
[[nodiscard]] bool is_under_header(const RawDesign& description, const TomlNode& node);

/// One past the last byte of what a table says itself; 0 where it says nothing.
[[nodiscard]] std::size_t end_of_own_keys(const RawDesign& description, const TomlNode& table);

}  // namespace houseleek::design
