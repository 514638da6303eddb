// Every order of a few places, by what is laid: sets are numbers whose bits are places.
#include <array>
#include <cstdint>
#include <set>

#include "base/contract.hpp"
#include "buildorder/search.hpp"

namespace houseleek::buildorder {
namespace {

using Mask = std::uint32_t;

std::vector<int> places_of(Mask mask) {
  std::vector<int> places;
  for (int i = 0; mask >> i != 0; ++i) {
    if (((mask >> i) & 1U) != 0U) places.push_back(i);
  }
  return places;
}

/// Pins early, then value, then what gains most for little money.
struct Score {
  bool is_reached = false;
  int pins = 0;
  double value = 0.0;
  double late = 0.0;  // sum over steps of gain times all that was spent by then
};

bool is_better(const Score& a, const Score& b) {
  if (a.is_reached != b.is_reached) return a.is_reached;
  if (a.pins != b.pins) return a.pins > b.pins;
  if (a.value != b.value) return a.value > b.value;
  return a.late < b.late;
}

/// What does not change from round to round.
struct Sets {
  std::vector<double> gain;
  std::vector<double> cost;
  std::vector<int> pins;
};

Sets look_at_sets(const Problem& problem) {
  const Mask n_sets = Mask{1} << problem.places.size();
  Sets sets;
  for (Mask mask = 0; mask < n_sets; ++mask) {
    const std::vector<int> places = places_of(mask);
    sets.gain.push_back(gain_of(problem, places));
    sets.cost.push_back(cost_of(problem, places));
    int pins = 0;
    for (const int i : places) pins += problem.places[static_cast<std::size_t>(i)].is_pinned ? 1 : 0;
    sets.pins.push_back(pins);
  }
  return sets;
}

/// The best way to every set, season by season; `last` has the place laid last, or none where the set was there at the
/// season's beginning.
Sequence best_sequence(const Problem& problem, const Sets& sets, const std::vector<bool>& allowed) {
  constexpr std::int8_t was_there = -1;
  const Mask n_sets = Mask{1} << problem.places.size();
  std::vector<Score> best(n_sets);
  best[0].is_reached = true;
  std::vector<std::vector<std::int8_t>> last;
  double money = 0.0;
  for (const double budget : problem.budgets) {
    money += budget;
    last.emplace_back(n_sets, was_there);
    for (Mask mask = 0; mask < n_sets; ++mask) {
      if (!best[mask].is_reached) continue;
      for (std::size_t i = 0; i < problem.places.size(); ++i) {
        const Mask with = mask | (Mask{1} << i);
        if (with == mask || !allowed[with] || sets.cost[with] > money) continue;
        Score score = best[mask];
        score.late += (sets.gain[with] - sets.gain[mask]) * sets.cost[with];
        if (!is_better(score, best[with])) continue;
        best[with] = score;
        last.back()[with] = static_cast<std::int8_t>(i);
      }
    }
    for (Mask mask = 0; mask < n_sets; ++mask) {
      best[mask].pins += sets.pins[mask];
      best[mask].value += sets.gain[mask];
    }
  }
  Mask at = 0;
  for (Mask mask = 1; mask < n_sets; ++mask) {
    if (!best[mask].is_reached || is_better(best[at], best[mask])) continue;
    // No better and no worse: the cheaper one.
    if (is_better(best[mask], best[at]) || sets.cost[mask] < sets.cost[at]) at = mask;
  }
  Sequence sequence;
  sequence.seasons.resize(problem.budgets.size());
  for (std::size_t season = problem.budgets.size(); season-- > 0;) {
    while (last[season][at] != was_there) {
      const int place = last[season][at];
      sequence.seasons[season].insert(sequence.seasons[season].begin(), place);
      at &= ~(Mask{1} << place);
    }
  }
  return sequence;
}

}  // namespace

std::optional<Sequence> search_all(Problem& problem, const OrderOptions& options) {
  expects(problem.places.size() < 24, "few places");
  const Sets sets = look_at_sets(problem);
  std::set<Mask> forbidden;
  for (int round = 0; round < options.most_rounds; ++round) {
    std::vector<bool> allowed(sets.gain.size());
    for (Mask mask = 0; mask < allowed.size(); ++mask) {
      allowed[mask] = !forbidden.contains(mask) && is_allowed(problem, places_of(mask));
    }
    Sequence sequence = best_sequence(problem, sets, allowed);
    bool is_within = true;
    Mask laid = 0;
    std::vector<int> chosen;
    for (const std::vector<int>& season : sequence.seasons) {
      for (const int place : season) {
        chosen.push_back(place);
        laid |= Mask{1} << place;
        const Judgement judgement = problem.judge ? problem.judge(chosen) : Judgement{};
        if (judgement.is_within) continue;
        is_within = false;
        if (judgement.broken) problem.conditions.push_back(*judgement.broken);
        // A condition that does not see this very set would be named for ever.
        if (is_allowed(problem, chosen)) forbidden.insert(laid);
        break;
      }
      if (!is_within) break;
    }
    if (is_within) return sequence;
  }
  return std::nullopt;
}

}  // namespace houseleek::buildorder
