// The answer of `houseleek weather` for a terminal of 80 columns.
#pragma once
#include <string>

#include "report/weather_answer.hpp"

namespace houseleek::report {

[[nodiscard]] std::string text_from(const WeatherInUseAnswer& answer);

}  // namespace houseleek::report
