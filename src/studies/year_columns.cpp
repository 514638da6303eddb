// Hours kept for a report: of each run what charts need, then put together for the whole study.
#include "studies/year_columns.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "studies/cover_runs.hpp"
#include "studies/stack_answers.hpp"

namespace houseleek::studies {
namespace {

void add_scaled(std::vector<double>& sum, const std::vector<double>& column, double factor) {
  if (sum.empty()) sum.resize(column.size(), 0.0);
  expects(sum.size() == column.size(), "columns of one length");
  for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += factor * column[i];
}

void divide(std::vector<double>& column, double divisor) {
  for (double& value : column) value /= divisor;
}

void add_roof_of_rooms(const simulation::CoverGroup& cover, const results::GroupYear& year, RunColumns& columns) {
  std::vector<double> area_m2(columns.rooms.size(), 0.0);
  for (std::size_t i = 0; i < year.stacks.size(); ++i) {
    const results::StackYear& stack = year.stacks[i];
    const auto room = static_cast<std::size_t>(cover.origins[i].room);
    add_scaled(columns.rooms[room].ceiling_c, stack.ceiling_c, stack.area_m2);
    add_scaled(columns.rooms[room].membrane_c, stack.membrane_c, stack.area_m2);
    area_m2[room] += stack.area_m2;
  }
  for (std::size_t room = 0; room < columns.rooms.size(); ++room) {
    divide(columns.rooms[room].ceiling_c, area_m2[room]);
    divide(columns.rooms[room].membrane_c, area_m2[room]);
  }
}

void add_modules(const simulation::CoverGroup& cover, const results::GroupYear& year, RunColumns& columns) {
  std::vector<double> raised_m2;
  for (std::size_t i = 0; i < year.stacks.size(); ++i) {
    const int recipe = cover.origins[i].recipe;
    if (recipe < 0) continue;
    auto found = std::find(columns.recipes.begin(), columns.recipes.end(), recipe);
    if (found == columns.recipes.end()) {
      columns.recipes.push_back(recipe);
      columns.modules.emplace_back();
      raised_m2.push_back(0.0);
      found = columns.recipes.end() - 1;
    }
    const auto place = static_cast<std::size_t>(found - columns.recipes.begin());
    report::ModuleColumns& modules = columns.modules[place];
    const results::StackYear& stack = year.stacks[i];
    modules.area_m2 += stack.area_m2;
    if (cover.origins[i].form == simulation::StackForm::raised) raised_m2[place] += stack.area_m2;
    // No roots in a layer that holds water: there is no such store.
    if (!stack.root_store_frac.empty()) add_scaled(modules.store_frac, stack.root_store_frac, stack.area_m2);
    add_scaled(modules.watering_mm, stack.watering_mm, stack.area_m2);
  }
  for (std::size_t i = 0; i < columns.modules.size(); ++i) {
    report::ModuleColumns& modules = columns.modules[i];
    modules.form = raised_m2[i] > 0.5 * modules.area_m2 ? "raised" : "flat";
    divide(modules.store_frac, modules.area_m2);
    divide(modules.watering_mm, modules.area_m2);
  }
}

std::array<std::optional<double>, climate::n_months> hours_above_by_month(const RunInputs& inputs,
                                                                          const RunColumns& run) {
  std::array<std::optional<double>, climate::n_months> hours;
  const auto month_at = [&inputs](int kept_hour) {
    const int hour = (inputs.options.first_hour + kept_hour) % climate::n_hours_in_year;
    return climate::month_of_day[static_cast<std::size_t>(hour / climate::n_hours_in_day)];
  };
  for (int first = 0; first < inputs.options.n_hours;) {
    int end = first;
    while (end < inputs.options.n_hours && month_at(end) == month_at(first)) ++end;
    std::optional<double>& of_month = hours[static_cast<std::size_t>(month_at(first))];
    of_month = of_month.value_or(0.0);
    for (const report::RoomColumns& room : run.rooms) {
      HoursOfRoom span;
      span.first_hour = inputs.options.first_hour + first;
      span.operative_c = std::span<const double>(room.operative_c)
                             .subspan(static_cast<std::size_t>(first), static_cast<std::size_t>(end - first));
      *of_month += sum_comfort(inputs.limits, span).n_above;
    }
    first = end;
  }
  return hours;
}

}  // namespace

RunColumns columns_of_run(const simulation::CoverGroup& cover, const results::GroupYear& year) {
  RunColumns columns;
  for (const results::RoomYear& room : year.rooms) {
    columns.rooms.push_back({.name = room.name, .operative_c = room.operative_c, .ceiling_c = {}, .membrane_c = {}});
  }
  add_roof_of_rooms(cover, year, columns);
  add_modules(cover, year, columns);
  return columns;
}

report::YearColumns make_year_columns(const RunInputs& inputs, const CoverRuns& runs) {
  expects(inputs.keeps_columns, "runs that kept their columns");
  report::YearColumns columns;
  columns.first_hour = inputs.options.first_hour;
  columns.n_hours = inputs.options.n_hours;
  for (int i = 0; i < columns.n_hours; ++i) {
    const int hour = (columns.first_hour + i) % climate::n_hours_in_year;
    columns.air_c.push_back(inputs.weather.air_temperature_c[static_cast<std::size_t>(hour) + 1]);
    simulation::RunOptions one_hour;
    one_hour.first_hour = hour;
    one_hour.n_hours = 1;
    columns.rain_mm.push_back(rain_mm(inputs.weather, one_hour));
  }
  for (const RunSums& run : runs.free) {
    columns.covers.push_back(
        {.rooms = run.columns.rooms, .hours_above_limit_by_month = hours_above_by_month(inputs, run.columns)});
  }
  const RunColumns& planted = runs.free[report::index_of(report::CoverKind::planted)].columns;
  for (std::size_t recipe = 0; recipe < inputs.design->recipes.size(); ++recipe) {
    const auto found = std::find(planted.recipes.begin(), planted.recipes.end(), static_cast<int>(recipe));
    if (found == planted.recipes.end()) continue;
    columns.modules.push_back(planted.modules[static_cast<std::size_t>(found - planted.recipes.begin())]);
    columns.modules.back().recipe = inputs.design->recipes[recipe].name;
  }
  for (const ClosedCover& closed : closed_covers(*inputs.design, inputs.layout, runs)) {
    const report::RoomColumns& room = closed.run->columns.rooms.at(static_cast<std::size_t>(closed.room));
    columns.stacks.push_back({.name = closed.name,
                              .room = room.name,
                              .form = closed.form,
                              .membrane_c = room.membrane_c,
                              .ceiling_c = room.ceiling_c});
  }
  return columns;
}

}  // namespace houseleek::studies
