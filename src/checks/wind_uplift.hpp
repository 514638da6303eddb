// Suction and lift on each module against its dry weight: at which gust it is no longer shown to stay. Screening only.
#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "physics/wind_pressure.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

// EN 1990 set A: what holds down and what lifts.
inline constexpr double holding_factor = 0.9;
inline constexpr double lifting_factor = 1.5;

/// Pressure from below on a raised module with open edges, as a share of the peak pressure: nothing, half, or the whole
/// of what stands against a wall (zone D on a small area).
inline constexpr results::Interval pressure_below = {0.0, 0.5, 1.0};

/// Modules that are tied together lift only together.
inline constexpr std::array<int, 2> linked_counts = {4, 9};

/// Plain columns, one row a module in the order of the design.
struct ModuleWind {
  int module = 0;
  std::array<physics::RoofZone, 4> zones{};  // wind from the left, from below, from the right, from above on the plan
  double suction = 0.0;                      // greatest of the four, on the module's own area
  results::Interval below;                   // pressure from below, by placing and edges
  results::Interval dry_kn_per_m2;           // without the plants' water: plants left out
  results::Interval gust_km_per_h;           // above it not shown to stay: low end is the one to go by
  std::array<double, 2> linked_gust_km_per_h{};        // low ends with 4 and 9 like it tied together
  std::optional<results::Interval> ballast_kg_per_m2;  // more weight that holds it in the gust of the place
};

struct WindUplift {
  std::optional<double> peak_pressure_kn_per_m2;  // of the place, where the design says enough
  std::optional<double> gust_of_place_km_per_h;
  double parapet_over_height = 0.0;
  double edge_m = 0.0;               // e = min(b, 2 h), the greater of both ways
  std::vector<std::string> assumed;  // what was taken because the design does not say
  std::vector<ModuleWind> modules;
  std::vector<std::string> not_counted;
  std::string statement;
};

/// Uplift by zones.
/// Equation: holds while 0.9 w >= 1.5 (c_up + c_below) q; gust = sqrt(2 q/rho). Zones from each of four directions on the
///           rectangle round the roof, and on other shapes from the nearest side and corner too; a module in two zones has
///           the severer. Linked: c_up on the area of all, the same weight
/// Symbols:  w: dry weight; c: see physics::roof_suction
/// Shape:    design in; pure.
/// Units:    kN/m2, km/h at roof height.
/// Valid:    screening; flat roofs; no relief for raised or open modules; nets, containers and trees are not looked at.
/// Errors:   none; what the design leaves out is taken at its severest and listed.
/// Source:   [en1991_1_4] 7.2.3, [en1990] A1.2(A); pressure from below: our own estimate.
/// Checked by: tests/checks/wind_uplift_test.cpp.
[[nodiscard]] WindUplift check_wind_uplift(const design::ValidDesign& design);

/// What this check assumes with a range. What it takes at its severest stands in WindUplift::assumed.
[[nodiscard]] std::vector<design::Assumption> assumed_wind(const design::ValidDesign& design);

}  // namespace houseleek::checks
