// Where the next modules may go so that both tests of the load still say "within": the best ten of all free places.
#include "checks/next_places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "checks/choice.hpp"
#include "checks/clear_strips.hpp"
#include "checks/heaviest_mean.hpp"
#include "checks/span_load.hpp"
#include "checks/span_use.hpp"
#include "checks/uniform_load.hpp"
#include "plan/squares.hpp"

namespace houseleek::checks {
namespace {

using geometry::RectangleM;

/// How far both tests are used up with some places laid, and what broke.
struct Outcome {
  bool is_within = false;
  double nearness_frac = 0.0;  // greatest of demand over allowance, where the allowance is not small
  bool is_mean_broken = false;
  RectangleM square;            // the averaging square that is too heavy
  double square_room_kn = 0.0;  // what it may carry
  bool is_section_broken = false;
  BeamLine line;
  Section section;
};

class Trial {
 public:
  Trial(const design::ValidDesign& design, const Footprint& module)
      : design_(design), module_(module), laid_(find_footprints(design)) {
    averaging_m2_ = averaging_area_in_use_m2(design->roof);
    figure_kn_per_m2_ = *design->roof.allowable_load->load_kn_per_m2;
  }

  [[nodiscard]] Outcome with(std::span<const RectangleM> places) const {
    const std::vector<Footprint> all = laid_with(places);
    Outcome outcome;
    const double mean = judge_mean(all, outcome);
    const SpanLoad spans = check_span_load(design_, all);
    const double sections = judge_sections(spans, outcome);
    outcome.nearness_frac = std::max(mean, sections);
    outcome.is_within = !outcome.is_mean_broken && spans.verdict == LoadVerdict::within;
    return outcome;
  }

  [[nodiscard]] std::vector<Footprint> laid_with(std::span<const RectangleM> places) const {
    std::vector<Footprint> all = laid_;
    for (const RectangleM& place : places) all.push_back(at(place));
    return all;
  }

  [[nodiscard]] double even_use_frac(std::span<const RectangleM> places) const {
    Outcome unused;
    return judge_mean(laid_with(places), unused);
  }

  [[nodiscard]] bool has_joists() const { return design_->roof.structure->joists.has_value(); }

  /// What a place takes of a broken averaging square or section, and what the rest leaves.
  [[nodiscard]] Condition condition_from(const Outcome& broken, std::span<const RectangleM> places) const {
    Condition condition;
    if (broken.is_mean_broken) {
      double laid_kn = 0.0;
      for (const Footprint& one : laid_) laid_kn += on_square_kn(one, broken.square);
      condition.room = broken.square_room_kn - laid_kn;
      for (const RectangleM& place : places) condition.take.push_back(on_square_kn(at(place), broken.square));
      return condition;
    }
    double laid = 0.0;
    for (const Footprint& one : laid_) laid += on_section(one, broken);
    condition.room = broken.section.allowance - laid;
    for (const RectangleM& place : places) condition.take.push_back(std::max(0.0, on_section(at(place), broken)));
    return condition;
  }

 private:
  [[nodiscard]] Footprint at(const RectangleM& place) const {
    Footprint one = module_;
    one.rectangle = place;
    return one;
  }

  [[nodiscard]] static double on_square_kn(const Footprint& one, const RectangleM& square) {
    const double width_m =
        std::min(one.rectangle.right_m, square.right_m) - std::max(one.rectangle.left_m, square.left_m);
    const double height_m =
        std::min(one.rectangle.top_m, square.top_m) - std::max(one.rectangle.bottom_m, square.bottom_m);
    if (width_m <= 0.0 || height_m <= 0.0) return 0.0;
    return one.soaked_kn.high * width_m * height_m / area_m2(one);
  }

  /// The worst that one footprint brings to the broken section: heavy where it presses, light where it relieves.
  [[nodiscard]] double on_section(const Footprint& one, const Outcome& broken) const {
    const BeamLine& line = broken.line;
    const bool is_x = line.along == design::SpanAxis::x;
    const RectangleM& r = one.rectangle;
    const double from_m = std::max(is_x ? r.left_m : r.bottom_m, line.beam.supports_m.front());
    const double to_m = std::min(is_x ? r.right_m : r.top_m, line.beam.supports_m.back());
    if (to_m - from_m <= 1e-6) return 0.0;
    const double share =
        share_of_line(one, line) * (to_m - from_m) / (is_x ? r.right_m - r.left_m : r.top_m - r.bottom_m);
    if (share <= 0.0) return 0.0;
    const double of_one_kn = effect_of_one_kn(line.beam, physics::solve_beam(line.beam, {from_m, to_m, 1.0}),
                                              broken.section.effect, broken.section.at_m);
    return std::max(share * one.dry_kn.low * of_one_kn, share * one.soaked_kn.high * of_one_kn);
  }

  /// Of a strip: per metre of width if the footprint lies on all of it. Joists never come here.
  [[nodiscard]] static double share_of_line(const Footprint& one, const BeamLine& line) {
    const bool is_x = line.along == design::SpanAxis::x;
    const double low_m = is_x ? one.rectangle.bottom_m : one.rectangle.left_m;
    const double high_m = is_x ? one.rectangle.top_m : one.rectangle.right_m;
    const double middle_m = 0.5 * (line.across_from_m + line.across_to_m);
    return low_m < middle_m && high_m > middle_m ? 1.0 / (high_m - low_m) : 0.0;
  }

