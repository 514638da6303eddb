// Step by step the best for its money, or the best, whichever comes out better; then swaps.
#include <algorithm>
#include <limits>
#include <numeric>

#include "buildorder/search.hpp"

namespace houseleek::buildorder {
namespace {

enum class Wish { gain_for_money, gain };

std::vector<int> all_of(const Sequence& sequence) {
  std::vector<int> places;
  for (const std::vector<int>& season : sequence.seasons) places.insert(places.end(), season.begin(), season.end());
  return places;
}

int pins_of(const Problem& problem, const Sequence& sequence) {
  int pins = 0;
  const auto n_seasons = static_cast<int>(sequence.seasons.size());
  for (int season = 0; season < n_seasons; ++season) {
    for (const int place : sequence.seasons[static_cast<std::size_t>(season)]) {
      if (problem.places[static_cast<std::size_t>(place)].is_pinned) pins += n_seasons - season;
    }
  }
  return pins;
}

bool is_better(const Problem& problem, const Sequence& a, const Sequence& b) {
  const int pins_a = pins_of(problem, a);
  const int pins_b = pins_of(problem, b);
  return pins_a != pins_b ? pins_a > pins_b : value_of(problem, a) > value_of(problem, b);
}

/// Asks the judge, and remembers what it says.
bool is_within(Problem& problem, const std::vector<int>& chosen) {
  if (!is_allowed(problem, chosen)) return false;
  if (!problem.judge) return true;
  const Judgement judgement = problem.judge(chosen);
  if (judgement.is_within) return true;
  if (judgement.broken) problem.conditions.push_back(*judgement.broken);
  return false;
}

/// What a place comes to as the next one.
struct Rank {
  bool is_pinned = false;
  double worth = 0.0;
  double gain = 0.0;
};

bool is_higher(const Rank& a, const Rank& b) {
  if (a.is_pinned != b.is_pinned) return a.is_pinned;
  if (a.worth != b.worth) return a.worth > b.worth;
  return a.gain > b.gain;
}

class Greedy {
 public:
  Greedy(Problem& problem, Wish wish, const std::vector<bool>& may_be_laid)
      : problem_(problem), wish_(wish), is_open_(may_be_laid) {}

  [[nodiscard]] Sequence run() {
    Sequence sequence;
    double money = 0.0;
    for (const double budget : problem_.budgets) {
      money += budget;
      sequence.seasons.emplace_back();
      while (const std::optional<int> next = best_next(money)) {
        chosen_.push_back(*next);
        if (is_within(problem_, chosen_)) {
          sequence.seasons.back().push_back(*next);
        } else {
          chosen_.pop_back();
        }
        is_open_[static_cast<std::size_t>(*next)] = false;
      }
    }
    return sequence;
  }

 private:
  [[nodiscard]] std::optional<int> best_next(double money) {
    const double gain_before = gain_of(problem_, chosen_);
    const double cost_before = cost_of(problem_, chosen_);
    std::optional<int> best;
    Rank best_rank;
    for (std::size_t i = 0; i < problem_.places.size(); ++i) {
      if (!is_open_[i]) continue;
      chosen_.push_back(static_cast<int>(i));
      const double cost = cost_of(problem_, chosen_);
      const double gain = gain_of(problem_, chosen_) - gain_before;
      const bool can_be = cost <= money && is_allowed(problem_, chosen_);
      chosen_.pop_back();
      const Rank rank{problem_.places[i].is_pinned, worth_of(gain, cost - cost_before), gain};
      if (!can_be || (!rank.is_pinned && gain <= 0.0)) continue;
      if (best && !is_higher(rank, best_rank)) continue;
      best = static_cast<int>(i);
      best_rank = rank;
    }
    return best;
  }

  [[nodiscard]] double worth_of(double gain, double cost) const {
    if (wish_ == Wish::gain) return gain;
    if (cost > 0.0) return gain / cost;
    return gain > 0.0 ? std::numeric_limits<double>::infinity() : 0.0;
  }

