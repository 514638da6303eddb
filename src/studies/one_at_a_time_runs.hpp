// The runs behind the effects of assumptions: bare and planted with every figure as it is, and at both ends of a kind.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "report/study_answer.hpp"
#include "simulation/run.hpp"
#include "studies/executor.hpp"
#include "studies/one_at_a_time.hpp"

namespace houseleek::studies {

/// What a run leaves for the effects.
struct RunFigures {
  double degree_hours_above_k_h = 0.0;
  double heat_gain_summer_kwh = 0.0;
};

struct EndFigures {
  RunFigures bare;
  RunFigures planted;
  std::string missing;  // why there are none
};

struct KindFigures {
  EndFigures low;
  EndFigures high;
};

struct KindRuns {
  EndFigures as_it_is;
  std::vector<KindFigures> kinds;  // in the order in which they were asked for
  report::EngineAnswer counts;
};

/// The year's inputs with another design; `layout` is that design's.
[[nodiscard]] RunInputs inputs_with(const RunInputs& year, const design::ValidDesign& design,
                                    const plan::Layout& layout);

/// How many runs these kinds take, the two with every figure as it is included.
[[nodiscard]] int n_runs_of(std::span<const TriedKind* const> kinds);

/// One task a run. A run in which the solver does not come to an end leaves its end without figures.
/// Errors: throws simulation::NumericalFailure where over a hundredth of the runs fail, or one with every figure as it
///         is; ContractViolation, Cancelled.
[[nodiscard]] KindRuns run_kinds(std::span<const TriedKind* const> kinds, const RunInputs& year,
                                 const simulation::RunOptions& options, const Executor& executor,
                                 const Context& context);

}  // namespace houseleek::studies
