// The answer of `houseleek weather` as a JSON document.
#pragma once
#include "report/issue_json.hpp"
#include "report/weather_answer.hpp"

namespace houseleek::report {

/// schema/weather.schema.json.
[[nodiscard]] Json json_from(const WeatherInUseAnswer& answer);

}  // namespace houseleek::report
