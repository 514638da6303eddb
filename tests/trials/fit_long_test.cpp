// Coverage of fitted properties over 1000 invented rooms each: at least 93 % hold the truth.
#include <gtest/gtest.h>

#include "coverage.hpp"

namespace houseleek::trials {
namespace {

using invented::fit_coverage_of;

TEST(FitCoverage, EachPropertyInAtLeast93Percent) {
  for (const int n_days : {14, 28, 60}) {
    const invented::FitCoverage coverage = fit_coverage_of({}, n_days, 301, 1000);
    EXPECT_GE(coverage.exchange_percent, 93.0) << n_days;
    EXPECT_GE(coverage.gain_percent, 93.0) << n_days;
  }
}

TEST(FitCoverage, DaysVeryAlikeCostSomeOfIt) {
  // A shift of whole days larger than the hours' noise, correlation 0.7: what docs/equations/trials.md warns of.
  const invented::FitCoverage coverage = fit_coverage_of({.day_noise_k = 0.5, .day_correlation = 0.7}, 14, 302, 1000);
  EXPECT_GE(coverage.exchange_percent, 86.0);
  EXPECT_LE(coverage.exchange_percent, 93.0);
}

}  // namespace
}  // namespace houseleek::trials
