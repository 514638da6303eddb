// What hangs on each assumption: the house bare and planted through the year with one of them at its low and its high
// end and everything else as it is.
#include "studies/one_at_a_time.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <utility>

#include "climate/calendar.hpp"
#include "climate/summary.hpp"
#include "studies/assumptions.hpp"
#include "studies/one_at_a_time_group.hpp"
#include "studies/one_at_a_time_runs.hpp"
#include "studies/one_at_a_time_vary.hpp"
#include "studies/ranges.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;

constexpr std::string_view not_tried = "not tried: study with --years tries every assumption at both ends";
constexpr std::string_view of_money =
    "a price, a life or a count of what is bought: no temperature follows from it; the draws of money vary it";
constexpr std::string_view of_tariff = "no figure of this answer reads it yet";
constexpr std::string_view of_rivals = "the rivals alone have it; the house bare and planted stays as it is";
constexpr std::string_view of_threshold = "how long a module can wait follows from it, and no temperature";
constexpr std::string_view of_roof_checks = "water, wind and fire on the roof follow from it, and no temperature";
constexpr std::string_view of_exact = "its low and its high end are the same";
constexpr std::string_view of_nothing =
    "at neither end do the runs of the house bare and planted, rooms running free, read anything else";

/// Why there is nothing to try; empty where there is.
std::string_view not_physical(const design::Assumption& one) {
  const std::string_view path = one.path;
  if (path.starts_with("prices[") || path.starts_with("money.") || path == "tariff.water_per_m3") return of_money;
  if (path.starts_with("material[") && path.find("].service_life") != std::string_view::npos) return of_money;
  if (path.starts_with("tariff.")) return of_tariff;
  if (path.starts_with("rivals.")) return of_rivals;
  if (path.ends_with(".watering.when_store_below_frac")) return of_threshold;
  for (const std::string_view table : {"drainage.", "wind.", "fire."}) {
    if (path.starts_with(table)) return of_roof_checks;
  }
  if (path == "roof.parapet_height_mm") return of_roof_checks;
  if (one.low == one.high) return of_exact;
  return "";
}

/// A material's properties stay apart; of rooms and recipes the same field is one kind.
std::string kind_of(const design::Assumption& one) {
  return one.path.starts_with("material[") ? one.path : without_indices(one.path);
}

std::vector<TriedKind> kinds_of(std::span<const design::Assumption> assumed) {
  std::vector<TriedKind> kinds;
  for (std::size_t i = 0; i < assumed.size(); ++i) {
    const std::string_view why_not = not_physical(assumed[i]);
    const auto same = [&](const TriedKind& kind) {
      return why_not.empty() && kind.none_because.empty() &&
             kind_of(assumed[kind.members.front()]) == kind_of(assumed[i]);
    };
    const auto found = std::find_if(kinds.begin(), kinds.end(), same);
    if (found != kinds.end()) {
      found->members.push_back(i);
    } else {
      kinds.push_back({.members = {i}, .none_because = std::string(why_not), .low = {}, .high = {}});
    }
  }
  return kinds;
}

struct BaseGroups {
  simulation::Group bare;
  simulation::Group planted;
};

BaseGroups groups_of(const RunInputs& year, const design::ValidDesign& design) {
  const plan::Layout layout = plan::make_layout(design);
  const RunInputs inputs = inputs_with(year, design, layout);
  return {group_of_cover(inputs, CoverKind::bare, false).group,
          group_of_cover(inputs, CoverKind::planted, false).group};
}

