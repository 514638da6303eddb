// Areas of rectangles taken together inside an outline, and how long their common edge is.
#pragma once
#include <span>
#include <vector>

#include "geometry/outline.hpp"

namespace houseleek::plan {

/// The rectangle with every side moved outwards, or inwards where negative; without area if nothing is left.
[[nodiscard]] geometry::RectangleM grown(const geometry::RectangleM& rectangle, double by_m);

[[nodiscard]] double area_m2(const geometry::RectangleM& rectangle);

/// Area inside the outline that at least one of the rectangles covers.
/// Equation: sum over upright slabs between neighbouring sides of the merged intervals, each cut with the outline
/// Shape:    any number of rectangles in any order, the order changes no bit; overlaps count once.
/// Units:    m2. Errors: rounding only.
[[nodiscard]] double union_area_m2(std::span<const geometry::RectangleM> rectangles,
                                   std::span<const geometry::PointM> outline);

/// How far the edge of an area is moved to measure its length.
inline constexpr double edge_step_m = 0.001;

/// Length inside the outline of the edge of all rectangles taken together, each grown by `by_m` first.
/// Equation: (A(by + 1 mm) - A(by))/1 mm; each free corner adds 1 mm
/// Shape:    as union_area_m2.   Units: m.
[[nodiscard]] double union_edge_m(std::span<const geometry::RectangleM> rectangles,
                                  std::span<const geometry::PointM> outline, double by_m);

}  // namespace houseleek::plan
