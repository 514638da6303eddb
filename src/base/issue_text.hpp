// Issues as a person reads them: file, place, sentence, the offending line with a caret, a hint.
#pragma once
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace houseleek {

/// One issue with the line of `source_text` it points at; a long line is cut around the place.
///
///   roof.toml:14:16: error: recipe[0].layer[2].thickness_mm is -50; it must be from 3 to 1000
///     thickness_mm = -50
///                    ^
///     hint: give the thickness as bought, in millimetres
[[nodiscard]] std::string text_from_issue(const Issue& issue, std::string_view source_text);

/// All issues in order, at most `max_shown`, then a line that counts the rest.
[[nodiscard]] std::string text_from_issues(const Issues& issues, std::string_view source_text, int max_shown = 50);

/// Sorts by line, column, then path; ties keep their order.
[[nodiscard]] Issues sorted_by_place(Issues issues);

/// missing_field, out_of_range ... as other programs see it.
[[nodiscard]] std::string_view text_from_issue_code(IssueCode code);

}  // namespace houseleek
