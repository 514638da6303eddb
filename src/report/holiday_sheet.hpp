// One printed page for a neighbour who waters: what, when, how many cans, boxes to tick.
#pragma once
#include <string>

#include "report/page_frame.hpp"

namespace houseleek::report {

/// Errors: the JSON library's exception where the document has no days away.
[[nodiscard]] std::string sheet_for_neighbour(const Json& document, const ReportHead& head);

}  // namespace houseleek::report
