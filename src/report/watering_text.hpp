// The answer of `houseleek water` for a terminal of 80 columns.
#pragma once
#include <string>

#include "report/watering_answer.hpp"

namespace houseleek::report {

[[nodiscard]] std::string text_from(const WateringAnswer& answer);

}  // namespace houseleek::report
