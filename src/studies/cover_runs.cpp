// The runs of a study: the house bare, planted and under each rival, free and with machines; each recipe by itself.
#include "studies/cover_runs.hpp"

#include <algorithm>
#include <atomic>
#include <memory>
#include <numeric>

#include "base/contract.hpp"
#include "checks/fire_load.hpp"
#include "climate/calendar.hpp"
#include "studies/run_parts.hpp"
#include "studies/water_answers.hpp"

namespace houseleek::studies {
namespace {

using simulation::Season;

constexpr double kwh_per_wh = 0.001;
constexpr std::size_t hours_per_day = 24;

int hour_of_year(const RunInputs& inputs, std::size_t kept_hour) {
  return (inputs.options.first_hour + static_cast<int>(kept_hour)) % climate::n_hours_in_year;
}

std::size_t month_of(int hour) {
  return static_cast<std::size_t>(climate::month_of_day[static_cast<std::size_t>(hour / climate::n_hours_in_day)]);
}

double sum_of(const std::vector<double>& column) { return std::accumulate(column.begin(), column.end(), 0.0); }

std::array<double, 12> kwh_by_month(const RunInputs& inputs, const std::vector<double>& hours_w) {
  std::array<double, 12> months{};
  for (std::size_t i = 0; i < hours_w.size(); ++i) {
    months[month_of(hour_of_year(inputs, i))] += kwh_per_wh * hours_w[i];
  }
  return months;
}

void add_comfort(const RunInputs& inputs, const design::Room& room, const results::RoomYear& year, RoomSums& sums) {
  HoursOfRoom hours;
  hours.first_hour = inputs.options.first_hour;
  hours.operative_c = year.operative_c;
  if (room.fan) hours.fan_speed_m_per_s = room.fan->air_speed_m_per_s;
  sums.all = sum_comfort(inputs.limits, hours);
  hours.nights_only = true;
  sums.nights = sum_comfort(inputs.limits, hours);
  const auto [least, most] = std::minmax_element(year.operative_c.begin(), year.operative_c.end());
  sums.operative_min_c = *least;
  sums.operative_max_c = *most;
}

void add_flux_of_seasons(const RunInputs& inputs, const results::StackYear& year, StackSums& sums) {
  for (std::size_t i = 0; i < year.ceiling_flux_w_per_m2.size(); ++i) {
    const double flux = year.ceiling_flux_w_per_m2[i];
    const Season season = inputs.seasons[month_of(hour_of_year(inputs, i))];
    if (season == Season::summer && flux > 0.0) sums.heat_gain_summer_kwh_per_m2 += kwh_per_wh * flux;
    if (season == Season::winter && flux < 0.0) sums.heat_loss_winter_kwh_per_m2 -= kwh_per_wh * flux;
  }
}

/// Whole days whose first hour ends with the store above the threshold.
void add_moist_days(const RunInputs& inputs, const results::StackYear& year, double threshold_frac, StackSums& sums) {
  if (year.root_store_frac.empty()) return;
  for (std::size_t first = 0; first + hours_per_day <= year.evapotranspiration_mm.size(); first += hours_per_day) {
    if (year.root_store_frac[first] <= threshold_frac) continue;
    const std::size_t month = month_of(hour_of_year(inputs, first));
    sums.moist_days[month] += 1.0;
    for (std::size_t i = first; i < first + hours_per_day; ++i) {
      sums.moist_evapotranspiration_mm[month] += year.evapotranspiration_mm[i];
    }
  }
}

/// The store as whole days begin with it.
double fire_dry_days(const results::StackYear& year) {
  std::vector<double> store_frac_by_day;
  for (std::size_t first = 0; first + hours_per_day <= year.root_store_frac.size(); first += hours_per_day) {
    store_frac_by_day.push_back(year.root_store_frac[first]);
  }
  return checks::count_fire_dry_days(store_frac_by_day).n_days;
}

StackSums sums_of_stack(const RunInputs& inputs, const results::StackYear& year,
                        const simulation::StackOrigin& origin) {
  StackSums sums;
  sums.name = year.name;
  sums.origin = origin;
  sums.area_m2 = year.area_m2;
  sums.membrane_max_c = year.membrane_max_c;
  sums.membrane_min_c = year.membrane_min_c;
  sums.ceiling_max_c = year.ceiling_max_c;
  add_flux_of_seasons(inputs, year, sums);
  sums.evapotranspiration_mm = sum_of(year.evapotranspiration_mm);
  sums.left_mm = sum_of(year.drainage_mm) + sum_of(year.runoff_mm);
  sums.watering_mm = sum_of(year.watering_mm);
  if (origin.recipe >= 0) {
    sums.fire_dry_days = fire_dry_days(year);
    add_moist_days(inputs, year, inputs.thresholds_frac[static_cast<std::size_t>(origin.recipe)], sums);
  }
  sums.heat_residual_frac = std::max(year.heat_residual_max_frac, year.heat_residual_year_frac);
  sums.water_residual_m = std::max(year.water_residual_max_m, year.water_residual_year_m);
  return sums;
}

RunSums sums_of_run(const RunInputs& inputs, const simulation::CoverGroup& cover, const results::GroupYear& year,
                    bool is_whole_house) {
  RunSums sums;
  sums.tally = year.tally;
  for (std::size_t i = 0; i < year.stacks.size(); ++i) {
    StackSums stack = sums_of_stack(inputs, year.stacks[i], cover.origins[i]);
    stack.room = cover.group.rooms[static_cast<std::size_t>(cover.origins[i].room)].name;
    sums.heat_residual_frac = std::max(sums.heat_residual_frac, stack.heat_residual_frac);
    sums.water_residual_m = std::max(sums.water_residual_m, stack.water_residual_m);
    sums.stacks.push_back(std::move(stack));
  }
  sums.rooms.resize(year.rooms.size());
  for (const StackSums& stack : sums.stacks) {
    sums.rooms[static_cast<std::size_t>(stack.origin.room)].heat_gain_summer_kwh +=
        stack.area_m2 * stack.heat_gain_summer_kwh_per_m2;
  }
  for (std::size_t i = 0; i < year.rooms.size(); ++i) {
    const results::RoomYear& room = year.rooms[i];
    RoomSums& of_room = sums.rooms[i];
    if (cover.group.rooms[i].is_held) {
      of_room.heat_added_kwh = kwh_per_wh * sum_of(room.heat_added_w);
      of_room.heat_removed_kwh = kwh_per_wh * sum_of(room.heat_removed_w);
      of_room.heat_added_kwh_by_month = kwh_by_month(inputs, room.heat_added_w);
      of_room.heat_removed_kwh_by_month = kwh_by_month(inputs, room.heat_removed_w);
    } else if (is_whole_house) {
      add_comfort(inputs, inputs.design->rooms[i], room, of_room);
    }
    sums.heat_residual_frac = std::max(sums.heat_residual_frac, room.heat_residual_max_frac);
  }
  return sums;
}

/// One run to do: its group and where its sums go.
struct Job {
  std::string name;  // for a message where it fails
  const RunInputs* inputs = nullptr;
  simulation::CoverGroup cover;
  bool is_whole_house = true;
  bool is_held = false;
  RunSums* result = nullptr;
  std::atomic<double> done_frac = 0.0;
  [[nodiscard]] double weight() const { return static_cast<double>(cover.group.stacks.size()); }
};
using Jobs = std::vector<std::unique_ptr<Job>>;

struct JobOf {
  const RunInputs& inputs;
  RunSums& result;
  bool is_whole_house = true;
};

void add_job(Jobs& jobs, const JobOf& of, std::string name, simulation::CoverGroup cover) {
  auto job = std::make_unique<Job>();
  job->name = std::move(name);
  job->inputs = &of.inputs;
  job->cover = std::move(cover);
  job->is_whole_house = of.is_whole_house;
  job->is_held = job->cover.group.rooms.front().is_held;
  job->result = &of.result;
  jobs.push_back(std::move(job));
}

struct NamedCover {
  simulation::Cover cover;
  std::string_view name;
};

NamedCover cover_from(report::CoverKind kind) {
  using simulation::Cover;
  switch (kind) {
    case report::CoverKind::bare:
      return {Cover::bare, "bare"};
    case report::CoverKind::planted:
      return {Cover::planted, "planted"};
    case report::CoverKind::white_same:
      return {Cover::white_same_squares, "white paint on the same squares"};
    case report::CoverKind::white_whole:
      return {Cover::white_whole_roof, "white paint on the whole roof"};
    case report::CoverKind::net_same:
      return {Cover::net_same_squares, "net over the same squares"};
    case report::CoverKind::net_whole:
      return {Cover::net_whole_roof, "net over the whole roof"};
    case report::CoverKind::board_same:
      return {Cover::board_same_squares, "board on the same squares"};
    case report::CoverKind::board_whole:
      return {Cover::board_whole_roof, "board on the whole roof"};
  }
  expects(false, "a cover of the list");
  return {Cover::bare, ""};
}

std::string name_of_run(report::CoverKind cover, bool is_held) {
  return std::string(cover_from(cover).name) + (is_held ? ", with machines" : ", running free");
}

Jobs make_jobs(const RunInputs& inputs, CoverRuns& runs) {
  Jobs jobs;
  for (const report::CoverKind kind : report::all_covers) {
    for (const bool is_held : {false, true}) {
      add_job(jobs, {inputs, (is_held ? runs.held : runs.free)[report::index_of(kind)]}, name_of_run(kind, is_held),
              group_of_cover(inputs, kind, is_held));
    }
  }
  for (std::size_t i = 0; i < inputs.design->recipes.size(); ++i) {
    const int recipe = static_cast<int>(i);
    runs.recipes.push_back({.recipe = recipe, .placed = design::Placed::flat, .sums = {}});
    if (inputs.design->recipes[i].spacer.height_mm > 0.0) {
      runs.recipes.push_back({.recipe = recipe, .placed = design::Placed::raised, .sums = {}});
    }
  }
  for (RecipeRun& run : runs.recipes) {
    const std::string& name = inputs.design->recipes[static_cast<std::size_t>(run.recipe)].name;
    add_job(jobs, {inputs, run.sums, false},
            name + (run.placed == design::Placed::raised ? ", raised, by itself" : ", flat, by itself"),
            simulation::make_recipe_group(inputs.design, inputs.layout, inputs.weather, run.recipe, run.placed));
  }
  return jobs;
}

void add_wanted(Jobs& jobs, std::span<const WantedRun> wanted) {
  for (const WantedRun& one : wanted) {
    add_job(jobs, {*one.inputs, *one.result}, name_of_run(one.cover, false),
            group_of_cover(*one.inputs, one.cover, false));
  }
}

void do_job(Job& job, const Context& context) {
  const climate::ForcingSource forcing = [&weather = job.inputs->weather](int hour, double fraction) {
    return climate::forcing_at(weather, hour, fraction);
  };
  try {
    const results::GroupYear year = simulation::run_group(job.cover.group, forcing, job.inputs->options, context);
    *job.result = sums_of_run(*job.inputs, job.cover, year, job.is_whole_house);
    if (job.inputs->keeps_columns && !job.is_held) job.result->columns = columns_of_run(job.cover, year);
  } catch (const simulation::NumericalFailure& failure) {
    throw simulation::NumericalFailure(job.name + ": " + failure.what());
  }
}

void do_jobs(Jobs& jobs, const Executor& executor, const Context& context) {
  // The longest first, so that no thread is left with one of them at the end.
  std::stable_sort(jobs.begin(), jobs.end(), [](const auto& a, const auto& b) { return a->weight() > b->weight(); });
  run_parts(jobs, do_job, executor, context);
}

}  // namespace

RunInputs run_inputs_of(const design::ValidDesign& design, const plan::Layout& layout,
                        const climate::WeatherYear& weather, const LimitsByDay& limits,
                        const simulation::RunOptions& options) {
  return {.design = design,
          .layout = layout,
          .weather = weather,
          .limits = limits,
          .seasons = simulation::seasons_of(design->climate, weather),
          .thresholds_frac = thresholds_frac(*design),
          .options = options};
}

double rain_mm(const climate::WeatherYear& weather, const simulation::RunOptions& options) {
  constexpr int slots_per_hour = 6;
  double sum_mm = 0.0;
  for (int i = 0; i < options.n_hours; ++i) {
    const int hour = (options.first_hour + i) % climate::n_hours_in_year;
    for (int slot = 0; slot < slots_per_hour; ++slot) {
      sum_mm += weather.rain_mm_per_10_min[static_cast<std::size_t>(slots_per_hour * hour + slot)];
    }
  }
  return sum_mm;
}

simulation::CoverGroup group_of_cover(const RunInputs& inputs, report::CoverKind cover, bool is_held) {
  return simulation::make_cover_group(inputs.design, inputs.layout, inputs.weather, cover_from(cover).cover,
                                      {.is_held = is_held, .has_fine_strips = inputs.has_fine_strips});
}

RunSums run_cover(const RunInputs& inputs, report::CoverKind cover, bool is_held, const Context& context) {
  return run_group_of(inputs, group_of_cover(inputs, cover, is_held), name_of_run(cover, is_held), true, context);
}

RunSums run_group_of(const RunInputs& inputs, const simulation::CoverGroup& cover, std::string name,
                     bool is_whole_house, const Context& context) {
  RunSums sums;
  Jobs jobs;
  add_job(jobs, {inputs, sums, is_whole_house}, std::move(name), cover);
  do_job(*jobs.front(), context);
  return sums;
}

void run_wanted(std::span<const WantedRun> wanted, const Executor& executor, const Context& context) {
  Jobs jobs;
  add_wanted(jobs, wanted);
  do_jobs(jobs, executor, context);
}

CoverRuns run_covers(const RunInputs& inputs, std::span<const WantedRun> beside, const Executor& executor,
                     const Context& context) {
  expects(inputs.thresholds_frac.size() == inputs.design->recipes.size(), "a threshold for every recipe");
  CoverRuns runs;
  Jobs jobs = make_jobs(inputs, runs);
  add_wanted(jobs, beside);
  do_jobs(jobs, executor, context);
  return runs;
}

}  // namespace houseleek::studies
