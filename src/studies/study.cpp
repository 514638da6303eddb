// The main job: bare, planted and the plain rivals through a year, and what follows for rooms, water, weight and money.
#include "studies/study.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "checks/cautions.hpp"
#include "studies/assumptions.hpp"
#include "studies/build_order.hpp"
#include "studies/cover_runs.hpp"
#include "studies/damp_answer.hpp"
#include "studies/draws.hpp"
#include "studies/ensemble.hpp"
#include "studies/load_answer.hpp"
#include "studies/money_answers.hpp"
#include "studies/one_at_a_time.hpp"
#include "studies/plant_places.hpp"
#include "studies/plants.hpp"
#include "studies/quick.hpp"
#include "studies/ranges.hpp"
#include "studies/recipe_answers.hpp"
#include "studies/roof_answers.hpp"
#include "studies/sentences.hpp"
#include "studies/water_answers.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {
namespace {

report::WeatherAnswer answer_weather(const design::Design& design, const RunInputs& inputs, const YearAnswer& years) {
  report::WeatherAnswer answer;
  answer.source = weather_source(design);
  answer.notes = inputs.weather.notes;
  for (int month = 0; month < 12; ++month) {
    const simulation::Season season = inputs.seasons[static_cast<std::size_t>(month)];
    if (season == simulation::Season::summer) answer.summer_months.push_back(month + 1);
    if (season == simulation::Season::winter) answer.winter_months.push_back(month + 1);
  }
  answer.air_max_c = years.air_max_c;
  answer.air_min_c = years.air_min_c;
  return answer;
}

report::EngineAnswer answer_engine(const design::Design& design, const StudyOptions& options,
                                   const report::EngineAnswer& counts, std::size_t n_failed) {
  report::EngineAnswer engine = counts;
  engine.version = options.engine_version;
  engine.seed = design.climate.seed;
  engine.input_hash = options.input_hash;
  engine.first_hour = options.run.first_hour;
  engine.n_hours = options.run.n_hours;
  engine.spin_up_hours = options.run.spin_up_hours;
  engine.n_years = options.n_years;
  engine.n_years_failed = static_cast<int>(n_failed);
  engine.n_draws = options.n_draws;
  return engine;
}

/// How long the parts take, in runs of one cover for a year: all covers and recipes take about this many.
constexpr double runs_in_a_year = 10.0;

constexpr int steps_in_study = 10;

std::string years_words(int n_years, std::size_t n_failed) {
  const std::string failed = n_failed == 0 ? "" : fmt::format(" ({} failed)", n_failed);
  return fmt::format("{} years of weather made from the normals{}", n_years, failed);
}

}  // namespace

