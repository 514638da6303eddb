// What happens in the layers: bare, under each recipe by itself, and under each rival, over the design's largest room.
#pragma once
#include <vector>

#include "report/study_answer.hpp"
#include "studies/cover_runs.hpp"

namespace houseleek::studies {

/// Bare and rivals from the runs of the whole house under a closed cover; recipes from runs of their own, over that
/// room without its neighbours.
[[nodiscard]] std::vector<report::StackAnswer> answer_stacks(const design::Design& design, const plan::Layout& layout,
                                                             const CoverRuns& runs);

}  // namespace houseleek::studies
