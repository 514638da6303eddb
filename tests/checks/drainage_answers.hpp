// A table of hard rain and what tests ask of an answer about drainage.
#pragma once
#include <gtest/gtest.h>

#include <string>

#include "checks/drainage.hpp"

namespace houseleek::tests {

inline constexpr const char* rain_table =
    "\n[design_rain]\nsource = \"invented\"\n"
    "[[design_rain.intensity]]\nreturn_years = 10\nduration_min = 5\nintensity_mm_per_h = 150\n"
    "[[design_rain.intensity]]\nreturn_years = 10\nduration_min = 15\nintensity_mm_per_h = 96\n";

/// The first case of a kind; null if there is none.
inline const checks::DrainageCase* find_case(const checks::DrainageCheck& check, checks::DrainageKind kind) {
  for (const checks::DrainageCase& one : check.cases) {
    if (one.kind == kind) return &one;
  }
  return nullptr;
}

/// low <= likely <= high.
inline void expect_ordered(const results::Interval& range, const std::string& what) {
  EXPECT_LE(range.low, range.likely) << what;
  EXPECT_LE(range.likely, range.high) << what;
}

}  // namespace houseleek::tests
