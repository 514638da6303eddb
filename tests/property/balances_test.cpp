// The books of every step: heat and water of every kind of stack, in weather that pushes each of its limits.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "second_opinion/synthetic_weather.hpp"
#include "second_opinion/test_groups.hpp"
#include "simulation/run.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using second_opinion::Kind;
using second_opinion::linked_group;
using second_opinion::one_stack_group;
using second_opinion::synthetic_weather;
using second_opinion::SyntheticClimate;
using simulation::Group;
using simulation::run_group;
using simulation::RunOptions;
using simulation::Stack;
using simulation::Under;

constexpr double heat_bar_frac = 1e-8;  // of a step's throughput
constexpr double water_bar_m = 1e-9;
constexpr int midsummer = 180 * 24;

/// Runs, and expects every step's books to close; and water once more from the columns themselves.
results::GroupYear expect_closed_books(const std::string& what, const Group& group,
                                       const climate::ForcingSource& weather, int first_hour, int n_days,
                                       int lane_width = 1) {
  RunOptions options;
  options.first_hour = first_hour;
  options.n_hours = 24 * n_days;
  options.spin_up_hours = 0;
  options.lane_width = lane_width;
  const auto result = run_group(group, weather, options);
  double rain_mm = 0.0;
  for (int hour = first_hour; hour < first_hour + options.n_hours; ++hour) {
    for (int slot = 1; slot <= 6; ++slot) rain_mm += 600.0 * weather(hour % 8760, slot / 6.0).rain_kg_per_m2_s;
  }
  for (std::size_t i = 0; i < result.stacks.size(); ++i) {
    const auto& stack = result.stacks[i];
    const std::string where = what + ", stack " + std::to_string(i);
    EXPECT_LT(stack.heat_residual_max_frac, heat_bar_frac) << where;
    EXPECT_GT(stack.heat_residual_max_frac, 0.0) << where << ": books that never differ are not kept";
    EXPECT_LT(stack.heat_residual_year_frac, heat_bar_frac) << where;
    EXPECT_LT(stack.water_residual_max_m, water_bar_m) << where;
    EXPECT_LT(stack.water_residual_year_m, water_bar_m) << where;
    double held_mm = 0.0;
    for (const simulation::Layer& layer : group.stacks[i].module) {
      if (layer.saturated_frac > 0.0) held_mm += 1000.0 * layer.thickness_m * layer.initial_water_frac;
    }
    double gained_mm = rain_mm;
    for (std::size_t k = 0; k < stack.water_mm.size(); ++k) {
      gained_mm += stack.watering_mm[k] - stack.evapotranspiration_mm[k] - stack.drainage_mm[k] - stack.runoff_mm[k];
    }
    EXPECT_NEAR(stack.water_mm.back() - held_mm, gained_mm, 1e-6) << where;
  }
  for (const auto& room : result.rooms) EXPECT_LT(room.heat_residual_max_frac, heat_bar_frac) << what << room.name;
  return result;
}

double sum(const std::vector<double>& column) {
  double total = 0.0;
  for (const double x : column) total += x;
  return total;
}

Group board_group() {
  Group group = one_stack_group(Kind::bare);
  group.stacks[0].module = {solid_layer(0.008, 0.25, 1700.0, 900.0), solid_layer(0.06, 0.035, 30.0, 1450.0)};
  group.stacks[0].under = Under::contact;
  return group;
}

TEST(Balances, EveryTopology) {
  const climate::ForcingSource weather = synthetic_weather();
  std::vector<std::pair<std::string, Group>> cases;
  for (const auto& [kind, name] :
       {std::pair{Kind::bare, "bare"}, std::pair{Kind::contact, "planted in contact"},
        std::pair{Kind::closed, "planted over a closed gap"}, std::pair{Kind::ventilated, "planted over a swept gap"},
        std::pair{Kind::netted, "planted over a swept gap under a net"}}) {
    cases.emplace_back(name, one_stack_group(kind));
    Group fallow = one_stack_group(kind);
    if (kind == Kind::bare) continue;
    fallow.stacks[0].has_canopy = false;
    cases.emplace_back(std::string(name) + ", without plants", fallow);
    fallow.stacks[0].surface.cover_resistance_s_per_m = 800.0;
    cases.emplace_back(std::string(name) + ", under a sheet that breathes", fallow);
    Group sealed = one_stack_group(kind);
    sealed.stacks[0].module.insert(sealed.stacks[0].module.begin(), solid_layer(0.004, 0.3, 900.0, 2000.0));
    cases.emplace_back(std::string(name) + ", a dry layer on top", sealed);
  }
  Group netted_bare = one_stack_group(Kind::bare);
  netted_bare.stacks[0].has_net = true;
  cases.emplace_back("bare under a net", netted_bare);
  Group white = one_stack_group(Kind::bare);
  white.stacks[0].surface.albedo = 0.8;
  cases.emplace_back("white", white);
  cases.emplace_back("board", board_group());
  Group netted_board = board_group();
  netted_board.stacks[0].has_net = true;
  netted_board.stacks[0].under = Under::closed_gap;
  cases.emplace_back("board over a closed gap under a net", netted_board);
  Group netted_contact = one_stack_group(Kind::contact);
  netted_contact.stacks[0].has_net = true;
  cases.emplace_back("planted in contact under a net", netted_contact);
  for (const auto& [name, group] : cases) expect_closed_books(name, group, weather, midsummer, 12);
}

