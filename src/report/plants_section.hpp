// Plants in a study's report: what grows there and why, what to add, what is kept in, the year in letters.
#pragma once
#include "report/html.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

/// The field `plants` of a study's document.
[[nodiscard]] Html plants_section(const Json& document);

}  // namespace houseleek::report
