// The answer of `houseleek upkeep` for a terminal of 80 columns.
#pragma once
#include <string>

#include "report/upkeep_answer.hpp"

namespace houseleek::report {

[[nodiscard]] std::string text_from(const UpkeepAnswer& answer);

}  // namespace houseleek::report