TEST(Balances, RoomsLinksAndMachines) {
  // Several stacks over rooms with a partition, one of them held, decks joined sideways.
  const auto result = expect_closed_books("linked", linked_group(), synthetic_weather(), midsummer, 20, 4);
  EXPECT_GT(sum(result.rooms[1].heat_removed_w), 0.0);
  EXPECT_GT(result.tally.largest_sideways_z, 0.0);
  const auto winter = expect_closed_books("linked in winter", linked_group(), synthetic_weather(), 0, 20, 4);
  EXPECT_GT(sum(winter.rooms[1].heat_added_w), 0.0);
}

TEST(Balances, Storms) {
  for (const Kind kind : {Kind::bare, Kind::contact, Kind::netted}) {
    Group group = one_stack_group(kind);
    for (auto& layer : group.stacks[0].module) layer.saturated_conductivity_m_per_s *= 0.02;
    const SyntheticClimate climate{.wet_hours_frac = 0.3, .shower_mm_per_10_min = 25.0};
    const auto result = expect_closed_books("storms", group, synthetic_weather(climate), midsummer, 20);
    EXPECT_GT(sum(result.stacks[0].runoff_mm), 100.0);
    EXPECT_TRUE(kind == Kind::bare || sum(result.stacks[0].drainage_mm) > 100.0);
  }
}

TEST(Balances, StartsFull) {
  for (const Kind kind : {Kind::contact, Kind::closed, Kind::ventilated}) {
    Group group = one_stack_group(kind);
    for (auto& layer : group.stacks[0].module) layer.initial_water_frac = layer.saturated_frac;
    const auto result = expect_closed_books("full", group, synthetic_weather(), midsummer, 10);
    EXPECT_GT(sum(result.stacks[0].drainage_mm), 10.0);
  }
}

TEST(Balances, DriesOutToWilting) {
  const SyntheticClimate desert{.mean_c = 30.0, .wet_hours_frac = 0.0};
  for (const Kind kind : {Kind::contact, Kind::ventilated}) {
    Group group = one_stack_group(kind);
    Stack& stack = group.stacks[0];
    stack.waterings.clear();
    stack.canopy.stomatal_min_s_per_m = 60.0;
    stack.canopy.stomatal_max_s_per_m = 60.0;  // plants that never close: they take all there is
    const auto result = expect_closed_books("dry-out", group, synthetic_weather(desert), midsummer, 60);
    EXPECT_LT(result.stacks[0].root_store_frac.back(), 0.01);
    EXPECT_LT(result.stacks[0].evapotranspiration_mm[24 * 60 - 12], 0.05);
    double least_mm = 0.0;
    for (const auto& layer : stack.module) least_mm += 1000.0 * layer.thickness_m * layer.residual_frac;
    EXPECT_GE(result.stacks[0].water_mm.back(), least_mm - 1e-9);
  }
  // Bare soil goes below wilting, down towards its residual.
  Group fallow = one_stack_group(Kind::contact);
  fallow.stacks[0].has_canopy = false;
  fallow.stacks[0].waterings.clear();
  const auto result = expect_closed_books("bare soil", fallow, synthetic_weather(desert), midsummer, 60);
  EXPECT_LT(result.stacks[0].evapotranspiration_mm[24 * 60 - 12], 0.1);
}

TEST(Balances, NightDew) {
  const auto damp_nights = [](int hour, double fraction) {
    climate::Forcing forcing = synthetic_weather({.mean_c = 14.0, .wet_hours_frac = 0.0})(hour, fraction);
    const double t = forcing.air_temperature_c;
    forcing.vapour_pressure_pa = 0.99 * 610.8 * std::exp(17.27 * t / (t + 237.3));
    forcing.sky_longwave_w_per_m2 -= 60.0;
    return forcing;
  };
  for (const Kind kind : {Kind::contact, Kind::ventilated, Kind::netted}) {
    const auto result = expect_closed_books("dew", one_stack_group(kind), damp_nights, midsummer, 15);
    const auto& hours = result.stacks[0].evapotranspiration_mm;
    EXPECT_LT(*std::min_element(hours.begin(), hours.end()), -0.01);
  }
  // Dew on soil that is as dry as it gets, and on a full store.
  Group dry = one_stack_group(Kind::contact);
  dry.stacks[0].has_canopy = false;
  for (auto& layer : dry.stacks[0].module) layer.initial_water_frac = layer.residual_frac;
  expect_closed_books("dew on dry soil", dry, damp_nights, midsummer, 10);
  Group full = one_stack_group(Kind::contact);
  for (auto& layer : full.stacks[0].module) layer.initial_water_frac = layer.saturated_frac;
  expect_closed_books("dew on a full store", full, damp_nights, midsummer, 10);
}

TEST(Balances, FrostAndHeat) {
  const SyntheticClimate cold{.mean_c = -18.0, .wet_hours_frac = 0.02};
  const SyntheticClimate hot{.mean_c = 42.0, .day_swing_k = 10.0, .wet_hours_frac = 0.02};
  for (const Kind kind : {Kind::bare, Kind::contact, Kind::closed, Kind::netted}) {
    expect_closed_books("cold", one_stack_group(kind), synthetic_weather(cold), 0, 10);
    expect_closed_books("hot", one_stack_group(kind), synthetic_weather(hot), midsummer, 10);
  }
}

}  // namespace
}  // namespace houseleek::tests
