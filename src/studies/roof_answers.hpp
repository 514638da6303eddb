// What rain, wind and fire ask of the roof: the checks' findings as plain answers.
#pragma once
#include <vector>

#include "design/parse.hpp"
#include "report/roof_checks_answer.hpp"

namespace houseleek::studies {

[[nodiscard]] report::DrainageAnswer answer_drainage(const design::ValidDesign& design);
[[nodiscard]] report::WindAnswer answer_wind(const design::ValidDesign& design);
[[nodiscard]] report::FireAnswer answer_fire(const design::ValidDesign& design);

/// What these three assume that the design does not say.
[[nodiscard]] std::vector<design::Assumption> assumed_roof_checks(const design::ValidDesign& design);

}  // namespace houseleek::studies
