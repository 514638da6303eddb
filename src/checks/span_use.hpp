// How much of the engineer's figure bending, shear and supports take at the section that comes nearest to it.
#pragma once
#include <optional>
#include <span>
#include <string>

#include "checks/span_load.hpp"

namespace houseleek::checks {

struct SpanUse {
  std::optional<results::Interval> use_frac;  // 1: the figure is used up at one section
  std::string because;                        // why there is none
};

/// The least multiple of the engineer's figure that is passed at no section.
/// Equation: u = max over sections of demand/allowance, found by u <- u demand/allowance at the worst section of loads
///           divided by u, until none is passed. High end: weights from the lightest dry to the heaviest soaked; likely and
///           low end: from the likely dry one (low: the heaviest dry one) to the likely and the lightest soaked one
/// Shape:    design in; pure.
/// Units:    share of the figure.
/// Valid:    as check_span_load; footprints without a model are left out, and `because` of the verdict says so.
/// Errors:   none: without figure or model, or where the figure brings nothing at a section that is loaded, no share.
/// Source:   docs/equations/load.md.   Checked by: tests/checks/span_use_test.cpp.
[[nodiscard]] SpanUse find_span_use(const design::ValidDesign& design, std::span<const Footprint> footprints);

}  // namespace houseleek::checks
