// What happens in the layers: bare, under each recipe by itself, and under each rival, over the design's largest room.
#pragma once
#include <string>
#include <vector>

#include "report/study_answer.hpp"
#include "studies/cover_runs.hpp"

namespace houseleek::studies {

/// A roof covered alike over the design's largest room, and the run that has it.
struct ClosedCover {
  std::string name;
  std::string form;
  const RunSums* run = nullptr;
  int room = 0;  // in that run
};

/// Index into the design's rooms.
[[nodiscard]] int largest_room(const plan::Layout& layout);

/// One of the answers below, from the stack over a room in a run where it is covered alike all over.
[[nodiscard]] report::StackAnswer answer_stack(std::string name, std::string form, const RunSums& run, int room);

/// Bare, each recipe in each form, the rivals.
[[nodiscard]] std::vector<ClosedCover> closed_covers(const design::Design& design, const plan::Layout& layout,
                                                     const CoverRuns& runs);

/// Bare and rivals from the runs of the whole house under a closed cover; recipes from runs of their own, over that
/// room without its neighbours.
[[nodiscard]] std::vector<report::StackAnswer> answer_stacks(const design::Design& design, const plan::Layout& layout,
                                                             const CoverRuns& runs);

}  // namespace houseleek::studies
