// One answer out of the answers of several years: every figure its median, its range the tenth and ninetieth part.
#include "studies/ranges.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "stats/quantile.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;

/// The same part of every year's answer.
template <class Whole, class Part>
std::vector<Part> parts_of(std::span<const Whole> years, Part Whole::*part) {
  std::vector<Part> parts;
  parts.reserve(years.size());
  for (const Whole& year : years) parts.push_back(year.*part);
  return parts;
}

/// The same item of a list in every year's answer.
template <class Item, class List>
std::vector<Item> items_of(const std::vector<List>& years, std::size_t index) {
  std::vector<Item> items;
  items.reserve(years.size());
  for (const List& year : years) items.push_back(year[index]);
  return items;
}

template <class Whole, std::size_t n>
Whole with_figures(std::span<const Whole> years, Figure Whole::*const (&fields)[n], const std::string& of_what) {
  Whole answer = years.front();
  for (Figure Whole::*const field : fields) answer.*field = across_years(parts_of(years, field), of_what);
  return answer;
}

constexpr Figure report::NightAnswer::*const night_fields[] = {&report::NightAnswer::hours_above_limit,
                                                               &report::NightAnswer::hours_above_limit_with_fan,
                                                               &report::NightAnswer::degree_hours_above_k_h};

constexpr Figure report::RoomFigures::*const room_fields[] = {
    &report::RoomFigures::operative_max_c,        &report::RoomFigures::operative_min_c,
    &report::RoomFigures::hours_above_limit,      &report::RoomFigures::hours_above_limit_with_fan,
    &report::RoomFigures::hours_below_limit,      &report::RoomFigures::hours_without_limit,
    &report::RoomFigures::degree_hours_above_k_h, &report::RoomFigures::heat_to_add_kwh,
    &report::RoomFigures::heat_to_remove_kwh,     &report::RoomFigures::fan_energy_kwh,
    &report::RoomFigures::heat_gain_summer_kwh};

constexpr Figure report::RoomDifference::*const difference_fields[] = {
    &report::RoomDifference::operative_max_k,   &report::RoomDifference::operative_min_k,
    &report::RoomDifference::hours_above_limit, &report::RoomDifference::hours_above_limit_with_fan,
    &report::RoomDifference::hours_below_limit, &report::RoomDifference::degree_hours_above_k_h,
    &report::RoomDifference::heat_to_add_kwh,   &report::RoomDifference::heat_to_remove_kwh,
    &report::RoomDifference::fan_energy_kwh,    &report::RoomDifference::heat_gain_summer_kwh};

constexpr Figure report::StackAnswer::*const stack_fields[] = {&report::StackAnswer::membrane_max_c,
                                                               &report::StackAnswer::membrane_min_c,
                                                               &report::StackAnswer::ceiling_max_c,
                                                               &report::StackAnswer::heat_gain_summer_kwh_per_m2,
                                                               &report::StackAnswer::heat_loss_winter_kwh_per_m2,
                                                               &report::StackAnswer::evapotranspiration_mm,
                                                               &report::StackAnswer::fire_dry_days};

constexpr Figure report::WaterAnswer::*const water_fields[] = {
    &report::WaterAnswer::rain_mm, &report::WaterAnswer::retained_frac, &report::WaterAnswer::watering_l_per_module};

constexpr Figure report::WaterByRecipe::*const recipe_water_fields[] = {&report::WaterByRecipe::retained_frac,
                                                                        &report::WaterByRecipe::watering_l_per_module};

/// Whole: RoomFigures or RoomDifference. Whether there is a night depends on the design alone.
template <class Whole>
void set_night(std::span<const Whole> years, Whole& answer, const std::string& of_what) {
  if (!answer.night) return;
  std::vector<report::NightAnswer> nights;
  for (const Whole& year : years) nights.push_back(year.night.value());
  answer.night = with_figures(std::span<const report::NightAnswer>(nights), night_fields, of_what);
}

report::RoomFigures across(std::span<const report::RoomFigures> years, const std::string& of_what) {
  report::RoomFigures answer = with_figures(years, room_fields, of_what);
  set_night(years, answer, of_what);
  return answer;
}

report::RoomDifference across(std::span<const report::RoomDifference> years, const std::string& of_what) {
  report::RoomDifference answer = with_figures(years, difference_fields, of_what);
  set_night(years, answer, of_what);
  return answer;
}

report::RoomAnswer across(std::span<const report::RoomAnswer> years, const std::string& of_what) {
  report::RoomAnswer answer = years.front();
  const auto covers = parts_of(years, &report::RoomAnswer::covers);
  for (std::size_t i = 0; i < answer.covers.size(); ++i) {
    answer.covers[i] = across(items_of<report::RoomFigures>(covers, i), of_what);
  }
  answer.planted_minus_bare = across(parts_of(years, &report::RoomAnswer::planted_minus_bare), of_what);
  return answer;
}

