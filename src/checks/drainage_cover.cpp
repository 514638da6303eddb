// What stands on a square, as the water sees it: how much it holds and how much it carries.
#include "checks/drainage_cover.hpp"

#include <algorithm>

#include "numerics/elementary.hpp"

namespace houseleek::checks {

double volume_m3(const SquareCover& cover, double area_m2, double depth) {
  const double under_m = std::min(depth, cover.gap_m);
  const double inside_m = std::clamp(depth - cover.gap_m, 0.0, cover.module_m);
  const double over_m = std::max(0.0, depth - cover.gap_m - cover.module_m);
  return area_m2 *
         (cover.open_frac * depth + (1.0 - cover.open_frac) * (under_m + cover.pore_frac * inside_m + over_m));
}

double depth_m(const SquareCover& cover, double area_m2, double volume) {
  const double sheet_m = volume / area_m2;  // mean over the square
  if (sheet_m <= cover.gap_m) return sheet_m;
  const double inside_frac = cover.open_frac + (1.0 - cover.open_frac) * cover.pore_frac;
  const double inside_m = (sheet_m - cover.gap_m) / inside_frac;
  if (inside_m <= cover.module_m) return cover.gap_m + inside_m;
  return sheet_m + cover.module_m * (1.0 - inside_frac);
}

double volume_by_depth_m2(const SquareCover& cover, double area_m2, double depth_m) {
  const double covered_frac = 1.0 - cover.open_frac;
  const double in_module_m = depth_m - cover.gap_m;
  const bool is_in_pores = in_module_m > 0.0 && in_module_m < cover.module_m;
  return area_m2 * (cover.open_frac + covered_frac * (is_in_pores ? cover.pore_frac : 1.0));
}

SheetPower sheet_power(double depth_m) {
  if (depth_m <= 0.0) return {};
  const double root = numerics::cbrt(depth_m);
  const double squared = root * root;
  return {depth_m * squared, squared};
}

Carrying carrying_of(const SquareCover& cover, Way way) {
  Carrying made;
  const double covered_frac = std::max(0.0, 1.0 - cover.open_frac);
  made.open = cover.open_frac / cover.open_roughness_s_per_m13;
  made.gap_m = cover.gap_m;
  made.dam_m = way == Way::along_x ? cover.dam_x_m : cover.dam_y_m;
  made.roof_m = cover.gap_m + cover.module_m;
  if (cover.gap_m > made.dam_m && cover.gap_frac > 0.0) {
    made.gap = covered_frac * cover.gap_frac / cover.gap_roughness_s_per_m13;
    made.full_gap = made.gap * sheet_power(cover.gap_m - made.dam_m).five_thirds;
  }
  made.over = covered_frac / cover.open_roughness_s_per_m13;
  if (cover.layer_m > 0.0 && covered_frac > 0.0) {
    made.layer_m = cover.layer_m;
    made.layer_m_per_s = covered_frac * cover.layer_conductivity_m_per_s;
  }
  return made;
}

}  // namespace houseleek::checks
