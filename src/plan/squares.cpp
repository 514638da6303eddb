// The roof cut into squares: how much of each is roof, and what lies on it; and where a module still fits.
#include "plan/squares.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "plan/block_area.hpp"

namespace houseleek::plan {
namespace {

using geometry::Outline;
using geometry::RectangleM;

constexpr double rounding_m = 1e-9;

RectangleM box_of(const Outline& outline) {
  RectangleM box{outline[0].x_m, outline[0].y_m, outline[0].x_m, outline[0].y_m};
  for (const geometry::PointM& corner : outline) {
    box = {std::min(box.left_m, corner.x_m), std::min(box.bottom_m, corner.y_m), std::max(box.right_m, corner.x_m),
           std::max(box.top_m, corner.y_m)};
  }
  return box;
}

int steps_in(double length_m, double step_m) { return static_cast<int>(std::floor(length_m / step_m + rounding_m)); }

RectangleM around_outlet(const design::Outlet& outlet) {
  const double reach_m = 0.0005 * outlet.diameter_mm;
  return {outlet.at.x_m - reach_m, outlet.at.y_m - reach_m, outlet.at.x_m + reach_m, outlet.at.y_m + reach_m};
}

}  // namespace

Squares cut_squares(const design::Roof& roof, double side_m) {
  expects(side_m > 0.0, "a side above zero");
  const RectangleM box = box_of(roof.outline);
  Squares squares;
  squares.side_m = side_m;
  const int n_columns = static_cast<int>(std::ceil((box.right_m - box.left_m) / side_m - rounding_m));
  const int n_rows = static_cast<int>(std::ceil((box.top_m - box.bottom_m) / side_m - rounding_m));
  for (int row = 0; row < n_rows; ++row) {
    for (int column = 0; column < n_columns; ++column) {
      const double left_m = box.left_m + column * side_m;
      const double bottom_m = box.bottom_m + row * side_m;
      const RectangleM square{left_m, bottom_m, left_m + side_m, bottom_m + side_m};
      const double roof_m2 = geometry::overlap_area_m2(roof.outline, square);
      if (roof_m2 <= geometry::least_area_m2) continue;
      double obstacle_m2 = 0.0;
      for (const design::Obstacle& obstacle : roof.obstacles) {
        obstacle_m2 += geometry::overlap_area_m2(obstacle.outline, square);
      }
      squares.left_m.push_back(left_m);
      squares.bottom_m.push_back(bottom_m);
      squares.roof_m2.push_back(roof_m2);
      squares.obstacle_m2.push_back(obstacle_m2);
    }
  }
  return squares;
}

std::vector<RectangleM> find_free_places(const design::ValidDesign& design, const FreePlaces& wanted,
                                         std::span<const Outline> kept_free) {
  expects(wanted.width_m > 0.0 && wanted.height_m > 0.0 && wanted.step_m > 0.0, "a size and a step above zero");
  const design::Roof& roof = design->roof;
  const RectangleM box = box_of(roof.outline);
  std::vector<RectangleM> taken;
  for (const design::ModulePlace& module : design->modules) taken.push_back(grown(module.rectangle, wanted.gap_m));
  for (const design::Container& container : design->containers) {
    taken.push_back(grown(container.rectangle, wanted.gap_m));
  }
  for (const design::Outlet& outlet : roof.outlets) taken.push_back(around_outlet(outlet));
  const auto is_free = [&](const RectangleM& place) {
    const auto meets_rectangle = [&](const RectangleM& one) { return geometry::is_overlapping(one, place); };
    const auto meets_outline = [&](const Outline& one) { return geometry::is_overlapping(one, place); };
    return geometry::is_inside(roof.outline, place) && std::none_of(taken.begin(), taken.end(), meets_rectangle) &&
           std::none_of(kept_free.begin(), kept_free.end(), meets_outline) &&
           std::none_of(roof.obstacles.begin(), roof.obstacles.end(),
                        [&](const design::Obstacle& one) { return meets_outline(one.outline); });
  };
  std::vector<RectangleM> places;
  const int n_rows = steps_in(box.top_m - box.bottom_m - wanted.height_m, wanted.step_m);
  const int n_columns = steps_in(box.right_m - box.left_m - wanted.width_m, wanted.step_m);
  for (int row = 0; row <= n_rows; ++row) {
    for (int column = 0; column <= n_columns; ++column) {
      const double left_m = box.left_m + column * wanted.step_m;
      const double bottom_m = box.bottom_m + row * wanted.step_m;
      const RectangleM place{left_m, bottom_m, left_m + wanted.width_m, bottom_m + wanted.height_m};
      if (is_free(place)) places.push_back(place);
    }
  }
  return places;
}

}  // namespace houseleek::plan
