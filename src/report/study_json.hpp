// A study's answer as the JSON document of schema/study.schema.json.
#pragma once
#include "report/json_parts.hpp"
#include "report/study_answer.hpp"

namespace houseleek::report {

/// Parts that the quick answer has as well.
[[nodiscard]] Json json_from(const RecipeAnswer& recipe);
[[nodiscard]] Json json_from(const StackAnswer& stack);
[[nodiscard]] Json json_from(const RoofAnswer& roof);

[[nodiscard]] Json json_from(const StudyAnswer& answer);

}  // namespace houseleek::report
