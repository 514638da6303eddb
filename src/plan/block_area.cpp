// Areas of rectangles taken together inside an outline, and how long their common edge is.
#include "plan/block_area.hpp"

#include <algorithm>
#include <utility>

namespace houseleek::plan {
namespace {

using geometry::PointM;
using geometry::RectangleM;

std::vector<RectangleM> all_grown(std::span<const RectangleM> rectangles, double by_m) {
  std::vector<RectangleM> grown_ones;
  for (const RectangleM& rectangle : rectangles) grown_ones.push_back(grown(rectangle, by_m));
  return grown_ones;
}

/// The upright intervals that the rectangles cover between two neighbouring sides, merged, from the bottom.
std::vector<std::pair<double, double>> intervals_at(std::span<const RectangleM> rectangles, double left_m,
                                                    double right_m) {
  std::vector<std::pair<double, double>> intervals;
  for (const RectangleM& one : rectangles) {
    if (one.left_m <= left_m && one.right_m >= right_m && one.top_m > one.bottom_m) {
      intervals.emplace_back(one.bottom_m, one.top_m);
    }
  }
  std::sort(intervals.begin(), intervals.end());
  std::vector<std::pair<double, double>> merged;
  for (const auto& [bottom_m, top_m] : intervals) {
    if (!merged.empty() && bottom_m <= merged.back().second) {
      merged.back().second = std::max(merged.back().second, top_m);
    } else {
      merged.emplace_back(bottom_m, top_m);
    }
  }
  return merged;
}

}  // namespace

RectangleM grown(const RectangleM& rectangle, double by_m) {
  const RectangleM moved = {rectangle.left_m - by_m, rectangle.bottom_m - by_m, rectangle.right_m + by_m,
                            rectangle.top_m + by_m};
  if (moved.right_m > moved.left_m && moved.top_m > moved.bottom_m) return moved;
  return {rectangle.left_m, rectangle.bottom_m, rectangle.left_m, rectangle.bottom_m};
}

double area_m2(const RectangleM& rectangle) {
  return (rectangle.right_m - rectangle.left_m) * (rectangle.top_m - rectangle.bottom_m);
}

double union_area_m2(std::span<const RectangleM> rectangles, std::span<const PointM> outline) {
  std::vector<double> sides_m;
  for (const RectangleM& one : rectangles) {
    sides_m.push_back(one.left_m);
    sides_m.push_back(one.right_m);
  }
  std::sort(sides_m.begin(), sides_m.end());
  sides_m.erase(std::unique(sides_m.begin(), sides_m.end()), sides_m.end());
  double sum_m2 = 0.0;
  for (std::size_t i = 0; i + 1 < sides_m.size(); ++i) {
    for (const auto& [bottom_m, top_m] : intervals_at(rectangles, sides_m[i], sides_m[i + 1])) {
      sum_m2 += geometry::overlap_area_m2(outline, RectangleM{sides_m[i], bottom_m, sides_m[i + 1], top_m});
    }
  }
  return sum_m2;
}

double union_edge_m(std::span<const RectangleM> rectangles, std::span<const PointM> outline, double by_m) {
  const double outer_m2 = union_area_m2(all_grown(rectangles, by_m + edge_step_m), outline);
  const double inner_m2 = union_area_m2(all_grown(rectangles, by_m), outline);
  return std::max(0.0, outer_m2 - inner_m2) / edge_step_m;
}

}  // namespace houseleek::plan
