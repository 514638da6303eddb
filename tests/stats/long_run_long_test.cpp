// Coverage of intervals from days alike: 20,000 series each. The bars stand before the measured figures of
// docs/equations/trials.md.
#include <gtest/gtest.h>

#include "autocorrelated_days.hpp"

namespace houseleek::stats {
namespace {

struct Bar {
  int n_days;
  double correlation;
  double least_percent;
  double most_percent;
};

TEST(LongRunCoverage, AtEveryLengthAndCorrelation) {
  // Set before the runs: about 87 to 95 at 14 days, 92 to 95 at 28, 94 to 95 at 60, for correlations to 0.7.
  for (const Bar& bar :
       {Bar{14, 0.0, 94.0, 95.6}, Bar{14, 0.3, 93.0, 95.0}, Bar{14, 0.5, 90.0, 93.0}, Bar{14, 0.7, 86.0, 89.0},
        Bar{28, 0.0, 94.4, 95.7}, Bar{28, 0.3, 94.0, 95.5}, Bar{28, 0.5, 93.3, 95.0}, Bar{28, 0.7, 91.0, 93.0},
        Bar{60, 0.0, 94.4, 95.7}, Bar{60, 0.3, 94.4, 95.6}, Bar{60, 0.5, 94.0, 95.5}, Bar{60, 0.7, 93.2, 95.0},
        Bar{120, 0.7, 94.0, 95.5}}) {
    const double percent = coverage_percent({.n_days = bar.n_days, .correlation = bar.correlation, .n_series = 20000});
    RecordProperty("percent_" + std::to_string(bar.n_days) + "_" + std::to_string(bar.correlation),
                   std::to_string(percent));
    EXPECT_GE(percent, bar.least_percent) << bar.n_days << " days, correlation " << bar.correlation;
    EXPECT_LE(percent, bar.most_percent) << bar.n_days << " days, correlation " << bar.correlation;
  }
}

}  // namespace
}  // namespace houseleek::stats
