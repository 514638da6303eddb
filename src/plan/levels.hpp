// The deck as squares with levels: falls, spot levels, puddles, obstacles, and how far the levels may be wrong.
#pragma once
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "results/interval.hpp"

namespace houseleek::plan {

/// Squares (or near enough) row by row from the plan's lower left: column i, row j is index i + j columns. Neighbours
/// share a face whose sill water must climb; infinite: closed.
struct DeckShape {
  int columns = 0;
  int rows = 0;
  double left_m = 0.0;  // of the whole grid
  double bottom_m = 0.0;
  double width_m = 0.0;          // of a column
  double height_m = 0.0;         // of a row
  std::vector<double> area_m2;   // inside the roof; 0: none of it is, or an obstacle stands there
  std::vector<double> level_m;   // of the deck in the square's middle
  std::vector<double> sill_x_m;  // between i and i + 1: (columns - 1) rows, not below both levels
  std::vector<double> sill_y_m;  // between j and j + 1: columns (rows - 1)
};

/// The deck as said, and with all its unevenness less or more by the error of the levels.
enum class Unevenness { smooth, likely, rough };

struct DeckLevels {
  DeckShape shape;
  std::vector<double> shed_m2;       // rain of obstacles that runs onto a square, besides its own area
  results::Interval level_error_mm;  // in use
  double leave_one_out_mm = 0.0;     // how far each spot level lies from what the others say there, root mean square
  std::string from;                  // what the levels are made of, in words
};

struct LevelOptions {
  double square_m = 0.25;  // wanted side
  int most_squares = 640;  // more: wider squares
  Unevenness unevenness = Unevenness::likely;
};

/// Levels of a design's roof.
/// Equation: plane or cones of the falls, or the plane of least squares through the spot levels if no fall is given;
///           plus what spot levels differ from it, weighted by the inverse square of distance; within the outline of a
///           puddle: the lowest level on its edge, less depth (1 - (1 - t)^2), t = distance to the edge over the
///           greatest such distance
/// Shape:    design in, struct out; pure. Order of spot levels changes rounding only; order of puddles: the deeper wins.
/// Units:    m; the lowest square of the deck without puddles is near 0.
/// Valid:    levels between spots are a guess: leave_one_out_mm says how good. Smooth and rough: every difference of a
///           spot level, and every puddle's depth, less or more by the error (its high end); a puddle keeps its edge.
/// Errors:   none.
/// Source:   [shepard1968] (weights); docs/equations/drainage.md.   Checked by: DeckLevels tests.
[[nodiscard]] DeckLevels make_deck_levels(const design::ValidDesign& design, const LevelOptions& options);

/// The square that holds a point of the roof, or the nearest one where water can stand.
[[nodiscard]] int square_at(const DeckShape& shape, geometry::PointM point);

[[nodiscard]] geometry::PointM middle_of(const DeckShape& shape, int square);
[[nodiscard]] geometry::RectangleM rectangle_of(const DeckShape& shape, int square);

/// Error of a level or of a puddle's depth: as the design says it, or as assumed.
[[nodiscard]] results::Interval level_error_mm(const design::Design& design);

}  // namespace houseleek::plan
