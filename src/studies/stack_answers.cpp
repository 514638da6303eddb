// What happens in the layers: bare, under each recipe by itself, and under each rival, over the design's largest room.
#include "studies/stack_answers.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::studies {
namespace {

report::Figure of_one_year(double value) {
  return results::figure_without_range(value, std::string(report::one_year_only));
}

report::StackAnswer answer_stack(std::string name, std::string form, const StackSums& sums) {
  report::StackAnswer answer;
  answer.name = std::move(name);
  answer.room = sums.room;
  answer.form = std::move(form);
  answer.membrane_max_c = of_one_year(sums.membrane_max_c);
  answer.membrane_min_c = of_one_year(sums.membrane_min_c);
  answer.ceiling_max_c = of_one_year(sums.ceiling_max_c);
  answer.heat_gain_summer_kwh_per_m2 = of_one_year(sums.heat_gain_summer_kwh_per_m2);
  answer.heat_loss_winter_kwh_per_m2 = of_one_year(sums.heat_loss_winter_kwh_per_m2);
  answer.heat_residual_frac = sums.heat_residual_frac;
  if (sums.origin.recipe >= 0) {
    answer.evapotranspiration_mm = of_one_year(sums.evapotranspiration_mm);
    answer.water_residual_m = sums.water_residual_m;
  } else {
    answer.evapotranspiration_mm = results::figure_missing("no medium; what dries off a wet roof is not modelled");
  }
  return answer;
}

/// The one stack over a room that is covered alike all over.
const StackSums& stack_over(const RunSums& run, int room) {
  const auto found = std::find_if(run.stacks.begin(), run.stacks.end(),
                                  [room](const StackSums& stack) { return stack.origin.room == room; });
  expects(found != run.stacks.end(), "a stack over every room");
  return *found;
}

}  // namespace

std::vector<report::StackAnswer> answer_stacks(const design::Design& design, const plan::Layout& layout,
                                               const CoverRuns& runs) {
  const auto largest =
      std::max_element(layout.rooms.begin(), layout.rooms.end(),
                       [](const plan::RoomLayout& a, const plan::RoomLayout& b) { return a.area_m2 < b.area_m2; });
  expects(largest != layout.rooms.end(), "a design with a room");
  const auto over_room = [&](report::CoverKind cover) -> const StackSums& {
    return stack_over(runs.free[report::index_of(cover)], largest->room);
  };
  std::vector<report::StackAnswer> answers;
  answers.push_back(answer_stack("bare", "bare", over_room(report::CoverKind::bare)));
  for (const RecipeRun& run : runs.recipes) {
    const bool is_raised = run.placed == design::Placed::raised;
    answers.push_back(answer_stack(design.recipes[static_cast<std::size_t>(run.recipe)].name,
                                   is_raised ? "raised" : "flat", run.sums.stacks.front()));
  }
  answers.push_back(answer_stack("white", "rival", over_room(report::CoverKind::white_whole)));
  answers.push_back(answer_stack("net", "rival", over_room(report::CoverKind::net_whole)));
  answers.push_back(answer_stack("board", "rival", over_room(report::CoverKind::board_whole)));
  return answers;
}

}  // namespace houseleek::studies
