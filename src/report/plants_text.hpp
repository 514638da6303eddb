// The answer of `houseleek plants` for a terminal of 80 columns.
#pragma once
#include <string>

#include "report/plants_answer.hpp"

namespace houseleek::report {

[[nodiscard]] std::string text_from(const PlantsAnswer& answer);

/// Hazards of a plant in words: "poisonous to people and dogs; spines". Empty where none is known.
[[nodiscard]] std::string hazard_text(const std::vector<std::string>& hazards);

}  // namespace houseleek::report
