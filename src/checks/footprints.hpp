// Everything that stands on the roof for good: modules and containers, each with its place and its weight.
#pragma once
#include <vector>

#include "design/parse.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

/// One module or one container.
struct Footprint {
  geometry::RectangleM rectangle;
  int module = -1;     // index into Design::modules, or -1
  int container = -1;  // index into Design::containers, or -1
  results::Interval dry_kn;
  results::Interval drained_kn;
  results::Interval soaked_kn;
};

[[nodiscard]] inline double area_m2(const Footprint& one) {
  return (one.rectangle.right_m - one.rectangle.left_m) * (one.rectangle.top_m - one.rectangle.bottom_m);
}

/// Modules in the order of the design, then containers. A round container is the square of the same area and middle.
[[nodiscard]] std::vector<Footprint> find_footprints(const design::ValidDesign& design);

/// A module of this recipe wherever it may be laid: weights as of its fellows, no place yet.
[[nodiscard]] Footprint make_module_footprint(const design::ValidDesign& design, int recipe, design::Placed placed);

}  // namespace houseleek::checks
