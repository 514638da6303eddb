// The runs of a study: the house bare, planted and under each rival, free and with machines; each recipe by itself.
#pragma once
#include <array>
#include <span>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "plan/layout.hpp"
#include "report/study_answer.hpp"
#include "results/group_year.hpp"
#include "simulation/cover_layers.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "studies/comfort_hours.hpp"
#include "studies/executor.hpp"
#include "studies/year_columns.hpp"

namespace houseleek::studies {

/// What a run leaves of a room: comfort where it runs free, heat where it is held.
struct RoomSums {
  double operative_max_c = 0.0;
  double operative_min_c = 0.0;
  ComfortSums all;
  ComfortSums nights;
  double heat_added_kwh = 0.0;
  double heat_removed_kwh = 0.0;
  std::array<double, 12> heat_added_kwh_by_month{};
  std::array<double, 12> heat_removed_kwh_by_month{};
  double heat_gain_summer_kwh = 0.0;  // into the room through its ceilings
};

/// What a run leaves of a stack. Sums over the kept hours.
struct StackSums {
  std::string name;
  std::string room;
  simulation::StackOrigin origin;
  double area_m2 = 0.0;
  double membrane_max_c = 0.0;
  double membrane_min_c = 0.0;
  double ceiling_max_c = 0.0;
  double heat_gain_summer_kwh_per_m2 = 0.0;
  double heat_loss_winter_kwh_per_m2 = 0.0;
  double evapotranspiration_mm = 0.0;
  double left_mm = 0.0;  // run-off and drainage
  double watering_mm = 0.0;
  double fire_dry_days = 0.0;  // checks::count_fire_dry_days
  // Days of each month that begin with the store above the threshold of the recipe, and what they evaporate.
  std::array<double, 12> moist_days{};
  std::array<double, 12> moist_evapotranspiration_mm{};
  double heat_residual_frac = 0.0;
  double water_residual_m = 0.0;
};

struct RunSums {
  std::vector<RoomSums> rooms;
  std::vector<StackSums> stacks;
  results::SolverTally tally;
  double heat_residual_frac = 0.0;  // worst of rooms and stacks
  double water_residual_m = 0.0;
  RunColumns columns;  // empty unless the run was asked to keep them
};

struct RecipeRun {
  int recipe = 0;
  design::Placed placed = design::Placed::flat;
  RunSums sums;
};

struct CoverRuns {
  std::array<RunSums, report::n_covers> free;
  std::array<RunSums, report::n_covers> held;
  std::vector<RecipeRun> recipes;  // flat, then raised where there are spacers
};

/// What all runs share.
struct RunInputs {
  const design::ValidDesign& design;
  const plan::Layout& layout;
  const climate::WeatherYear& weather;
  const LimitsByDay& limits;
  std::array<simulation::Season, 12> seasons{};
  std::vector<double> thresholds_frac;  // of the store, by recipe: below it a module wants water
  simulation::RunOptions options;
  bool has_fine_strips = true;
  bool keeps_columns = false;  // of the runs in which rooms run free
};

/// A design as it stands in this weather, with its own seasons and thresholds. All that is handed in has to outlive it.
[[nodiscard]] RunInputs run_inputs_of(const design::ValidDesign& design, const plan::Layout& layout,
                                      const climate::WeatherYear& weather, const LimitsByDay& limits,
                                      const simulation::RunOptions& options = {});

/// Rain that falls in the kept hours.
[[nodiscard]] double rain_mm(const climate::WeatherYear& weather, const simulation::RunOptions& options);

/// One run of the whole house, in the caller's thread.
/// Errors: throws simulation::NumericalFailure, ContractViolation, Cancelled.
[[nodiscard]] RunSums run_cover(const RunInputs& inputs, report::CoverKind cover, bool is_held, const Context& context);

/// What run_cover steps through, to be looked at.
[[nodiscard]] simulation::CoverGroup group_of_cover(const RunInputs& inputs, report::CoverKind cover, bool is_held);

/// One run of a group that is there already: the whole house (comfort is summed), or a recipe by itself. `name` is for a
/// message where it fails.
/// Errors: throws simulation::NumericalFailure, ContractViolation, Cancelled.
[[nodiscard]] RunSums run_group_of(const RunInputs& inputs, const simulation::CoverGroup& cover, std::string name,
                                   bool is_whole_house, const Context& context);

/// A run of the whole house, free, and where its sums go: of these inputs or of another roof in the same year.
struct WantedRun {
  const RunInputs* inputs = nullptr;
  report::CoverKind cover = report::CoverKind::bare;
  RunSums* result = nullptr;
};

/// Errors: throws simulation::NumericalFailure, ContractViolation, Cancelled.
void run_wanted(std::span<const WantedRun> wanted, const Executor& executor, const Context& context);

/// Runs everything, and what else is wanted beside it. The result does not depend on the executor: each run writes a
/// place of its own.
/// Errors: throws simulation::NumericalFailure, ContractViolation, Cancelled.
[[nodiscard]] CoverRuns run_covers(const RunInputs& inputs, std::span<const WantedRun> beside, const Executor& executor,
                                   const Context& context);

}  // namespace houseleek::studies
