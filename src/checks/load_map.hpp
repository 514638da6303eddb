// kN/m2 on each square of the roof: plain columns for a map.
#pragma once
#include <vector>

#include "design/parse.hpp"
#include "plan/squares.hpp"

namespace houseleek::checks {

/// One row a square, in the order of the squares; load of the whole square over its whole area.
struct LoadMap {
  plan::Squares squares;
  std::vector<double> dry_kn_per_m2;
  std::vector<double> drained_kn_per_m2;
  std::vector<double> soaked_kn_per_m2;
  std::vector<double> soaked_low_kn_per_m2;
  std::vector<double> soaked_high_kn_per_m2;
  std::vector<double> covered_m2;  // of the square, under modules and containers
};

/// Conserves: the sum of load times area is the whole weight, to rounding, wherever modules lie.
[[nodiscard]] LoadMap make_load_map(const design::ValidDesign& design, double side_m);

}  // namespace houseleek::checks
