// The roof in squares: a number written in each, tinted by one ramp.
#pragma once
#include <string>
#include <vector>

#include "report/chart_parts.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

struct MapSquare {
  std::string name;         // of the answer: B3
  std::string text;         // written in it
  double depth_frac = 0.0;  // how deep the tint is, from 0 to 1; beyond either end as at the end
  std::string hover;
};

struct SquareMap {
  Drawing drawing;  // width, height and is_wide are set here
  int columns = 0;
  int rows = 0;
  std::vector<MapSquare> squares;  // those without stay blank
};

/// Column letters below, row numbers left; the plan's x to the right, y upwards.
/// Errors: ContractViolation for a name that is no square of the grid.
[[nodiscard]] Html html_from(SquareMap map);

/// Which of the palette's steps a tint is.
[[nodiscard]] int ramp_step(double depth_frac);

}  // namespace houseleek::report
