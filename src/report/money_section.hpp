// Money, rivals, carbon and what to build next, as sections of a report.
#pragma once
#include "report/study_charts.hpp"

namespace houseleek::report {

[[nodiscard]] Html money_section(const ChartSource& source);
[[nodiscard]] Html order_section(const Json& document);

}  // namespace houseleek::report
