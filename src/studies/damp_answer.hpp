// Damp in the deck: bare, planted flat and planted raised through five years, with ranges, and never an all-clear.
#pragma once
#include <string>

#include "report/damp_answer.hpp"
#include "studies/damp_years.hpp"

namespace houseleek::studies {

struct DampInputs {
  const design::ValidDesign& design;
  const plan::Layout& layout;
  const climate::WeatherYear& weather;
  WeatherOfDraw weather_of_draw;  // further years
  int n_years = 1;                // of weather that the study has; ten are enough
  simulation::RunOptions options;
};

/// Why damp is not run through the years for this roof in a study of so many hours; empty where it is.
[[nodiscard]] std::string no_damp_because(const design::Design& design, int n_hours);

/// The whole answer. Without timber and without insulation nothing is run but mould on inner faces.
/// Errors: throws simulation::NumericalFailure, ContractViolation, Cancelled.
[[nodiscard]] report::DampAnswer answer_damp(const DampInputs& inputs, const Executor& executor,
                                             const Context& context);

/// Share of all the work of a study that the answer is, in runs of a cover through a year.
[[nodiscard]] double damp_runs_of(const design::Design& design, int n_years, int n_hours);

}  // namespace houseleek::studies
