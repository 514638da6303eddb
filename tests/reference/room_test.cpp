// A room of five resistances and one capacity under a deck that lets nothing through, as the stepper carries it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "simulation/run.hpp"
#include "support/reference_check.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using simulation::Group;
using simulation::Room;
using simulation::run_group;

constexpr const char* judged = "simulation::run_group";
constexpr const char* network = "[iso13790] Annex C (constants seen in public listings), own case, recomputed";

constexpr double floor_m2 = 20.0;
constexpr double ventilation_w_per_k = 20.0;
constexpr double internal_w = 100.0;
constexpr double solar_w = 500.0;

Room network_room(double capacity_j_per_m2_k, bool has_gains, double start_c) {
  Room room;
  room.floor_area_m2 = floor_m2;
  room.mass_area_m2 = 2.5 * floor_m2;
  room.total_surface_m2 = 4.5 * floor_m2;
  room.mass_to_surface_w_per_k = 9.1 * room.mass_area_m2;
  room.surface_to_air_w_per_k = 3.45 * room.total_surface_m2;
  room.mass_to_outside_w_per_k = 1.0 / (1.0 / 40.0 - 1.0 / room.mass_to_surface_w_per_k);  // opaque walls 40 W/K
  room.window_w_per_k = 15.0;
  room.heat_capacity_j_per_k = capacity_j_per_m2_k * floor_m2;
  room.volume_m3 = 50.0;
  room.infiltration_per_h = ventilation_w_per_k * 3600.0 / (1.2 * 1010.0 * room.volume_m3);
  if (has_gains) {
    room.internal_gain_w.fill(internal_w);
    room.solar_gain_w = {solar_w};
  }
  room.initial_temperature_c = start_c;
  return room;
}

/// The ceiling counts among the inner surfaces, so it is kept small where the operative temperature is read.
Group under_a_sealed_deck(const Room& room, double start_c) {
  simulation::Stack stack = calm_stack(1e-12, 1e-12);
  stack.area_m2 = 1e-9;
  stack.deck = {solid_layer(0.1, 1.0, 2000.0, 1000.0)};
  stack.initial_temperature_c = start_c;
  Group group;
  group.stacks = {stack};
  group.rooms = {room};
  return group;
}

/// The mass from the air by the two balances without mass: air, then surfaces.
double mass_c(const Room& room, double air_c, double outside_c, double surface_gain_w, double air_gain_w) {
  const double surface_c =
      air_c - (ventilation_w_per_k * (outside_c - air_c) + air_gain_w) / room.surface_to_air_w_per_k;
  return surface_c - (room.surface_to_air_w_per_k * (air_c - surface_c) +
                      room.window_w_per_k * (outside_c - surface_c) + surface_gain_w) /
                         room.mass_to_surface_w_per_k;
}

struct RoomRow {
  const char* name;
  double capacity_j_per_m2_k;
  double mass_after_1_h_c;
  double air_swing_k, air_lag_h;  // under 7 K of the outside air, smooth
  double air_high_c, air_low_c;   // the same, outside air held for an hour
};
constexpr RoomRow rows[] = {{"light", 110e3, 23.801164, 3.08532064, 3.32458081, 28.068900, 21.931100},
                            {"medium", 165e3, 23.225263, 2.25719607, 3.38574905, 27.246193, 22.753807}};
// (1 - A_m/A_t - H_w/(9.1 A_t)) (0.5 internal + solar)
constexpr double surface_gain_w = 234.371184;

