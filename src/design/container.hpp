// [[container]]: bags, pots and tubs that stand by themselves.
#pragma once
#include <optional>
#include <string>

#include "design/planting.hpp"
#include "design/roof.hpp"

namespace houseleek::design {

struct Container {
  std::string name;
  geometry::PointM at;                // its middle
  std::optional<double> diameter_mm;  // round; otherwise a rectangle along the axes of the plan
  double length_mm = 0.0;
  double width_mm = 0.0;
  Layer fill;  // medium and how deep it is
  double empty_kg = 0.0;
  double plant_kg = 0.0;
  std::optional<Feet> feet;  // absent: it stands on its whole base
  std::optional<ContainerPlant> plant;
  geometry::RectangleM rectangle;  // of the same area and middle; a round one as a square
  bool operator==(const Container&) const = default;
};

}  // namespace houseleek::design
