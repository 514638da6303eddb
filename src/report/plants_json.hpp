// What lives on a roof and what could, as JSON documents.
#pragma once
#include "report/issue_json.hpp"
#include "report/plants_answer.hpp"

namespace houseleek::report {

/// The answer of `houseleek plants`: schema/plants.schema.json.
[[nodiscard]] Json json_from(const PlantsAnswer& answer);

/// Its part of a study: what grows there, mixes, and how many kinds would live; `schema/study.schema.json`.
[[nodiscard]] Json json_of_plants_in_study(const PlantsAnswer& answer);

}  // namespace houseleek::report
