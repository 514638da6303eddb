// The main job: bare, planted and the plain rivals through a year, and what follows for rooms, water, weight and money.
#include "studies/study.hpp"

#include <algorithm>

#include "checks/cautions.hpp"
#include "geometry/outline.hpp"
#include "studies/assumptions.hpp"
#include "studies/cover_runs.hpp"
#include "studies/load_answer.hpp"
#include "studies/money_answers.hpp"
#include "studies/recipe_answers.hpp"
#include "studies/room_answers.hpp"
#include "studies/sentences.hpp"
#include "studies/stack_answers.hpp"
#include "studies/water_answers.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {
namespace {

report::WeatherAnswer answer_weather(const design::Design& design, const RunInputs& inputs) {
  report::WeatherAnswer answer;
  answer.source = weather_source(design);
  answer.notes = inputs.weather.notes;
  for (int month = 0; month < 12; ++month) {
    const simulation::Season season = inputs.seasons[static_cast<std::size_t>(month)];
    if (season == simulation::Season::summer) answer.summer_months.push_back(month + 1);
    if (season == simulation::Season::winter) answer.winter_months.push_back(month + 1);
  }
  double max_c = -1e9;
  double min_c = 1e9;
  for (int i = 0; i <= inputs.options.n_hours; ++i) {
    const int mark = (inputs.options.first_hour + i) % inputs.weather.n_hours();
    const double air_c = inputs.weather.air_temperature_c[static_cast<std::size_t>(mark)];
    max_c = std::max(max_c, air_c);
    min_c = std::min(min_c, air_c);
  }
  answer.air_max_c = results::figure_without_range(max_c, std::string(report::one_year_only));
  answer.air_min_c = results::figure_without_range(min_c, std::string(report::one_year_only));
  return answer;
}

report::RoofAnswer answer_roof(const design::ValidDesign& design) {
  report::RoofAnswer answer;
  answer.area_m2 = geometry::area_m2(design->roof.outline);
  for (const design::ModulePlace& place : design->modules) {
    const geometry::RectangleM& r = place.rectangle;
    answer.covered_m2 += (r.right_m - r.left_m) * (r.top_m - r.bottom_m);
  }
  answer.n_modules = static_cast<int>(design->modules.size());
  answer.deck = deck_in_words(design->roof);
  answer.bare = answer_deck(design);
  return answer;
}

void add_run(report::EngineAnswer& engine, const RunSums& run) {
  ++engine.n_runs;
  engine.n_stacks += static_cast<int>(run.stacks.size());
  engine.n_slices += run.tally.n_slices;
  engine.n_steps += run.tally.n_steps;
  engine.n_newton_iterations += run.tally.n_newton_iterations;
  engine.n_hours_redone += run.tally.n_hours_redone;
  engine.largest_split = std::max(engine.largest_split, run.tally.largest_split);
  engine.largest_error_k = std::max(engine.largest_error_k, run.tally.largest_error_k);
  engine.heat_residual_frac = std::max(engine.heat_residual_frac, run.heat_residual_frac);
  engine.water_residual_m = std::max(engine.water_residual_m, run.water_residual_m);
}

report::EngineAnswer answer_engine(const design::Design& design, const StudyOptions& options, const CoverRuns& runs) {
  report::EngineAnswer engine;
  engine.version = options.engine_version;
  engine.seed = design.climate.seed;
  engine.input_hash = options.input_hash;
  engine.first_hour = options.run.first_hour;
  engine.n_hours = options.run.n_hours;
  engine.spin_up_hours = options.run.spin_up_hours;
  for (const RunSums& run : runs.free) add_run(engine, run);
  for (const RunSums& run : runs.held) add_run(engine, run);
  for (const RecipeRun& run : runs.recipes) add_run(engine, run.sums);
  return engine;
}

}  // namespace

report::StudyAnswer study(const design::ValidDesign& design, const catalogue::Catalogue& catalogue,
                          const climate::WeatherYear& weather, const StudyOptions& options, const Executor& executor,
                          const Context& context) {
  const plan::Layout layout = plan::make_layout(design);
  const LimitsByDay limits = adaptive_limits_by_day(weather);
  const RunInputs inputs{.design = design,
                         .layout = layout,
                         .weather = weather,
                         .limits = limits,
                         .seasons = simulation::seasons_of(design->climate, weather),
                         .thresholds_frac = thresholds_frac(*design),
                         .options = options.run,
                         .keeps_columns = options.keeps_columns};
  const CoverRuns runs = run_covers(inputs, executor, context);
  const RunSums& planted = runs.free[report::index_of(report::CoverKind::planted)];
  report::StudyAnswer answer;
  answer.design_name = design->name;
  answer.engine = answer_engine(*design, options, runs);
  answer.weather = answer_weather(*design, inputs);
  answer.assumed = all_assumptions(design);
  answer.cautions = checks::find_cautions(design, catalogue);
  answer.roof = answer_roof(design);
  answer.recipes = answer_recipes(design);
  answer.stacks = answer_stacks(*design, layout, runs);
  answer.rooms = answer_rooms(*design, runs);
  answer.house = answer_house(*design, runs);
  answer.water = answer_water({.design = *design,
                               .planted = planted,
                               .rain_mm = rain_mm(weather, options.run),
                               .thresholds_frac = inputs.thresholds_frac});
  answer.load = answer_load(design);
  answer.money = answer_money(design, answer.house, watering_m3(planted));
  answer.planted_degree_hours_less_per_outlay_k_h = planted_degree_hours_less_per_outlay(answer.house, answer.money);
  answer.rivals = answer_rivals(design, layout, answer.house, answer.money);
  answer.answers = answer_questions(*design, answer);
  if (options.keeps_columns) answer.columns = make_year_columns(inputs, runs);
  return answer;
}

}  // namespace houseleek::studies
