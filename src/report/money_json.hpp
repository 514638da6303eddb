// Money, carbon and rivals of a study as JSON.
#pragma once
#include "report/issue_json.hpp"
#include "report/study_answer.hpp"

namespace houseleek::report {

[[nodiscard]] Json json_from(const MoneyAnswer& money);
[[nodiscard]] Json json_from(const CarbonAnswer& carbon);
[[nodiscard]] Json json_from(const RivalAnswer& rival);

}  // namespace houseleek::report
