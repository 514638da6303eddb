// Further years of weather made from the same normals: all covers through each of them.
#include "studies/ensemble.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <memory>
#include <optional>

#include "report/study_answer.hpp"
#include "studies/room_answers.hpp"
#include "studies/run_parts.hpp"
#include "studies/stack_answers.hpp"
#include "studies/water_answers.hpp"

namespace houseleek::studies {
namespace {

report::EngineAnswer counts_of(const CoverRuns& runs) {
  report::EngineAnswer counts;
  for (const RunSums& run : runs.free) add_counts(counts, counts_of(run));
  for (const RunSums& run : runs.held) add_counts(counts, counts_of(run));
  for (const RecipeRun& run : runs.recipes) add_counts(counts, counts_of(run.sums));
  return counts;
}

/// The year's place in the list, and how far it has come.
struct YearTask {
  int draw = 0;
  std::optional<YearAnswer> answer;
  std::string failure;
  std::atomic<double> done_frac = 0.0;
  [[nodiscard]] static double weight() { return 1.0; }
};

YearAnswer run_year(const EnsembleInputs& inputs, const climate::WeatherYear& weather, const Context& context) {
  const LimitsByDay limits = adaptive_limits_by_day(weather);
  const RunInputs& shared = inputs.main_year;
  const RunInputs year{.design = shared.design,
                       .layout = shared.layout,
                       .weather = weather,
                       .limits = limits,
                       .seasons = shared.seasons,
                       .thresholds_frac = shared.thresholds_frac,
                       .options = shared.options,
                       .has_fine_strips = shared.has_fine_strips};
  return answer_year(year, run_covers(year, {}, run_in_turn, context));
}

void run_task(const EnsembleInputs& inputs, YearTask& task, const Context& context) {
  const Result<climate::WeatherYear> weather = inputs.weather(task.draw);
  if (!weather) {
    task.failure = fmt::format("year {}: {}", task.draw, weather.error().front().message);
    return;
  }
  try {
    task.answer = run_year(inputs, weather.value(), context);
  } catch (const simulation::NumericalFailure& failure) {
    task.failure = fmt::format("year {}: {}", task.draw, failure.what());
  }
}

}  // namespace

report::EngineAnswer counts_of(const RunSums& run) {
  report::EngineAnswer counts;
  counts.n_runs = 1;
  counts.n_stacks = static_cast<int>(run.stacks.size());
  counts.n_slices = run.tally.n_slices;
  counts.n_steps = run.tally.n_steps;
  counts.n_newton_iterations = run.tally.n_newton_iterations;
  counts.n_hours_redone = run.tally.n_hours_redone;
  counts.largest_split = run.tally.largest_split;
  counts.largest_error_k = run.tally.largest_error_k;
  counts.heat_residual_frac = run.heat_residual_frac;
  counts.water_residual_m = run.water_residual_m;
  return counts;
}

YearAnswer answer_year(const RunInputs& inputs, const CoverRuns& runs) {
  const design::Design& design = *inputs.design;
  const RunSums& planted = runs.free[report::index_of(report::CoverKind::planted)];
  YearAnswer answer;
  answer.engine = counts_of(runs);
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
  answer.stacks = answer_stacks(design, inputs.layout, runs);
  answer.rooms = answer_rooms(design, runs);
  answer.house = answer_house(design, runs);
  answer.water = answer_water({.design = design,
                               .planted = planted,
                               .rain_mm = rain_mm(inputs.weather, inputs.options),
                               .thresholds_frac = inputs.thresholds_frac});
  answer.watering_m3 = watering_m3(planted);
  for (std::size_t cover = 0; cover < report::n_covers; ++cover) {
    for (const RoomSums& room : runs.held[cover].rooms) {
      for (std::size_t month = 0; month < 12; ++month) {
        answer.heat[cover].add_kwh[month] += room.heat_added_kwh_by_month[month];
        answer.heat[cover].remove_kwh[month] += room.heat_removed_kwh_by_month[month];
      }
    }
  }
  return answer;
}

Ensemble run_years(const EnsembleInputs& inputs, const Executor& executor, const Context& context) {
  if (inputs.n_draws == 0) return {};
  std::vector<std::unique_ptr<YearTask>> years;
  for (int i = 0; i < inputs.n_draws; ++i) {
    years.push_back(std::make_unique<YearTask>());
    years.back()->draw = inputs.first_draw + i;
  }
  run_parts(
      years, [&inputs](YearTask& year, const Context& of_year) { run_task(inputs, year, of_year); }, executor, context);
  Ensemble ensemble;
  for (const auto& year : years) {
    if (year->answer) {
      ensemble.years.push_back(std::move(*year->answer));
    } else {
      ensemble.failures.push_back(year->failure);
    }
  }
  return ensemble;
}

void expect_few_failures(std::span<const std::string> failures, int n_years) {
  if (static_cast<double>(failures.size()) <= most_failed_frac * n_years) return;
  std::string all;
  for (const std::string& failure : failures) all += (all.empty() ? "" : "; ") + failure;
  throw simulation::NumericalFailure(fmt::format("{} of {} years failed: {}", failures.size(), n_years, all));
}

}  // namespace houseleek::studies
