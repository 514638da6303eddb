// How far things on the plan are apart, and bands along the sides of an outline.
#pragma once
#include <span>
#include <vector>

#include "geometry/outline.hpp"

namespace houseleek::geometry {

/// Least distance between two rectangles; 0 where they touch or overlap.
[[nodiscard]] double distance_m(const RectangleM& a, const RectangleM& b);

/// Least distance from the rectangle to the sides of the outline; 0 where a side touches or crosses it. A rectangle that
/// lies inside has the distance to the nearest side, as one outside has.
[[nodiscard]] double distance_to_sides_m(std::span<const PointM> outline, const RectangleM& rectangle);

/// One rectangle along each side, reaching `reach_m` to both sides of it and past both its ends: together they hold
/// every point nearer than that to the outline, and at corners a little more.
[[nodiscard]] std::vector<Outline> bands_along(std::span<const PointM> outline, double reach_m);

}  // namespace houseleek::geometry
