// [[patch]]: modules of one recipe, laid in columns and rows or each where it is said to lie.
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
  /// Lower left corners, one a module; where they are given there are no columns, rows, origin and spacing.
  std::vector<geometry::PointM> places;
  double spacing_mm = 0.0;  // open roof between neighbours, both ways
  Placed placed = Placed::raised;
  bool is_turned = false;                 // a module's length runs along y
  std::optional<std::int64_t> built_day;  // since 1970-01-01; absent: with the first patch
  bool operator==(const Patch&) const = default;
};

[[nodiscard]] inline std::size_t module_count(const Patch& patch) {
  if (!patch.places.empty()) return patch.places.size();
  return static_cast<std::size_t>(patch.columns) * static_cast<std::size_t>(patch.rows);
}

/// Where one module lies.
struct ModulePlace {
  int patch = 0;
  int column = 0;  // of modules placed one by one: which of them
  int row = 0;
  geometry::RectangleM rectangle;
  bool operator==(const ModulePlace&) const = default;
};

}  // namespace houseleek::design
