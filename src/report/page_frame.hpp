// What every page of ours has: the head with its marks, the style, and no need of another file, a network or a script.
#pragma once
#include <string>
#include <string_view>

#include "report/html.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

/// What only the person's machine knows.
struct ReportHead {
  std::string date;  // as it is to be printed
};

/// Whose house it is, what of it is invented, what stands on it, when and from what the page was made.
/// Errors: the JSON library's exception where the document is none of a study.
[[nodiscard]] Html page_header(const Json& document, const ReportHead& head, std::string_view kind);

/// When and from what a page was made: date, engine, seed, hash of the inputs.
[[nodiscard]] Html made_from_line(const Json& engine, const ReportHead& head);

/// A part of a page under its heading.
[[nodiscard]] Html section(std::string_view id, std::string_view title, const Html& content);

/// The document's cautions, which stand before anything else.
[[nodiscard]] Html cautions_section(const Json& document);

/// The whole file.
[[nodiscard]] std::string page_from(const std::string& title, const Html& content);

}  // namespace houseleek::report