  double judge_mean(const std::vector<Footprint>& all, Outcome& outcome) const {
    if (averaging_m2_ <= 0.0) {
      double heaviest = 0.0;
      for (const Footprint& one : all) heaviest = std::max(heaviest, one.soaked_kn.high / area_m2(one));
      // A module that is too heavy by itself is too heavy anywhere: no condition would tell places apart.
      outcome.is_mean_broken = heaviest > figure_kn_per_m2_;
      outcome.square = all.empty() ? RectangleM{} : all.back().rectangle;
      outcome.square_room_kn = 0.0;
      return heaviest / figure_kn_per_m2_;
    }
    std::vector<LoadedRectangle> loaded;
    for (const Footprint& one : all) loaded.push_back({one.rectangle, one.soaked_kn.high / area_m2(one)});
    const HeaviestMean heaviest = find_heaviest_mean(loaded, std::sqrt(averaging_m2_));
    outcome.is_mean_broken = heaviest.load_kn_per_m2 > figure_kn_per_m2_;
    outcome.square = heaviest.square;
    outcome.square_room_kn = figure_kn_per_m2_ * averaging_m2_;
    return heaviest.load_kn_per_m2 / figure_kn_per_m2_;
  }

  double judge_sections(const SpanLoad& spans, Outcome& outcome) const {
    double nearness = 0.0;
    double worst = 0.0;
    for (const LineSections& line : spans.worst) {
      for (const Section& section : line.sections) {
        if (section.scale <= 0.0) continue;
        nearness = std::max(nearness, 1.0 + section.excess / section.scale);
        if (!is_beyond(section) || section.excess / section.scale <= worst) continue;
        worst = section.excess / section.scale;
        outcome.is_section_broken = true;
        outcome.line = spans.lines[static_cast<std::size_t>(line.line)];
        outcome.section = section;
      }
    }
    return nearness;
  }

  const design::ValidDesign& design_;
  Footprint module_;
  std::vector<Footprint> laid_;
  double averaging_m2_ = 0.0;
  double figure_kn_per_m2_ = 0.0;
};

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
bool choose_exactly(const Trial& trial, const Candidates& candidates, const NextPlacesOptions& options,
                    std::vector<int>& chosen, double& value, std::vector<Condition>& conditions) {
  std::vector<double> values;
  for (const double nearness : candidates.nearness_frac) values.push_back(value_of_place(nearness, options.n_wanted));
  const auto excluded = overlapping_pairs(candidates.places);
  constexpr int most_rounds = 200;
  for (int round = 0; round < most_rounds; ++round) {
    const Choice choice = choose_best(values, conditions, excluded, options.n_wanted, options.most_branches);
    if (!choice.is_exact) return false;
    const Outcome outcome = trial.with(picked(candidates.places, choice.chosen));
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
void choose_greedily(const Trial& trial, const Candidates& candidates, const NextPlacesOptions& options,
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
    const Outcome outcome = trial.with(picked(candidates.places, chosen));
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

/// How near the engineer's figure these places bring both tests, and which would stop the next module.
void put_use(const design::ValidDesign& design, const Trial& trial, std::span<const RectangleM> places,
             NextPlaces& next) {
  next.even_use_frac = trial.even_use_frac(places);
  const SpanUse use = find_span_use(design, trial.laid_with(places));
  if (use.use_frac) next.span_use_frac = use.use_frac->high;
}

std::string use_words(const NextPlaces& next) {
  const std::string even = fmt::format("{:.0f} % of the figure on the heaviest square", 100.0 * next.even_use_frac);
  if (!next.span_use_frac) return even;
  const bool is_spans = *next.span_use_frac > next.even_use_frac;
  return fmt::format("{} and {:.0f} % along the spans, heaviest weights; {}", even, 100.0 * *next.span_use_frac,
                     is_spans ? "the spans are nearer to their limit" : "the even load is nearer to its limit");
}

std::string statement_of(const NextPlaces& next, const std::string& name, const std::string& figure, int n_wanted) {
  if (next.n_free == 0) {
    return fmt::format("There is no free place for one more module of \"{}\" on the grid, off strips and obstacles.",
                       name);
  }
  if (next.n_allowed == 0) {
    return fmt::format(
        "None of {} free places keeps one more module of \"{}\" within {} in both tests. Even at the place that takes "
        "least it would be {}.",
        next.n_free, name, figure, use_words(next));
  }
  const std::size_t n = next.places.size();
  std::string why = static_cast<int>(n) == n_wanted ? ""
                    : next.is_exact                 ? ", and no choice on this grid has more"
                    : next.most_possible > static_cast<int>(n)
                        ? fmt::format(", found step by step: at most {} could be found", next.most_possible)
                        : ", and no choice on this grid has more";
  return fmt::format(
      "{} more module{} of \"{}\" {} within {} in both tests, at the places listed{}. {} of {} free places take one "
      "module "
      "alone. With all of them laid it is {}.",
      n, n == 1 ? "" : "s", name, n == 1 ? "stays" : "stay", figure, why, next.n_allowed, next.n_free, use_words(next));
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
  const Trial trial(design, make_module_footprint(design, recipe, placed));
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
  const RectangleM* least = nullptr;  // the place that takes least
  double least_frac = 0.0;
  for (const RectangleM& place : free) {
    const Outcome outcome = trial.with(std::span(&place, 1));
    if (least == nullptr || outcome.nearness_frac < least_frac) {
      least = &place;
      least_frac = outcome.nearness_frac;
    }
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
  if (!next.places.empty()) {
    put_use(design, trial, next.places, next);
  } else if (least != nullptr) {
    put_use(design, trial, std::span(least, 1), next);
  }
  next.statement = statement_of(next, of.name, figure_words(design->roof), options.n_wanted);
  return next;
}

}  // namespace houseleek::checks
