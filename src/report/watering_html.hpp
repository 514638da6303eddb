// The answer of `houseleek water` as a page: moisture with the waterings, seasons, the barrel's curve, tables.
#pragma once
#include <string>

#include "report/page_frame.hpp"

namespace houseleek::report {

/// Errors: the JSON library's exception where the document is none of `houseleek water`.
[[nodiscard]] std::string page_of_watering(const Json& document, const ReportHead& head);

}  // namespace houseleek::report
