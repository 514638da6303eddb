// How far timber joists sag under soaked modules, what years add to it, and what water then gathers in the sag.
#pragma once
#include <string>
#include <vector>

#include "checks/span_load.hpp"

namespace houseleek::checks {

struct JoistSag {
  int line = 0;       // index into SpanLoad::lines
  double at_m = 0.0;  // middle of the span
  double span_m = 0.0;
  results::Interval first_mm;       // soaked, when laid
  results::Interval final_mm;       // after years
  double ponding_frac = 0.0;        // 1 and above: not shown to come to an end
  results::Interval with_water_mm;  // the final sag with the water it gathers on a level roof; 0 where it has no end
};

struct JoistSags {
  std::string because;          // why there are none; may be empty
  std::vector<JoistSag> spans;  // one a span of each line
  std::string statement;        // of the deepest
};

/// Equation: u_final = u (1 + k_def); with water u_final/(1 - C), C of physics::ponding_frac
/// Shape:    one row a span of each joist that carries something; pure.
/// Units:    mm.
/// Valid:    all weight stays; resting spans for C; a level deck. What finishes and the deck weigh has sagged before.
/// Errors:   none; without width, height and modulus of the joists it says so.
/// Source:   [en1995] 2.2.3; docs/equations/load.md.   Checked by: tests/checks/joist_sag_test.cpp.
[[nodiscard]] JoistSags compute_joist_sags(const design::ValidDesign& design, const SpanLoad& load);

}  // namespace houseleek::checks
