// A study's answer as the JSON document of schema/study.schema.json.
#pragma once
#include "report/json_parts.hpp"
#include "report/study_answer.hpp"

namespace houseleek::report {

[[nodiscard]] Json json_from(const StudyAnswer& answer);

}  // namespace houseleek::report
