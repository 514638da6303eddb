// kN/m2 on each square of the roof: plain columns for a map.
#include "checks/load_map.hpp"

#include <algorithm>

#include "checks/footprints.hpp"

namespace houseleek::checks {
namespace {

double shared_m2(const geometry::RectangleM& a, const geometry::RectangleM& b) {
  const double width_m = std::min(a.right_m, b.right_m) - std::max(a.left_m, b.left_m);
  const double height_m = std::min(a.top_m, b.top_m) - std::max(a.bottom_m, b.bottom_m);
  return width_m > 0.0 && height_m > 0.0 ? width_m * height_m : 0.0;
}

}  // namespace

LoadMap make_load_map(const design::ValidDesign& design, double side_m) {
  LoadMap map;
  map.squares = plan::cut_squares(design->roof, side_m);
  const std::vector<Footprint> footprints = find_footprints(design);
  const double square_m2 = side_m * side_m;
  for (std::size_t i = 0; i < map.squares.left_m.size(); ++i) {
    const geometry::RectangleM square{map.squares.left_m[i], map.squares.bottom_m[i], map.squares.left_m[i] + side_m,
                                      map.squares.bottom_m[i] + side_m};
    double dry_kn = 0.0, drained_kn = 0.0, low_kn = 0.0, soaked_kn = 0.0, high_kn = 0.0, covered_m2 = 0.0;
    for (const Footprint& one : footprints) {
      const double on_square_m2 = shared_m2(one.rectangle, square);
      if (on_square_m2 == 0.0) continue;
      const double share = on_square_m2 / area_m2(one);
      dry_kn += share * one.dry_kn.likely;
      drained_kn += share * one.drained_kn.likely;
      low_kn += share * one.soaked_kn.low;
      soaked_kn += share * one.soaked_kn.likely;
      high_kn += share * one.soaked_kn.high;
      covered_m2 += on_square_m2;
    }
    map.dry_kn_per_m2.push_back(dry_kn / square_m2);
    map.drained_kn_per_m2.push_back(drained_kn / square_m2);
    map.soaked_low_kn_per_m2.push_back(low_kn / square_m2);
    map.soaked_kn_per_m2.push_back(soaked_kn / square_m2);
    map.soaked_high_kn_per_m2.push_back(high_kn / square_m2);
    map.covered_m2.push_back(covered_m2);
  }
  return map;
}

}  // namespace houseleek::checks
