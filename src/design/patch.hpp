// [[patch]]: a block of modules of one recipe, laid in columns and rows.
#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "design/recipe.hpp"
#include "geometry/outline.hpp"

namespace houseleek::design {

struct Patch {
  int recipe = 0;           // index into Design::recipes
  int columns = 0;          // along x
  int rows = 0;             // along y
  geometry::PointM origin;  // lower left corner of the first module
  double spacing_mm = 0.0;  // open roof between neighbours, both ways
  Placed placed = Placed::raised;
  bool is_turned = false;                 // a module's length runs along y
  std::optional<std::int64_t> built_day;  // since 1970-01-01; absent: with the first patch
  bool operator==(const Patch&) const = default;
};

/// Where one module lies.
struct ModulePlace {
  int patch = 0;
  int column = 0;
  int row = 0;
  geometry::RectangleM rectangle;
  bool operator==(const ModulePlace&) const = default;
};

}  // namespace houseleek::design
