// The heaviest square of a given side anywhere on a plan of loaded rectangles.
#pragma once
#include <span>

#include "geometry/outline.hpp"

namespace houseleek::checks {

struct LoadedRectangle {
  geometry::RectangleM rectangle;
  double load_kn_per_m2 = 0.0;
};

struct HeaviestMean {
  double load_kn_per_m2 = 0.0;
  geometry::RectangleM square;
};

/// Greatest mean load over a square of this side.
/// Equation: the mean is piecewise linear in each coordinate of the square, so its greatest value stands where sides of
///           the square meet sides of rectangles
/// Shape:    any rectangles that do not overlap; pure.   Units: m, kN/m2.
[[nodiscard]] HeaviestMean find_heaviest_mean(std::span<const LoadedRectangle> loaded, double side_m);

}  // namespace houseleek::checks
