// Outlines on the plan of a roof: area, crossings, what lies inside what; exact on a grid of 0.1 mm.
#include "geometry/outline.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

namespace houseleek::geometry {
namespace {

constexpr double grid_per_m = 1e4;  // 0.1 mm; with coordinates below 10 km the products below stay exact in 64 bits

struct GridPoint {
  std::int64_t x = 0;
  std::int64_t y = 0;
  bool operator==(const GridPoint&) const = default;
};

GridPoint grid_from(PointM point) {
  return {static_cast<std::int64_t>(std::llround(point.x_m * grid_per_m)),
          static_cast<std::int64_t>(std::llround(point.y_m * grid_per_m))};
}

/// Positive if c lies left of the way from a to b, 0 on its line.
int turn_of(GridPoint a, GridPoint b, GridPoint c) {
  const std::int64_t twice_area = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  return twice_area > 0 ? 1 : twice_area < 0 ? -1 : 0;
}

/// For a point on the line of a and b: lies between them, ends included.
bool is_between(GridPoint a, GridPoint b, GridPoint point) {
  return point.x >= std::min(a.x, b.x) && point.x <= std::max(a.x, b.x) && point.y >= std::min(a.y, b.y) &&
         point.y <= std::max(a.y, b.y);
}

bool is_on_side(GridPoint a, GridPoint b, GridPoint point) {
  return turn_of(a, b, point) == 0 && is_between(a, b, point);
}

bool is_meeting(GridPoint a, GridPoint b, GridPoint c, GridPoint d) {
  const int c_turn = turn_of(a, b, c);
  const int d_turn = turn_of(a, b, d);
  const int a_turn = turn_of(c, d, a);
  const int b_turn = turn_of(c, d, b);
  if (c_turn * d_turn < 0 && a_turn * b_turn < 0) return true;
  return (c_turn == 0 && is_between(a, b, c)) || (d_turn == 0 && is_between(a, b, d)) ||
         (a_turn == 0 && is_between(c, d, a)) || (b_turn == 0 && is_between(c, d, b));
}

double signed_area_m2(std::span<const PointM> outline) {
  double twice_m2 = 0.0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PointM& a = outline[i];
    const PointM& b = outline[(i + 1) % outline.size()];
    // From the first corner: far from the origin the plain products would cancel.
    twice_m2 +=
        (a.x_m - outline[0].x_m) * (b.y_m - outline[0].y_m) - (b.x_m - outline[0].x_m) * (a.y_m - outline[0].y_m);
  }
  return 0.5 * twice_m2;
}

using Triangle = std::array<PointM, 3>;

double turn_m2(PointM a, PointM b, PointM c) {
  return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

/// A convex piece; a triangle cut by three lines has at most six corners.
struct Piece {
  std::array<PointM, 8> corners{};
  std::size_t n_corners = 0;
  void add(PointM point) { corners[n_corners++] = point; }
};

/// Keeps what lies left of the way from a to b.
Piece cut(const Piece& piece, PointM a, PointM b) {
  Piece kept;
  for (std::size_t i = 0; i < piece.n_corners; ++i) {
    const PointM from = piece.corners[i];
    const PointM to = piece.corners[(i + 1) % piece.n_corners];
    const double from_turn = turn_m2(a, b, from);
    const double to_turn = turn_m2(a, b, to);
    if (from_turn >= 0.0) kept.add(from);
    if ((from_turn > 0.0 && to_turn < 0.0) || (from_turn < 0.0 && to_turn > 0.0)) {
      const double share = from_turn / (from_turn - to_turn);
      kept.add({from.x_m + share * (to.x_m - from.x_m), from.y_m + share * (to.y_m - from.y_m)});
    }
  }
  return kept;
}

/// Area that two triangles share, both with corners counter-clockwise.
double shared_area_m2(const Triangle& a, const Triangle& b) {
  Piece piece;
  for (const PointM& corner : a) piece.add(corner);
  for (std::size_t i = 0; i < 3 && piece.n_corners > 0; ++i) piece = cut(piece, b[i], b[(i + 1) % 3]);
  if (piece.n_corners < 3) return 0.0;
  return std::max(0.0, signed_area_m2(std::span(piece.corners).first(piece.n_corners)));
}

struct SignedTriangle {
  Triangle corners{};
  double sign = 1.0;
};

std::vector<SignedTriangle> triangles_of(std::span<const PointM> outline, PointM from) {
  std::vector<SignedTriangle> triangles;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PointM a = outline[i];
    const PointM b = outline[(i + 1) % outline.size()];
    const double turn = turn_m2(from, a, b);
    if (turn > 0.0) triangles.push_back({{from, a, b}, 1.0});
    if (turn < 0.0) triangles.push_back({{from, b, a}, -1.0});
  }
  return triangles;
}

RectangleM box_of(std::span<const PointM> outline) {
  RectangleM box{outline[0].x_m, outline[0].y_m, outline[0].x_m, outline[0].y_m};
  for (const PointM& point : outline) {
    box.left_m = std::min(box.left_m, point.x_m);
    box.right_m = std::max(box.right_m, point.x_m);
    box.bottom_m = std::min(box.bottom_m, point.y_m);
    box.top_m = std::max(box.top_m, point.y_m);
  }
  return box;
}

}  // namespace