Trial plan_trial(const OneAtATimeInputs& inputs, const TriedKind& kind, double design::Assumption::*end,
                 const BaseGroups& base) {
  std::vector<PlacedFigure> figures;
  for (const std::size_t member : kind.members) {
    figures.push_back({inputs.assumed[member].path, inputs.assumed[member].*end});
  }
  Trial trial;
  Result<design::ValidDesign> varied = read_varied(inputs.description, inputs.year.design, inputs.catalogue, figures);
  if (!varied) {
    trial.refused = varied.error().front().message;
    return trial;
  }
  const BaseGroups groups = groups_of(inputs.year, varied.value());
  trial.moves_bare = !is_same_group(groups.bare, base.bare);
  trial.moves_planted = !is_same_group(groups.planted, base.planted);
  if (trial.moves_bare || trial.moves_planted) trial.design = std::move(varied).value();
  return trial;
}

/// What the figures are taken from; planted and bare, or the one less the other.
struct EffectOn {
  std::string_view path;
  double RunFigures::*figure = nullptr;
  double of_planted = 0.0;
  double of_bare = 0.0;
};

constexpr EffectOn effects_on[] = {
    {"house.planted_minus_bare.degree_hours_above_k_h", &RunFigures::degree_hours_above_k_h, 1.0, -1.0},
    {"house.bare.degree_hours_above_k_h", &RunFigures::degree_hours_above_k_h, 0.0, 1.0},
    {"house.planted.degree_hours_above_k_h", &RunFigures::degree_hours_above_k_h, 1.0, 0.0},
    {"house.planted_minus_bare.heat_gain_summer_kwh", &RunFigures::heat_gain_summer_kwh, 1.0, -1.0},
    {"house.bare.heat_gain_summer_kwh", &RunFigures::heat_gain_summer_kwh, 0.0, 1.0},
    {"house.planted.heat_gain_summer_kwh", &RunFigures::heat_gain_summer_kwh, 1.0, 0.0}};

double value_of(const EffectOn& on, const EndFigures& end) {
  return on.of_planted * (end.planted.*on.figure) + on.of_bare * (end.bare.*on.figure);
}

std::vector<report::EffectFigure> figures_on(const EndFigures& as_it_is, const KindFigures& kind) {
  std::vector<report::EffectFigure> figures;
  for (const EffectOn& on : effects_on) {
    report::EffectFigure figure;
    figure.on = on.path;
    figure.likely_gives = value_of(on, as_it_is);
    if (kind.low.missing.empty()) figure.low_gives = value_of(on, kind.low);
    if (kind.high.missing.empty()) figure.high_gives = value_of(on, kind.high);
    figures.push_back(std::move(figure));
  }
  return figures;
}

/// What hours the runs went through.
struct Span {
  int n_hours = 0;
  std::string words;
};

report::AssumedEffect effect_of(const EndFigures& as_it_is, const KindFigures& kind, const Span& span) {
  report::AssumedEffect effect;
  effect.n_days = span.n_hours / climate::n_hours_in_day;
  effect.from = fmt::format("{}, rooms running free, one strip of 0.15 m on each side of an edge", span.words);
  if (!kind.low.missing.empty()) effect.from += "; without its low end: " + kind.low.missing;
  if (!kind.high.missing.empty()) effect.from += "; without its high end: " + kind.high.missing;
  effect.figures = figures_on(as_it_is, kind);
  return effect;
}

double spread_of(const report::EffectFigure& figure) {
  const double low = figure.low_gives.value_or(figure.likely_gives);
  const double high = figure.high_gives.value_or(figure.likely_gives);
  return std::max({low, figure.likely_gives, high}) - std::min({low, figure.likely_gives, high});
}

void keep_most(report::RankedAnswer& ranked) {
  std::stable_sort(ranked.most.begin(), ranked.most.end(),
                   [](const report::RankedAssumption& a, const report::RankedAssumption& b) {
                     return spread_of(a.effect) > spread_of(b.effect);
                   });
  if (ranked.most.size() > most_ranked) ranked.most.resize(most_ranked);
}

