// Soaked modules against what an engineer wrote down.
#pragma once
#include "design/parse.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

[[nodiscard]] report::LoadAnswer answer_load(const design::ValidDesign& design, const report::DrainageAnswer& drainage);

}  // namespace houseleek::studies
