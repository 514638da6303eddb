// The upkeep of a roof as a page: lives with their curves, the forecast, storms, looks, rounds, taking it off.
#pragma once
#include <string>

#include "report/page_frame.hpp"

namespace houseleek::report {

/// `document` is that of json_from(UpkeepAnswer); every figure of the page stands in it.
[[nodiscard]] std::string page_of_upkeep(const Json& document, const ReportHead& head);

}  // namespace houseleek::report
