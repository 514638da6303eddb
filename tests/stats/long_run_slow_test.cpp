// A smaller witness of the coverage of days: 2000 series, bars three standard errors wider than in the long test.
#include <gtest/gtest.h>

#include "autocorrelated_days.hpp"

namespace houseleek::stats {
namespace {

TEST(LongRunCoverage, AWitness) {
  EXPECT_GE(coverage_percent({.n_days = 14, .correlation = 0.5}), 90.0);
  EXPECT_GE(coverage_percent({.n_days = 28, .correlation = 0.5}), 92.5);
  const double sixty = coverage_percent({.n_days = 60, .correlation = 0.5});
  EXPECT_GE(sixty, 93.5);
  EXPECT_LE(sixty, 96.5);
}

}  // namespace
}  // namespace houseleek::stats
