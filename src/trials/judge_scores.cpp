// Verdicts on what is counted or graded once a module.
#include "trials/judge_scores.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include "base/contract.hpp"
#include "stats/exact_tests.hpp"
#include "stats/holm.hpp"
#include "trials/judge_words.hpp"

namespace houseleek::trials {

namespace {

/// A comparison with its share (p) before Holm; no share where nothing can be said.
struct Pair {
  ScoreComparison comparison;
  std::optional<double> share;
  double least_share = 0.0;
  bool is_in_blocks = false;
};

template <class Module>
std::vector<std::string> sides_of(const std::vector<Module>& modules) {
  std::vector<std::string> sides;
  for (const Module& module : modules) {
    if (std::find(sides.begin(), sides.end(), module.side) == sides.end()) sides.push_back(module.side);
  }
  return sides;
}

/// Two sides' scores; in blocks where each module of both has one and some block holds both sides.
stats::SideScores scores_of(const std::vector<ModuleScore>& modules, const std::string& side,
                            const std::string& against) {
  stats::SideScores scores;
  std::map<std::string, int> labels;
  std::map<std::string, int> sides_in_block;
  bool is_in_blocks = true;
  for (const ModuleScore& module : modules) {
    if (module.side != side && module.side != against) continue;
    scores.scores.push_back(module.score);
    scores.is_first.push_back(module.side == side);
    scores.blocks.push_back(labels.try_emplace(module.block, static_cast<int>(labels.size())).first->second);
    sides_in_block[module.block] |= module.side == side ? 1 : 2;
    is_in_blocks = is_in_blocks && !module.block.empty();
  }
  const bool has_both =
      std::any_of(sides_in_block.begin(), sides_in_block.end(), [](const auto& b) { return b.second == 3; });
  if (!is_in_blocks || !has_both) scores.blocks.clear();
  return scores;
}

Pair compare_scores(const std::vector<ModuleScore>& modules, const std::string& side, const std::string& against,
                    std::uint64_t seed) {
  Pair pair;
  const stats::SideScores scores = scores_of(modules, side, against);
  ScoreComparison& c = pair.comparison;
  c.side = side;
  c.against = against;
  c.n_modules_side = static_cast<std::size_t>(std::count(scores.is_first.begin(), scores.is_first.end(), true));
  c.n_modules_against = scores.scores.size() - c.n_modules_side;
  const stats::PermutationAnswer answer = stats::permutation_test(scores, seed);
  c.difference = answer.difference;
  pair.least_share = answer.least_share;
  pair.is_in_blocks = !scores.blocks.empty();
  if (std::min(c.n_modules_side, c.n_modules_against) < least_modules_for_recipe) return pair;
  c.scope = Scope::recipe;
  pair.share = answer.two_sided_share;
  return pair;
}

/// Fewest modules a side whose clearest result lies below this share: 2 of C(2n, n), or of 2^n in pairs.
std::size_t modules_for(double share, bool is_in_blocks) {
  double n_arrangements = 2.0;
  std::size_t n = 1;
  while (2.0 / n_arrangements > share) {
    ++n;
    const auto k = static_cast<double>(n);
    n_arrangements *= is_in_blocks ? 2.0 : 2.0 * (2.0 * k - 1.0) / k;
  }
  return n;
}

std::string shares_of(const ScoreComparison& c) {
  return fmt::format("{} {:.0f} % alive ({:.0f} to {:.0f} %), {} {:.0f} % ({:.0f} to {:.0f} %)", c.side,
                     100.0 * c.share_side, 100.0 * c.interval_side.low, 100.0 * c.interval_side.high, c.against,
                     100.0 * c.share_against, 100.0 * c.interval_against.low, 100.0 * c.interval_against.high);
}

std::string sentence_of(const Pair& pair, const ScoreOptions& options, bool is_survival, double step_share) {
  const ScoreComparison& c = pair.comparison;
  const std::string seen = is_survival ? shares_of(c)
                                       : fmt::format("difference of means {}, {} modules against {}",
                                                     two_digits(c.difference), c.n_modules_side, c.n_modules_against);
  const char* scope = c.scope == Scope::recipe ? "This is about the recipes." : "This is about these modules only.";
  switch (c.outcome) {
    case Outcome::too_few:
      return fmt::format("{} and {}, {}: too few to say ({}); three modules a side are the least.", c.side, c.against,
                         options.what, seen);
    case Outcome::higher:
    case Outcome::lower:
      return fmt::format("{} has {} {} than {} ({}; chance alone goes so far in {} of such trials). {}", c.side,
                         c.outcome == Outcome::higher ? "higher" : "lower", options.what, c.against, seen,
                         percent(c.adjusted_share), scope);
    case Outcome::not_told_apart:
      break;
  }
  const std::string more =
      c.could_be_told ? ""
                      : fmt::format(" So few modules cannot be told apart whatever they show: it takes {} a side.",
                                    modules_for(step_share, pair.is_in_blocks));
  return fmt::format("{} and {} are not told apart in {} ({}; chance alone goes so far in {} of such trials). {}{}",
                     c.side, c.against, options.what, seen, percent(c.adjusted_share), scope, more);
}

std::vector<ScoreComparison> step_by_holm(std::vector<Pair> pairs, const ScoreOptions& options, bool is_survival) {
  std::vector<double> shares;
  for (const Pair& pair : pairs) {
    if (pair.share) shares.push_back(std::min(1.0, *pair.share));
  }
  const std::vector<stats::HolmStep> steps = stats::holm_steps(shares, options.confidence_frac);
  std::vector<ScoreComparison> comparisons;
  std::size_t next = 0;
  for (Pair& pair : pairs) {
    ScoreComparison& c = pair.comparison;
    double step_share = 1.0 - options.confidence_frac;
    if (pair.share) {
      const stats::HolmStep& step = steps[next++];
      step_share = 1.0 - step.interval_confidence_frac;
      c.adjusted_share = step.adjusted_share;
      c.could_be_told = pair.least_share <= step_share;
      c.outcome = !step.is_told_apart ? Outcome::not_told_apart : c.difference > 0.0 ? Outcome::higher : Outcome::lower;
    }
    c.sentence = sentence_of(pair, options, is_survival, step_share);
    comparisons.push_back(c);
  }
  return comparisons;
}

template <class Module, class Compare>
std::vector<Pair> every_pair(const std::vector<Module>& modules, const ScoreOptions& options, const Compare& compare) {
  const std::vector<std::string> sides = sides_of(modules);
  expects(sides.size() >= 2, "two sides or more");
  expects(
      options.reference_side.empty() || std::find(sides.begin(), sides.end(), options.reference_side) != sides.end(),
      "a reference that is one of the sides");
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    for (std::size_t j = 0; j < sides.size(); ++j) {
      const bool is_wanted = options.reference_side.empty() ? i < j : (i != j && sides[j] == options.reference_side);
      if (is_wanted) pairs.push_back(compare(sides[i], sides[j]));
    }
  }
  return pairs;
}

}  // namespace

