// What hangs on each assumption: the house bare and planted through the year with one of them at its low and its high
// end and everything else as it is.
#include "studies/one_at_a_time.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <memory>
#include <utility>

#include "base/contract.hpp"
#include "studies/assumptions.hpp"
#include "studies/ensemble.hpp"
#include "studies/one_at_a_time_group.hpp"
#include "studies/one_at_a_time_vary.hpp"

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

/// The year's inputs with another design; `layout` is that design's.
RunInputs inputs_with(const RunInputs& year, const design::ValidDesign& design, const plan::Layout& layout) {
  return {.design = design,
          .layout = layout,
          .weather = year.weather,
          .limits = year.limits,
          .seasons = year.seasons,
          .thresholds_frac = year.thresholds_frac,
          .options = year.options,
          .has_fine_strips = false};
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

/// What a run leaves for the effects.
struct RunFigures {
  double degree_hours_above_k_h = 0.0;
  double heat_gain_summer_kwh = 0.0;
};

RunFigures figures_of(const RunSums& run) {
  RunFigures figures;
  for (const RoomSums& room : run.rooms) {
    figures.degree_hours_above_k_h += room.all.degree_hours_above_k_h;
    figures.heat_gain_summer_kwh += room.heat_gain_summer_kwh;
  }
  return figures;
}

/// One run to do.
struct TrialRun {
  const design::ValidDesign* design = nullptr;
  CoverKind cover = CoverKind::bare;
  RunFigures figures;
  report::EngineAnswer counts;
  std::string failure;
  std::atomic<double> done_frac = 0.0;
};

void run(const RunInputs& year, TrialRun& one, const Context& context) {
  const plan::Layout layout = plan::make_layout(*one.design);
  try {
    const RunSums sums = run_cover(inputs_with(year, *one.design, layout), one.cover, false, context);
    one.figures = figures_of(sums);
    one.counts = counts_of(sums);
  } catch (const simulation::NumericalFailure& failure) {
    one.failure = failure.what();
  }
}

using TrialRuns = std::vector<std::unique_ptr<TrialRun>>;

TrialRun* add_run(TrialRuns& runs, const design::ValidDesign& design, CoverKind cover) {
  runs.push_back(std::make_unique<TrialRun>());
  runs.back()->design = &design;
  runs.back()->cover = cover;
  return runs.back().get();
}

void execute(const TrialRuns& runs, const RunInputs& year, const Executor& executor, const Context& context) {
  const std::function<void()> watch = [&] {
    if (!context.on_progress) return;
    double done = 0.0;
    for (const auto& one : runs) done += one->done_frac.load(std::memory_order_relaxed);
    context.on_progress(done / static_cast<double>(runs.size()));
  };
  std::vector<Task> tasks;
  for (const auto& owned : runs) {
    TrialRun* one = owned.get();
    tasks.emplace_back([one, &year, &context](const std::function<void()>& task_watch) {
      Context of_run;
      of_run.is_cancelled = context.is_cancelled;
      of_run.on_progress = [one, &task_watch](double done_frac) {
        one->done_frac.store(done_frac, std::memory_order_relaxed);
        if (task_watch) task_watch();
      };
      run(year, *one, of_run);
      one->done_frac.store(1.0, std::memory_order_relaxed);
      if (task_watch) task_watch();
    });
  }
  executor(tasks, watch);
}

/// The runs of one end: those of the figures as they are where nothing else is read.
struct EndRuns {
  const TrialRun* bare = nullptr;
  const TrialRun* planted = nullptr;
  std::string missing;  // why there are no figures
};

EndRuns add_end(TrialRuns& runs, const Trial& trial, const EndRuns& base) {
  EndRuns end = base;
  if (!trial.refused.empty()) end.missing = "the description would be refused: " + trial.refused;
  if (trial.moves_bare) end.bare = add_run(runs, *trial.design, CoverKind::bare);
  if (trial.moves_planted) end.planted = add_run(runs, *trial.design, CoverKind::planted);
  return end;
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

double value_of(const EffectOn& on, const EndRuns& end) {
  return on.of_planted * (end.planted->figures.*on.figure) + on.of_bare * (end.bare->figures.*on.figure);
}

std::string failure_of(const EndRuns& end) {
  if (!end.missing.empty()) return end.missing;
  for (const TrialRun* one : {end.bare, end.planted}) {
    if (!one->failure.empty()) return "the solver failed: " + one->failure;
  }
  return "";
}

report::AssumedEffect effect_of(const EndRuns& base, const EndRuns& low, const EndRuns& high) {
  report::AssumedEffect effect;
  effect.from =
      fmt::format("{}, rooms running free, one strip of 0.15 m on each side of an edge", report::one_year_only);
  const std::string no_low = failure_of(low);
  const std::string no_high = failure_of(high);
  if (!no_low.empty()) effect.from += "; without its low end: " + no_low;
  if (!no_high.empty()) effect.from += "; without its high end: " + no_high;
  for (const EffectOn& on : effects_on) {
    report::EffectFigure figure;
    figure.on = on.path;
    figure.likely_gives = value_of(on, base);
    if (no_low.empty()) figure.low_gives = value_of(on, low);
    if (no_high.empty()) figure.high_gives = value_of(on, high);
    effect.figures.push_back(std::move(figure));
  }
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

void expect_few(const TrialRuns& runs) {
  std::vector<std::string> failures;
  for (const auto& one : runs) {
    if (!one->failure.empty()) failures.push_back(one->failure);
  }
  expect_few_failures(failures, static_cast<int>(runs.size()));
}

}  // namespace

int OneAtATime::n_runs() const {
  if (kinds.empty()) return 0;
  int n = 2;
  for (const TriedKind& kind : kinds) {
    for (const Trial* trial : {&kind.low, &kind.high})
      n += (trial->moves_bare ? 1 : 0) + (trial->moves_planted ? 1 : 0);
  }
  return n;
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
  TrialRuns runs;
  EndRuns base;
  base.bare = add_run(runs, inputs.year.design, CoverKind::bare);
  base.planted = add_run(runs, inputs.year.design, CoverKind::planted);
  std::vector<std::pair<EndRuns, EndRuns>> ends;
  for (const TriedKind& kind : trials.kinds) {
    const bool is_tried = kind.none_because.empty();
    ends.emplace_back(is_tried ? add_end(runs, kind.low, base) : base,
                      is_tried ? add_end(runs, kind.high, base) : base);
  }
  execute(runs, inputs.year, executor, context);
  expect_few(runs);
  EffectsAnswer answer;
  answer.effects.resize(inputs.assumed.size());
  answer.ranked.on = effects_on[0].path;
  std::size_t n_tried = 0;
  for (std::size_t i = 0; i < trials.kinds.size(); ++i) {
    const TriedKind& kind = trials.kinds[i];
    report::AssumedEffect effect;
    effect.none_because = kind.none_because;
    if (kind.none_because.empty()) effect = effect_of(base, ends[i].first, ends[i].second);
    for (const std::size_t member : kind.members) {
      answer.effects[member] = effect;
      for (const std::size_t other : kind.members) {
        if (other != member) answer.effects[member].together.push_back(inputs.assumed[other].path);
      }
    }
    if (effect.figures.empty()) continue;
    ++n_tried;
    report::RankedAssumption row;
    for (const std::size_t member : kind.members) row.paths.push_back(inputs.assumed[member].path);
    row.name = inputs.assumed[kind.members.front()].name;
    row.effect = effect.figures.front();
    answer.ranked.most.push_back(std::move(row));
  }
  keep_most(answer.ranked);
  answer.ranked.from = fmt::format("{} kinds of assumptions, each at both ends with all others as they are; {}",
                                   n_tried, report::one_year_only);
  for (const auto& one : runs) add_counts(answer.engine, one->counts);
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
