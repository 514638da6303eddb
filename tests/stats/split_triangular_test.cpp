// Numbers drawn between ends: against the triangular distribution, the likely value as the median, the same shares.
#include "stats/split_triangular.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/contract.hpp"
#include "stats/quantile.hpp"
#include "support/reference_check.hpp"

namespace houseleek::stats {
namespace {

using tests::check_reference;

constexpr const char* judged = "stats::split_triangular_quantile";

TEST(SplitTriangular, IsTheTriangularDistributionWhereTheEndsLieEquallyFar) {
  // scipy.stats.triang(0.5, 0, 6): the plain form, ends 0 and 6 round 3.
  const Ends plain{0.0, 3.0, 6.0};
  constexpr const char* source =
      "scipy 1.10.1, scipy.stats.triang(c = 0.5, loc = 2, scale = 6).ppf less 2 (recomputed)";
  constexpr const char* reason = "rounding of a square root";
  check_reference({.id = "SPL-01",
                   .what = "10 % of a triangle from 0 to 6",
                   .source = source,
                   .expected = 1.341640786499874,
                   .got = split_triangular_quantile(plain, 0.1),
                   .tolerance = 1e-12,
                   .reason = reason,
                   .function = judged});
  check_reference({.id = "SPL-02",
                   .what = "30 % of a triangle from 0 to 6",
                   .source = source,
                   .expected = 2.32379000772445,
                   .got = split_triangular_quantile(plain, 0.3),
                   .tolerance = 1e-12,
                   .reason = reason,
                   .function = judged});
  check_reference({.id = "SPL-03",
                   .what = "95 % of a triangle from 0 to 6",
                   .source = source,
                   .expected = 5.051316701949486,
                   .got = split_triangular_quantile(plain, 0.95),
                   .tolerance = 1e-12,
                   .reason = reason,
                   .function = judged});
  // exp(1), exp(4) and exp(7) are a triangle from 1 to 7 in logarithms: 10 % lies at 1 + 1.341640786499874.
  check_reference({.id = "SPL-04",
                   .what = "logarithm of 10 % of a triangle in logarithms from 1 to 7",
                   .source = source,
                   .expected = 2.341640786499874,
                   .got = std::log(split_triangular_quantile({std::exp(1.0), std::exp(4.0), std::exp(7.0)}, 0.1)),
                   .tolerance = 1e-12,
                   .reason = reason,
                   .function = judged});
}

TEST(SplitTriangular, TheLikelyValueIsTheMedianOfAnyEnds) {
  for (const Ends& ends : {Ends{0.0, 0.0, 15.0}, Ends{0.8, 1.5, 3.0}, Ends{0.5, 1.0, 1.0}, Ends{0.0, 4.0, 5.0}}) {
    EXPECT_NEAR(split_triangular_quantile(ends, 0.5), ends.likely, 1e-14 * ends.high);
  }
}

TEST(SplitTriangular, StaysBetweenItsEndsAndRises) {
  for (const Ends& ends : {Ends{0.0, 0.0, 15.0}, Ends{0.8, 1.5, 3.0}, Ends{70.0, 110.0, 170.0}}) {
    double before = ends.low;
    for (int i = 1; i < 1000; ++i) {
      const double now = split_triangular_quantile(ends, 0.001 * i);
      EXPECT_GE(now, before);
      EXPECT_LE(now, ends.high);
      before = now;
    }
  }
  const double first = 0.5 * 0x1p-52;  // the least and the greatest that a random number can be
  EXPECT_NEAR(split_triangular_quantile({2.0, 3.0, 5.0}, first), 2.0, 1e-6);
  EXPECT_NEAR(split_triangular_quantile({2.0, 3.0, 5.0}, 1.0 - first), 5.0, 1e-6);
}

TEST(SplitTriangular, AnExactFigureIsDrawnToTheLastBit) {
  EXPECT_EQ(split_triangular_quantile({0.3, 0.3, 0.3}, 0.123), 0.3);
  EXPECT_EQ(split_triangular_quantile({0.0, 0.0, 0.0}, 0.9), 0.0);
}

TEST(SplitTriangular, DrawsFollowTheirLaw) {
  const RandomVariable variable = random_variable(5, "a price");
  std::vector<double> drawn;
  for (std::uint32_t i = 0; i < 4000; ++i) {
    drawn.push_back(random_split_triangular(variable, {.draw = i}, {0.8, 1.5, 3.0}));
  }
  // The standard error of a share of 4000 is at most 0.8 %: four of them.
  for (const double share : {0.1, 0.5, 0.9}) {
    const double below = split_triangular_quantile({0.8, 1.5, 3.0}, share);
    const auto n_below = std::count_if(drawn.begin(), drawn.end(), [below](double one) { return one < below; });
    EXPECT_NEAR(static_cast<double>(n_below) / 4000.0, share, 0.032) << share;
  }
}

TEST(SplitTriangular, NarrowerEndsMoveEveryDrawTowardsTheLikelyValue) {
  const RandomVariable variable = random_variable(5, "a price");
  for (std::uint32_t i = 0; i < 200; ++i) {
    const double wide = random_split_triangular(variable, {.draw = i}, {1.0, 2.0, 4.0});
    const double narrow = random_split_triangular(variable, {.draw = i}, {1.5, 2.0, 3.0});
    EXPECT_LE(std::fabs(narrow - 2.0), std::fabs(wide - 2.0)) << i;
    EXPECT_GE((narrow - 2.0) * (wide - 2.0), 0.0) << i << ": the same share, so the same side";
  }
}

TEST(SplitTriangular, NeedsEndsThatRiseAndAShare) {
  EXPECT_THROW((void)split_triangular_quantile({2.0, 1.0, 3.0}, 0.5), ContractViolation);
  EXPECT_THROW((void)split_triangular_quantile({-1.0, 1.0, 3.0}, 0.5), ContractViolation);
  EXPECT_THROW((void)split_triangular_quantile({1.0, 2.0, 3.0}, 0.0), ContractViolation);
  EXPECT_THROW((void)split_triangular_quantile({1.0, 2.0, 3.0}, 1.0), ContractViolation);
}

}  // namespace
}  // namespace houseleek::stats
