// The squares of the plan that answers and maps share, named like those of a chess board.
#pragma once
#include <string>

#include "design/roof.hpp"
#include "report/roof_checks_answer.hpp"

namespace houseleek::studies {

/// Squares of 1 m, or of more whole metres where the roof would need over sixteen in a row; from the lower left corner of
/// the rectangle round the roof.
[[nodiscard]] report::SquareGrid make_square_grid(const design::Roof& roof);

/// Column and row from 0: A1, B1, ..., Z1, AA1.
[[nodiscard]] std::string square_name(int column, int row);

[[nodiscard]] geometry::RectangleM square_rectangle(const report::SquareGrid& grid, int column, int row);

/// The square that holds a point; on a border the one to the right or above, on the last border the last one.
[[nodiscard]] std::string square_name_at(const report::SquareGrid& grid, geometry::PointM point);

}  // namespace houseleek::studies
