// What a change does, answered at once: weight, load, U-values, membrane and hours above the limit, bare and planted.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "report/quick_answer.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "studies/cover_runs.hpp"
#include "studies/executor.hpp"

namespace houseleek::studies {

/// A run that was done before, with all that it depends on beside the weather.
struct KeptRun {
  simulation::CoverGroup cover;
  std::vector<design::Room> rooms;
  std::array<simulation::Season, 12> seasons{};
  std::vector<double> thresholds_frac;
  bool is_whole_house = true;
  RunSums sums;
};

/// Runs of earlier answers, the latest last. A year of weather or a span of hours unlike theirs empties it.
struct QuickMemory {
  climate::WeatherYear weather;
  int first_hour = 0;
  int n_hours = 0;
  int spin_up_hours = 0;
  std::vector<KeptRun> runs;
};

struct QuickOptions {
  std::string engine_version;
  std::string input_hash;
  simulation::RunOptions run;
};

/// The roof of the design: its area, what is covered, the deck without anything on it.
[[nodiscard]] report::RoofAnswer answer_roof(const design::ValidDesign& design);

/// What needs no run of a year: weight, load and U-values. Stacks and rooms are empty, and so said in `still_running`.
[[nodiscard]] report::QuickAnswer answer_without_runs(const design::ValidDesign& design, const QuickOptions& options);

/// Answers with the study's own runs, of which only those are done that the answer needs and that `memory` has not.
/// Shape:    pure but for progress and `memory`, which changes speed and the counts of runs, never a figure.
/// Errors:   throws Cancelled, simulation::NumericalFailure and ContractViolation; `memory` then holds what it held.
[[nodiscard]] report::QuickAnswer answer_quickly(const design::ValidDesign& design, const climate::WeatherYear& weather,
                                                 const QuickOptions& options, QuickMemory& memory,
                                                 const Executor& executor, const Context& context);

}  // namespace houseleek::studies
