// Hours kept for a report: of each run what charts need, then put together for the whole study.
#pragma once
#include <vector>

#include "climate/year.hpp"
#include "design/parse.hpp"
#include "report/year_columns.hpp"
#include "results/group_year.hpp"
#include "simulation/covers.hpp"

namespace houseleek::studies {

struct CoverRuns;
struct RunInputs;

/// What one run leaves for charts.
struct RunColumns {
  std::vector<report::RoomColumns> rooms;      // in the order of the run's group
  std::vector<report::ModuleColumns> modules;  // of each recipe in the run; without names
  std::vector<int> recipes;                    // of modules: index into Design::recipes
};

/// Means over the stacks of each room and each recipe.
[[nodiscard]] RunColumns columns_of_run(const simulation::CoverGroup& cover, const results::GroupYear& year);

/// Columns of the runs of a study that kept them (RunInputs::keeps_columns).
[[nodiscard]] report::YearColumns make_year_columns(const RunInputs& inputs, const CoverRuns& runs);

}  // namespace houseleek::studies
