// [roof]: its plan, what it is made of, what stands on it, what it may carry.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "catalogue/material.hpp"
#include "design/structure.hpp"
#include "geometry/outline.hpp"

namespace houseleek::design {

/// A layer of a build-up with the material looked up (the design's own entry before the catalogue's).
struct Layer {
  std::string material_name;
  double thickness_mm = 0.0;
  catalogue::Material material;
  bool operator==(const Layer&) const = default;
};

struct Finish {
  std::string name;  // empty if the person gave numbers
  double albedo = 0.0;
  double emissivity = 0.0;
  bool operator==(const Finish&) const = default;
};

struct Outlet {
  std::string name;
  geometry::PointM at;
  double diameter_mm = 0.0;
  bool has_grate = true;                   // or a strainer: halves what it takes
  std::optional<double> pipe_diameter_mm;  // of the pipe below; absent: it takes what the outlet takes
  double rim_mm = 0.0;                     // of the outlet above the deck beside it
  bool operator==(const Outlet&) const = default;
};

/// Something no module can stand on: hatch, tank, chimney.
struct Obstacle {
  std::string name;
  geometry::Outline outline;
  double height_mm = 0.0;
  ObstacleKind kind = ObstacleKind::other;
  bool operator==(const Obstacle&) const = default;
};

/// Where a puddle stays after rain.
struct Hollow {
  std::string name;
  geometry::Outline outline;
  double depth_mm = 0.0;  // of the puddle at its deepest
  bool operator==(const Hollow&) const = default;
};

/// What an engineer wrote down. Anything missing: weights, no verdict.
struct AllowableLoad {
  std::optional<double> load_kn_per_m2;
  std::string who;
  std::string when;                         // as written
  std::string includes;                     // what the figure already covers: tank, screed, people
  std::optional<double> averaging_area_m2;  // absent: every square on its own
  std::optional<bool> is_by_turns;          // may stand on some spans and not on others; absent: not known
  std::optional<LoadDuration> duration;     // of the load it was made for: timber carries more for a short time
  bool is_snow_apart = false;               // snow is carried besides the figure, not out of it
  bool are_people_apart = false;
  bool is_rain_apart = false;  // ponded rain and hail
  bool operator==(const AllowableLoad&) const = default;
};

struct Roof {
  geometry::Outline outline;
  double north_deg = 0.0;  // compass bearing of the plan's y axis: 0 if it points north, 90 if east
  std::optional<double> fall_mm_per_m;
  std::optional<double> fall_towards_deg;  // compass bearing downhill; there whenever the fall is
  std::optional<double> parapet_height_mm;
  Finish finish;
  std::vector<Layer> deck;  // from the membrane down to the ceiling
  std::vector<Outlet> outlets;
  std::vector<Obstacle> obstacles;
  std::vector<Hollow> hollows;
  std::optional<AllowableLoad> allowable_load;
  std::optional<Structure> structure;
  Bearing bearing;
  Actions actions;
  ClearStrips clear_strips;
  bool operator==(const Roof&) const = default;
};

}  // namespace houseleek::design