TEST(RoomNetwork, AfterAnHourAndAtRest) {
  for (const RoomRow& row : rows) {
    const Room room = network_room(row.capacity_j_per_m2_k, true, 22.0);
    const auto result = run_group(under_a_sealed_deck(room, 22.0), steady_air(30.0), from_rest(24 * 20)).rooms[0];
    check_reference({.id = std::string("ROOM-01 ") + row.name,
                     .what = "mass of a room after one hour, degC",
                     .source = std::string(network) + " by the exact exponential",
                     .expected = row.mass_after_1_h_c,
                     .got = mass_c(room, result.air_c[0], 30.0, surface_gain_w, 0.5 * internal_w),
                     .tolerance = 1e-4,
                     .reason = "promised of 600 s steps; six decimals are given",
                     .function = judged,
                     .scale = 1.0});
    const double air_c = result.air_c.back();
    const double surface_c = (result.operative_c.back() - 0.3 * air_c) / 0.7;
    const auto check_rest = [&](const char* node, double expected_c, double got_c) {
      check_reference({.id = std::string("ROOM-02 ") + row.name + " " + node,
                       .what = "node of a room at rest, degC",
                       .source = std::string(network) + " node by node",
                       .expected = expected_c,
                       .got = got_c,
                       .tolerance = 1e-6,
                       .reason = "six decimals are given",
                       .function = judged,
                       .scale = 1.0});
    };
    check_rest("air", 37.281665, air_c);
    check_rest("surfaces", 37.589662, surface_c);
    check_rest("mass", 37.534952, mass_c(room, air_c, 30.0, surface_gain_w, 0.5 * internal_w));
  }
}

TEST(RoomNetwork, DayLongSwing) {
  for (const RoomRow& row : rows) {
    const Room room = network_room(row.capacity_j_per_m2_k, false, 25.0);
    const int days = 20;
    const Group group = under_a_sealed_deck(room, 25.0);
    const auto smooth = run_group(group, waving_air(25.0, 7.0, 15.0), from_rest(24 * days)).rooms[0];
    const DailyWave wave = daily_wave(smooth.air_c, 24 * (days - 1));
    check_reference({.id = std::string("ROOM-03 ") + row.name,
                     .what = "swing of a room's air under 7 K of the outside air, K",
                     .source = std::string(network) + " node by node in complex numbers",
                     .expected = row.air_swing_k,
                     .got = wave.amplitude,
                     .tolerance = 1e-4,
                     .reason = "steps of 600 s leave 3.4e-5 K",
                     .function = judged});
    check_reference({.id = std::string("ROOM-04 ") + row.name,
                     .what = "delay of a room's air behind the outside air, h",
                     .source = std::string(network) + " node by node in complex numbers",
                     .expected = row.air_lag_h,
                     .got = wave.peak_h - 15.0,
                     .tolerance = 1e-3,
                     .reason = "4 s",
                     .function = judged});

    // Outside air held for an hour from half past to half past: the marks then are the hours' middles, where the hourly
    // method shows the air.
    const climate::ForcingSource held = [](int hour, double fraction) {
      const int index = fraction > 0.5 ? hour + 1 : hour;
      climate::Forcing forcing;
      forcing.air_temperature_c = 25.0 + 7.0 * std::cos(std::acos(-1.0) / 12.0 * (index % 24 + 0.5 - 15.0));
      return forcing;
    };
    const auto hourly = run_group(group, held, from_rest(24 * days)).rooms[0];
    const auto [low, high] = std::minmax_element(hourly.air_c.end() - 24, hourly.air_c.end());
    const auto check_extreme = [&](const char* what, double expected_c, double got_c) {
      check_reference({.id = std::string("ROOM-05 ") + row.name + " " + what,
                       .what = "air of a room under outside air held for an hour at a time, degC",
                       .source = std::string(network) + " by the hourly method itself",
                       .expected = expected_c,
                       .got = got_c,
                       .tolerance = 0.004,
                       .reason = "the hourly method takes the mass as linear within the hour; 0.1 % of the swing",
                       .function = judged,
                       .scale = 3.0});
    };
    check_extreme("high", row.air_high_c, *high);
    check_extreme("low", row.air_low_c, *low);
  }
}

}  // namespace
}  // namespace houseleek::tests
