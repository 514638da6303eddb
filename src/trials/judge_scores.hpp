// Verdicts on what is counted or graded once a module: plants alive, vigour 1 to 5, tears, flowers. No law is assumed.
#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "stats/student.hpp"
#include "trials/judge.hpp"

namespace houseleek::trials {

/// A grade, or a count made into one number, of one module.
struct ModuleScore {
  std::string module;
  std::string side;
  std::string block;
  double score = 0.0;
};

struct ModuleCount {
  std::string module;
  std::string side;
  std::string block;
  std::size_t n_alive = 0;
  std::size_t n_planted = 0;
};

struct ScoreOptions {
  std::string what = "vigour";  // "tear grade", "flowers"; for the sentence
  double confidence_frac = 0.95;
  std::string reference_side;  // empty: each against each
  std::uint64_t seed = 0;      // for layouts with more than 200,000 arrangements
};

struct ScoreComparison {
  std::string side;
  std::string against;
  Scope scope = Scope::these_modules;
  Outcome outcome = Outcome::too_few;
  double difference = 0.0;      // of the sides' mean scores, or of their shares alive
  double adjusted_share = 1.0;  // Holm's p
  bool could_be_told = true;    // false: not even the clearest result of so few modules could have been told apart
  std::size_t n_modules_side = 0;
  std::size_t n_modules_against = 0;
  // Shares alive with exact 95 % intervals, as if plants of one module lived and died apart; for survival only.
  double share_side = 0.0;
  double share_against = 0.0;
  stats::ShareInterval interval_side;
  stats::ShareInterval interval_against;
  std::string sentence;
};

/// Grades: the share of arrangements of these modules (within blocks) with means at least so far apart. Fewer than
/// three modules a side: too few to say.
/// Source: [fisher1935] section 21; [holm1979]. Checked by: JudgeScores.*
[[nodiscard]] std::vector<ScoreComparison> judge_scores(const std::vector<ModuleScore>& modules,
                                                        const ScoreOptions& options);

/// Survival: modules are what is arranged (their shares alive), since plants of one module share its fate. Fewer than
/// three modules a side: Fisher's exact test of the plants, about these modules only.
[[nodiscard]] std::vector<ScoreComparison> judge_survival(const std::vector<ModuleCount>& modules,
                                                          const ScoreOptions& options);

}  // namespace houseleek::trials
