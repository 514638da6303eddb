// Where the next modules may go so that both tests of the load still say "within": the best ten of all free places.
#include "checks/next_places.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "checks/choice.hpp"
#include "checks/clear_strips.hpp"
#include "checks/place_trial.hpp"
#include "checks/uniform_load.hpp"
#include "plan/squares.hpp"

namespace houseleek::checks {
namespace {

using geometry::RectangleM;

std::vector<RectangleM> picked(const std::vector<RectangleM>& places, const std::vector<int>& which) {
  std::vector<RectangleM> some;
  for (const int i : which) some.push_back(places[static_cast<std::size_t>(i)]);
  return some;
}

std::vector<std::pair<int, int>> overlapping_pairs(const std::vector<RectangleM>& places) {
  std::vector<std::pair<int, int>> pairs;
  for (std::size_t i = 0; i < places.size(); ++i) {
    for (std::size_t j = i + 1; j < places.size(); ++j) {
      if (geometry::is_overlapping(places[i], places[j])) pairs.emplace_back(static_cast<int>(i), static_cast<int>(j));
    }
  }
  return pairs;
}

/// What both tests allow of the free places, each alone.
struct Candidates {
  std::vector<RectangleM> places;
  std::vector<double> nearness_frac;
};

/// Repeats the exact search with every broken square or section as a new condition, until nothing breaks.
bool choose_exactly(const PlaceTrial& trial, const Candidates& candidates, const NextPlacesOptions& options,
                    std::vector<int>& chosen, double& value, std::vector<Condition>& conditions) {
  std::vector<double> values;
  for (const double nearness : candidates.nearness_frac) values.push_back(value_of_place(nearness, options.n_wanted));
  const auto excluded = overlapping_pairs(candidates.places);
  constexpr int most_rounds = 200;
  for (int round = 0; round < most_rounds; ++round) {
    const Choice choice = choose_best(values, conditions, excluded, options.n_wanted, options.most_branches);
    if (!choice.is_exact) return false;
    const PlaceOutcome outcome = trial.with(picked(candidates.places, choice.chosen));
    if (outcome.is_within) {
      chosen = choice.chosen;
      value = choice.value;
      return true;
    }
    if (!outcome.is_mean_broken && !outcome.is_section_broken) return false;
    conditions.push_back(trial.condition_from(outcome, candidates.places));
  }
  return false;
}

/// The best place first, then the best beside it, as long as both tests stay within.
void choose_greedily(const PlaceTrial& trial, const Candidates& candidates, const NextPlacesOptions& options,
                     std::vector<int>& chosen, double& value, std::vector<Condition>& conditions) {
  std::vector<int> order(candidates.places.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
  std::stable_sort(order.begin(), order.end(), [&candidates](int a, int b) {
    return candidates.nearness_frac[static_cast<std::size_t>(a)] <
           candidates.nearness_frac[static_cast<std::size_t>(b)];
  });
  for (const int next : order) {
    if (static_cast<int>(chosen.size()) == options.n_wanted) break;
    const RectangleM& place = candidates.places[static_cast<std::size_t>(next)];
    const bool is_taken = std::any_of(chosen.begin(), chosen.end(), [&](int one) {
      return geometry::is_overlapping(candidates.places[static_cast<std::size_t>(one)], place);
    });
    if (is_taken) continue;
    chosen.push_back(next);
    const PlaceOutcome outcome = trial.with(picked(candidates.places, chosen));
    if (!outcome.is_within) {
      chosen.pop_back();
      if (outcome.is_mean_broken || (outcome.is_section_broken && !trial.has_joists())) {
        conditions.push_back(trial.condition_from(outcome, candidates.places));
      }
      continue;
    }
    value += value_of_place(candidates.nearness_frac[static_cast<std::size_t>(next)], options.n_wanted);
  }
  std::sort(chosen.begin(), chosen.end());
}

NextPlaces none_because(std::string because) {
  NextPlaces none;
  none.statement = fmt::format("No next place is named, because {}.", because);
  none.because = std::move(because);
  return none;
}

}  // namespace

double value_of_place(double nearness_frac, int n_wanted) {
  return 1.0 - 0.5 * std::clamp(nearness_frac, 0.0, 1.0) / n_wanted;
}

NextPlaces find_next_places(const design::ValidDesign& design, int recipe, design::Placed placed,
                            const NextPlacesOptions& options) {
  expects(recipe >= 0 && recipe < static_cast<int>(design->recipes.size()), "a recipe of the design");
  expects(options.n_wanted > 0, "at least one place wanted");
  const std::vector<std::string> missing = missing_parts(design->roof);
  if (!missing.empty()) return none_because(fmt::format("nobody wrote down {}", joined_words(missing)));
  if (!design->roof.structure) return none_because("nobody said how the deck carries");
  if (design->roof.structure->supports_at_m.empty()) {
    return none_because("this kind of deck is for an engineer alone");
  }
  const PlaceTrial trial(design, make_module_footprint(design, recipe, placed));
  if (!trial.with({}).is_within) {
    return none_because("what lies there now is not shown to stay within the engineer's figure");
  }
  const design::Recipe& of = design->recipes[static_cast<std::size_t>(recipe)];
  const ClearStripCheck strips = check_clear_strips(design);
  const plan::FreePlaces wanted{.width_m = 0.001 * of.length_mm,
                                .height_m = 0.001 * of.width_mm,
                                .step_m = options.step_m,
                                .gap_m = options.gap_m};
  const std::vector<RectangleM> free = plan::find_free_places(
      design, wanted, options.keeps_strips_clear ? strips.kept_free : std::vector<geometry::Outline>{});
  NextPlaces next;
  next.n_free = static_cast<int>(free.size());
  Candidates candidates;
  for (const RectangleM& place : free) {
    const PlaceOutcome outcome = trial.with(std::span(&place, 1));
    if (!outcome.is_within) continue;
    candidates.places.push_back(place);
    candidates.nearness_frac.push_back(outcome.nearness_frac);
  }
  next.n_allowed = static_cast<int>(candidates.places.size());
  std::vector<int> chosen;
  std::vector<Condition> conditions;
  const bool is_small = candidates.places.size() <= options.most_exact && !trial.has_joists();
  next.is_exact = is_small && choose_exactly(trial, candidates, options, chosen, next.value, conditions);
  if (!next.is_exact) {
    chosen.clear();
    choose_greedily(trial, candidates, options, chosen, next.value, conditions);
  }
  next.most_possible =
      next.is_exact ? static_cast<int>(chosen.size()) : most_that_fit(conditions, next.n_allowed, options.n_wanted);
  for (const int i : chosen) {
    next.places.push_back(candidates.places[static_cast<std::size_t>(i)]);
    next.nearness_frac.push_back(candidates.nearness_frac[static_cast<std::size_t>(i)]);
  }
  next.statement =
      fmt::format("{} more modules of \"{}\" stay within {} in both tests, at the places listed; {}.",
                  next.places.size(), of.name, figure_words(design->roof),
                  next.is_exact ? "no choice on this grid has more"
                                : fmt::format("found step by step, never more than {}", next.most_possible));
  return next;
}

}  // namespace houseleek::checks
