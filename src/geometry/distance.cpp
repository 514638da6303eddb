// How far things on the plan are apart, and bands along the sides of an outline.
#include "geometry/distance.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::geometry {
namespace {

double distance_to_rectangle_m(PointM point, const RectangleM& r) {
  const double x_m = std::max({r.left_m - point.x_m, 0.0, point.x_m - r.right_m});
  const double y_m = std::max({r.bottom_m - point.y_m, 0.0, point.y_m - r.top_m});
  return std::hypot(x_m, y_m);
}

double distance_to_side_m(PointM point, PointM a, PointM b) {
  const double dx = b.x_m - a.x_m;
  const double dy = b.y_m - a.y_m;
  const double length2 = dx * dx + dy * dy;
  const double along = length2 > 0.0 ? ((point.x_m - a.x_m) * dx + (point.y_m - a.y_m) * dy) / length2 : 0.0;
  const double share = std::clamp(along, 0.0, 1.0);
  return std::hypot(point.x_m - a.x_m - share * dx, point.y_m - a.y_m - share * dy);
}

/// Part of the side inside the rectangle, by clipping its parameter.
bool is_crossing(PointM a, PointM b, const RectangleM& r) {
  double from = 0.0;
  double to = 1.0;
  const auto clip = [&](double start, double step, double low, double high) {
    if (step == 0.0) return start >= low && start <= high;
    const double first = (low - start) / step;
    const double second = (high - start) / step;
    from = std::max(from, std::min(first, second));
    to = std::min(to, std::max(first, second));
    return from <= to;
  };
  return clip(a.x_m, b.x_m - a.x_m, r.left_m, r.right_m) && clip(a.y_m, b.y_m - a.y_m, r.bottom_m, r.top_m);
}

}  // namespace

double distance_m(const RectangleM& a, const RectangleM& b) {
  const double x_m = std::max({a.left_m - b.right_m, 0.0, b.left_m - a.right_m});
  const double y_m = std::max({a.bottom_m - b.top_m, 0.0, b.bottom_m - a.top_m});
  return std::hypot(x_m, y_m);
}

double distance_to_sides_m(std::span<const PointM> outline, const RectangleM& rectangle) {
  expects(outline.size() >= 2, "an outline with sides");
  double least_m = 1e300;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PointM a = outline[i];
    const PointM b = outline[(i + 1) % outline.size()];
    if (is_crossing(a, b, rectangle)) return 0.0;
    least_m = std::min({least_m, distance_to_rectangle_m(a, rectangle), distance_to_rectangle_m(b, rectangle)});
    for (const PointM& corner : outline_from_rectangle(rectangle)) {
      least_m = std::min(least_m, distance_to_side_m(corner, a, b));
    }
  }
  return least_m;
}

std::vector<Outline> bands_along(std::span<const PointM> outline, double reach_m) {
  std::vector<Outline> bands;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PointM a = outline[i];
    const PointM b = outline[(i + 1) % outline.size()];
    const double length_m = std::hypot(b.x_m - a.x_m, b.y_m - a.y_m);
    if (length_m <= 0.0) continue;
    const double ux = reach_m * (b.x_m - a.x_m) / length_m;
    const double uy = reach_m * (b.y_m - a.y_m) / length_m;
    bands.push_back({{a.x_m - ux + uy, a.y_m - uy - ux},
                     {b.x_m + ux + uy, b.y_m + uy - ux},
                     {b.x_m + ux - uy, b.y_m + uy + ux},
                     {a.x_m - ux - uy, a.y_m - uy + ux}});
  }
  return bands;
}

}  // namespace houseleek::geometry
