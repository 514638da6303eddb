// Issues as a person reads them: file, place, sentence, the offending line with a caret, a hint.
#include "base/issue_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "base/utf8.hpp"

namespace houseleek {
namespace {

constexpr std::size_t widest_excerpt = 100;  // characters; fits a terminal with its indent
constexpr std::size_t shown_before = 60;     // of a long line, before the place

/// The line and below it a caret under the place. Tabs become one space so that the caret stays below its character.
std::string excerpt_of(std::string_view source_text, int line, int column) {
  const std::string_view whole = line_of_text(source_text, line);
  const std::size_t n_characters = count_characters(whole);
  const std::size_t at = std::min(static_cast<std::size_t>(column - 1), n_characters);
  std::size_t first = 0;
  std::size_t last = n_characters;
  if (n_characters > widest_excerpt) {
    first = at > shown_before ? at - shown_before : 0;
    last = std::min(n_characters, first + widest_excerpt);
  }
  const std::size_t begin = offset_of_character(whole, first);
  const std::size_t end = begin + offset_of_character(whole.substr(begin), last - first);
  std::string shown = first > 0 ? "..." : "";
  const std::size_t caret_at = shown.size() + (at - first);
  for (const char c : whole.substr(begin, end - begin)) {
    shown += static_cast<unsigned char>(c) < 0x20U || c == 0x7F ? ' ' : c;
  }
  if (last < n_characters) shown += "...";
  return fmt::format("    {}\n    {}^\n", shown, std::string(caret_at, ' '));
}

}  // namespace

std::string text_from_issue(const Issue& issue, std::string_view source_text) {
  std::string text;
  if (!issue.file.empty()) {
    text += issue.file + ":";
    if (issue.line > 0) text += fmt::format("{}:{}:", issue.line, issue.column);
    text += " ";
  }
  text += fmt::format("{}: {}\n", issue.severity == Severity::error ? "error" : "warning", issue.message);
  if (issue.line > 0 && issue.column > 0) text += excerpt_of(source_text, issue.line, issue.column);
  if (!issue.hint.empty()) text += fmt::format("  hint: {}\n", issue.hint);
  return text;
}

std::string text_from_issues(const Issues& issues, std::string_view source_text, int max_shown) {
  std::string text;
  const std::size_t n_shown = std::min(issues.size(), static_cast<std::size_t>(std::max(max_shown, 0)));
  for (std::size_t i = 0; i < n_shown; ++i) text += text_from_issue(issues[i], source_text);
  if (n_shown < issues.size()) text += fmt::format("... and {} more\n", issues.size() - n_shown);
  return text;
}

Issues sorted_by_place(Issues issues) {
  std::stable_sort(issues.begin(), issues.end(), [](const Issue& a, const Issue& b) {
    return std::tie(a.line, a.column, a.path) < std::tie(b.line, b.column, b.path);
  });
  return issues;
}

std::string_view text_from_issue_code(IssueCode code) {
  switch (code) {
    case IssueCode::syntax:
      return "syntax";
    case IssueCode::missing_field:
      return "missing_field";
    case IssueCode::unknown_field:
      return "unknown_field";
    case IssueCode::wrong_type:
      return "wrong_type";
    case IssueCode::out_of_range:
      return "out_of_range";
    case IssueCode::unknown_name:
      return "unknown_name";
    case IssueCode::inconsistent:
      return "inconsistent";
  }
  expects(false, "an issue code of the list");
  return {};
}

}  // namespace houseleek