report::StudyAnswer study(const design::ValidDesign& design, const catalogue::Catalogue& catalogue,
                          const climate::WeatherYear& weather, const StudyOptions& options, const Executor& executor,
                          const Context& context) {
  expects(options.n_years >= 1 && options.n_draws >= 1, "a year and a draw");
  expects(options.n_years == 1 || design->climate.normals.has_value(), "normals to make more years from");
  const plan::Layout layout = plan::make_layout(design);
  const LimitsByDay limits = adaptive_limits_by_day(weather);
  RunInputs inputs = run_inputs_of(design, layout, weather, limits, options.run);
  inputs.keeps_columns = options.keeps_columns;
  const std::vector<design::Assumption> assumed = all_assumptions(design);
  const bool has_trials = options.tries_assumptions;
  expects(!has_trials || options.description != nullptr, "the text behind the design");
  const design::RawDesign no_description;
  const OneAtATimeInputs trial_inputs{.description = has_trials ? *options.description : no_description,
                                      .catalogue = catalogue,
                                      .year = inputs,
                                      .assumed = assumed};
  const OneAtATime trials = has_trials ? plan_one_at_a_time(trial_inputs) : OneAtATime{};
  const double years_runs = runs_in_a_year * options.n_years;
  const double damp_runs = damp_runs_of(*design, options.n_years, options.run.n_hours);
  const double all_runs = years_runs + trials.n_runs(trial_inputs) + damp_runs;
  const double first_frac = runs_in_a_year / all_runs;
  const double years_frac = years_runs / all_runs;
  const double trials_frac = 1.0 - damp_runs / all_runs;
  const WeatherOfDraw weather_of_draw = [&design](int draw) { return make_weather(design, std::nullopt, draw); };

  std::optional<OrderInputs> order_inputs;
  OrderPlan next;
  if (options.description != nullptr) {
    order_inputs.emplace(OrderInputs{*options.description, catalogue, inputs});
    next = plan_order(*order_inputs,
                      {.recipe = std::nullopt, .budgets = {}, .n_most = steps_in_study, .pins = {}, .bans = {}});
  }
  const CoverRuns runs = run_covers(inputs, runs_of(next), executor, part_of(context, 0.0, first_frac));
  std::vector<YearAnswer> years = {answer_year(inputs, runs)};
  const Ensemble more =
      run_years({.main_year = inputs, .first_draw = 1, .n_draws = options.n_years - 1, .weather = weather_of_draw},
                executor, part_of(context, first_frac, years_frac));
  expect_few_failures(more.failures, options.n_years);
  years.insert(years.end(), more.years.begin(), more.years.end());
  const YearAnswer answers = across_years(years, years_words(options.n_years, more.failures.size()));
  const MoneyDraws drawn = draw_money({.design = design, .layout = layout, .years = years, .n_draws = options.n_draws});

  report::StudyAnswer answer;
  answer.design_name = design->name;
  answer.is_invented = design->is_invented;
  answer.engine = answer_engine(*design, options, answers.engine, more.failures.size());
  answer.weather = answer_weather(*design, inputs, answers);
  answer.assumed = assumed;
  const EffectsAnswer effects =
      has_trials ? run_one_at_a_time(trials, trial_inputs, executor, part_of(context, years_frac, trials_frac))
                 : effects_not_tried(assumed.size());
  answer.assumed_effects = effects.effects;
  answer.assumed_ranked = effects.ranked;
  add_counts(answer.engine, effects.engine);
  answer.cautions = checks::find_cautions(design, catalogue);
  answer.roof = answer_roof(design);
  answer.recipes = answer_recipes(design);
  answer.stacks = answers.stacks;
  answer.rooms = answers.rooms;
  answer.house = answers.house;
  answer.water = answers.water;
  const std::vector<climate::WeatherYear> at_hand = {weather};
  const std::vector<climate::WeatherYear> more_years = years_for_plants(design, at_hand);
  // Nothing is asked for by name, so nothing of it can be unknown.
  answer.plants = answer_plants({design, catalogue, answer.water, weather, more_years, {}}, {}).value();
  answer.drainage = answer_drainage(design);
  answer.load = answer_load(design, answer.drainage);
  answer.wind = answer_wind(design);
  answer.fire = answer_fire(design);
  const money::Terms terms = money::terms_of(design);
  const CashDrawInputs cash{.design = design, .terms = terms, .years = years, .n_draws = options.n_draws};
  answer.money = answer_money(cash, answer.house, drawn);
  answer.carbon = draw_carbon(cash, money::modules_of(design));
  answer.planted_degree_hours_less_per_outlay_k_h = drawn.degree_hours_less_per_outlay_k_h;
  answer.rivals = answer_rivals(cash, answer.house, answer.money, drawn);
  if (order_inputs) {
    for (const auto& roof : next.roofs) add_counts(answer.engine, counts_of(roof->sums));
    answer.order = make_order(*order_inputs, std::move(next), runs.free[report::index_of(report::CoverKind::bare)],
                              runs.free[report::index_of(report::CoverKind::planted)]);
  } else {
    answer.order.about.because = "the text of the description was not handed in";
    answer.order.about.statement = "Nothing next: " + answer.order.about.because + ".";
    answer.order.about.load_statement = "Load: not asked, nothing is laid.";
  }
  answer.damp = answer_damp({.design = design,
                             .layout = layout,
                             .weather = weather,
                             .weather_of_draw = weather_of_draw,
                             .n_years = options.n_years,
                             .options = options.run},
                            executor, part_of(context, trials_frac, 1.0));
  answer.answers = answer_questions(*design, answer);
  if (options.keeps_columns) answer.columns = make_year_columns(inputs, runs);
  return answer;
}

}  // namespace houseleek::studies
