// How much water modules hold today, as a study of a project has it: the stores of `houseleek water`, in short.
#pragma once
#include <vector>

#include "report/logbook_answer.hpp"
#include "studies/water_stores.hpp"

namespace houseleek::studies {

/// Recipes that were watered, or rained upon by a gauge, in the last days_looked_back days; others are left out.
/// Errors: Cancelled, simulation::NumericalFailure, ContractViolation.
[[nodiscard]] std::vector<report::StoreToday> answer_store_today(const StoreInputs& inputs, const Executor& executor,
                                                                 const Context& context);

}  // namespace houseleek::studies
