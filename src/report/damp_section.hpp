// Damp in the deck as a part of a report: the caution first, the years of each cover, the cases behind them.
#pragma once
#include "report/study_charts.hpp"

namespace houseleek::report {

/// Statement, who must look at it, water through the years with its table, cases, what is assumed and left out.
[[nodiscard]] Html damp_section(const Json& document);

}  // namespace houseleek::report
