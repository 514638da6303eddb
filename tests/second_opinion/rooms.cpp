// The room balances of docs/equations/stack.md, with slopes by hand.
#include "rooms.hpp"

#include <algorithm>
#include <cmath>

namespace houseleek::tests::second_opinion {
namespace {

constexpr double update_end_k = 1e-9;
constexpr int max_iterations = 80;
constexpr double machine_w_per_m2_k = 500.0;

struct Ramp {
  double value = 0.0;
  double slope = 0.0;
};
Ramp ramp(double x) {
  if (x <= 0.0) return {0.0, 0.0};
  if (x >= 1.0) return {1.0, 0.0};
  return {x, 1.0};
}

struct CeilingFilm {
  double convection_w_per_m2 = 0.0;  // ceiling to air
  double slope_w_per_m2_k = 0.0;     // by T_s; by T_air it is the negative
};
CeilingFilm ceiling_film(const simulation::InsideFilm& film, double ceiling_c, double air_c) {
  const double difference = ceiling_c - air_c;
  if (film.is_fixed) return {film.fixed_w_per_m2_k * difference, film.fixed_w_per_m2_k};
  const Ramp between = ramp(air_c - ceiling_c + 0.5);
  const double y = between.value;
  const double hc = 0.7 + 4.3 * (3.0 * y * y - 2.0 * y * y * y);
  const double hc_slope = -4.3 * (6.0 * y - 6.0 * y * y) * between.slope;  // by T_s
  return {hc * difference, hc + hc_slope * difference};
}

double shared_gain_w(const RoomNow& now) { return 0.5 * now.internal_gain_w + now.solar_gain_w; }

}  // namespace

bool is_window_hour(const simulation::WindowRule& rule, int hour_of_day) {
  const int from = rule.from_hour % 24;
  const int to = rule.to_hour % 24;
  if (from == to) return true;
  if (from < to) return hour_of_day >= from && hour_of_day < to;
  return hour_of_day >= from || hour_of_day < to;
}

Rooms::Rooms(const simulation::Group& group)
    : group_(group), n_(group.stacks.size() + 2 * group.rooms.size()), matrix_(n_ * n_), step_(n_) {}

double Rooms::mass_heating_w(std::size_t room, const RoomNow& now, double surface_c) const {
  const simulation::Room& r = group_.rooms[room];
  const double gain_w = r.mass_area_m2 / r.total_surface_m2 * shared_gain_w(now);
  return r.mass_to_surface_w_per_k * (surface_c - now.mass_c) +
         r.mass_to_outside_w_per_k * (now.outside_c - now.mass_c) + gain_w;
}

void Rooms::fill(const std::vector<CeilingNow>& ceilings, const std::vector<RoomNow>& rooms, const RoomNodes& nodes) {
  const std::size_t n_stacks = group_.stacks.size();
  const std::size_t n_rooms = group_.rooms.size();
  std::fill(matrix_.begin(), matrix_.end(), 0.0);
  std::fill(step_.begin(), step_.end(), 0.0);
  // matrix_ holds the slopes of the residuals; step_ holds minus the residuals.
  for (std::size_t r = 0; r < n_rooms; ++r) {
    const simulation::Room& room = group_.rooms[r];
    const RoomNow& now = rooms[r];
    const std::size_t air = n_stacks + r;
    const std::size_t surface = n_stacks + n_rooms + r;
    const double t_air = nodes.air_c[r];
    const double t_su = nodes.surface_c[r];
    if (room.is_prescribed) {
      at(air, air) = 1.0;
      step_[air] = room.prescribed_c - t_air;
      at(surface, surface) = 1.0;
      step_[surface] = room.prescribed_c - t_su;
      continue;
    }
    const double h_is = room.surface_to_air_w_per_k;
    double changes_per_h = room.infiltration_per_h;
    double changes_slope = 0.0;
    if (now.is_window_hour) {
      // While it is warmer outside and windows may open all the same, they follow the mass.
      const bool is_warming = !room.window_rule.only_when_outside_cooler && now.outside_c > t_air;
      Ramp warm = ramp((is_warming ? now.mass_c : t_air) - room.window_rule.open_above_c);
      if (is_warming) warm.slope = 0.0;
      const Ramp cooler = room.window_rule.only_when_outside_cooler ? ramp(t_air - now.outside_c) : Ramp{1.0, 0.0};
      changes_per_h += room.window_rule.extra_per_h * warm.value * cooler.value;
      changes_slope = room.window_rule.extra_per_h * (warm.slope * cooler.value + warm.value * cooler.slope);
    }
    const double w_per_k_per_change = 1.2 * 1010.0 * room.volume_m3 / 3600.0;
    const double h_ve = w_per_k_per_change * changes_per_h;
    double q = 0.0;
    double q_slope = 0.0;
    if (room.is_held) {
      const double machine = machine_w_per_m2_k * room.floor_area_m2;
      if (t_air < room.heat_below_c) {
        q = machine * (room.heat_below_c - t_air);
        q_slope = -machine;
      }
      if (t_air > room.cool_above_c) {
        q -= machine * (t_air - room.cool_above_c);
        q_slope -= machine;
      }
    }
    step_[air] = -(h_is * (t_su - t_air) + h_ve * (now.outside_c - t_air) + 0.5 * now.internal_gain_w + q);
    at(air, air) = -h_is - h_ve + w_per_k_per_change * changes_slope * (now.outside_c - t_air) + q_slope;
    at(air, surface) = h_is;

    const double a_t = room.total_surface_m2;
    const double surface_gain_w =
        (1.0 - room.mass_area_m2 / a_t - room.window_w_per_k / (9.1 * a_t)) * shared_gain_w(now);
    step_[surface] = -(h_is * (t_air - t_su) + room.mass_to_surface_w_per_k * (now.mass_c - t_su) +
                       room.window_w_per_k * (now.outside_c - t_su) + surface_gain_w);
    at(surface, air) = h_is;
    at(surface, surface) = -h_is - room.mass_to_surface_w_per_k - room.window_w_per_k;
  }
  for (std::size_t i = 0; i < n_stacks; ++i) {
    const simulation::Stack& stack = group_.stacks[i];
    const auto r = static_cast<std::size_t>(stack.room);
    const std::size_t air = n_stacks + r;
    const std::size_t surface = n_stacks + n_rooms + r;
    const double t_s = nodes.ceiling_c[i];
    const CeilingFilm film = ceiling_film(stack.inside_film, t_s, nodes.air_c[r]);
    const double h_r = stack.inside_film.is_fixed ? 0.0 : stack.inside_film.radiative_w_per_m2_k;
    const double radiation = h_r * (t_s - nodes.surface_c[r]);
    const double g = ceilings[i].conductance_w_per_m2_k;
    step_[i] = -(g * (ceilings[i].last_slice_c - t_s) - film.convection_w_per_m2 - radiation);
    at(i, i) = -g - film.slope_w_per_m2_k - h_r;
    at(i, air) = film.slope_w_per_m2_k;
    at(i, surface) = h_r;
    if (group_.rooms[r].is_prescribed) continue;
    const double area = stack.area_m2;
    step_[air] -= area * film.convection_w_per_m2;
    at(air, i) += area * film.slope_w_per_m2_k;
    at(air, air) -= area * film.slope_w_per_m2_k;
    step_[surface] -= area * radiation;
    at(surface, i) += area * h_r;
    at(surface, surface) -= area * h_r;
  }
  for (const simulation::Partition& wall : group_.partitions) {
    for (int side = 0; side < 2; ++side) {
      const auto own = static_cast<std::size_t>(side == 0 ? wall.first : wall.second);
      const auto other = static_cast<std::size_t>(side == 0 ? wall.second : wall.first);
      if (group_.rooms[own].is_prescribed) continue;
      const std::size_t row = n_stacks + n_rooms + own;
      step_[row] -= wall.conductance_w_per_k * (nodes.surface_c[other] - nodes.surface_c[own]);
      at(row, row) -= wall.conductance_w_per_k;
      at(row, n_stacks + n_rooms + other) += wall.conductance_w_per_k;
    }
  }
}

bool Rooms::eliminate() {
  for (std::size_t column = 0; column < n_; ++column) {
    std::size_t pivot = column;
    for (std::size_t row = column + 1; row < n_; ++row) {
      if (std::abs(at(row, column)) > std::abs(at(pivot, column))) pivot = row;
    }
    if (!(std::abs(at(pivot, column)) > 0.0)) return false;
    if (pivot != column) {
      for (std::size_t k = 0; k < n_; ++k) std::swap(at(pivot, k), at(column, k));
      std::swap(step_[pivot], step_[column]);
    }
    for (std::size_t row = column + 1; row < n_; ++row) {
      const double factor = at(row, column) / at(column, column);
      if (factor == 0.0) continue;
      for (std::size_t k = column; k < n_; ++k) at(row, k) -= factor * at(column, k);
      step_[row] -= factor * step_[column];
    }
  }
  for (std::size_t row = n_; row-- > 0;) {
    for (std::size_t k = row + 1; k < n_; ++k) step_[row] -= at(row, k) * step_[k];
    step_[row] /= at(row, row);
  }
  return true;
}

bool Rooms::solve(const std::vector<CeilingNow>& ceilings, const std::vector<RoomNow>& rooms, RoomNodes& nodes) {
  const std::size_t n_stacks = group_.stacks.size();
  const std::size_t n_rooms = group_.rooms.size();
  for (int iteration = 0; iteration < max_iterations; ++iteration) {
    fill(ceilings, rooms, nodes);
    if (!eliminate()) return false;
    double largest = 0.0;
    for (const double s : step_) largest = std::max(largest, std::abs(s));
    if (!std::isfinite(largest)) return false;
    const double damping = iteration < 15 ? 1.0 : 0.5;
    for (std::size_t i = 0; i < n_stacks; ++i) nodes.ceiling_c[i] += damping * step_[i];
    for (std::size_t r = 0; r < n_rooms; ++r) {
      nodes.air_c[r] += damping * step_[n_stacks + r];
      nodes.surface_c[r] += damping * step_[n_stacks + n_rooms + r];
    }
    if (largest < update_end_k) return true;
  }
  return false;
}

}  // namespace houseleek::tests::second_opinion
