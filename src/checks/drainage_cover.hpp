// What stands on a square, as the water sees it: how much it holds and how much it carries.
#pragma once

namespace houseleek::checks {

/// What stands on a square, as the water sees it. A bare square keeps the defaults.
struct SquareCover {
  double open_frac = 1.0;  // of the width and area that no module covers
  double open_roughness_s_per_m13 = 0.02;
  double gap_m = 0.0;     // under the module, silt taken off
  double gap_frac = 0.0;  // of the covered width that spacers leave free
  double gap_roughness_s_per_m13 = 0.02;
  double dam_x_m = 0.0;  // slats on the deck that water along x must climb
  double dam_y_m = 0.0;
  double module_m = 0.0;   // thickness above the gap
  double pore_frac = 1.0;  // of the module that water still finds empty
  double layer_m = 0.0;    // of a coarse layer on the deck; 0: none
  double layer_conductivity_m_per_s = 0.0;
  bool operator==(const SquareCover&) const = default;
};

/// Volume that a depth stands for on a square of this area, and the depth of a volume.
[[nodiscard]] double volume_m3(const SquareCover& cover, double area_m2, double depth_m);
[[nodiscard]] double depth_m(const SquareCover& cover, double area_m2, double volume_m3);

/// How fast the volume grows with the depth.
[[nodiscard]] double volume_by_depth_m2(const SquareCover& cover, double area_m2, double depth_m);

/// h^(5/3) and its slope without the factor 5/3.
struct SheetPower {
  double five_thirds = 0.0;
  double two_thirds = 0.0;
};
[[nodiscard]] SheetPower sheet_power(double depth_m);

struct Grown {
  double value = 0.0;
  double slope = 0.0;  // by depth
};

/// What a cover carries one way, worked out once: k(h) = open h^(5/3) + gap (min(h, g) - dam)^(5/3) + over (h - roof)^(5/3),
/// and K h of a coarse layer.
struct Carrying {
  double open = 0.0;
  double gap = 0.0;
  double gap_m = 0.0;
  double dam_m = 0.0;
  double full_gap = 0.0;  // what the gap carries once it is full
  double over = 0.0;
  double roof_m = 0.0;  // upper side of the module
  double layer_m_per_s = 0.0;
  double layer_m = 0.0;
  bool operator==(const Carrying&) const = default;
};

enum class Way { along_x, along_y };
[[nodiscard]] Carrying carrying_of(const SquareCover& cover, Way way);

/// k(h): what the open part, the gap and the water above the module carry at a slope of one; `power` is that of h.
[[nodiscard]] inline Grown conveyance(const Carrying& carrying, double depth_m, const SheetPower& power) {
  constexpr double by_depth = 5.0 / 3.0;
  double factor = carrying.open;
  Grown sum;
  if (carrying.gap > 0.0) {
    if (depth_m >= carrying.gap_m) {
      sum.value = carrying.full_gap;
    } else if (carrying.dam_m == 0.0) {
      factor += carrying.gap;
    } else {
      const SheetPower over_dam = sheet_power(depth_m - carrying.dam_m);
      sum = {carrying.gap * over_dam.five_thirds, by_depth * carrying.gap * over_dam.two_thirds};
    }
  }
  sum.value += factor * power.five_thirds;
  sum.slope += by_depth * factor * power.two_thirds;
  if (carrying.over > 0.0 && depth_m > carrying.roof_m) {
    const SheetPower over = sheet_power(depth_m - carrying.roof_m);
    sum.value += carrying.over * over.five_thirds;
    sum.slope += by_depth * carrying.over * over.two_thirds;
  }
  return sum;
}

/// K d: what a coarse layer on the deck carries at a slope of one.
[[nodiscard]] inline Grown layer_conveyance(const Carrying& carrying, double depth_m) {
  return {carrying.layer_m_per_s * (depth_m < carrying.layer_m ? depth_m : carrying.layer_m),
          depth_m < carrying.layer_m ? carrying.layer_m_per_s : 0.0};
}

}  // namespace houseleek::checks
