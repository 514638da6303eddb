// The runs behind the effects of assumptions.
#include "studies/one_at_a_time_runs.hpp"

#include <atomic>
#include <memory>

#include "studies/ensemble.hpp"
#include "studies/run_parts.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;

RunFigures figures_of(const RunSums& run) {
  RunFigures figures;
  for (const RoomSums& room : run.rooms) {
    figures.degree_hours_above_k_h += room.all.degree_hours_above_k_h;
    figures.heat_gain_summer_kwh += room.heat_gain_summer_kwh;
  }
  return figures;
}

/// One run to do.
struct TrialRun {
  const design::ValidDesign* design = nullptr;
  CoverKind cover = CoverKind::bare;
  RunFigures figures;
  report::EngineAnswer counts;
  std::string failure;
  std::atomic<double> done_frac = 0.0;
  [[nodiscard]] static double weight() { return 1.0; }
};
using TrialRuns = std::vector<std::unique_ptr<TrialRun>>;

void run(const RunInputs& year, const simulation::RunOptions& options, TrialRun& one, const Context& context) {
  const plan::Layout layout = plan::make_layout(*one.design);
  RunInputs inputs = inputs_with(year, *one.design, layout);
  inputs.options = options;
  try {
    const RunSums sums = run_cover(inputs, one.cover, false, context);
    one.figures = figures_of(sums);
    one.counts = counts_of(sums);
  } catch (const simulation::NumericalFailure& failure) {
    one.failure = failure.what();
  }
}

TrialRun* add_run(TrialRuns& runs, const design::ValidDesign& design, CoverKind cover) {
  runs.push_back(std::make_unique<TrialRun>());
  runs.back()->design = &design;
  runs.back()->cover = cover;
  return runs.back().get();
}

/// The runs of one end: those of the figures as they are where nothing else is read.
struct EndRuns {
  const TrialRun* bare = nullptr;
  const TrialRun* planted = nullptr;
  std::string refused;
};

EndRuns add_end(TrialRuns& runs, const Trial& trial, const EndRuns& as_it_is) {
  EndRuns end = as_it_is;
  if (!trial.refused.empty()) end.refused = "the description would be refused: " + trial.refused;
  if (trial.moves_bare) end.bare = add_run(runs, *trial.design, CoverKind::bare);
  if (trial.moves_planted) end.planted = add_run(runs, *trial.design, CoverKind::planted);
  return end;
}

EndFigures figures_of(const EndRuns& end) {
  EndFigures figures{.bare = end.bare->figures, .planted = end.planted->figures, .missing = end.refused};
  for (const TrialRun* one : {end.bare, end.planted}) {
    if (figures.missing.empty() && !one->failure.empty()) figures.missing = "the solver failed: " + one->failure;
  }
  return figures;
}

void expect_few(const TrialRuns& runs) {
  std::vector<std::string> failures;
  for (const auto& one : runs) {
    if (!one->failure.empty()) failures.push_back(one->failure);
  }
  expect_few_failures(failures, static_cast<int>(runs.size()));
}

}  // namespace

RunInputs inputs_with(const RunInputs& year, const design::ValidDesign& design, const plan::Layout& layout) {
  return {.design = design,
          .layout = layout,
          .weather = year.weather,
          .limits = year.limits,
          .seasons = year.seasons,
          .thresholds_frac = year.thresholds_frac,
          .options = year.options,
          .has_fine_strips = false};
}

int n_runs_of(std::span<const TriedKind* const> kinds) {
  int n = 2;
  for (const TriedKind* kind : kinds) {
    for (const Trial* trial : {&kind->low, &kind->high}) n += int{trial->moves_bare} + int{trial->moves_planted};
  }
  return n;
}

KindRuns run_kinds(std::span<const TriedKind* const> kinds, const RunInputs& year,
                   const simulation::RunOptions& options, const Executor& executor, const Context& context) {
  TrialRuns runs;
  EndRuns as_it_is;
  as_it_is.bare = add_run(runs, year.design, CoverKind::bare);
  as_it_is.planted = add_run(runs, year.design, CoverKind::planted);
  std::vector<std::pair<EndRuns, EndRuns>> ends;
  for (const TriedKind* kind : kinds) {
    EndRuns low = add_end(runs, kind->low, as_it_is);
    ends.emplace_back(std::move(low), add_end(runs, kind->high, as_it_is));
  }
  const auto do_run = [&year, &options](TrialRun& one, const Context& of_run) { run(year, options, one, of_run); };
  run_parts(runs, do_run, executor, context);
  expect_few(runs);
  KindRuns answer;
  answer.as_it_is = figures_of(as_it_is);
  if (!answer.as_it_is.missing.empty()) throw simulation::NumericalFailure(answer.as_it_is.missing);
  for (const auto& [low, high] : ends) answer.kinds.push_back({figures_of(low), figures_of(high)});
  for (const auto& one : runs) add_counts(answer.counts, one->counts);
  return answer;
}

}  // namespace houseleek::studies
