// The squares of the plan that answers and maps share, named like those of a chess board.
#include "studies/roof_squares.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace houseleek::studies {
namespace {

constexpr double most_in_a_row = 16.0;
constexpr double rounding_m = 1e-9;
constexpr int n_letters = 26;

int place_on(double offset_m, double side_m, int count) {
  return std::clamp(static_cast<int>(std::floor(offset_m / side_m + rounding_m)), 0, count - 1);
}

}  // namespace

report::SquareGrid make_square_grid(const design::Roof& roof) {
  double left = roof.outline.front().x_m, right = left, bottom = roof.outline.front().y_m, top = bottom;
  for (const geometry::PointM& corner : roof.outline) {
    left = std::min(left, corner.x_m);
    right = std::max(right, corner.x_m);
    bottom = std::min(bottom, corner.y_m);
    top = std::max(top, corner.y_m);
  }
  report::SquareGrid grid;
  grid.left_m = left;
  grid.bottom_m = bottom;
  grid.side_m = std::max(1.0, std::ceil(std::max(right - left, top - bottom) / most_in_a_row - rounding_m));
  grid.columns = static_cast<int>(std::ceil((right - left) / grid.side_m - rounding_m));
  grid.rows = static_cast<int>(std::ceil((top - bottom) / grid.side_m - rounding_m));
  return grid;
}

std::string square_name(int column, int row) {
  std::string letters;
  for (int rest = column; rest >= 0; rest = rest / n_letters - 1) {
    letters.insert(letters.begin(), static_cast<char>('A' + rest % n_letters));
  }
  return fmt::format("{}{}", letters, row + 1);
}

geometry::RectangleM square_rectangle(const report::SquareGrid& grid, int column, int row) {
  const double left_m = grid.left_m + column * grid.side_m;
  const double bottom_m = grid.bottom_m + row * grid.side_m;
  return {left_m, bottom_m, left_m + grid.side_m, bottom_m + grid.side_m};
}

std::string square_name_at(const report::SquareGrid& grid, geometry::PointM point) {
  return square_name(place_on(point.x_m - grid.left_m, grid.side_m, grid.columns),
                     place_on(point.y_m - grid.bottom_m, grid.side_m, grid.rows));
}

}  // namespace houseleek::studies