double area_m2(std::span<const PointM> outline) { return outline.empty() ? 0.0 : std::fabs(signed_area_m2(outline)); }

std::optional<std::pair<int, int>> find_crossing(std::span<const PointM> outline) {
  std::vector<GridPoint> corners;
  for (const PointM& point : outline) corners.push_back(grid_from(point));
  const std::size_t n = corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const GridPoint a = corners[i];
    const GridPoint b = corners[(i + 1) % n];
    if (a == b) return std::pair{static_cast<int>(i), static_cast<int>((i + 1) % n)};
    for (std::size_t j = i + 1; j < n; ++j) {
      const GridPoint c = corners[j];
      const GridPoint d = corners[(j + 1) % n];
      const bool is_next = j == i + 1;
      const bool is_last = i == 0 && j + 1 == n;
      bool is_bad = false;
      // Neighbours share a corner; only folding back over each other is wrong.
      if (is_next) is_bad = is_on_side(a, b, d) || is_on_side(c, d, a);
      if (is_last) is_bad = is_bad || is_on_side(a, b, c) || is_on_side(c, d, b);
      if (!is_next && !is_last) is_bad = is_meeting(a, b, c, d);
      if (is_bad) return std::pair{static_cast<int>(i), static_cast<int>(j)};
    }
  }
  return std::nullopt;
}

bool contains(std::span<const PointM> outline, PointM point) {
  const GridPoint p = grid_from(point);
  bool is_in = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const GridPoint a = grid_from(outline[i]);
    const GridPoint b = grid_from(outline[(i + 1) % outline.size()]);
    if (is_on_side(a, b, p)) return true;
    const bool is_upwards = a.y <= p.y && b.y > p.y;
    const bool is_downwards = b.y <= p.y && a.y > p.y;
    if ((is_upwards && turn_of(a, b, p) > 0) || (is_downwards && turn_of(a, b, p) < 0)) is_in = !is_in;
  }
  return is_in;
}

double overlap_area_m2(std::span<const PointM> a, std::span<const PointM> b) {
  if (a.size() < 3 || b.size() < 3) return 0.0;
  const RectangleM a_box = box_of(a);
  const RectangleM b_box = box_of(b);
  if (a_box.right_m <= b_box.left_m || b_box.right_m <= a_box.left_m || a_box.top_m <= b_box.bottom_m ||
      b_box.top_m <= a_box.bottom_m) {
    return 0.0;
  }
  const PointM from = a[0];
  const std::vector<SignedTriangle> a_triangles = triangles_of(a, from);
  const std::vector<SignedTriangle> b_triangles = triangles_of(b, from);
  double sum_m2 = 0.0;
  for (const SignedTriangle& s : a_triangles) {
    for (const SignedTriangle& t : b_triangles) sum_m2 += s.sign * t.sign * shared_area_m2(s.corners, t.corners);
  }
  // Winding opposite ways turns the sign of the whole sum.
  return std::fabs(sum_m2);
}

double overlap_area_m2(std::span<const PointM> outline, const RectangleM& rectangle) {
  return overlap_area_m2(outline, outline_from_rectangle(rectangle));
}

bool is_inside(std::span<const PointM> outer, std::span<const PointM> inner) {
  return overlap_area_m2(outer, inner) >= area_m2(inner) - least_area_m2;
}

bool is_inside(std::span<const PointM> outline, const RectangleM& rectangle) {
  return is_inside(outline, outline_from_rectangle(rectangle));
}

bool is_overlapping(std::span<const PointM> a, std::span<const PointM> b) {
  return overlap_area_m2(a, b) > least_area_m2;
}

bool is_overlapping(std::span<const PointM> outline, const RectangleM& rectangle) {
  return is_overlapping(outline, outline_from_rectangle(rectangle));
}

bool is_overlapping(const RectangleM& a, const RectangleM& b) {
  const double width_m = std::min(a.right_m, b.right_m) - std::max(a.left_m, b.left_m);
  const double height_m = std::min(a.top_m, b.top_m) - std::max(a.bottom_m, b.bottom_m);
  return width_m > 0.0 && height_m > 0.0 && width_m * height_m > least_area_m2;
}

Outline outline_from_rectangle(const RectangleM& rectangle) {
  return {{rectangle.left_m, rectangle.bottom_m},
          {rectangle.right_m, rectangle.bottom_m},
          {rectangle.right_m, rectangle.top_m},
          {rectangle.left_m, rectangle.top_m}};
}

}  // namespace houseleek::geometry
