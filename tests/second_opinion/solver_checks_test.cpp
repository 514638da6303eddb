// The second program against closed forms of conduction, rooms, drainage and moved heat, before it judges the first.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "base/contract.hpp"
#include "comparison.hpp"
#include "second_opinion.hpp"
#include "support/reference_check.hpp"
#include "synthetic_weather.hpp"
#include "system.hpp"
#include "test_groups.hpp"

namespace houseleek::tests::second_opinion {
namespace {

constexpr const char* judge = "tests/second_opinion (the second program)";

/// No radiation, no sun; films as told.
simulation::Stack calm_stack(double outside_w_per_m2_k, double inside_w_per_m2_k) {
  simulation::Stack stack;
  stack.surface.emissivity = 0.0;
  stack.outside_film.is_fixed = true;
  stack.outside_film.fixed_w_per_m2_k = outside_w_per_m2_k;
  stack.inside_film.is_fixed = true;
  stack.inside_film.fixed_w_per_m2_k = inside_w_per_m2_k;
  return stack;
}

simulation::Group held_room(simulation::Stack stack, double inside_c) {
  simulation::Group group;
  group.stacks = {std::move(stack)};
  group.rooms.resize(1);
  group.rooms[0].is_prescribed = true;
  group.rooms[0].prescribed_c = inside_c;
  group.rooms[0].initial_temperature_c = inside_c;
  return group;
}

climate::ForcingSource steady(const climate::Forcing& forcing) {
  return [forcing](int, double) { return forcing; };
}

TEST(SecondOpinion, StepResponseOfARoof) {
  // Plaster, concrete, screed, bitumen from inside; outside air leaps from 0 to 1 degC, inside stays 0.
  simulation::Stack stack = calm_stack(25.0, 10.0);
  stack.deck = {plain_layer(0.010, 0.23, 1100.0 * 1000.0), plain_layer(0.060, 0.41, 1200.0 * 1000.0),
                plain_layer(0.160, 2.0, 2400.0 * 1000.0), plain_layer(0.015, 0.57, 1300.0 * 1000.0)};
  stack.initial_temperature_c = 0.0;
  climate::Forcing forcing;
  forcing.air_temperature_c = 1.0;
  const simulation::Group group = held_room(stack, 0.0);
  const HourMarks coarse = second_opinion_run(group, steady(forcing), 0, 48, 1e-10, 1).front();
  const HourMarks fine = second_opinion_run(group, steady(forcing), 0, 48, 1e-10, 4).front();
  struct Row {
    std::size_t hour;
    double flux_w_per_m2;
  };
  constexpr Row rows[] = {{1, 0.0006715},  {2, 0.0371766},  {3, 0.1476102}, {6, 0.6151266},
                          {12, 1.3274495}, {24, 1.9749446}, {48, 2.2583896}};
  for (const Row& row : rows) {
    const double coarse_error = 10.0 * coarse.ceiling_c[row.hour - 1] - row.flux_w_per_m2;
    const double fine_error = 10.0 * fine.ceiling_c[row.hour - 1] - row.flux_w_per_m2;
    check_reference({.id = "SECOND-06 hour " + std::to_string(row.hour),
                     .what = "step response of a concrete roof, W/m2 into the room, slices cut four times finer",
                     .source = "inverse Laplace transform of the exact matrices [carslaw1959], recomputed",
                     .expected = row.flux_w_per_m2,
                     .got = 10.0 * fine.ceiling_c[row.hour - 1],
                     .tolerance = 4e-5,
                     .reason = "a sixteenth of what the usual slices are off at most, 6.2e-4",
                     .function = judge,
                     .scale = 2.2928653});
    // Second order in the slices: four times finer leaves a sixteenth.
    if (std::abs(coarse_error) > 1e-4) {
      EXPECT_NEAR(coarse_error / fine_error, 16.0, 0.4) << row.hour;
    }
  }
}

TEST(SecondOpinion, RoomOfFiveResistances) {
  struct Row {
    const char* id;
    double capacity_j_per_m2_k, mass_after_1_h_c;
  };
  constexpr Row rows[] = {{"light", 110e3, 23.801164}, {"medium", 165e3, 23.225263}};
  for (const Row& row : rows) {
    simulation::Stack stack = calm_stack(0.0, 0.0);  // nothing passes the roof
    stack.deck = {plain_layer(0.1, 1.0, 2e6)};
    simulation::Group group;
    group.stacks = {stack};
    simulation::Room room;
    const double floor = 20.0;
    room.floor_area_m2 = floor;
    room.mass_area_m2 = 2.5 * floor;
    room.total_surface_m2 = 4.5 * floor;
    room.mass_to_surface_w_per_k = 9.1 * room.mass_area_m2;
    room.surface_to_air_w_per_k = 3.45 * room.total_surface_m2;
    room.mass_to_outside_w_per_k = 1.0 / (1.0 / 40.0 - 1.0 / room.mass_to_surface_w_per_k);
    room.window_w_per_k = 15.0;
    room.heat_capacity_j_per_k = row.capacity_j_per_m2_k * floor;
    room.volume_m3 = 50.0;
    room.infiltration_per_h = 20.0 * 3600.0 / (1.2 * 1010.0 * room.volume_m3);  // 20 W/K
    room.internal_gain_w.fill(100.0);
    room.solar_gain_w = {500.0};
    room.initial_temperature_c = 22.0;
    group.rooms = {room};
    climate::Forcing forcing;
    forcing.air_temperature_c = 30.0;
    const HourMarks marks = second_opinion_run(group, steady(forcing), 0, 400, 1e-9, 1).front();
    check_reference({.id = std::string("SECOND-07 ") + row.id,
                     .what = "mass of a room after one hour, degC",
                     .source = "[iso13790] network (constants seen in public listings), exact exponential, recomputed",
                     .expected = row.mass_after_1_h_c,
                     .got = marks.room_mass_c[0],
                     .tolerance = 1e-6,
                     .reason = "six decimals are given",
                     .function = judge});
    if (row.capacity_j_per_m2_k == 110e3) {
      const auto end = [&](const char* what, double expected_c, double got_c) {
        check_reference({.id = std::string("SECOND-08 ") + what,
                         .what = "steady node of a room, degC",
                         .source = "[iso13790] network solved node by node, recomputed",
                         .expected = expected_c,
                         .got = got_c,
                         .tolerance = 1e-6,
                         .reason = "six decimals are given",
                         .function = judge});
      };
      end("air", 37.281665, marks.room_air_c.back());
      end("surface", 37.589662, marks.room_surface_c.back());
      end("mass", 37.534952, marks.room_mass_c.back());
    }
  }
}

simulation::Layer wet_layer(double thickness_m) {
  simulation::Layer layer = plain_layer(thickness_m, 0.4, 1.0e6);
  layer.saturated_frac = 0.5;
  layer.holds_frac = 0.2;
  layer.field_capacity_frac = 0.25;
  layer.wilting_frac = 0.08;
  layer.residual_frac = 0.03;
  layer.saturated_conductivity_m_per_s = 2e-6;
  layer.drainage_exponent = 4.0;
  layer.initial_water_frac = 0.45;
  return layer;
}

TEST(SecondOpinion, AStoreDrainsAsItsClosedForm) {
  simulation::Stack stack = calm_stack(10.0, 5.0);
  stack.module = {wet_layer(0.04)};
  stack.deck = {plain_layer(0.1, 1.0, 2e6)};
  stack.under = simulation::Under::contact;
  stack.initial_temperature_c = 15.0;
  climate::Forcing forcing;
  forcing.air_temperature_c = 15.0;
  const HourMarks marks = second_opinion_run(held_room(stack, 15.0), steady(forcing), 0, 48, 1e-9, 1).front();
  // D dtheta/dt = -K y^b with y = (theta - holds)/range.
  const double range = 0.3;
  const double y0 = (0.45 - 0.2) / range;
  for (std::size_t hour = 1; hour <= 48; ++hour) {
    const double growth = 3.0 * 2e-6 / (0.04 * range) * 3600.0 * static_cast<double>(hour) * std::pow(y0, 3.0);
    const double y = y0 * std::pow(1.0 + growth, -1.0 / 3.0);
    EXPECT_NEAR(marks.water_mm[hour - 1], 40.0 * (0.2 + range * y), 1e-5);
    // Water of the slices' own temperature warms nothing.
    EXPECT_NEAR(marks.surface_c[hour - 1], 15.0, 1e-8);
    EXPECT_NEAR(marks.membrane_c[hour - 1], 15.0, 1e-8);
  }
}

TEST(SecondOpinion, AFullStoreLetsTheRestPast) {
  simulation::Stack stack = calm_stack(10.0, 5.0);
  simulation::Layer above = wet_layer(0.04);
  above.saturated_conductivity_m_per_s = 1e-5;
  simulation::Layer tight = wet_layer(0.03);
  tight.saturated_conductivity_m_per_s = 1e-6;
  stack.module = {above, tight, wet_layer(0.03)};
  stack.deck = {plain_layer(0.1, 1.0, 2e6)};
  stack.under = simulation::Under::contact;
  stack.initial_temperature_c = 15.0;
  climate::Forcing wet;
  wet.air_temperature_c = 15.0;
  wet.rain_temperature_c = 15.0;
  wet.rain_kg_per_m2_s = 1.5e-3;  // above what the tight one carries, below what the lowest does
  climate::Forcing dry = wet;
  dry.rain_kg_per_m2_s = 0.0;
  const auto rain = [&](int hour, double) { return hour < 48 ? wet : dry; };
  Work work;
  const HourMarks marks = second_opinion_run(held_room(stack, 15.0), rain, 0, 60, 1e-9, 1, &work).front();
  EXPECT_NEAR(marks.drained_mm_per_h[47], 1.5e-3 * 3600.0, 1e-4);
  const double upper_mm = 40.0 * (0.2 + 0.3 * std::pow(1.5e-3 / 1e-2, 0.25));
  const double lowest_mm = 30.0 * (0.2 + 0.3 * std::pow(1.5e-3 / 2e-3, 0.25));
  EXPECT_NEAR(marks.water_mm[47], upper_mm + 30.0 * 0.5 + lowest_mm, 1e-4);
  EXPECT_LT(marks.drained_mm_per_h[59], 0.7 * 5.4);  // the tight store has left its edge again
  EXPECT_GT(work.n_restarts, 60);
  EXPECT_NEAR(marks.membrane_c[59], 15.0, 1e-8);

  // More than the first store takes in runs off.
  wet.rain_kg_per_m2_s = 3e-2;
  const HourMarks flood = second_opinion_run(held_room(stack, 15.0), rain, 0, 48, 1e-9, 1).front();
  EXPECT_NEAR(flood.run_off_mm_per_h[47], (3e-2 - 1e-2) * 3600.0, 1e-6);
  EXPECT_NEAR(flood.drained_mm_per_h[47], 1e-2 * 3600.0, 1e-3);
}

TEST(SecondOpinion, RainBringsItsOwnHeatAndNoMore) {
  // Sealed stack, cold rain that stays: its enthalpy is what the slices gain.
  simulation::Stack stack = calm_stack(0.0, 0.0);
  simulation::Layer sponge = wet_layer(0.06);
  sponge.holds_frac = 0.499;
  sponge.initial_water_frac = 0.1;
  sponge.is_medium = true;
  sponge.saturated_conductivity_m_per_s = 1e-3;
  stack.module = {sponge};
  stack.deck = {plain_layer(0.1, 1.0, 2e6)};
  stack.under = simulation::Under::contact;
  stack.initial_temperature_c = 30.0;
  climate::Forcing forcing;
  forcing.air_temperature_c = 20.0;
  forcing.rain_temperature_c = 5.0;
  forcing.rain_kg_per_m2_s = 1e-3;
  const auto rain = [&](int, double fraction) {
    climate::Forcing now = forcing;
    if (fraction > 0.5) now.rain_kg_per_m2_s = 0.0;
    return now;
  };
  const simulation::Group group = held_room(stack, 30.0);
  Work work;
  const HourMarks marks = second_opinion_run(group, rain, 0, 3, 1e-9, 1, &work).front();
  EXPECT_NEAR(marks.water_mm.back(), 6.0 + 5.4, 1e-6);
  const System system(group, 1);
  const auto enthalpy = [&](const std::vector<double>& state) {
    double sum = 0.0;
    std::size_t at = system.slices_at(0);
    for (const Slice& slice : system.mesh(0).module) {
      const double water = state[system.stores_at(0) + static_cast<std::size_t>(slice.store)];
      sum += slice.thickness_m * (slice.layer.heat_capacity_dry_j_per_m3_k + 4190.0 * 1000.0 * water) * state[at++];
    }
    for (const Slice& slice : system.mesh(0).deck) {
      sum += slice.thickness_m * slice.layer.heat_capacity_dry_j_per_m3_k * state[at++];
    }
    return sum;
  };
  const double gained = enthalpy(work.final_state) - enthalpy(system.initial_state());
  EXPECT_NEAR(gained, 4190.0 * 5.4 * 5.0, 1.0);
}

TEST(SecondOpinion, LinkedDecksComeTogether) {
  simulation::Stack stack = calm_stack(0.0, 0.0);
  stack.deck = {plain_layer(0.12, 1.5, 2e6)};
  simulation::Group group = held_room(stack, 10.0);
  group.stacks.push_back(stack);
  group.stacks[0].initial_temperature_c = 30.0;
  group.stacks[0].area_m2 = 2.0;
  group.stacks[1].initial_temperature_c = 10.0;
  group.stacks[1].area_m2 = 0.5;
  group.side_links = {{0, 1, 1.6, 0.2}};
  const auto marks = second_opinion_run(group, steady({}), 0, 24, 1e-11, 1);
  const double rate = 1.5 * 1.6 / 0.2 / 2e6 * (1.0 / 2.0 + 1.0 / 0.5);
  const double mean = (30.0 * 2.0 + 10.0 * 0.5) / 2.5;
  for (std::size_t hour = 1; hour <= 24; ++hour) {
    const double apart = 20.0 * std::exp(-rate * 3600.0 * static_cast<double>(hour));
    EXPECT_NEAR(marks[0].surface_c[hour - 1], mean + 0.2 * apart, 1e-6);
    EXPECT_NEAR(marks[1].ceiling_c[hour - 1], mean - 0.8 * apart, 1e-6);
  }
}

TEST(SecondOpinion, RoomsBehindAPartitionComeTogether) {
  simulation::Stack stack = calm_stack(0.0, 0.0);
  stack.deck = {plain_layer(0.1, 1.0, 2e6)};
  simulation::Group group;
  group.stacks = {stack, stack};
  group.stacks[1].room = 1;
  simulation::Room room;
  room.mass_to_surface_w_per_k = 300.0;
  room.surface_to_air_w_per_k = 200.0;
  room.heat_capacity_j_per_k = 2e6;
  room.infiltration_per_h = 0.0;
  room.initial_temperature_c = 26.0;
  group.rooms = {room, room};
  group.rooms[1].initial_temperature_c = 18.0;
  group.partitions = {{0, 1, 60.0}};
  const auto marks = second_opinion_run(group, steady({}), 0, 24, 1e-11, 1);
  // Mass - surface - surface - mass in a row; air follows its surface.
  const double through = 1.0 / (2.0 / 300.0 + 1.0 / 60.0);
  for (std::size_t hour = 1; hour <= 24; ++hour) {
    const double apart = 8.0 * std::exp(-2.0 * through / 2e6 * 3600.0 * static_cast<double>(hour));
    EXPECT_NEAR(marks[0].room_mass_c[hour - 1], 22.0 + 0.5 * apart, 1e-6);
    EXPECT_NEAR(marks[1].room_air_c[hour - 1], 22.0 - 0.5 * apart + apart * through / 300.0, 1e-6);
  }
}

TEST(SecondOpinion, StacksApartAreAsEachAlone) {
  // Several stacks in one system, whose matrix then lacks a few slopes, are what each is by itself.
  const simulation::Group bare = one_stack_group(Kind::bare);
  const simulation::Group planted = one_stack_group(Kind::ventilated);
  simulation::Group both = bare;
  both.stacks.push_back(planted.stacks[0]);
  both.stacks[1].room = 1;
  both.rooms.push_back(planted.rooms[0]);
  const climate::ForcingSource weather = synthetic_weather();
  const int first = 190 * 24;
  const auto together = second_opinion_run(both, weather, first, 72, 1e-8, 1);
  const auto alone_bare = second_opinion_run(bare, weather, first, 72, 1e-8, 1);
  const auto alone_planted = second_opinion_run(planted, weather, first, 72, 1e-8, 1);
  for (std::size_t hour = 0; hour < 72; ++hour) {
    EXPECT_NEAR(together[0].surface_c[hour], alone_bare[0].surface_c[hour], 5e-5);
    EXPECT_NEAR(together[0].room_air_c[hour], alone_bare[0].room_air_c[hour], 5e-5);
    EXPECT_NEAR(together[1].foliage_c[hour], alone_planted[0].foliage_c[hour], 5e-5);
    EXPECT_NEAR(together[1].ceiling_c[hour], alone_planted[0].ceiling_c[hour], 5e-5);
    EXPECT_NEAR(together[1].water_mm[hour], alone_planted[0].water_mm[hour], 5e-5);
  }
}

TEST(SecondOpinion, TighterTolerancesChangeLittle) {
  const simulation::Group group = one_stack_group(Kind::ventilated);
  const climate::ForcingSource weather = synthetic_weather();
  const auto usual = second_opinion_run(group, weather, 200 * 24, 120, 1e-8, 1).front();
  const auto tight = second_opinion_run(group, weather, 200 * 24, 120, 1e-10, 1).front();
  for (std::size_t hour = 0; hour < 120; ++hour) {
    EXPECT_NEAR(usual.surface_c[hour], tight.surface_c[hour], 1e-4);
    EXPECT_NEAR(usual.membrane_c[hour], tight.membrane_c[hour], 1e-4);
    EXPECT_NEAR(usual.ceiling_c[hour], tight.ceiling_c[hour], 1e-4);
    EXPECT_NEAR(usual.water_mm[hour], tight.water_mm[hour], 1e-4);
  }
}

TEST(SecondOpinion, ADifferenceIsSeen) {
  // One part in a hundred of the albedo is far outside the bars the two programs are held to.
  const climate::ForcingSource weather = synthetic_weather();
  simulation::Group group = one_stack_group(Kind::bare);
  const HourMarks right = second_opinion_run(group, weather, 200 * 24, 48, 1e-8, 1).front();
  group.stacks[0].surface.albedo += 0.01;
  const HourMarks wrong = second_opinion_run(group, weather, 200 * 24, 48, 1e-8, 1).front();
  results::StackYear judged;
  judged.surface_c = wrong.surface_c;
  judged.membrane_c = wrong.membrane_c;
  judged.ceiling_c = wrong.ceiling_c;
  results::RoomYear room;
  room.air_c = wrong.room_air_c;
  const StackDifference apart = difference(judged, room, right);
  EXPECT_GT(apart.surface_k.largest, 0.1);
  EXPECT_GT(apart.ceiling_k.largest, 0.005);
  EXPECT_LT(apart.foliage_k.largest, 1e-300);
  judged.surface_c.pop_back();
  EXPECT_TRUE(std::isinf(difference(judged, room, right).surface_k.largest));
}

TEST(SecondOpinion, WateringFollowsItsDays) {
  simulation::Watering rule;
  rule.depth_mm = 6.0;
  rule.hour = 7;
  rule.every_days = 3;
  rule.first_day = 360;
  rule.last_day = 5;
  EXPECT_EQ(watering_kg_per_m2_s(rule, 360 * 24 + 7), 0.01);
  EXPECT_EQ(watering_kg_per_m2_s(rule, 360 * 24 + 8), 0.0);
  EXPECT_EQ(watering_kg_per_m2_s(rule, 361 * 24 + 7), 0.0);
  EXPECT_EQ(watering_kg_per_m2_s(rule, 1 * 24 + 7), 0.01);  // six days on, past the year's end
  EXPECT_EQ(watering_kg_per_m2_s(rule, 7 * 24 + 7), 0.0);   // after the last day
  simulation::Stack twice;
  twice.waterings = {rule, rule};
  EXPECT_EQ(watering_kg_per_m2_s(twice, 360 * 24 + 7), 0.02);
  rule.every_days = 0;
  EXPECT_THROW(static_cast<void>(watering_kg_per_m2_s(rule, 7)), ContractViolation);
}

}  // namespace
}  // namespace houseleek::tests::second_opinion
