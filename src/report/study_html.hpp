// A study's answer as one page that needs nothing else: no other file, no network, no script.
#pragma once
#include <string>

#include "report/page_frame.hpp"
#include "report/year_columns.hpp"

namespace houseleek::report {

/// The page. Every figure on it is taken from the document, every chart from the document or the hours behind it.
/// `trials`: what a project's own readings say (report/trial_html.hpp); may be empty.
/// Errors: the JSON library's exception where the document is none of a study.
[[nodiscard]] std::string page_of_study(const Json& document, const YearColumns& columns, const ReportHead& head,
                                        const Html& trials = {});

}  // namespace houseleek::report
