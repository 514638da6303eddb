// Soaked modules against the uniform load that an engineer wrote down: the first of two tests; no figure, no verdict.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "checks/allowance.hpp"
#include "checks/footprints.hpp"
#include "design/parse.hpp"
#include "results/figure.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

/// Soaked load on the squares of one patch.
struct PatchLoad {
  int patch = 0;
  results::Interval soaked_kn_per_m2;
};

/// Soaked load under one container.
struct ContainerLoad {
  int container = 0;
  results::Interval soaked_kn_per_m2;
};

/// Test 1 of the load. Test 2 (bending and shear along the span) is another matter, and neither excuses the other.
struct UniformLoad {
  std::vector<PatchLoad> patches;
  std::vector<ContainerLoad> containers;
  results::Interval heaviest_kn_per_m2;  // averaged over the area in use
  double averaging_area_m2 = 0.0;        // 0: none was given, every square stands on its own
  std::vector<std::string> missing;      // of value, who, when, includes
  LoadVerdict verdict = LoadVerdict::none;
  std::optional<results::Interval> utilisation_frac;  // heaviest over allowable; absent without a verdict
  std::string statement;                              // one sentence
};

/// Soaked weight of every module and container against the allowance.
/// Equation: p = m g / 1000; averaged: the greatest mean of p over any square of area A on the plan, found where the
///           sides of the square meet sides of modules (the mean is piecewise linear in each coordinate of the square)
/// Symbols:  m: soaked mass of a module on a square metre; g = 9.80665 m/s2; A: the engineer's averaging area; none
///           given: every module on its own. A square wider than the roof is narrowed to the roof's lesser side
/// Shape:    design in, struct out; pure.
/// Units:    kN/m2.
/// Valid:    modules and containers: no people, snow, ponds or hail; a container on its whole base.
/// Errors:   none; anything missing gives weights, no verdict, and the sentence why.
/// Source:   definition.   Checked by: tests/checks/uniform_load_test.cpp.
[[nodiscard]] UniformLoad check_uniform_load(const design::ValidDesign& design);

/// The engineer's averaging area, narrowed to the roof; 0 if none was given.
[[nodiscard]] double averaging_area_in_use_m2(const design::Roof& roof);

/// Greatest mean soaked load over any square of this side, kN/m2.
[[nodiscard]] results::Interval heaviest_mean(std::span<const Footprint> footprints, double side_m);

}  // namespace houseleek::checks
