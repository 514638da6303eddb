// Load, drainage, wind and fire as parts of the JSON document of schema/study.schema.json.
#pragma once
#include "report/json_parts.hpp"
#include "report/roof_checks_answer.hpp"

namespace houseleek::report {

[[nodiscard]] Json json_from(const SquareGrid& grid);
[[nodiscard]] Json json_from(const LoadAnswer& load);
[[nodiscard]] Json json_from(const DrainageAnswer& drainage);
[[nodiscard]] Json json_from(const WindAnswer& wind);
[[nodiscard]] Json json_from(const FireAnswer& fire);

}  // namespace houseleek::report
