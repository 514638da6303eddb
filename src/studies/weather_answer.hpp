// `houseleek weather`: the year in use and what it is like.
#pragma once
#include "report/weather_answer.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// Pure; the year is summed up and set beside the normals where the design has them.
[[nodiscard]] report::WeatherInUseAnswer answer_weather(const design::ValidDesign& design, const WeatherInUse& weather);

}  // namespace houseleek::studies
