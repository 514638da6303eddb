// `houseleek trial fit`: a few properties of the design fitted to a trial's readings by running the house through its days.
#pragma once
#include <string>
#include <vector>

#include "base/context.hpp"
#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "report/trial_answer.hpp"
#include "studies/trial_readings.hpp"

namespace houseleek::studies {

/// A figure of the design that readings may move.
struct FitCandidate {
  std::string path;  // as assumptions have it
  std::string words;
  std::string unit;
  double start = 0.0;  // in use
  double low = 0.0;    // bounds of the fit
  double high = 0.0;
  double low_before = 0.0;  // the range it has in the design; both equal `start` where it has none
  double high_before = 0.0;
};

/// What a person may ask for by one word: gap, conductivity, wet, evaporation, finish.
[[nodiscard]] std::string fit_words();

/// Figures of the recipes that stand in a trial: of each word, or of a path. Without any word: the first of gap,
/// conductivity and finish that the trial's sides have.
/// Errors: issues: a word or path that is not known, or that no side of the trial has.
[[nodiscard]] Result<std::vector<FitCandidate>> fit_candidates(const design::ValidDesign& design, std::size_t trial,
                                                               const std::vector<std::string>& words);

/// So many days before the first reading the run settles.
inline constexpr int fit_spin_up_days = 20;
/// A longer trial is fitted by its first days up to here.
inline constexpr int most_fit_days = 120;

struct TrialFitInputs {
  const design::RawDesign& description;
  const design::ValidDesign& design;  // that the description gives
  const catalogue::Catalogue& catalogue;
  const climate::WeatherYear& weather;  // of the design
  const ProjectReadings& readings;
  std::size_t trial = 0;
};

/// Fits, with the last quarter of the days held back. Outside air is that of the trial's outdoor sensor where it has
/// readings, with the relative humidity and the sky of the design's year; sun, wind, rain and the rest are the year's.
/// Readings in stretches that look wrong (stuck, out of range, sun-struck) are left out, and a note counts them.
/// Shape:    pure but for progress; the house planted as laid out, rooms running free, one strip of 0.15 m beside edges.
/// Errors:   issues: a place that no stack of the design stands for, too few readings; throws
///           simulation::NumericalFailure, ContractViolation, Cancelled.
/// Checked by: tests/studies/trial_fit_test.cpp.
[[nodiscard]] Result<report::TrialFitAnswer> fit_trial(const TrialFitInputs& inputs,
                                                       const std::vector<FitCandidate>& candidates,
                                                       const Context& context);

/// The description with the fitted values in it, each as { low, likely, high, source, certainty = "measured" }; every
/// other byte stays. An interval that reaches beyond what the figure can be is cut there, and the source says so.
/// Errors: issues where a value's place in the text cannot be changed in one piece.
[[nodiscard]] Result<std::string> with_fitted(const TrialFitInputs& inputs, const report::TrialFitAnswer& answer);

/// A year whose air is a sensor's from hour to hour where it has readings around it, at most two hours apart.
/// `first_hour` of the year is the first hour of `first_day`; `n_spin_up_hours` before it belong to the run.
/// Equation: vapour pressure keeps the year's relative humidity; sky radiation its ratio to that of a black body as warm
///           as the air
struct MeasuredAir {
  climate::WeatherYear weather;
  int n_hours_measured = 0;
};
struct RunSpan {
  std::int64_t first_day = 0;  // since 1970
  int first_hour = 0;          // of the year
  int n_hours = 0;
  int spin_up_hours = 0;
};
[[nodiscard]] MeasuredAir with_measured_air(const climate::WeatherYear& year, const logbook::LoggerColumn& outdoor,
                                            const RunSpan& span);

}  // namespace houseleek::studies