  Problem& problem_;
  Wish wish_;
  std::vector<bool> is_open_;
  std::vector<int> chosen_;
};

/// Money suffices at the end of every season, and what is laid until then is allowed.
bool can_be_paid(const Problem& problem, const Sequence& sequence) {
  double money = 0.0;
  std::vector<int> laid;
  for (std::size_t season = 0; season < sequence.seasons.size(); ++season) {
    money += problem.budgets[season];
    laid.insert(laid.end(), sequence.seasons[season].begin(), sequence.seasons[season].end());
    if (cost_of(problem, laid) > money) return false;
  }
  return is_allowed(problem, laid);
}

bool is_within_all_the_way(Problem& problem, const Sequence& sequence) {
  std::vector<int> laid;
  for (const int place : all_of(sequence)) {
    laid.push_back(place);
    if (!is_within(problem, laid)) return false;
  }
  return true;
}

/// Every place that is laid against every one that is not.
void swap_for_the_better(Problem& problem, const OrderOptions& options, Sequence& best) {
  int n_tried = 0;
  bool has_changed = true;
  while (has_changed) {
    has_changed = false;
    for (std::vector<int>& season : best.seasons) {
      for (int& place : season) {
        if (problem.places[static_cast<std::size_t>(place)].is_pinned) continue;
        for (std::size_t other = 0; other < problem.places.size(); ++other) {
          const std::vector<int> laid = all_of(best);
          if (std::find(laid.begin(), laid.end(), static_cast<int>(other)) != laid.end()) continue;
          if (++n_tried > options.most_swaps) return;
          const double before = value_of(problem, best);
          const int old = std::exchange(place, static_cast<int>(other));
          const bool is_more = value_of(problem, best) > before * (1.0 + 1e-12) + 1e-12;
          if (is_more && can_be_paid(problem, best) && is_within_all_the_way(problem, best)) {
            has_changed = true;
          } else {
            place = old;
          }
        }
      }
    }
  }
}

/// Once more from the beginning with one of the places closed, each in turn: the first step is not always the best one.
void refill_for_the_better(Problem& problem, const OrderOptions& options, Sequence& best) {
  bool has_changed = true;
  for (int n_tried = 0; has_changed;) {
    has_changed = false;
    for (const int place : all_of(best)) {
      if (problem.places[static_cast<std::size_t>(place)].is_pinned) continue;
      if (++n_tried > options.most_refills) return;
      std::vector<bool> is_open(problem.places.size(), true);
      is_open[static_cast<std::size_t>(place)] = false;
      // The conditions alone first: what they find no better is not worth the judge's time.
      Problem unjudged = problem;
      unjudged.judge = nullptr;
      Sequence other = Greedy(unjudged, Wish::gain_for_money, is_open).run();
      if (!is_better(problem, other, best) || !is_within_all_the_way(problem, other)) continue;
      best = std::move(other);
      has_changed = true;
      break;
    }
  }
}

/// Within each season the best for its money first, where that way is allowed too.
void put_in_order(Problem& problem, Sequence& sequence) {
  Sequence ordered = sequence;
  std::vector<int> laid;
  for (std::vector<int>& season : ordered.seasons) {
    std::vector<int> rest = season;
    season.clear();
    while (!rest.empty()) {
      const double gain_before = gain_of(problem, laid);
      const double cost_before = cost_of(problem, laid);
      const auto worth = [&](int place) {
        laid.push_back(place);
        const double gain = gain_of(problem, laid) - gain_before;
        const double cost = cost_of(problem, laid) - cost_before;
        laid.pop_back();
        const bool is_pinned = problem.places[static_cast<std::size_t>(place)].is_pinned;
        const double of_money = cost > 0.0 ? gain / cost : gain > 0.0 ? std::numeric_limits<double>::infinity() : 0.0;
        return std::pair(is_pinned, of_money);
      };
      const auto next = std::max_element(rest.begin(), rest.end(), [&](int a, int b) { return worth(a) < worth(b); });
      laid.push_back(*next);
      season.push_back(*next);
      rest.erase(next);
    }
  }
  if (is_within_all_the_way(problem, ordered)) sequence = std::move(ordered);
}

}  // namespace

double value_of(const Problem& problem, const Sequence& sequence) {
  double value = 0.0;
  std::vector<int> laid;
  for (const std::vector<int>& season : sequence.seasons) {
    laid.insert(laid.end(), season.begin(), season.end());
    value += gain_of(problem, laid);
  }
  return value;
}

Sequence search_stepwise(Problem& problem, const OrderOptions& options) {
  const std::vector<bool> all(problem.places.size(), true);
  Sequence best = Greedy(problem, Wish::gain_for_money, all).run();
  const Sequence other = Greedy(problem, Wish::gain, all).run();
  if (is_better(problem, other, best)) best = other;
  refill_for_the_better(problem, options, best);
  swap_for_the_better(problem, options, best);
  put_in_order(problem, best);
  return best;
}

}  // namespace houseleek::buildorder