/// For each kind the largest of its spreads, each in parts of the greatest spread of that figure.
std::vector<double> scores_of(const KindRuns& runs) {
  std::vector<std::vector<double>> spreads;
  std::vector<double> greatest(std::size(effects_on), 0.0);
  for (const KindFigures& kind : runs.kinds) {
    std::vector<double>& of_kind = spreads.emplace_back();
    for (const report::EffectFigure& figure : figures_on(runs.as_it_is, kind)) of_kind.push_back(spread_of(figure));
    for (std::size_t i = 0; i < greatest.size(); ++i) greatest[i] = std::max(greatest[i], of_kind[i]);
  }
  std::vector<double> scores;
  for (const std::vector<double>& of_kind : spreads) {
    double score = 0.0;
    for (std::size_t i = 0; i < greatest.size(); ++i) {
      if (greatest[i] > 0.0) score = std::max(score, of_kind[i] / greatest[i]);
    }
    scores.push_back(score);
  }
  return scores;
}

/// The places of the largest scores, in their own order.
std::vector<std::size_t> places_of_largest(const std::vector<double>& scores, std::size_t n_most) {
  std::vector<std::size_t> places(scores.size());
  std::iota(places.begin(), places.end(), std::size_t{0});
  std::stable_sort(places.begin(), places.end(), [&](std::size_t a, std::size_t b) { return scores[a] > scores[b]; });
  places.resize(std::min(places.size(), n_most));
  std::sort(places.begin(), places.end());
  return places;
}

/// The hottest days in a row of the kept hours.
simulation::RunOptions hottest_days(const RunInputs& year) {
  const std::vector<climate::DayFigures> days = climate::figures_of_days(year.weather);
  const auto mean_c = [&](int hour) {
    return days[static_cast<std::size_t>(hour % climate::n_hours_in_year / climate::n_hours_in_day)].mean_c;
  };
  simulation::RunOptions options = year.options;
  options.n_hours = screening_days * climate::n_hours_in_day;
  options.spin_up_hours = std::min(options.spin_up_hours, screening_spin_up_days * climate::n_hours_in_day);
  double most = 0.0;
  for (int first = 0; first + options.n_hours <= year.options.n_hours; first += climate::n_hours_in_day) {
    double sum = 0.0;
    for (int day = 0; day < screening_days; ++day) {
      sum += mean_c(year.options.first_hour + first + day * climate::n_hours_in_day);
    }
    if (first > 0 && sum <= most) continue;
    most = sum;
    options.first_hour = (year.options.first_hour + first) % climate::n_hours_in_year;
  }
  return options;
}

bool has_screening(const OneAtATimeInputs& inputs, std::size_t n_kinds) {
  return n_kinds > inputs.n_in_full && inputs.year.options.n_hours > 2 * screening_days * climate::n_hours_in_day;
}

std::vector<const TriedKind*> kinds_to_run(const OneAtATime& trials) {
  std::vector<const TriedKind*> kinds;
  for (const TriedKind& kind : trials.kinds) {
    if (kind.none_because.empty()) kinds.push_back(&kind);
  }
  return kinds;
}

double hours_of(const simulation::RunOptions& options) { return options.n_hours + options.spin_up_hours; }

}  // namespace

double OneAtATime::n_runs(const OneAtATimeInputs& inputs) const {
  if (kinds.empty()) return 0.0;
  const std::vector<const TriedKind*> all = kinds_to_run(*this);
  const double n_all = n_runs_of(all);
  if (!has_screening(inputs, all.size())) return n_all;
  const double in_full_frac = static_cast<double>(inputs.n_in_full) / static_cast<double>(all.size());
  return n_all * (hours_of(hottest_days(inputs.year)) / hours_of(inputs.year.options) + in_full_frac);
}

