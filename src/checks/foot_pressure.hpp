// What each foot of a spacer or container presses into the roof, against what membrane and insulation are said to bear.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checks/allowance.hpp"
#include "design/parse.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

struct FootPressure {
  int patch = -1;       // index into Design::patches, or -1
  int container = -1;   // index into Design::containers, or -1
  std::string because;  // why nothing is worked out; may be empty
  int n_feet = 0;       // 0: a container on its whole base
  double foot_mm2 = 0.0;
  results::Interval soaked_kpa;     // each foot an equal share
  results::Interval uneven_kpa;     // one foot loose: the others share its part, where there are more than one
  std::optional<double> limit_kpa;  // the lesser of what is given
  LoadVerdict verdict = LoadVerdict::none;
  std::string statement;
};

/// Soaked weight on the feet.
/// Equation: p = W/(n A); uneven: W/((n - 1) A), and W/A of one foot is not reached by a module that stands
/// Symbols:  W: soaked weight; n: feet; A: area of one
/// Shape:    one row for each raised patch, then one for each container; pure.
/// Units:    kPa.
/// Valid:    stiff feet and a level roof; foot edges and screws press more.
/// Errors:   none; without feet or limits it says so.
/// Source:   definition.   Checked by: tests/checks/foot_pressure_test.cpp.
[[nodiscard]] std::vector<FootPressure> compute_foot_pressures(const design::ValidDesign& design);

}  // namespace houseleek::checks
