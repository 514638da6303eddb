// The long-run variance against a cosine transform by other hands, and its limits.
#include "stats/long_run.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::stats {
namespace {

using tests::check_reference;

const std::vector<double>& fourteen_days() {
  static const std::vector<double> days{1.9, 2.4, 1.1, 0.7, 1.6, 3.1, 2.8, 2.2, 1.4, 0.9, 1.8, 2.0, 2.7, 3.3};
  return days;
}

TEST(LongRun, AgreesWithACosineTransform) {
  const Estimate estimate = long_run_mean(fourteen_days(), 0.95);
  const char* source = "[scipy] 1.10.1 scipy.fft.dct, tests/stats/recompute.py (recomputed)";
  check_reference({.id = "LRV-01",
                   .what = "long-run variance of fourteen days, three cosines",
                   .source = source,
                   .expected = 0.6843185013831853,
                   .got = long_run_variance(fourteen_days()),
                   .tolerance = 1e-12,
                   .reason = "rounding",
                   .function = "stats::long_run_variance"});
  check_reference({.id = "LRV-02",
                   .what = "lower end of the 95 % interval of their mean",
                   .source = source,
                   .expected = 1.28925653,
                   .got = estimate.low,
                   .tolerance = 1e-8,
                   .reason = "last printed digit",
                   .function = "stats::long_run_mean"});
  check_reference({.id = "LRV-03",
                   .what = "two-sided share of their mean",
                   .source = source,
                   .expected = 0.0028828504883212907,
                   .got = estimate.two_sided_share,
                   .tolerance = 1e-12,
                   .reason = "rounding",
                   .function = "stats::long_run_mean"});
  EXPECT_NEAR(estimate.value, 1.9928571428571427, 1e-13);
  EXPECT_NEAR(estimate.high, 2.69645775, 1e-8);
}

TEST(LongRun, ShiftScaleAndReversal) {
  std::vector<double> moved;
  for (const double day : fourteen_days()) moved.push_back(-2.0 * day + 100.0);
  EXPECT_NEAR(long_run_variance(moved), 4.0 * long_run_variance(fourteen_days()), 1e-10);
  const std::vector<double> reversed(fourteen_days().rbegin(), fourteen_days().rend());
  EXPECT_NEAR(long_run_variance(reversed), long_run_variance(fourteen_days()), 1e-12);
}

TEST(LongRun, RefusesWhatItCannotJudge) {
  EXPECT_THROW((void)long_run_variance(std::vector<double>(6, 1.0)), ContractViolation);
  EXPECT_THROW((void)long_run_mean(std::vector<double>(14, 1.0), 0.95), ContractViolation);
  EXPECT_THROW((void)make_estimate(1.0, 0.0, 3.0, 0.95), ContractViolation);
}

TEST(LongRun, NeighboursThatAreAlike) {
  EXPECT_NEAR(lag_one_correlation(std::vector<double>{1.0, -1.0, 1.0, -1.0}), -0.75, 1e-15);
  EXPECT_EQ(lag_one_correlation(std::vector<double>{2.0, 2.0, 2.0}), 0.0);
}

}  // namespace
}  // namespace houseleek::stats
