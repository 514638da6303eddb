// Stores of water up to a day and without rain after it, in draws of what is not known.
#include "studies/water_stores.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <set>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "base/random.hpp"
#include "checks/weights.hpp"
#include "climate/calendar.hpp"
#include "simulation/cover_layers.hpp"
#include "stats/split_triangular.hpp"

namespace houseleek::studies {
namespace {

constexpr double mass_error_kg_per_m2 = 1.0;  // of a scale under a board, and of what hangs on a module
constexpr int days_all = days_looked_back + 1 + days_looked_ahead;

/// How one group is watered in a draw, counted from the first day that is looked back.
struct Drive {
  std::vector<planting::GivenWater> given;
  std::vector<simulation::Watering> rules;
  std::string words;
};

/// More than any module holds: what is watered until it drips is full.
double until_drip_mm(const design::Recipe& recipe) {
  double held_mm = 0.0;
  for (const simulation::Layer& layer : simulation::module_stack(recipe).module) {
    held_mm += 1000.0 * layer.thickness_m * layer.field_capacity_frac;
  }
  return held_mm;
}

Drive drive_by_log(const std::map<std::int64_t, GivenDay>& given, std::int64_t first, double drip_mm) {
  Drive drive;
  int n_days = 0;
  for (const auto& [date, day] : given) {
    if (date < first || date > first + days_looked_back) continue;
    ++n_days;
    drive.given.push_back({static_cast<int>(date - first), day.hour, day.is_until_drip ? drip_mm : day.mm});
  }
  drive.words = n_days == 0
                    ? fmt::format("not watered in the last {} days, by the logbook", days_looked_back)
                    : fmt::format("watered on {} of the last {} days, by the logbook", n_days, days_looked_back);
  return drive;
}

/// The recipe's own rule, begun on any day of its interval.
Drive drive_by_rule(const StoreInputs& inputs, const design::Recipe& recipe, const climate::WeatherYear& weather,
                    int first_day, double phase_frac) {
  Drive drive;
  drive.words = recipe.watering ? "watering assumed as the recipe's own rule has it, on any day of its interval"
                                : "never watered, as the recipe says nothing of watering";
  const auto rules = simulation::watering_rules(recipe, simulation::seasons_of(inputs.design->climate, weather));
  for (const simulation::Watering& rule : rules) {
    if (rule.every_days == 0) {
      simulation::Watering until_today = rule;
      until_today.first_day = first_day;
      until_today.last_day = (first_day + days_looked_back) % climate::n_days_in_year;
      drive.rules.push_back(until_today);
      continue;
    }
    const int shift = static_cast<int>(phase_frac * rule.every_days) % rule.every_days;
    for (int day = 0; day <= days_looked_back; ++day) {
      const int of_year = (first_day + day) % climate::n_days_in_year;
      const bool is_wrapping = rule.first_day > rule.last_day;
      const bool is_in = is_wrapping ? of_year >= rule.first_day || of_year <= rule.last_day
                                     : of_year >= rule.first_day && of_year <= rule.last_day;
      if (is_in && (day + shift) % rule.every_days == 0) drive.given.push_back({day, rule.hour, rule.depth_mm});
    }
  }
  return drive;
}

/// What a module on the scale says of the store.
struct WeighedStore {
  ModuleWeighing weighing;
  double store_frac = 0.0;
  double error_frac = 0.0;
};

std::optional<WeighedStore> weighed_store(const StoreInputs& inputs, int recipe_index,
                                          std::vector<std::string>& notes) {
  const design::Recipe& recipe = inputs.design->recipes[static_cast<std::size_t>(recipe_index)];
  const std::optional<ModuleWeighing> weighing =
      last_weighing(inputs.records, recipe, inputs.today - days_looked_back, inputs.today);
  if (!weighing) return std::nullopt;
  const checks::ModuleWeights weights = checks::compute_weights(inputs.design, recipe_index, design::Placed::flat);
  double rooted_mm = 0.0;
  for (const simulation::Layer& layer : simulation::module_stack(recipe).module) {
    if (layer.root_frac <= 0.0) continue;
    rooted_mm += 1000.0 * layer.thickness_m * (layer.field_capacity_frac - layer.wilting_frac);
  }
  if (rooted_mm <= 0.0) return std::nullopt;
  const double mass_kg_per_m2 = weighing->mass_kg / (1e-6 * recipe.length_mm * recipe.width_mm);
  const results::Interval& drained = weights.drained_kg_per_m2;
  WeighedStore store{*weighing, 1.0 - (drained.likely - mass_kg_per_m2) / rooted_mm, 0.0};
  store.error_frac = std::hypot(mass_error_kg_per_m2, 0.25 * (drained.high - drained.low)) / rooted_mm;
  const std::string said =
      fmt::format("{} weighed {:.1f} kg on {}", weighing->module, weighing->mass_kg, text_from_day(weighing->day));
  if (store.store_frac < -2.0 * store.error_frac || store.store_frac > 1.0 + 2.0 * store.error_frac) {
    notes.push_back(
        fmt::format("{}: that is {} than the recipe can weigh between wilting and first drip; the weighing "
                    "is left out. Weigh one that has just dripped, with --wetness drained.",
                    said, store.store_frac < 0.0 ? "less" : "more"));
    return std::nullopt;
  }
  store.store_frac = std::clamp(store.store_frac, 0.0, 1.0);
  notes.push_back(fmt::format("{}: store {:.0f} % then, give or take {:.0f}.", said, 100.0 * store.store_frac,
                              100.0 * store.error_frac));
  return store;
}

/// Spread of the factor after a weighing: draws that came near what was weighed count more.
design::Default narrowed(const std::vector<double>& factors, const std::vector<double>& stores,
                         const WeighedStore& weighed, std::vector<std::string>& notes) {
  double sum = 0.0;
  double mean = 0.0;
  double square = 0.0;
  std::vector<double> weights;
  for (std::size_t i = 0; i < factors.size(); ++i) {
    const double off = (stores[i] - weighed.store_frac) / std::max(weighed.error_frac, 0.05);
    weights.push_back(std::exp(-0.5 * off * off));
    sum += weights.back();
    square += weights.back() * weights.back();
  }
  // Fewer than three draws that agree say nothing of the factor.
  if (sum <= 0.0 || sum * sum / square < 3.0) {
    notes.push_back("The weighing sets the store; how fast it dries stays as unsure as it was.");
    return evapotranspiration_spread;
  }
  for (std::size_t i = 0; i < factors.size(); ++i) mean += weights[i] / sum * factors[i];
  double variance = 0.0;
  for (std::size_t i = 0; i < factors.size(); ++i)
    variance += weights[i] / sum * (factors[i] - mean) * (factors[i] - mean);
  // Never surer than a tenth: one module on one day.
  const double half = std::max(0.1, 1.7 * std::sqrt(variance));
  design::Default spread = evapotranspiration_spread;
  spread.likely = mean;
  spread.low = std::max(evapotranspiration_spread.low, mean - half);
  spread.high = std::min(evapotranspiration_spread.high, mean + half);
  notes.push_back(fmt::format("By the weighing this roof dries at {:.2f} ({:.2f} to {:.2f}) of our default rate.", mean,
                              spread.low, spread.high));
  return spread;
}

}  // namespace

double drawn_factor(std::uint64_t seed, int draw, int n_draws, double low, double likely, double high) {
  // A permutation by sorting uniform numbers: every draw has a share of its own.
  std::vector<double> keys;
  const RandomVariable variable = random_variable(seed, "order of evapotranspiration factors");
  for (int i = 0; i < n_draws; ++i) keys.push_back(random_uniform(variable, {static_cast<std::uint32_t>(i), 0, 0}));
  const auto rank =
      std::count_if(keys.begin(), keys.end(), [&](double key) { return key < keys[static_cast<std::size_t>(draw)]; });
  return stats::split_triangular_quantile({low, likely, high}, (static_cast<double>(rank) + 0.5) / n_draws);
}

std::vector<StoreGroup> store_groups(const StoreInputs& inputs) {
  const design::Design& design = *inputs.design;
  std::vector<StoreGroup> groups;
  const auto add = [&groups](int recipe, design::Placed placed) -> StoreGroup& {
    for (StoreGroup& one : groups) {
      if (one.recipe == recipe && one.placed == placed) return one;
    }
    StoreGroup& made = groups.emplace_back();
    made.recipe = recipe;
    made.placed = placed;
    return made;
  };
  const std::vector<LaidModule> laid = laid_modules(inputs.records);
  std::set<int> logged;
  for (const LaidModule& module : laid) {
    for (std::size_t i = 0; i < design.recipes.size(); ++i) {
      const design::Recipe& recipe = design.recipes[i];
      if (folded_name(recipe.name) != folded_name(module.recipe)) continue;
      design::Placed placed = recipe.placed;
      for (const design::Patch& patch : design.patches) {
        if (patch.recipe == static_cast<int>(i)) placed = patch.placed;
      }
      if (module.is_raised) placed = *module.is_raised ? design::Placed::raised : design::Placed::flat;
      StoreGroup& group = add(static_cast<int>(i), placed);
      ++group.count;
      group.labels.push_back(module.label);
      logged.insert(static_cast<int>(i));
      if (inputs.today - module.made_day < young_days) {
        group.young.push_back(module.label);
        group.youngest_day = std::max(group.youngest_day.value_or(module.made_day), module.made_day);
      }
    }
  }
  for (const design::Patch& patch : design.patches) {
    if (logged.contains(patch.recipe)) continue;
    StoreGroup& group = add(patch.recipe, patch.placed);
    group.count += static_cast<int>(module_count(patch));
    if (patch.built_day && inputs.today >= *patch.built_day && inputs.today - *patch.built_day < young_days) {
      group.young.push_back(fmt::format("the {} modules of {}", module_count(patch), text_from_day(*patch.built_day)));
      group.youngest_day = patch.built_day;
    }
  }
  return groups;
}

std::vector<StoreDraws> run_store_draws(const StoreInputs& inputs, const DrawnWeather& weather,
                                        const std::vector<StoreGroup>& groups, const Executor& executor,
                                        const Context& context) {
  const plan::Layout layout = plan::make_layout(inputs.design);
  const int n_draws = static_cast<int>(weather.years.size());
  const std::int64_t first = inputs.today - days_looked_back;
  const std::uint64_t seed = inputs.design->climate.seed;
  std::vector<StoreDraws> all(groups.size());
  // One run a group and draw: every task writes a place of its own.
  const auto run_all = [&](const std::vector<std::size_t>& which, const std::vector<design::Default>& spreads,
                           const std::vector<std::optional<WeighedStore>>& starts) {
    std::vector<Task> tasks;
    for (const std::size_t g : which) {
      all[g].store_frac.assign(static_cast<std::size_t>(n_draws), {});
      all[g].missing_mm.assign(static_cast<std::size_t>(n_draws), {});
      for (int draw = 0; draw < n_draws; ++draw) {
        tasks.emplace_back([&, g, draw](const std::function<void()>& watch) {
          if (watch) watch();
          check_cancelled(context);
          const StoreGroup& group = groups[g];
          const design::Recipe& recipe = inputs.design->recipes[static_cast<std::size_t>(group.recipe)];
          const climate::WeatherYear& year = weather.years[static_cast<std::size_t>(draw)];
          const double drip_mm = until_drip_mm(recipe);
          Drive drive = inputs.has_logbook
                            ? drive_by_log(given_to_recipe(inputs.records, recipe, inputs.design->recipes.size() == 1),
                                           first, drip_mm)
                            : drive_by_rule(inputs, recipe, year, weather.first_day, (draw + 0.5) / n_draws);
          if (inputs.filled_day && *inputs.filled_day >= first) {
            const int day = static_cast<int>(*inputs.filled_day - first);
            std::erase_if(drive.given, [day](const planting::GivenWater& one) { return one.day >= day; });
            for (simulation::Watering& rule : drive.rules)
              rule.last_day = (weather.first_day + day) % climate::n_days_in_year;
            drive.given.push_back({day, 7, drip_mm});
          }
          planting::ModuleQuestion question{.design = inputs.design,
                                            .layout = layout,
                                            .weather = year,
                                            .recipe = group.recipe,
                                            .placed = group.placed,
                                            .span = {weather.first_day, days_all, 10},
                                            .watering = {}};
          const design::Default& spread = spreads[g];
          question.evapotranspiration_factor =
              drawn_factor(seed, draw, n_draws, spread.low, spread.likely, spread.high);
          question.first_store_frac = (static_cast<double>((7 * draw) % n_draws) + 0.5) / n_draws;
          int first_kept = 0;
          if (starts[g]) {
            first_kept = static_cast<int>(starts[g]->weighing.day - first);
            const double off =
                stats::split_triangular_quantile({0.0, 1.0, 2.0}, (((5 * draw) % n_draws) + 0.5) / n_draws);
            question.first_store_frac =
                std::clamp(starts[g]->store_frac + (off - 1.0) * 2.0 * starts[g]->error_frac, 0.0, 1.0);
            question.span = {(weather.first_day + first_kept) % climate::n_days_in_year, days_all - first_kept, 0};
            std::erase_if(drive.given, [&](const planting::GivenWater& one) {
              return one.day < first_kept || (one.day == first_kept && one.hour < starts[g]->weighing.hour);
            });
            for (planting::GivenWater& one : drive.given) one.day -= first_kept;
          }
          question.watering = {drive.given, drive.rules};
          const planting::ModuleDays days = planting::run_module_days(question, context);
          std::vector<double>& store = all[g].store_frac[static_cast<std::size_t>(draw)];
          std::vector<double>& missing = all[g].missing_mm[static_cast<std::size_t>(draw)];
          store.assign(static_cast<std::size_t>(first_kept), question.first_store_frac);
          missing.assign(static_cast<std::size_t>(first_kept), 0.0);
          for (std::size_t day = 0; day < days.store_frac.size(); ++day) {
            store.push_back(days.store_frac[day]);
            missing.push_back(std::max(0.0, days.held_mm - days.water_mm[day]));
          }
        });
      }
    }
    executor(tasks, [&context] { check_cancelled(context); });
  };

  std::vector<std::size_t> every(groups.size());
  std::iota(every.begin(), every.end(), std::size_t{0});
  std::vector<design::Default> spreads(groups.size(), evapotranspiration_spread);
  std::vector<std::optional<WeighedStore>> starts(groups.size());
  run_all(every, spreads, starts);
  std::vector<std::size_t> again;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    StoreDraws& draws = all[g];
    const design::Recipe& recipe = inputs.design->recipes[static_cast<std::size_t>(groups[g].recipe)];
    const Drive by_log = drive_by_log(given_to_recipe(inputs.records, recipe, inputs.design->recipes.size() == 1),
                                      first, until_drip_mm(recipe));
    draws.driven_by = inputs.has_logbook
                          ? by_log.words
                          : drive_by_rule(inputs, recipe, weather.years.front(), weather.first_day, 0.5).words;
    if (inputs.filled_day) draws.driven_by = "watered until it dripped on " + text_from_day(*inputs.filled_day);
    draws.given_mm.assign(static_cast<std::size_t>(days_looked_back + 1), 0.0);
    if (inputs.has_logbook) {
      for (const planting::GivenWater& one : by_log.given)
        draws.given_mm[static_cast<std::size_t>(one.day)] += one.depth_mm;
    }
    starts[g] = weighed_store(inputs, groups[g].recipe, draws.notes);
    if (!starts[g]) continue;
    std::vector<double> factors;
    std::vector<double> stores;
    const auto at = static_cast<std::size_t>(starts[g]->weighing.day - first);
    for (int draw = 0; draw < n_draws; ++draw) {
      factors.push_back(drawn_factor(seed, draw, n_draws, spreads[g].low, spreads[g].likely, spreads[g].high));
      stores.push_back(draws.store_frac[static_cast<std::size_t>(draw)][at]);
    }
    spreads[g] = narrowed(factors, stores, *starts[g], draws.notes);
    again.push_back(g);
  }
  if (!again.empty()) run_all(again, spreads, starts);
  return all;
}

}  // namespace houseleek::studies