OneAtATime plan_one_at_a_time(const OneAtATimeInputs& inputs) {
  const BaseGroups base = groups_of(inputs.year, inputs.year.design);
  OneAtATime trials;
  trials.kinds = kinds_of(inputs.assumed);
  for (TriedKind& kind : trials.kinds) {
    if (!kind.none_because.empty()) continue;
    kind.low = plan_trial(inputs, kind, &design::Assumption::low, base);
    kind.high = plan_trial(inputs, kind, &design::Assumption::high, base);
    const bool is_refused = !kind.low.refused.empty() && !kind.high.refused.empty();
    if (is_refused) kind.none_because = "the description would be refused at both ends: " + kind.low.refused;
    if (!is_refused && !kind.low.design && !kind.high.design) kind.none_because = of_nothing;
  }
  return trials;
}

EffectsAnswer run_one_at_a_time(const OneAtATime& trials, const OneAtATimeInputs& inputs, const Executor& executor,
                                const Context& context) {
  const std::vector<const TriedKind*> all = kinds_to_run(trials);
  std::vector<std::size_t> in_full(all.size());
  std::iota(in_full.begin(), in_full.end(), std::size_t{0});
  EffectsAnswer answer;
  std::vector<report::AssumedEffect> effects(all.size());
  std::string from = fmt::format("{} kinds of assumptions, each at both ends with all others as they are; {}",
                                 all.size(), report::one_year_only);
  double screened_frac = 0.0;
  if (has_screening(inputs, all.size())) {
    const simulation::RunOptions hot = hottest_days(inputs.year);
    screened_frac = n_runs_of(all) * hours_of(hot) / hours_of(inputs.year.options) / trials.n_runs(inputs);
    const KindRuns runs = run_kinds(all, inputs.year, hot, executor, part_of(context, 0.0, screened_frac));
    in_full = places_of_largest(scores_of(runs), inputs.n_in_full);
    const Span span{hot.n_hours, fmt::format("the {} hottest days of the year only", screening_days)};
    for (std::size_t i = 0; i < all.size(); ++i) effects[i] = effect_of(runs.as_it_is, runs.kinds[i], span);
    add_counts(answer.engine, runs.counts);
    from = fmt::format(
        "{} kinds of assumptions, each at both ends with all others as they are, through {}; the {} that "
        "move most there through the year; {}",
        all.size(), span.words, in_full.size(), report::one_year_only);
  }
  std::vector<const TriedKind*> chosen;
  for (const std::size_t place : in_full) chosen.push_back(all[place]);
  const KindRuns runs =
      run_kinds(chosen, inputs.year, inputs.year.options, executor, part_of(context, screened_frac, 1.0));
  add_counts(answer.engine, runs.counts);
  answer.ranked.on = effects_on[0].path;
  answer.ranked.from = from;
  const Span span{inputs.year.options.n_hours, std::string(report::one_year_only)};
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    effects[in_full[i]] = effect_of(runs.as_it_is, runs.kinds[i], span);
    report::RankedAssumption row;
    for (const std::size_t member : chosen[i]->members) row.paths.push_back(inputs.assumed[member].path);
    row.name = inputs.assumed[chosen[i]->members.front()].name;
    row.effect = effects[in_full[i]].figures.front();
    answer.ranked.most.push_back(std::move(row));
  }
  keep_most(answer.ranked);

  answer.effects.resize(inputs.assumed.size());
  auto next = effects.begin();
  for (const TriedKind& kind : trials.kinds) {
    report::AssumedEffect effect;
    effect.none_because = kind.none_because;
    if (kind.none_because.empty()) effect = std::move(*next++);
    for (const std::size_t member : kind.members) {
      answer.effects[member] = effect;
      for (const std::size_t other : kind.members) {
        if (other != member) answer.effects[member].together.push_back(inputs.assumed[other].path);
      }
    }
  }
  return answer;
}

EffectsAnswer effects_not_tried(std::size_t n_assumed) {
  EffectsAnswer answer;
  answer.effects.resize(n_assumed);
  for (report::AssumedEffect& effect : answer.effects) effect.none_because = not_tried;
  answer.ranked.on = effects_on[0].path;
  answer.ranked.from = not_tried;
  return answer;
}

}  // namespace houseleek::studies