report::StackAnswer across(std::span<const report::StackAnswer> years, const std::string& of_what) {
  report::StackAnswer answer = with_figures(years, stack_fields, of_what);
  for (const report::StackAnswer& year : years) {
    answer.heat_residual_frac = std::max(answer.heat_residual_frac, year.heat_residual_frac);
    if (year.water_residual_m) answer.water_residual_m = std::max(*answer.water_residual_m, *year.water_residual_m);
  }
  return answer;
}

std::array<Figure, 12> across(const std::vector<std::array<Figure, 12>>& years, const std::string& of_what) {
  std::array<Figure, 12> answer;
  for (std::size_t month = 0; month < answer.size(); ++month) {
    answer[month] = across_years(items_of<Figure>(years, month), of_what);
  }
  return answer;
}

report::WaterByRecipe across(std::span<const report::WaterByRecipe> years, const std::string& of_what) {
  report::WaterByRecipe answer = with_figures(years, recipe_water_fields, of_what);
  answer.can_wait_days_by_month = across(parts_of(years, &report::WaterByRecipe::can_wait_days_by_month), of_what);
  return answer;
}

report::WaterAnswer across(std::span<const report::WaterAnswer> years, const std::string& of_what) {
  report::WaterAnswer answer = with_figures(years, water_fields, of_what);
  answer.can_wait_days_by_month = across(parts_of(years, &report::WaterAnswer::can_wait_days_by_month), of_what);
  const auto recipes = parts_of(years, &report::WaterAnswer::recipes);
  for (std::size_t i = 0; i < answer.recipes.size(); ++i) {
    answer.recipes[i] = across(items_of<report::WaterByRecipe>(recipes, i), of_what);
  }
  return answer;
}

}  // namespace

Figure figure_of_sample(std::vector<double> sample, const std::string& of_what) {
  const double low = stats::quantile(sample, low_share_frac);
  const double likely = stats::quantile(sample, likely_share_frac);
  const double high = stats::quantile(std::move(sample), high_share_frac);
  return results::figure_with_range(likely, low, high, fmt::format("10, 50 and 90 % of {}", of_what));
}

Figure across_years(std::span<const Figure> years, const std::string& of_what) {
  expects(!years.empty(), "a year");
  if (years.size() == 1) return years.front();
  std::vector<double> values;
  const Figure* without = nullptr;
  for (const Figure& year : years) {
    if (year.value) values.push_back(*year.value);
    if (!year.value && without == nullptr) without = &year;
  }
  if (without == nullptr) return figure_of_sample(std::move(values), of_what);
  const std::size_t n_without = years.size() - values.size();
  const std::string why = fmt::format("in {} of {} years: {}", n_without, years.size(), without->because);
  if (values.empty()) return results::figure_missing(without->because);
  if (n_without > values.size()) return results::figure_missing(why);
  return figure_of_sample(std::move(values), fmt::format("{}, without those that have none ({})", of_what, why));
}

YearAnswer across_years(std::span<const YearAnswer> years, const std::string& of_what) {
  expects(!years.empty(), "a year");
  YearAnswer answer = years.front();
  if (years.size() == 1) return answer;
  for (const YearAnswer& year : years.subspan(1)) add_counts(answer.engine, year.engine);
  answer.air_max_c = across_years(parts_of(years, &YearAnswer::air_max_c), of_what);
  answer.air_min_c = across_years(parts_of(years, &YearAnswer::air_min_c), of_what);
  const auto stacks = parts_of(years, &YearAnswer::stacks);
  for (std::size_t i = 0; i < answer.stacks.size(); ++i) {
    answer.stacks[i] = across(items_of<report::StackAnswer>(stacks, i), of_what);
  }
  const auto rooms = parts_of(years, &YearAnswer::rooms);
  for (std::size_t i = 0; i < answer.rooms.size(); ++i) {
    answer.rooms[i] = across(items_of<report::RoomAnswer>(rooms, i), of_what);
  }
  answer.house = across(parts_of(years, &YearAnswer::house), of_what);
  answer.water = across(parts_of(years, &YearAnswer::water), of_what);
  return answer;
}

void add_counts(report::EngineAnswer& engine, const report::EngineAnswer& more) {
  engine.n_runs += more.n_runs;
  engine.n_stacks += more.n_stacks;
  engine.n_slices += more.n_slices;
  engine.n_steps += more.n_steps;
  engine.n_newton_iterations += more.n_newton_iterations;
  engine.n_hours_redone += more.n_hours_redone;
  engine.largest_split = std::max(engine.largest_split, more.largest_split);
  engine.largest_error_k = std::max(engine.largest_error_k, more.largest_error_k);
  engine.heat_residual_frac = std::max(engine.heat_residual_frac, more.heat_residual_frac);
  engine.water_residual_m = std::max(engine.water_residual_m, more.water_residual_m);
}

}  // namespace houseleek::studies
