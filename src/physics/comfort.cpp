// How warm a room may be: adaptive limits, running mean, fans; and the simple hourly network of a room.
#include "physics/comfort.hpp"

#include <cmath>

#include "base/contract.hpp"

namespace houseleek::physics {
namespace {

constexpr double mass_to_surface_w_per_m2_k = 9.1;
constexpr double surface_to_air_w_per_m2_k = 3.45;
constexpr double surfaces_per_floor = 4.5;
constexpr double seconds_per_hour = 3600.0;

// The network seen from the mass node: one conductance to outside and one source.
struct FromMass {
  double h1_w_per_k;
  double h3_w_per_k;
  double gain_w;
};

FromMass from_mass(const RoomNetwork& n, const RoomHour& hour, const RoomGains& gains) {
  const double h1 = 1.0 / (1.0 / n.ventilation_w_per_k + 1.0 / n.surface_to_air_w_per_k);
  const double h2 = h1 + n.windows_w_per_k;
  const double h3 = 1.0 / (1.0 / h2 + 1.0 / n.mass_to_surface_w_per_k);
  const double to_surface_w = gains.surface_w + n.windows_w_per_k * hour.outside_c +
                              h1 * ((gains.air_w + hour.machine_w) / n.ventilation_w_per_k + hour.supply_c);
  return {h1, h3, gains.mass_w + n.mass_to_outside_w_per_k * hour.outside_c + h3 * to_surface_w / h2};
}

double surface_c(const RoomNetwork& n, const RoomHour& hour, const RoomGains& gains, double h1_w_per_k, double mass_c) {
  return (n.mass_to_surface_w_per_k * mass_c + gains.surface_w + n.windows_w_per_k * hour.outside_c +
          h1_w_per_k * (hour.supply_c + (gains.air_w + hour.machine_w) / n.ventilation_w_per_k)) /
         (n.mass_to_surface_w_per_k + n.windows_w_per_k + h1_w_per_k);
}

double air_c(const RoomNetwork& n, const RoomHour& hour, const RoomGains& gains, double surface_temperature_c) {
  return (n.surface_to_air_w_per_k * surface_temperature_c + n.ventilation_w_per_k * hour.supply_c + gains.air_w +
          hour.machine_w) /
         (n.surface_to_air_w_per_k + n.ventilation_w_per_k);
}

}  // namespace

std::optional<AdaptiveLimits> adaptive_limits(double running_mean_c, ComfortCategory category) {
  expects(!std::isnan(running_mean_c), "a running mean");
  if (running_mean_c < lowest_running_mean_c || running_mean_c > highest_running_mean_c) return std::nullopt;
  const double comfort_c = 0.33 * running_mean_c + 18.8;
  double above_k = 2.0;
  if (category == ComfortCategory::ii) above_k = 3.0;
  if (category == ComfortCategory::iii) above_k = 4.0;
  return AdaptiveLimits{comfort_c, comfort_c - above_k - 1.0, comfort_c + above_k};
}

double next_running_mean_c(double yesterday_running_mean_c, double yesterday_mean_c, double memory_frac) {
  expects(memory_frac >= 0.0 && memory_frac < 1.0, "a memory from 0 to below 1");
  return (1.0 - memory_frac) * yesterday_mean_c + memory_frac * yesterday_running_mean_c;
}

double running_mean_of_week_c(std::span<const double, 7> daily_means_c) {
  constexpr double weights[] = {1.0, 0.8, 0.6, 0.5, 0.4, 0.3, 0.2};
  double sum = 0.0;
  for (std::size_t i = 0; i < 7; ++i) sum += weights[i] * daily_means_c[i];
  return sum / 3.8;
}

double fan_allowance_k(double air_speed_m_per_s, double operative_c) {
  expects(air_speed_m_per_s >= 0.0 && !std::isnan(operative_c), "an air speed of zero or more and a temperature");
  if (operative_c <= 25.0) return 0.0;
  if (air_speed_m_per_s >= 1.2) return 2.2;
  if (air_speed_m_per_s >= 0.9) return 1.8;
  return air_speed_m_per_s >= 0.6 ? 1.2 : 0.0;
}

RoomMassNumbers room_mass_numbers(RoomMass mass) {
  switch (mass) {
    case RoomMass::very_light:
      return {2.5, 80.0e3};
    case RoomMass::light:
      return {2.5, 110.0e3};
    case RoomMass::medium:
      return {2.5, 165.0e3};
    case RoomMass::heavy:
      return {3.0, 260.0e3};
    case RoomMass::very_heavy:
      break;
  }
  return {3.5, 370.0e3};
}

RoomNetwork room_network(const RoomInput& input) {
  expects(input.floor_area_m2 > 0.0 && input.ventilation_w_per_k > 0.0 && input.windows_w_per_k >= 0.0,
          "a floor and ventilation above zero, windows of zero or more");
  const RoomMassNumbers mass = room_mass_numbers(input.mass);
  RoomNetwork n{};
  n.mass_area_m2 = mass.mass_area_per_floor_frac * input.floor_area_m2;
  n.total_area_m2 = surfaces_per_floor * input.floor_area_m2;
  n.capacity_j_per_k = mass.capacity_j_per_m2_k * input.floor_area_m2;
  n.ventilation_w_per_k = input.ventilation_w_per_k;
  n.windows_w_per_k = input.windows_w_per_k;
  n.mass_to_surface_w_per_k = mass_to_surface_w_per_m2_k * n.mass_area_m2;
  n.surface_to_air_w_per_k = surface_to_air_w_per_m2_k * n.total_area_m2;
  expects(input.opaque_w_per_k >= 0.0 && input.opaque_w_per_k < n.mass_to_surface_w_per_k,
          "opaque walls between zero and the conductance from mass to surface");
  if (input.opaque_w_per_k > 0.0) {
    n.mass_to_outside_w_per_k = 1.0 / (1.0 / input.opaque_w_per_k - 1.0 / n.mass_to_surface_w_per_k);
  }
  return n;
}

RoomGains room_gains(const RoomNetwork& n, const RoomHour& hour) {
  const double spread_w = 0.5 * hour.internal_gain_w + hour.solar_gain_w;
  const double mass_share = n.mass_area_m2 / n.total_area_m2;
  const double window_share = n.windows_w_per_k / (mass_to_surface_w_per_m2_k * n.total_area_m2);
  return {0.5 * hour.internal_gain_w, (1.0 - mass_share - window_share) * spread_w, mass_share * spread_w};
}

RoomState room_hour(const RoomNetwork& network, const RoomHour& hour, double mass_start_c) {
  const RoomGains gains = room_gains(network, hour);
  const FromMass seen = from_mass(network, hour, gains);
  const double storing_w_per_k = network.capacity_j_per_k / seconds_per_hour;
  const double half_losing_w_per_k = 0.5 * (seen.h3_w_per_k + network.mass_to_outside_w_per_k);
  RoomState state{};
  state.total_mass_gain_w = seen.gain_w;
  state.mass_end_c =
      (mass_start_c * (storing_w_per_k - half_losing_w_per_k) + seen.gain_w) / (storing_w_per_k + half_losing_w_per_k);
  state.mass_c = 0.5 * (mass_start_c + state.mass_end_c);
  state.surface_c = surface_c(network, hour, gains, seen.h1_w_per_k, state.mass_c);
  state.air_c = air_c(network, hour, gains, state.surface_c);
  state.operative_c = 0.3 * state.air_c + 0.7 * state.surface_c;
  return state;
}

RoomLimit room_limit(const RoomNetwork& network, const RoomHour& hour) {
  const RoomGains gains = room_gains(network, hour);
  const FromMass seen = from_mass(network, hour, gains);
  const double losing_w_per_k = seen.h3_w_per_k + network.mass_to_outside_w_per_k;
  RoomLimit limit{};
  limit.mass_c = seen.gain_w / losing_w_per_k;
  limit.surface_c = surface_c(network, hour, gains, seen.h1_w_per_k, limit.mass_c);
  limit.air_c = air_c(network, hour, gains, limit.surface_c);
  limit.time_constant_h = network.capacity_j_per_k / losing_w_per_k / seconds_per_hour;
  return limit;
}

}  // namespace houseleek::physics
