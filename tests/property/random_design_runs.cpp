// Design text to group to run, then the expectations.
#include "property/random_design_runs.hpp"

#include <gtest/gtest.h>

#include <cstdio>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/issue_text.hpp"
#include "design/parse.hpp"
#include "plan/layout.hpp"
#include "property/random_designs.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {
namespace {

using simulation::Cover;

constexpr double heat_bar_frac = 1e-8;  // of a step's throughput
constexpr double water_bar_m = 1e-9;
constexpr double least_c = -60.0;
constexpr double most_c = 100.0;  // of air, rooms and ceilings; surfaces may be hotter

constexpr std::pair<Cover, std::string_view> rivals[] = {{Cover::bare, "bare"},
                                                         {Cover::white_same_squares, "white, same squares"},
                                                         {Cover::net_same_squares, "net, same squares"},
                                                         {Cover::board_same_squares, "board, same squares"},
                                                         {Cover::white_whole_roof, "white, whole roof"},
                                                         {Cover::net_whole_roof, "net, whole roof"},
                                                         {Cover::board_whole_roof, "board, whole roof"}};

void expect_within(const std::vector<double>& column, double least, double most, const std::string& where) {
  for (std::size_t hour = 0; hour < column.size(); ++hour) {
    // Written so that NaN fails too.
    if (column[hour] >= least && column[hour] <= most) continue;
    ADD_FAILURE() << where << ": " << column[hour] << " in kept hour " << hour << ", not within " << least << " to "
                  << most;
    return;
  }
}

void expect_finite(const std::vector<double>& column, const std::string& where) {
  expect_within(column, -1e12, 1e12, where);
}

/// What a stack gained by its own columns is what the weather gave it: the audit is not asked.
void expect_water_adds_up(const results::StackYear& stack, const climate::WeatherYear& weather, int first_hour,
                          const std::string& where) {
  double gained_mm = 0.0;
  for (std::size_t i = 1; i < stack.water_mm.size(); ++i) {
    const std::size_t hour = (static_cast<std::size_t>(first_hour) + i) % static_cast<std::size_t>(weather.n_hours());
    for (std::size_t slot = 0; slot < 6; ++slot) gained_mm += weather.rain_mm_per_10_min[6 * hour + slot];
    gained_mm += stack.watering_mm[i] - stack.evapotranspiration_mm[i] - stack.drainage_mm[i] - stack.runoff_mm[i];
  }
  EXPECT_NEAR(stack.water_mm.back() - stack.water_mm.front(), gained_mm, 1e-6) << where;
}

void expect_stack(const results::StackYear& year, const simulation::Stack& stack, const climate::WeatherYear& weather,
                  const Span& span, const std::string& where) {
  EXPECT_LT(year.heat_residual_max_frac, heat_bar_frac) << where;
  EXPECT_GT(year.heat_residual_max_frac, 0.0) << where << ": books that never differ are not kept";
  EXPECT_LT(year.heat_residual_year_frac, heat_bar_frac) << where;
  EXPECT_LT(year.water_residual_max_m, water_bar_m) << where;
  EXPECT_LT(year.water_residual_year_m, water_bar_m) << where;
  for (const auto* column : {&year.surface_c, &year.membrane_c, &year.ceiling_c}) {
    EXPECT_EQ(column->size(), static_cast<std::size_t>(span.n_hours)) << where;
  }
  EXPECT_EQ(year.foliage_c.empty(), !stack.has_canopy) << where;
  constexpr double hottest_c = simulation::highest_surface_c;
  expect_within(year.surface_c, least_c, hottest_c, where + ", surface");
  expect_within(year.foliage_c, least_c, most_c, where + ", foliage");
  expect_within(year.membrane_c, least_c, hottest_c, where + ", membrane");
  expect_within(year.ceiling_c, least_c, most_c, where + ", ceiling");
  for (const double extreme_c : {year.membrane_max_c, year.membrane_min_c, year.ceiling_max_c}) {
    expect_within({extreme_c}, least_c, hottest_c, where + ", extremes");
  }
  expect_finite(year.ceiling_flux_w_per_m2, where + ", flux");
  expect_finite(year.root_store_frac, where + ", store");
  expect_finite(year.evapotranspiration_mm, where + ", evapotranspiration");
  constexpr double rounding_mm = 1e-9;
  expect_within(year.watering_mm, 0.0, 1e6, where + ", watering");
  expect_within(year.drainage_mm, -rounding_mm, 1e6, where + ", drainage");
  expect_within(year.runoff_mm, -rounding_mm, 1e6, where + ", runoff");
  double holds_mm = 0.0;
  for (const simulation::Layer& layer : stack.module) holds_mm += 1000.0 * layer.thickness_m * layer.saturated_frac;
  expect_within(year.water_mm, 0.0, holds_mm + rounding_mm, where + ", water");
  if (holds_mm > 0.0) {
    EXPECT_EQ(year.water_mm.size(), static_cast<std::size_t>(span.n_hours)) << where;
    expect_water_adds_up(year, weather, span.first_hour, where);
  }
}

void expect_areas(const simulation::Group& group, const plan::Layout& layout, const std::string& where) {
  std::vector<double> sums_m2(layout.rooms.size(), 0.0);
  for (const simulation::Stack& stack : group.stacks) {
    EXPECT_GT(stack.area_m2, 0.0) << where;
    sums_m2[static_cast<std::size_t>(stack.room)] += stack.area_m2;
  }
  for (std::size_t i = 0; i < sums_m2.size(); ++i) {
    EXPECT_NEAR(sums_m2[i], layout.rooms[i].area_m2, 1e-9) << where << ", room " << i;
  }
}

void expect_books(const simulation::Group& group, const climate::WeatherYear& weather, const Span& span,
                  const std::string& where) {
  simulation::RunOptions options;
  options.first_hour = span.first_hour;
  options.n_hours = span.n_hours;
  options.spin_up_hours = span.spin_up_hours;
  results::GroupYear result;
  try {
    result = simulation::run_group(
        group, [&weather](int hour, double part) { return climate::forcing_at(weather, hour, part); }, options);
  } catch (const simulation::NumericalFailure& failure) {
    FAIL() << where << ": " << failure.what();
  }
  ASSERT_EQ(result.stacks.size(), group.stacks.size()) << where;
  ASSERT_EQ(result.rooms.size(), group.rooms.size()) << where;
  for (std::size_t i = 0; i < result.stacks.size(); ++i) {
    const std::string stack = where + ", stack " + std::to_string(i) + " (" + group.stacks[i].name + ")";
    expect_stack(result.stacks[i], group.stacks[i], weather, span, stack);
  }
  for (std::size_t i = 0; i < result.rooms.size(); ++i) {
    const results::RoomYear& room = result.rooms[i];
    const std::string what = where + ", " + room.name;
    EXPECT_LT(room.heat_residual_max_frac, heat_bar_frac) << what;
    EXPECT_EQ(room.air_c.size(), static_cast<std::size_t>(span.n_hours)) << what;
    expect_within(room.air_c, least_c, most_c, what + ", air");
    expect_within(room.operative_c, least_c, most_c, what + ", operative");
    EXPECT_EQ(room.heat_added_w.empty(), !group.rooms[i].is_held) << what;
    expect_within(room.heat_added_w, 0.0, 1e6, what + ", heat added");
    expect_within(room.heat_removed_w, 0.0, 1e6, what + ", heat removed");
  }
}

}  // namespace

