// The answer of `houseleek water` as a JSON document.
#pragma once
#include "report/json_parts.hpp"
#include "report/watering_answer.hpp"

namespace houseleek::report {

[[nodiscard]] Json json_from(const WateringAnswer& answer);

}  // namespace houseleek::report
