// Rooms and partitions of a design as the stepper sees them (docs/equations/covers.md).
#include "simulation/cover_rooms.hpp"

#include <map>

#include "base/contract.hpp"
#include "climate/facade.hpp"
#include "physics/build_up.hpp"

namespace houseleek::simulation {
namespace {

constexpr double surface_film_w_per_m2_k = 9.1;        // h_ms
constexpr double surface_to_air_w_per_m2_k = 3.45;     // h_is
constexpr double surfaces_per_floor = 4.5;             // A_t/A_f
constexpr double oblique_glass_frac = 0.9;             // F_w: glass lets less through aslant
constexpr double largest_share_of_surface_film = 0.5;  // of H_ms that walls may take
constexpr int day_from_hour = 7;
constexpr int day_to_hour = 22;

struct MassClass {
  double area_per_floor = 2.5;
  double capacity_j_per_m2_k = 165.0e3;
};

MassClass mass_class(design::ThermalMass mass) {
  switch (mass) {
    case design::ThermalMass::very_light:
      return {2.5, 80.0e3};
    case design::ThermalMass::light:
      return {2.5, 110.0e3};
    case design::ThermalMass::medium:
      return {2.5, 165.0e3};
    case design::ThermalMass::heavy:
      return {3.0, 260.0e3};
    case design::ThermalMass::very_heavy:
      return {3.5, 370.0e3};
  }
  expects(false, "a class of the list");
  return {};
}

/// Irradiance of facades, each bearing worked out once.
class Facades {
 public:
  explicit Facades(const climate::WeatherYear& weather) : weather_(weather) {}
  const std::vector<double>& at(double facing_deg) {
    const auto found = by_bearing_.find(facing_deg);
    if (found != by_bearing_.end()) return found->second;
    return by_bearing_.emplace(facing_deg, climate::facade_irradiance_w_per_m2(weather_, facing_deg)).first->second;
  }

 private:
  const climate::WeatherYear& weather_;
  std::map<double, std::vector<double>> by_bearing_;
};

void add_sun(const std::vector<double>& facade_w_per_m2, double area_m2, std::vector<double>& gain_w) {
  if (area_m2 == 0.0) return;
  for (std::size_t hour = 0; hour < gain_w.size(); ++hour) gain_w[hour] += area_m2 * facade_w_per_m2[hour];
}

std::vector<double> solar_gain_w(const design::Room& room, const climate::WeatherYear& weather, Facades& facades) {
  std::vector<double> gain_w(static_cast<std::size_t>(weather.n_hours()), 0.0);
  for (const design::Window& window : room.windows) {
    const double collecting_m2 = window.area_m2 * window.g_value * (1.0 - window.shading_frac) * oblique_glass_frac;
    add_sun(facades.at(window.facing_deg), collecting_m2, gain_w);
  }
  for (const design::Wall& wall : room.walls) {
    const double collecting_m2 = wall.area_m2 * wall.solar_absorptance * wall.u_value_w_per_m2_k *
                                 physics::outside_surface_resistance_m2_k_per_w;
    add_sun(facades.at(wall.facing_deg), collecting_m2, gain_w);
  }
  return gain_w;
}

/// Conductances of walls and windows.
void set_envelope(const design::Room& spec, Room& room) {
  double walls_w_per_k = 0.0;
  for (const design::Wall& wall : spec.walls) walls_w_per_k += wall.u_value_w_per_m2_k * wall.area_m2;
  for (const design::Window& window : spec.windows) room.window_w_per_k += window.u_value_w_per_m2_k * window.area_m2;
  // Walls in series with the film of the mass must leave that film some of the way; what they lose beyond goes as
  // glass does, past the mass.
  const double most_w_per_k = largest_share_of_surface_film * room.mass_to_surface_w_per_k;
  if (walls_w_per_k > most_w_per_k) {
    room.window_w_per_k += walls_w_per_k - most_w_per_k;
    walls_w_per_k = most_w_per_k;
  }
  if (walls_w_per_k > 0.0)
    room.mass_to_outside_w_per_k = 1.0 / (1.0 / walls_w_per_k - 1.0 / room.mass_to_surface_w_per_k);
}

/// Whole hours; a span of less than half an hour is no opening at all.
WindowRule window_rule(const design::WindowRule& given) {
  WindowRule rule;
  rule.open_above_c = given.open_above_c;
  rule.extra_per_h = given.opening_per_h;
  rule.from_hour = static_cast<int>(given.from_hour + 0.5) % 24;
  rule.to_hour = static_cast<int>(given.to_hour + 0.5);
  rule.only_when_outside_cooler = given.only_when_outside_cooler;
  const double wrapped_h = given.to_hour - given.from_hour + (given.to_hour < given.from_hour ? 24.0 : 0.0);
  // The stepper takes equal hours as the whole day.
  if (rule.from_hour == rule.to_hour % 24 && wrapped_h > 0.0 && wrapped_h < 12.0) rule.extra_per_h = 0.0;
  return rule;
}

}  // namespace

std::vector<Room> make_rooms(const design::Design& design, const climate::WeatherYear& weather,
                             const std::vector<double>& ceiling_m2, bool is_held) {
  expects(ceiling_m2.size() == design.rooms.size(), "one ceiling area a room");
  Facades facades(weather);
  std::vector<Room> rooms;
  for (std::size_t i = 0; i < design.rooms.size(); ++i) {
    const design::Room& spec = design.rooms[i];
    const MassClass mass = mass_class(spec.thermal_mass);
    const double floor_m2 = geometry::area_m2(spec.outline);
    Room room;
    room.name = spec.name;
    room.floor_area_m2 = floor_m2;
    room.volume_m3 = floor_m2 * spec.height_m;
    room.mass_area_m2 = mass.area_per_floor * floor_m2;
    room.total_surface_m2 = surfaces_per_floor * floor_m2;
    room.heat_capacity_j_per_k = mass.capacity_j_per_m2_k * floor_m2;
    room.mass_to_surface_w_per_k = surface_film_w_per_m2_k * room.mass_area_m2;
    room.surface_to_air_w_per_k = surface_to_air_w_per_m2_k * (room.total_surface_m2 - ceiling_m2[i]);
    set_envelope(spec, room);
    room.infiltration_per_h = spec.infiltration_per_h;
    room.window_rule = window_rule(spec.window_rule);
    for (int hour = 0; hour < 24; ++hour) {
      const bool is_day = hour >= day_from_hour && hour < day_to_hour;
      room.internal_gain_w[static_cast<std::size_t>(hour)] = is_day ? spec.gains_day_w : spec.gains_night_w;
    }
    room.solar_gain_w = solar_gain_w(spec, weather, facades);
    room.is_held = is_held;
    room.heat_below_c = spec.heat_to_c;
    room.cool_above_c = spec.cool_to_c;
    rooms.push_back(std::move(room));
  }
  return rooms;
}

std::vector<Partition> make_partitions(const design::Design& design) {
  std::vector<Partition> partitions;
  for (const design::Partition& one : design.partitions) {
    partitions.push_back({one.room_a, one.room_b, one.area_m2 * one.u_value_w_per_m2_k});
  }
  return partitions;
}

}  // namespace houseleek::simulation
