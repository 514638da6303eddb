// The roof cut into squares: how much of each is roof, and what lies on it; and where a module still fits.
#pragma once
#include <span>
#include <vector>

#include "design/parse.hpp"

namespace houseleek::plan {

/// Plain columns, one row a square that has roof in it; row by row from the bottom, left to right.
struct Squares {
  double side_m = 0.0;
  std::vector<double> left_m;
  std::vector<double> bottom_m;
  std::vector<double> roof_m2;      // of the square
  std::vector<double> obstacle_m2;  // of it under obstacles
};

/// Squares of one side over the whole roof, from the lower left corner of the rectangle around it.
[[nodiscard]] Squares cut_squares(const design::Roof& roof, double side_m);

/// Where a rectangle of this size may be laid.
struct FreePlaces {
  double width_m = 0.0;   // along x
  double height_m = 0.0;  // along y
  double step_m = 0.1;  // places lie on a grid of this step from the lower left corner of the rectangle round the roof
  double gap_m = 0.0;   // free to what is laid already
};

/// All grid places on the roof, off obstacles, outlets, modules and containers, and outside `kept_free`; row by row.
/// Places may overlap each other.
[[nodiscard]] std::vector<geometry::RectangleM> find_free_places(const design::ValidDesign& design,
                                                                 const FreePlaces& wanted,
                                                                 std::span<const geometry::Outline> kept_free);

}  // namespace houseleek::plan
