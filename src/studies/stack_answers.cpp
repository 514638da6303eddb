// What happens in the layers: bare, under each recipe by itself, and under each rival, over the design's largest room.
#include "studies/stack_answers.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::studies {
namespace {

report::Figure of_one_year(double value) {
  return results::figure_without_range(value, std::string(report::one_year_only));
}

/// The one stack over a room that is covered alike all over.
const StackSums& stack_over(const RunSums& run, int room) {
  const auto found = std::find_if(run.stacks.begin(), run.stacks.end(),
                                  [room](const StackSums& stack) { return stack.origin.room == room; });
  expects(found != run.stacks.end(), "a stack over every room");
  return *found;
}

}  // namespace

report::StackAnswer answer_stack(std::string name, std::string form, const RunSums& run, int room) {
  const StackSums& sums = stack_over(run, room);
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
    answer.fire_dry_days = of_one_year(sums.fire_dry_days);
    answer.water_residual_m = sums.water_residual_m;
  } else {
    answer.evapotranspiration_mm = results::figure_missing("no medium; what dries off a wet roof is not modelled");
    answer.fire_dry_days = results::figure_missing("no medium that dries and wets");
  }
  return answer;
}

int largest_room(const plan::Layout& layout) {
  const auto largest =
      std::max_element(layout.rooms.begin(), layout.rooms.end(),
                       [](const plan::RoomLayout& a, const plan::RoomLayout& b) { return a.area_m2 < b.area_m2; });
  expects(largest != layout.rooms.end(), "a design with a room");
  return largest->room;
}

std::vector<ClosedCover> closed_covers(const design::Design& design, const plan::Layout& layout,
                                       const CoverRuns& runs) {
  const int largest = largest_room(layout);
  std::vector<ClosedCover> covers;
  const auto add_house = [&](std::string name, std::string form, report::CoverKind cover) {
    covers.push_back({std::move(name), std::move(form), &runs.free[report::index_of(cover)], largest});
  };
  add_house("bare", "bare", report::CoverKind::bare);
  for (const RecipeRun& run : runs.recipes) {
    const bool is_raised = run.placed == design::Placed::raised;
    covers.push_back(
        {design.recipes[static_cast<std::size_t>(run.recipe)].name, is_raised ? "raised" : "flat", &run.sums, 0});
  }
  add_house("white", "rival", report::CoverKind::white_whole);
  add_house("net", "rival", report::CoverKind::net_whole);
  add_house("board", "rival", report::CoverKind::board_whole);
  return covers;
}

std::vector<report::StackAnswer> answer_stacks(const design::Design& design, const plan::Layout& layout,
                                               const CoverRuns& runs) {
  std::vector<report::StackAnswer> answers;
  for (const ClosedCover& cover : closed_covers(design, layout, runs)) {
    answers.push_back(answer_stack(cover.name, cover.form, *cover.run, cover.room));
  }
  return answers;
}

}  // namespace houseleek::studies