std::vector<ScoreComparison> judge_scores(const std::vector<ModuleScore>& modules, const ScoreOptions& options) {
  const auto compare = [&](const std::string& side, const std::string& against) {
    return compare_scores(modules, side, against, options.seed);
  };
  return step_by_holm(every_pair(modules, options, compare), options, false);
}

std::vector<ScoreComparison> judge_survival(const std::vector<ModuleCount>& modules, const ScoreOptions& options) {
  std::vector<ModuleScore> shares;
  for (const ModuleCount& module : modules) {
    expects(module.n_planted > 0 && module.n_alive <= module.n_planted, "plants, and not more alive than planted");
    shares.push_back({module.module, module.side, module.block,
                      static_cast<double>(module.n_alive) / static_cast<double>(module.n_planted)});
  }
  const auto compare = [&](const std::string& side, const std::string& against) {
    Pair pair = compare_scores(shares, side, against, options.seed);
    ScoreComparison& c = pair.comparison;
    stats::TwoCounts counts;
    for (const ModuleCount& module : modules) {
      if (module.side == side) {
        counts.n_events_first += module.n_alive;
        counts.n_all_first += module.n_planted;
      } else if (module.side == against) {
        counts.n_events_second += module.n_alive;
        counts.n_all_second += module.n_planted;
      }
    }
    c.share_side = static_cast<double>(counts.n_events_first) / static_cast<double>(counts.n_all_first);
    c.share_against = static_cast<double>(counts.n_events_second) / static_cast<double>(counts.n_all_second);
    c.interval_side = stats::exact_share_interval(counts.n_events_first, counts.n_all_first, 0.95);
    c.interval_against = stats::exact_share_interval(counts.n_events_second, counts.n_all_second, 0.95);
    if (!pair.share) {  // fewer than three modules a side: the plants of these modules
      pair.share = stats::fisher_two_sided_share(counts);
      pair.least_share = 0.0;
      c.difference = c.share_side - c.share_against;
    }
    return pair;
  };
  return step_by_holm(every_pair(modules, options, compare), options, true);
}

}  // namespace houseleek::trials
