// Small stacks, rooms and weathers from which the tests of the stepper are put together.
#pragma once
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "climate/year.hpp"
#include "simulation/group.hpp"
#include "simulation/run.hpp"

namespace houseleek::tests {

/// A layer that holds no water.
inline simulation::Layer solid_layer(double thickness_m, double conductivity_w_per_m_k, double density_kg_per_m3,
                                     double heat_j_per_kg_k) {
  simulation::Layer layer;
  layer.thickness_m = thickness_m;
  layer.conductivity_dry_w_per_m_k = conductivity_w_per_m_k;
  layer.heat_capacity_dry_j_per_m3_k = density_kg_per_m3 * heat_j_per_kg_k;
  return layer;
}

/// Linear boundaries: no long-wave radiation, both films fixed.
inline simulation::Stack calm_stack(double outside_w_per_m2_k, double inside_w_per_m2_k) {
  simulation::Stack stack;
  stack.surface.emissivity = 0.0;
  stack.outside_film.is_fixed = true;
  stack.outside_film.fixed_w_per_m2_k = outside_w_per_m2_k;
  stack.inside_film.is_fixed = true;
  stack.inside_film.fixed_w_per_m2_k = inside_w_per_m2_k;
  return stack;
}

/// One stack over a room whose temperature is given.
inline simulation::Group over_given_room(simulation::Stack stack, double inside_c) {
  simulation::Group group;
  group.stacks = {std::move(stack)};
  group.rooms.resize(1);
  group.rooms[0].is_prescribed = true;
  group.rooms[0].prescribed_c = inside_c;
  group.rooms[0].initial_temperature_c = inside_c;
  return group;
}

inline climate::ForcingSource steady_weather(const climate::Forcing& forcing) {
  return [forcing](int, double) { return forcing; };
}

/// Air at a temperature and nothing else: no sun, no sky.
inline climate::ForcingSource steady_air(double air_c) {
  climate::Forcing forcing;
  forcing.air_temperature_c = air_c;
  forcing.rain_temperature_c = air_c;
  return steady_weather(forcing);
}

/// From the initial state at midnight of 1 January. `refinement` cuts slices and steps alike.
inline simulation::RunOptions from_rest(int n_hours, int refinement = 1) {
  simulation::RunOptions options;
  options.n_hours = n_hours;
  options.spin_up_hours = 0;
  options.refinement = refinement;
  options.steps_per_10_min = refinement;
  return options;
}

/// First harmonic of 24 hourly values at the marks 1 h, 2 h .. 24 h after midnight.
struct DailyWave {
  double amplitude = 0.0;
  double peak_h = 0.0;  // time of day of its maximum, 0 to 24
};
inline DailyWave daily_wave(const std::vector<double>& marks, std::size_t first) {
  const double step_rad = std::acos(-1.0) / 12.0;
  double by_cosine = 0.0, by_sine = 0.0;
  for (std::size_t i = 0; i < 24; ++i) {
    const double angle = step_rad * static_cast<double>(i + 1);
    by_cosine += marks[first + i] * std::cos(angle) / 12.0;
    by_sine += marks[first + i] * std::sin(angle) / 12.0;
  }
  double peak_h = std::atan2(by_sine, by_cosine) / step_rad;
  if (peak_h < 0.0) peak_h += 24.0;
  return {std::hypot(by_cosine, by_sine), peak_h};
}

/// Air temperature mean + amplitude cos(2 pi (t - peak)/24 h).
inline climate::ForcingSource waving_air(double mean_c, double amplitude_k, double peak_h) {
  return [=](int hour, double fraction) {
    climate::Forcing forcing;
    forcing.air_temperature_c =
        mean_c + amplitude_k * std::cos(std::acos(-1.0) / 12.0 * (hour % 24 + fraction - peak_h));
    forcing.rain_temperature_c = forcing.air_temperature_c;
    return forcing;
  };
}

}  // namespace houseleek::tests
