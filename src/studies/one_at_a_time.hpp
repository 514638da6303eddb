// What hangs on each assumption: the house bare and planted through the year with one of them at its low and its high
// end and everything else as it is.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "report/study_answer.hpp"
#include "studies/cover_runs.hpp"
#include "studies/executor.hpp"

namespace houseleek::studies {

/// One kind of assumption at one of its ends.
struct Trial {
  std::optional<design::ValidDesign> design;  // nothing: refused, or no run reads the figure
  std::string refused;                        // what is wrong with the description then
  bool moves_bare = false;
  bool moves_planted = false;
};

/// Assumptions of one kind, moved together: the same field of every room, of every recipe.
struct TriedKind {
  std::vector<std::size_t> members;  // places in the list of assumptions
  std::string none_because;          // not tried, or nothing reads it
  Trial low;
  Trial high;
};

/// So many kinds are run through the year, those that move most in the hottest days.
inline constexpr std::size_t usual_in_full = 8;
/// In a row; and the days before them in which a run settles.
inline constexpr int screening_days = 14;
inline constexpr int screening_spin_up_days = 10;

struct OneAtATimeInputs {
  const design::RawDesign& description;
  const catalogue::Catalogue& catalogue;
  const RunInputs& year;
  std::span<const design::Assumption> assumed;
  std::size_t n_in_full = usual_in_full;
};

struct OneAtATime {
  std::vector<TriedKind> kinds;
  /// The work in runs through the year; 0 without kinds.
  [[nodiscard]] double n_runs(const OneAtATimeInputs& inputs) const;
};

/// Reads the description again for every kind and end, and finds out which runs would read anything else.
[[nodiscard]] OneAtATime plan_one_at_a_time(const OneAtATimeInputs& inputs);

struct EffectsAnswer {
  std::vector<report::AssumedEffect> effects;  // one for each assumption
  report::RankedAnswer ranked;
  report::EngineAnswer engine;  // counts and residuals of the runs
};

/// How many of the assumptions that move the answer most are named.
inline constexpr std::size_t most_ranked = 5;

/// Runs what is planned, one task a run: every kind through the hottest days, and those that move most there through
/// all hours. A run in which the solver does not come to an end leaves its figure out and says so; over a hundredth of
/// such runs there is no answer.
/// Shape:    in one year of weather, rooms running free, one strip of 0.15 m on each side of an edge. Of a span of four
///           weeks or less, and where there are no more kinds than are run in full, every kind is run through all hours.
/// Errors:   throws simulation::NumericalFailure, ContractViolation, Cancelled.
/// Source:   docs/equations/ranges.md.   Checked by: tests/studies/one_at_a_time_test.cpp.
[[nodiscard]] EffectsAnswer run_one_at_a_time(const OneAtATime& trials, const OneAtATimeInputs& inputs,
                                              const Executor& executor, const Context& context);

/// The answer where nothing was tried.
[[nodiscard]] EffectsAnswer effects_not_tried(std::size_t n_assumed);

}  // namespace houseleek::studies
