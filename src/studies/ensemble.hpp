// Further years of weather made from the same normals: all covers through each of them.
#pragma once
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "base/result.hpp"
#include "climate/year.hpp"
#include "studies/cover_runs.hpp"
#include "studies/executor.hpp"
#include "studies/ranges.hpp"

namespace houseleek::studies {

/// What the runs of one year answer.
[[nodiscard]] YearAnswer answer_year(const RunInputs& inputs, const CoverRuns& runs);

/// Counts and residuals of one run.
[[nodiscard]] report::EngineAnswer counts_of(const RunSums& run);

/// The how-manieth year of the ensemble; 0 is the one that a study without an ensemble takes.
using WeatherOfDraw = std::function<Result<climate::WeatherYear>(int draw)>;

struct Ensemble {
  std::vector<YearAnswer> years;      // those that came to their end, in the order of their draws
  std::vector<std::string> failures;  // of the others: which, and why
};

struct EnsembleInputs {
  const RunInputs& main_year;  // what all years share is taken from it
  int first_draw = 1;
  int n_draws = 0;
  WeatherOfDraw weather;
};

/// Every year by itself, one task a year: only its answer is kept. A year whose weather cannot be made, or in which the
/// solver does not come to an end, is a failure and no year.
/// Errors: throws ContractViolation and Cancelled.
[[nodiscard]] Ensemble run_years(const EnsembleInputs& inputs, const Executor& executor, const Context& context);

/// A share of failed years beyond which there is no answer.
inline constexpr double most_failed_frac = 0.01;

/// Errors: throws simulation::NumericalFailure with every failure where more than that share of all years failed.
void expect_few_failures(std::span<const std::string> failures, int n_years);

}  // namespace houseleek::studies
