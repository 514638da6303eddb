// A study's answer as one page that needs nothing else: no other file, no network, no script.
#pragma once
#include <string>

#include "report/issue_json.hpp"
#include "report/year_columns.hpp"

namespace houseleek::report {

/// What only the person's machine knows.
struct ReportHead {
  std::string date;  // as it is to be printed
};

/// The page. Every figure on it is taken from the document, every chart from the document or the hours behind it.
/// Errors: the JSON library's exception where the document is none of a study.
[[nodiscard]] std::string page_of_study(const Json& document, const YearColumns& columns, const ReportHead& head);

}  // namespace houseleek::report
