// The verdict of a trial: sides held against each other by days and modules, with an interval and a sentence.
#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "stats/long_run.hpp"
#include "trials/day_values.hpp"

namespace houseleek::trials {

/// Fewest modules a side for a word about the recipe; fewer speak of themselves only.
inline constexpr std::size_t least_modules_for_recipe = 3;
/// Fewest days that all modules share for an interval.
inline constexpr std::size_t least_days = 7;

struct ModuleDays {
  std::string module;
  std::string side;
  std::string block;         // modules of one pair or block share it; empty where there are none
  std::string second_block;  // the column, where a Latin square's rows are the blocks
  std::vector<DayValue> days;
};

struct JudgeOptions {
  Measure measure = Measure::maximum;
  double confidence_frac = 0.95;
  std::string reference_side;      // what the others are held against; empty: each against each
  double wanted_difference = 0.0;  // that would matter, in the measure's unit; 0: the one seen stands in for it
};

/// What the verdict may be repeated about.
enum class Scope { these_modules, recipe };
enum class Outcome { higher, lower, not_told_apart, too_few };

/// What would tell the sides apart with 80 % probability if they differ by `difference`.
struct MoreNeeded {
  double difference = 0.0;
  std::optional<std::size_t> days;     // of the same modules; nothing where more than ten years
  std::optional<std::size_t> modules;  // a side, over as many days; nothing where more than 200, or scope these_modules
};

struct SideComparison {
  std::string side;
  std::string against;
  Scope scope = Scope::these_modules;
  Outcome outcome = Outcome::too_few;
  // `side` less `against`. Its interval has the confidence that Holm's steps ask of it, at least the wanted one.
  std::optional<stats::Estimate> difference;
  double interval_confidence_frac = 0.95;
  double adjusted_share = 1.0;  // Holm's p
  // The same from unflagged days alone, where there are flagged ones and enough others; same scope and confidence.
  std::optional<stats::Estimate> without_flagged;
  std::size_t n_modules_side = 0;
  std::size_t n_modules_against = 0;
  std::size_t n_days = 0;          // with a value for every module of the two sides
  std::size_t n_days_partial = 0;  // with some: used for recipes (additive days), not for these modules
  std::size_t n_days_flagged = 0;
  double day_correlation = 0.0;    // of neighbouring days' differences
  std::optional<MoreNeeded> more;  // where not told apart
  std::string sentence;
};

struct TrialVerdict {
  std::vector<SideComparison> comparisons;
  std::vector<std::string> notes;  // for everyone: coverage at few days, flagged days, days in part
};

/// Judges every wanted pair of sides and steps through them by Holm.
/// Equation: these modules: long-run mean of the daily difference of side means, t(3). Recipe: module values of the
///           additive fit y = module + day; REML with sides and complete blocks fixed, modules the rest, other blocks
///           random; Kenward and Roger's error and degrees of freedom
/// Symbols:  scope recipe where both sides have three modules or more; the model holds all sides that have
/// Shape:    one series a module, any days; sides in the order they first appear.
/// Units:    of the measure.
/// Valid:    at least two sides, module names unique, days of a module unique (else a contract violation).
/// Errors:   coverage measured in tests/trials/judge_long_test.cpp; false "told apart" at most 1 - confidence for all
///           comparisons together.
/// Source:   docs/equations/trials.md.
/// Checked by: Judge.*, JudgeCoverage.*
[[nodiscard]] TrialVerdict judge(const std::vector<ModuleDays>& modules, const JudgeOptions& options);

/// Module values freed of which days each was read on.
/// Equation: least squares of y_it = m_i + d_t, sum d_t = 0 over the days counted once each
/// Valid:    at least one module with a day (else a contract violation); nothing where shared days do not link all.
[[nodiscard]] std::optional<std::vector<double>> module_values(const std::vector<ModuleDays>& modules);

}  // namespace houseleek::trials
