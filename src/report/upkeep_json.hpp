// The answer of `houseleek upkeep` as a JSON document: schema/upkeep.schema.json.
#pragma once
#include "report/json_parts.hpp"
#include "report/upkeep_answer.hpp"

namespace houseleek::report {

[[nodiscard]] Json json_from(const UpkeepAnswer& answer);

}  // namespace houseleek::report
