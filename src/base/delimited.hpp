// Delimited text (CSV) with the place of every field, so that a problem can be shown where it stands.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace houseleek {

/// One field as a person sees it: quotes taken off, doubled quotes made one, and the place of its first character.
struct DelimitedField {
  std::string text;
  int line = 0;    // from 1; of the character the field starts with
  int column = 0;  // from 1, in characters
  bool was_quoted = false;
  bool operator==(const DelimitedField&) const = default;
};

using DelimitedRow = std::vector<DelimitedField>;

/// Fields of a text by RFC 4180, one vector a record. Also accepted: a line that ends with a line feed alone, a byte
/// order mark at the start, and lines without any character (they are no record). Rows keep their own number of fields:
/// the caller judges it. A record always has at least one field. Issues (all of them, sorted by place): a quote inside
/// a field that does not start with one, characters behind a closing quote, a quote that is never closed. A control
/// character or a byte that is not UTF-8 means that the file is no text: that issue comes alone.
[[nodiscard]] Result<std::vector<DelimitedRow>> parse_delimited(std::string_view text, std::string_view file_name,
                                                                char delimiter = ',');

/// A finite number that fills the whole text but for blanks around it; a decimal point, an exponent if need be.
[[nodiscard]] std::optional<double> number_from_text(std::string_view text);

}  // namespace houseleek