void expect_books_of_design(std::uint32_t number, const Span& span) {
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const std::string text = random_design_text(random_designs_seed, number, catalogue);
  const std::string name = "design " + std::to_string(number);
  const Result<design::ValidDesign> read = design::read_design(text, name, catalogue);
  if (!read) FAIL() << text_from_issues(read.error(), text) << '\n' << text;
  const design::ValidDesign& design = read.value();
  const Result<climate::WeatherYear> made = studies::make_weather(design, {});
  if (!made) FAIL() << text_from_issues(made.error(), text) << '\n' << text;
  const climate::WeatherYear& weather = made.value();
  const plan::Layout layout = plan::make_layout(design);
  EXPECT_GT(layout.n_modules, 0) << name;
  const auto [rival, rival_name] = rivals[number % std::size(rivals)];
  const bool is_rival_held = number % 2 == 1;
  const std::pair<Cover, bool> runs[] = {{Cover::planted, !is_rival_held}, {rival, is_rival_held}};
  for (const auto& [cover, is_held] : runs) {
    const std::string where =
        name + ", " + (cover == Cover::planted ? "planted" : std::string(rival_name)) + (is_held ? ", held" : ", free");
    simulation::CoverOptions options;
    options.is_held = is_held;
    const simulation::CoverGroup group = simulation::make_cover_group(design, layout, weather, cover, options);
    expect_areas(group.group, layout, where);
    expect_books(group.group, weather, span, where);
  }
  if (::testing::Test::HasFailure()) std::printf("%s:\n%s", name.c_str(), text.c_str());
}

}  // namespace houseleek::tests
