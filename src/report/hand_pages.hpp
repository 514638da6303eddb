// Pages to be printed and handed to the people who have to judge the roof: figures, questions, and room for answers.
#pragma once
#include <string>

#include "report/page_frame.hpp"

namespace houseleek::report {

/// For a structural engineer: the plan with what lies on each square, cases, point loads, water behind blocked outlets,
/// the questions whose answers the description takes, and blanks to sign. It asks; it gives no verdict of its own.
/// Errors: the JSON library's exception where the document is none of a study.
[[nodiscard]] std::string page_for_engineer(const Json& document, const ReportHead& head);

/// For a roofer: the membrane and what presses on it, outlets and water, what to look at before anything covers it, what
/// voids a warranty, and blanks to sign.
/// Errors: as above.
[[nodiscard]] std::string page_for_roofer(const Json& document, const ReportHead& head);

}  // namespace houseleek::report
