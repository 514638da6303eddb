// The week's list for a terminal of 80 columns, and as a JSON document.
#pragma once
#include <string>

#include "report/json_parts.hpp"
#include "report/week_answer.hpp"

namespace houseleek::report {

[[nodiscard]] std::string text_from(const WeekAnswer& answer);
[[nodiscard]] Json json_from(const WeekAnswer& answer);

}  // namespace houseleek::report
