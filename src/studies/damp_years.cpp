// What the deck's two faces feel through the years.
#include "studies/damp_years.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <memory>
#include <optional>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "simulation/covers.hpp"
#include "studies/run_parts.hpp"

namespace houseleek::studies {
namespace {

struct YearTask {
  int draw = 0;
  std::optional<DampYear> year;
  std::string failure;
  std::atomic<double> done_frac = 0.0;
  [[nodiscard]] static double weight() { return 1.0; }
};

DampYear run_year(const DampYearsInputs& inputs, climate::WeatherYear weather, const Context& context) {
  DampYear year{.weather = std::move(weather), .covers = {}};
  const climate::ForcingSource forcing = [&year](int hour, double fraction) {
    return climate::forcing_at(year.weather, hour, fraction);
  };
  simulation::RunOptions options = inputs.options;
  options.first_hour = 0;
  options.n_hours = climate::n_hours_in_year;
  const double n_forms = static_cast<double>(inputs.forms.size());
  for (const DampForm& form : inputs.forms) {
    const double done = static_cast<double>(year.covers.size());
    const simulation::CoverGroup cover = simulation::make_room_group(
        inputs.design, inputs.layout, year.weather,
        {.room = inputs.room, .recipe = form.recipe, .placed = form.placed, .is_held = true});
    results::GroupYear run =
        simulation::run_group(cover.group, forcing, options, part_of(context, done / n_forms, (done + 1.0) / n_forms));
    year.covers.push_back({std::move(run.stacks.front().membrane_c), std::move(run.rooms.front().air_c)});
  }
  return year;
}

void run_task(const DampYearsInputs& inputs, YearTask& task, const Context& context) {
  std::optional<climate::WeatherYear> weather;
  if (task.draw == 0) {
    weather = inputs.weather;
  } else {
    const Result<climate::WeatherYear> made = inputs.weather_of_draw(task.draw);
    if (!made) {
      task.failure = fmt::format("year {}: {}", task.draw, made.error().front().message);
      return;
    }
    weather = made.value();
  }
  try {
    task.year = run_year(inputs, std::move(*weather), context);
  } catch (const simulation::NumericalFailure& failure) {
    if (task.draw == 0) throw;
    task.failure = fmt::format("year {}: {}", task.draw, failure.what());
  }
}

}  // namespace

int room_of_damp(const plan::Layout& layout) {
  const auto less = [](const plan::RoomLayout& a, const plan::RoomLayout& b) {
    return a.covered_m2 != b.covered_m2 ? a.covered_m2 < b.covered_m2 : a.area_m2 < b.area_m2;
  };
  const auto most = std::max_element(layout.rooms.begin(), layout.rooms.end(), less);
  expects(most != layout.rooms.end(), "a design with a room");
  return most->room;
}

std::vector<DampForm> damp_forms(const design::Design& design) {
  std::vector<DampForm> forms = {{.name = "bare", .form = "bare"}};
  if (design.recipes.empty()) return forms;
  std::vector<int> n_laid(design.recipes.size(), 0);
  for (const design::ModulePlace& place : design.modules) {
    ++n_laid[static_cast<std::size_t>(design.patches[static_cast<std::size_t>(place.patch)].recipe)];
  }
  const auto recipe = static_cast<int>(std::max_element(n_laid.begin(), n_laid.end()) - n_laid.begin());
  const design::Recipe& most = design.recipes[static_cast<std::size_t>(recipe)];
  forms.push_back({most.name, "flat", recipe, design::Placed::flat});
  if (most.spacer.height_mm > 0.0) forms.push_back({most.name, "raised", recipe, design::Placed::raised});
  return forms;
}

DampYears run_damp_years(const DampYearsInputs& inputs, const Executor& executor, const Context& context) {
  expects(inputs.n_years >= 1, "a year");
  std::vector<std::unique_ptr<YearTask>> tasks;
  for (int draw = 0; draw < inputs.n_years; ++draw) {
    tasks.push_back(std::make_unique<YearTask>());
    tasks.back()->draw = draw;
  }
  run_parts(
      tasks, [&inputs](YearTask& task, const Context& of_task) { run_task(inputs, task, of_task); }, executor, context);
  DampYears years;
  for (const auto& task : tasks) {
    if (task->year) {
      years.years.push_back(std::move(*task->year));
    } else {
      years.failures.push_back(task->failure);
    }
  }
  expects(!years.years.empty(), "the first year");
  return years;
}

}  // namespace houseleek::studies
