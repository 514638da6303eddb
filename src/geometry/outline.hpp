// Outlines on the plan of a roof: area, crossings, what lies inside what; exact on a grid of 0.1 mm.
#pragma once
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace houseleek::geometry {

/// A point on the plan; x to the right, y upwards.
struct PointM {
  double x_m = 0.0;
  double y_m = 0.0;
  bool operator==(const PointM&) const = default;
};

/// Corners of a closed outline in order, the first not repeated at the end.
using Outline = std::vector<PointM>;

/// A rectangle whose sides are parallel to the axes of the plan.
struct RectangleM {
  double left_m = 0.0;
  double bottom_m = 0.0;
  double right_m = 0.0;
  double top_m = 0.0;
  bool operator==(const RectangleM&) const = default;
};

/// Area inside the outline, positive whichever way round the corners run.
[[nodiscard]] double area_m2(std::span<const PointM> outline);

/// Two sides (by index of their first corner) that cross, overlap or touch where they should not; none if simple.
[[nodiscard]] std::optional<std::pair<int, int>> find_crossing(std::span<const PointM> outline);

/// True if the point lies inside or on the border.
[[nodiscard]] bool contains(std::span<const PointM> outline, PointM point);

/// Areas below this count as none: 1 mm2.
inline constexpr double least_area_m2 = 1e-6;

/// Area that two simple outlines share.
/// Equation: sum over sides i of a and j of b of s_i s_j |T_i n T_j|, T the triangle of a side with one fixed point,
///           s its sign: the signed triangles of an outline add up to its inside.
/// Shape:    corners in either sense; symmetric in a and b.
/// Units:    m2. Errors: rounding only, about 1e-12 of the boxes' area for each pair of sides.
[[nodiscard]] double overlap_area_m2(std::span<const PointM> a, std::span<const PointM> b);
[[nodiscard]] double overlap_area_m2(std::span<const PointM> outline, const RectangleM& rectangle);

/// True if no part of the rectangle lies outside the outline; touching the border is inside.
[[nodiscard]] bool is_inside(std::span<const PointM> outline, const RectangleM& rectangle);

/// True if the two share area (touching borders share none).
[[nodiscard]] bool is_overlapping(const RectangleM& a, const RectangleM& b);
[[nodiscard]] bool is_overlapping(std::span<const PointM> outline, const RectangleM& rectangle);

/// True if the two simple outlines share area.
[[nodiscard]] bool is_overlapping(std::span<const PointM> a, std::span<const PointM> b);

/// True if no part of the simple outline `inner` lies outside the simple outline `outer`.
[[nodiscard]] bool is_inside(std::span<const PointM> outer, std::span<const PointM> inner);

[[nodiscard]] Outline outline_from_rectangle(const RectangleM& rectangle);

}  // namespace houseleek::geometry
