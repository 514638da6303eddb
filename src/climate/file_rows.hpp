// A weather file's text as rows of fields: characters, comment lines, delimiter.
#pragma once
#include <string_view>
#include <vector>

#include "base/delimited.hpp"
#include "base/result.hpp"
#include "climate/file_report.hpp"
#include "climate/file_rules.hpp"

namespace houseleek::climate {

struct FileRows {
  std::vector<DelimitedRow> rows;  // comment lines and lines of blanks left out; never empty
  char delimiter = ',';
};

/// Rows of a text. UTF-8 with or without a byte order mark, or Latin-1; comment lines begin with #. The delimiter is the
/// one that gives most lines the same number of fields with the most numbers and times in them; issues if none or
/// several do.
[[nodiscard]] Result<FileRows> split_rows(std::string_view text, std::string_view file_name, const FileRules& rules,
                                          FileReport& report);

/// A number with a point or a comma, a clock time, a date, or nothing: what rows of weather are full of.
[[nodiscard]] bool is_number_or_time(std::string_view field);

/// Words that stand for no value in any file: nothing, NA, NaN, null, -, --, ---.
[[nodiscard]] bool is_missing_word(std::string_view field);

/// Blanks taken off both ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// A field as an issue quotes it: long ones are cut.
[[nodiscard]] std::string quoted(std::string_view text);

/// "comma" for ','.
[[nodiscard]] std::string_view word_of_delimiter(char delimiter);

}  // namespace houseleek::climate
