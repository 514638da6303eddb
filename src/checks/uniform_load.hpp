// Soaked modules against the uniform load that an engineer wrote down: the first of two tests; no figure, no verdict.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "results/figure.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

inline constexpr double standard_gravity_m_per_s2 = 9.80665;  // by definition, CGPM 1901

/// Soaked load on the squares of one patch.
struct PatchLoad {
  int patch = 0;
  results::Interval soaked_kn_per_m2;
};

enum class LoadVerdict {
  none,       // something the engineer should have written down is missing
  within,     // the high end of the weights is not above the figure
  not_shown,  // the high end is above the figure, the likely weight is not
  above       // the likely weight is above the figure
};

/// Test 1 of the load. Test 2 (bending and shear along the span) is another matter, and neither excuses the other.
struct UniformLoad {
  std::vector<PatchLoad> patches;
  results::Interval heaviest_kn_per_m2;  // averaged over the area in use
  double averaging_area_m2 = 0.0;        // 0: none was given, every square stands on its own
  std::vector<std::string> missing;      // of value, who, when, includes
  LoadVerdict verdict = LoadVerdict::none;
  std::optional<results::Interval> utilisation_frac;  // heaviest over allowable; absent without a verdict
  std::string statement;                              // one sentence
};

/// Soaked weight of every square against the allowance.
/// Equation: p = m g / 1000; averaged: the greatest mean of p over any square of area A on the plan, found where the
///           sides of the square meet sides of modules (the mean is piecewise linear in each coordinate of the square)
/// Symbols:  m: soaked mass of a module on a square metre; g = 9.80665 m/s2; A: the engineer's averaging area; none
///           given: every module on its own. A square wider than the roof is narrowed to the roof's lesser side
/// Shape:    design in, struct out; pure.
/// Units:    kN/m2.
/// Valid:    modules alone: no bags, pots, people, snow, ponds or hail.
/// Errors:   none; anything missing gives weights, no verdict, and the sentence why.
/// Source:   definition.   Checked by: tests/checks/uniform_load_test.cpp.
[[nodiscard]] UniformLoad check_uniform_load(const design::ValidDesign& design);

}  // namespace houseleek::checks
