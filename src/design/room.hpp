// [[room]] and [[partition]]: the rooms right under the roof.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "geometry/outline.hpp"

namespace houseleek::design {

/// Classes of the simple hourly room of ISO 13790.
enum class ThermalMass { very_light, light, medium, heavy, very_heavy };

struct Wall {
  double area_m2 = 0.0;  // windows not included; from length_m and the room's height if the person gave a length
  double u_value_w_per_m2_k = 0.0;
  double facing_deg = 0.0;  // compass bearing that the outer face looks to
  double solar_absorptance = 0.0;
  bool operator==(const Wall&) const = default;
};

struct Window {
  double area_m2 = 0.0;
  double u_value_w_per_m2_k = 0.0;
  double g_value = 0.0;
  double facing_deg = 0.0;
  double shading_frac = 0.0;  // share of the sun kept off by shutters, overhang, trees
  bool operator==(const Window&) const = default;
};

/// Windows are opened while all parts hold. Hours are local standard time; from 22 to 7 runs over midnight.
struct WindowRule {
  double open_above_c = 0.0;   // inside air
  double opening_per_h = 0.0;  // air changes by the open windows
  double from_hour = 0.0;
  double to_hour = 24.0;
  bool only_when_outside_cooler = true;
  bool operator==(const WindowRule&) const = default;
};

struct Fan {
  double air_speed_m_per_s = 0.0;
  double power_w = 0.0;
  bool operator==(const Fan&) const = default;
};

struct Room {
  std::string name;
  geometry::Outline outline;  // the part under the roof
  double height_m = 0.0;
  ThermalMass thermal_mass = ThermalMass::medium;
  std::vector<Wall> walls;
  std::vector<Window> windows;
  double infiltration_per_h = 0.0;
  WindowRule window_rule;      // opening_per_h 0: never opened
  double gains_day_w = 0.0;    // people and appliances, 07 to 22 h
  double gains_night_w = 0.0;  // 22 to 07 h
  std::optional<Fan> fan;
  double heat_to_c = 0.0;  // for the figure with machines only
  double cool_to_c = 0.0;
  bool is_bedroom = false;
  bool operator==(const Room&) const = default;
};

struct Partition {
  int room_a = 0;  // index into Design::rooms
  int room_b = 0;
  double area_m2 = 0.0;
  double u_value_w_per_m2_k = 0.0;
  bool operator==(const Partition&) const = default;
};

}  // namespace houseleek::design
