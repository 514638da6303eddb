// The depth of water at which a module, dry, lifts off and drifts.
#pragma once
#include <optional>
#include <string>

#include "design/parse.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

struct FloatingDepth {
  std::optional<results::Interval>
      depth_mm;                         // above the deck; absent: heavier, dry, than the water it takes the place of
  bool is_sinking_at_high_end = false;  // at the high end of its weight it does not float
  results::Interval dry_kg_per_m2;
};

/// Where a dry module floats.
/// Equation: depth = spacer height + m/1 kg per m2 and mm
/// Symbols:  m: dry mass on a square metre of module; a millimetre of water weighs a kilogram on a square metre
/// Shape:    a recipe and how it is placed in, struct out; pure.
/// Units:    mm above the deck.
/// Valid:    as if no water got in: one that lets water in floats later or not at all. Level pool, no drag.
/// Errors:   ContractViolation if there is no such recipe.
/// Source:   Archimedes' law.   Checked by: tests/checks/flotation_test.cpp.
[[nodiscard]] FloatingDepth find_floating_depth(const design::ValidDesign& design, int recipe, design::Placed placed);

enum class Buoyancy {
  stays,      // the high end of the depth is below the low end of where it floats, or it is too heavy
  not_shown,  // the ranges overlap
  floats      // the likely depth is above the likely depth of floating
};

[[nodiscard]] Buoyancy judge_floating(const FloatingDepth& floating, const results::Interval& depth_mm);

}  // namespace houseleek::checks
