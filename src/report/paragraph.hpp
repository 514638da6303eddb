// Text laid into lines of a fixed width, counted in characters.
#pragma once
#include <string>
#include <string_view>

namespace houseleek::report {

inline constexpr std::size_t page_width = 80;

/// Words set into lines of at most page_width characters; every line but the first begins with `indent` blanks, the
/// first with `label`, filled up to as many. A word longer than a line is cut. Bytes below a blank become blanks. Ends
/// with a line end.
[[nodiscard]] std::string paragraph(std::string_view label, std::size_t indent, std::string_view text);

/// Lines in a text that ends with a line end.
[[nodiscard]] std::size_t count_lines(std::string_view text);

}  // namespace houseleek::report
