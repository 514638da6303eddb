// Smaller witnesses of the long coverage studies: 400 trials and 200 fits, bars three standard errors wider.
#include <gtest/gtest.h>

#include "coverage.hpp"

namespace houseleek::trials {
namespace {

TEST(JudgeCoverage, AWitness) {
  const invented::Coverage recipe =
      invented::coverage_of({.difference = 1.0, .module_sd = 0.5, .n_days = 28}, 401, 400);
  EXPECT_GE(recipe.held_percent, 91.7);
  const invented::Coverage days =
      invented::coverage_of({.module_sd = 0.0, .day_correlation = 0.5, .n_modules = 1, .n_days = 60}, 402, 400);
  EXPECT_GE(days.held_percent, 91.7);
  EXPECT_LE(days.told_percent, 8.3);
  // At 14 days of correlation 0.5 at least 90 %.
  const invented::Coverage two_weeks =
      invented::coverage_of({.module_sd = 0.0, .day_correlation = 0.5, .n_modules = 1, .n_days = 14}, 404, 400);
  EXPECT_GE(two_weeks.held_percent, 85.5);
  // Recipes without a difference: told apart in at most 5 of 100.
  EXPECT_LE(invented::coverage_of({.module_sd = 0.5, .n_days = 28}, 405, 400).told_percent, 8.3);
}

TEST(FitCoverage, AWitness) {
  const invented::FitCoverage coverage = invented::fit_coverage_of({}, 28, 403, 200);
  EXPECT_GE(coverage.exchange_percent, 89.5);
  EXPECT_GE(coverage.gain_percent, 89.5);
}

}  // namespace
}  // namespace houseleek::trials
