// Strips that stay bare along edges and round openings, outlets, flues, machines and walls; and breaks for fire.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "design/parse.hpp"

namespace houseleek::checks {

/// One strip: what it keeps clear of, how wide, and who says so.
struct StripRule {
  std::string beside;  // "the edge", "the outlet \"west\""
  double width_mm = 0.0;
  std::string source;
  geometry::Outline outline;  // what the distance is measured to
};

/// A module or container that reaches into a strip.
struct StripBreach {
  int rule = 0;
  int module = -1;     // index into Design::modules, or -1
  int container = -1;  // index into Design::containers, or -1
  double distance_mm = 0.0;
};

/// A block of modules with gaps below a metre that is longer than the usual length without a break.
struct LongBlock {
  geometry::RectangleM extent;
  double length_m = 0.0;
  int n_modules = 0;
};

inline constexpr double fire_break_m = 1.0;
inline constexpr double fire_break_every_m = 40.0;
inline constexpr std::string_view fire_break_source =
    "FLL guideline for roof greening, as remembered: a break of 1 m at least every 40 m";

struct ClearStripCheck {
  std::vector<StripRule> rules;
  std::vector<StripBreach> breaches;
  std::vector<LongBlock> long_blocks;
  std::vector<geometry::Outline> kept_free;  // the strips as outlines: nothing more is laid there
  double left_m2 = 0.0;                      // of the roof, outside strips and obstacles; what is laid counts as left
  std::string statement;
};

/// Distances of every module and container to what needs a strip.
/// Shape:    design in; rules in the order edge, obstacles, outlets; pure.
/// Units:    mm. Distances are exact, between sides.
/// Valid:    screening; local fire rules and roofers may want more.
/// Errors:   none.
/// Source:   [fll_fire] for edges; common practice for the rest.   Checked by: tests/checks/clear_strips_test.cpp.
[[nodiscard]] ClearStripCheck check_clear_strips(const design::ValidDesign& design);

}  // namespace houseleek::checks
