// The rooms under the roof: air, surfaces and mass of each, joined by partitions, solved with their ceilings.
#include "simulation/rooms.hpp"

#include <utility>

#include "base/contract.hpp"
#include "numerics/lane.hpp"
#include "numerics/small_linear.hpp"

namespace houseleek::simulation {

namespace {

constexpr double room_air_heat_j_per_m3_k = 1.2 * 1010.0;
constexpr double held_w_per_m2_k = 500.0;        // of floor: holds the air within about 0.2 K of the wanted temperature
constexpr double surface_film_w_per_m2_k = 9.1;  // h_ms of [iso13790]

struct Ramp {
  double value = 0.0;
  double slope = 0.0;
};
Ramp ramp(double x) {
  if (x <= 0.0) return {0.0, 0.0};
  if (x >= 1.0) return {1.0, 0.0};
  return {x, 1.0};
}

bool is_between(int hour, int from, int to) {
  if (from == to) return true;
  return from < to ? hour >= from && hour < to : hour >= from || hour < to;
}

}  // namespace

HeldHeat held_heat(const Room& room, double air_c) {
  if (!room.is_held) return {};
  const double rate = held_w_per_m2_k * room.floor_area_m2;
  if (air_c < room.heat_below_c) return {rate * (room.heat_below_c - air_c), -rate};
  if (air_c > room.cool_above_c) return {-rate * (air_c - room.cool_above_c), -rate};
  return {};
}

AirExchange air_exchange(const Room& room, const RoomStage& stage, double air_c) {
  const double per_change_w_per_k = room_air_heat_j_per_m3_k * room.volume_m3 / 3600.0;
  const double outside_k = stage.outside_c - air_c;
  double changes = room.infiltration_per_h;
  double changes_slope = 0.0;
  if (stage.window_per_h > 0.0) {
    // Air warmer than the room's would open windows further the more it warms: with no mass the air would have two balances or three.
    const bool is_warming = !room.window_rule.only_when_outside_cooler && outside_k > 0.0;
    Ramp warm = ramp((is_warming ? stage.mass_known_c : air_c) - room.window_rule.open_above_c);
    if (is_warming) warm.slope = 0.0;
    const Ramp cooler = room.window_rule.only_when_outside_cooler ? ramp(-outside_k) : Ramp{1.0, 0.0};
    changes += stage.window_per_h * warm.value * cooler.value;
    changes_slope = stage.window_per_h * (warm.slope * cooler.value + warm.value * cooler.slope);
  }
  return {per_change_w_per_k * changes * outside_k, per_change_w_per_k * (changes_slope * outside_k - changes)};
}

RoomStage make_room_stage(const Room& room, const climate::Forcing& forcing, int hour_of_year, double mass_known_c,
                          double gamma_step_s) {
  const WindowRule& rule = room.window_rule;
  const bool may_open = rule.extra_per_h > 0.0 && is_between(hour_of_year % 24, rule.from_hour, rule.to_hour);
  return {.outside_c = forcing.air_temperature_c,
          .internal_gain_w = room.internal_gain_w[static_cast<std::size_t>(hour_of_year % 24)],
          .solar_gain_w = room.solar_gain_w.empty()
                              ? 0.0
                              : room.solar_gain_w[static_cast<std::size_t>(hour_of_year) % room.solar_gain_w.size()],
          .window_per_h = may_open ? rule.extra_per_h : 0.0,
          .mass_known_c = mass_known_c,
          .mass_rate_w_per_k = room.heat_capacity_j_per_k / gamma_step_s};
}

GainShares gain_shares(const Room& room, double internal_w, double solar_w) {
  const double half = 0.5 * internal_w;
  const double mass_frac = room.mass_area_m2 / room.total_surface_m2;
  const double window_frac = room.window_w_per_k / (surface_film_w_per_m2_k * room.total_surface_m2);
  return {.air_w = half,
          .surface_w = (1.0 - mass_frac - window_frac) * (half + solar_w),
          .mass_w = mass_frac * (half + solar_w)};
}

void room_residuals(const Group& group, std::span<const RoomStage> stages, std::span<const RoomState> states,
                    const Ceilings& ceilings, std::span<double> residual_w) {
  for (std::size_t i = 0; i < group.rooms.size(); ++i) {
    const Room& room = group.rooms[i];
    const RoomState& x = states[i];
    const RoomStage& s = stages[i];
    const GainShares gains = gain_shares(room, s.internal_gain_w, s.solar_gain_w);
    residual_w[3 * i] = room.surface_to_air_w_per_k * (x.surface_c - x.air_c) + air_exchange(room, s, x.air_c).value_w +
                        gains.air_w + held_heat(room, x.air_c).value_w;
    residual_w[3 * i + 1] = room.surface_to_air_w_per_k * (x.air_c - x.surface_c) +
                            room.mass_to_surface_w_per_k * (x.mass_c - x.surface_c) +
                            room.window_w_per_k * (s.outside_c - x.surface_c) + gains.surface_w;
    residual_w[3 * i + 2] = room.mass_to_surface_w_per_k * (x.surface_c - x.mass_c) +
                            room.mass_to_outside_w_per_k * (s.outside_c - x.mass_c) + gains.mass_w -
                            s.mass_rate_w_per_k * (x.mass_c - s.mass_known_c);
  }
  for (const Partition& p : group.partitions) {
    const std::size_t a = static_cast<std::size_t>(p.first), b = static_cast<std::size_t>(p.second);
    const double heat_w = p.conductance_w_per_k * (states[b].surface_c - states[a].surface_c);
    residual_w[3 * a + 1] += heat_w;
    residual_w[3 * b + 1] -= heat_w;
  }
  for (std::size_t k = 0; k < ceilings.places.size(); ++k) {
    const CeilingPlace& place = ceilings.places[k];
    residual_w[3 * place.room] += place.area_m2 * ceilings.reports[k].convective_w_per_m2;
    residual_w[3 * place.room + 1] += place.area_m2 * ceilings.reports[k].radiative_w_per_m2;
  }
  for (std::size_t i = 0; i < group.rooms.size(); ++i) {
    const Room& room = group.rooms[i];
    if (!room.is_prescribed) continue;
    residual_w[3 * i] = room.prescribed_c - states[i].air_c;
    residual_w[3 * i + 1] = room.prescribed_c - states[i].surface_c;
    residual_w[3 * i + 2] = room.prescribed_c - states[i].mass_c;
  }
}

void solve_rooms(const Group& group, std::span<const RoomStage> stages, std::span<const RoomState> states,
                 const Ceilings& ceilings, std::span<const double> residual_w, RoomSolver& solver,
                 std::span<RoomState> changes) {
  // Air and surfaces of each room; the mass sees only its own surfaces, so it is eliminated first.
  const std::size_t n = 2 * group.rooms.size();
  auto& slope = solver.slope;
  auto& right = solver.right;
  slope.assign(n * n, 0.0);
  right.resize(n);
  const auto at = [&](std::size_t row, std::size_t column) -> double& { return slope[row * n + column]; };
  const auto mass_slope = [&](std::size_t i) {
    const Room& room = group.rooms[i];
    return -room.mass_to_surface_w_per_k - room.mass_to_outside_w_per_k - stages[i].mass_rate_w_per_k;
  };
  for (std::size_t i = 0; i < group.rooms.size(); ++i) {
    const Room& room = group.rooms[i];
    const std::size_t air = 2 * i, surface = air + 1;
    right[air] = -residual_w[3 * i];
    right[surface] = -residual_w[3 * i + 1];
    if (room.is_prescribed) {
      at(air, air) = -1.0;
      at(surface, surface) = -1.0;
      continue;
    }
    at(air, air) = -room.surface_to_air_w_per_k + air_exchange(room, stages[i], states[i].air_c).slope_w_per_k +
                   held_heat(room, states[i].air_c).slope_w_per_k;
    at(air, surface) = room.surface_to_air_w_per_k;
    at(surface, air) = room.surface_to_air_w_per_k;
    const double by_mass = room.mass_to_surface_w_per_k / mass_slope(i);
    at(surface, surface) = -room.surface_to_air_w_per_k - room.mass_to_surface_w_per_k - room.window_w_per_k -
                           by_mass * room.mass_to_surface_w_per_k;
    right[surface] += by_mass * residual_w[3 * i + 2];
  }
  for (const Partition& p : group.partitions) {
    const std::size_t a = 2 * static_cast<std::size_t>(p.first) + 1, b = 2 * static_cast<std::size_t>(p.second) + 1;
    for (const auto& [own, other] : {std::pair{a, b}, std::pair{b, a}}) {
      if (group.rooms[own / 2].is_prescribed) continue;
      at(own, own) -= p.conductance_w_per_k;
      at(own, other) += p.conductance_w_per_k;
    }
  }
  // Ceilings: their own change follows the room's, so each adds its residual and slope with itself eliminated.
  for (std::size_t k = 0; k < ceilings.places.size(); ++k) {
    const CeilingPlace& place = ceilings.places[k];
    if (group.rooms[place.room].is_prescribed) continue;
    const std::size_t air = 2 * place.room, surface = air + 1;
    const CeilingReport& c = ceilings.reports[k];
    const double over = 1.0 / -c.reduced_slope_w_per_m2_k;
    const double by_air = c.slope_w_per_m2_k * over;            // d ceiling / d air
    const double by_surface = c.radiative_w_per_m2_k * over;    // d ceiling / d surface
    const double fixed_k = c.reduced_residual_w_per_m2 * over;  // change with the room held
    const double to_air_w_per_k = place.area_m2 * c.slope_w_per_m2_k;
    const double to_surface_w_per_k = place.area_m2 * c.radiative_w_per_m2_k;
    right[air] -= to_air_w_per_k * fixed_k;
    right[surface] -= to_surface_w_per_k * fixed_k;
    at(air, air) += to_air_w_per_k * (by_air - 1.0);
    at(air, surface) += to_air_w_per_k * by_surface;
    at(surface, air) += to_surface_w_per_k * by_air;
    at(surface, surface) += to_surface_w_per_k * (by_surface - 1.0);
  }
  auto& exchanged = solver.exchanged;
  exchanged.resize(n);
  expects(numerics::factor_dense(slope, exchanged), "rooms that lose heat somewhere");
  numerics::solve_dense(slope, exchanged, right);
  for (std::size_t i = 0; i < group.rooms.size(); ++i) {
    const double surface_k = right[2 * i + 1];
    const double mass_k =
        group.rooms[i].is_prescribed
            ? residual_w[3 * i + 2]
            : -(residual_w[3 * i + 2] + group.rooms[i].mass_to_surface_w_per_k * surface_k) / mass_slope(i);
    changes[i] = {right[2 * i], surface_k, mass_k};
  }
}

RoomBooks room_books(const Group& group, int index, const RoomStage& stage, std::span<const RoomState> states,
                     double ceiling_w) {
  const std::size_t i = static_cast<std::size_t>(index);
  const Room& room = group.rooms[i];
  const RoomState& x = states[i];
  RoomBooks books;
  const auto count = [&](double heat_w) {
    books.net_w += heat_w;
    books.gross_w += numerics::abs(heat_w);
  };
  count(stage.internal_gain_w + stage.solar_gain_w -
        (stage.internal_gain_w * 0.5 + stage.solar_gain_w) * room.window_w_per_k /
            (surface_film_w_per_m2_k * room.total_surface_m2));
  count(ceiling_w);
  count(air_exchange(room, stage, x.air_c).value_w);
  count(held_heat(room, x.air_c).value_w);
  count(room.window_w_per_k * (stage.outside_c - x.surface_c));
  count(room.mass_to_outside_w_per_k * (stage.outside_c - x.mass_c));
  for (const Partition& p : group.partitions) {
    if (p.first == index)
      count(p.conductance_w_per_k * (states[static_cast<std::size_t>(p.second)].surface_c - x.surface_c));
    if (p.second == index)
      count(p.conductance_w_per_k * (states[static_cast<std::size_t>(p.first)].surface_c - x.surface_c));
  }
  return books;
}

}  // namespace houseleek::simulation
