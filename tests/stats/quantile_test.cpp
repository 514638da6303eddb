// Quantiles against values of another library with the same definition, and against the definition by hand.
#include "stats/quantile.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::stats {
namespace {

using tests::check_reference;

const std::vector<double> twenty = {3.1,  0.4, 7.9, 5.5,  2.2, 9.3, 1.7, 6.0, 4.8, 8.1,
                                    12.5, 0.9, 3.3, 10.2, 2.8, 7.0, 5.1, 6.6, 4.1, 11.4};

constexpr const char* by_scipy =
    "scipy 1.10.1, scipy.stats.mstats.mquantiles(alphap = betap = 1/3), its name for [hyndman1996] definition 8 "
    "(recomputed)";
constexpr const char* to_rounding = "rounding of a few sums";
constexpr const char* judged = "stats::quantile";

TEST(Quantile, TwentyValuesAgainstAnotherLibrary) {
  check_reference({.id = "QTL-01",
                   .what = "10 % of 20 values",
                   .source = by_scipy,
                   .expected = 1.1933333333333334,
                   .got = quantile(twenty, 0.1),
                   .tolerance = 1e-12,
                   .reason = to_rounding,
                   .function = judged});
  check_reference({.id = "QTL-02",
                   .what = "25 % of 20 values",
                   .source = by_scipy,
                   .expected = 2.925,
                   .got = quantile(twenty, 0.25),
                   .tolerance = 1e-12,
                   .reason = to_rounding,
                   .function = judged});
  check_reference({.id = "QTL-03",
                   .what = "median of 20 values",
                   .source = by_scipy,
                   .expected = 5.3,
                   .got = quantile(twenty, 0.5),
                   .tolerance = 1e-12,
                   .reason = to_rounding,
                   .function = judged});
  check_reference({.id = "QTL-04",
                   .what = "90 % of 20 values",
                   .source = by_scipy,
                   .expected = 10.959999999999999,
                   .got = quantile(twenty, 0.9),
                   .tolerance = 1e-12,
                   .reason = to_rounding,
                   .function = judged});
}

TEST(Quantile, ThreeValuesAgainstAnotherLibrary) {
  const std::vector<double> three = {11.0, 2.0, 5.0};
  check_reference({.id = "QTL-05",
                   .what = "20 % of 3 values, the lowest of them",
                   .source = by_scipy,
                   .expected = 2.0,
                   .got = quantile(three, 0.2),
                   .tolerance = 1e-12,
                   .reason = to_rounding,
                   .function = judged});
  check_reference({.id = "QTL-06",
                   .what = "70 % of 3 values",
                   .source = by_scipy,
                   .expected = 8.999999999999996,
                   .got = quantile(three, 0.7),
                   .tolerance = 1e-12,
                   .reason = to_rounding,
                   .function = judged});
  check_reference({.id = "QTL-07",
                   .what = "90 % of 3 values, the highest of them",
                   .source = by_scipy,
                   .expected = 11.0,
                   .got = quantile(three, 0.9),
                   .tolerance = 1e-12,
                   .reason = to_rounding,
                   .function = judged});
}

TEST(Quantile, AnOrderStatisticIsTheQuantileOfItsOwnShare) {
  // (k - 1/3) / (n + 1/3) with n = 5: the definition turned round.
  const std::vector<double> five = {1.0, 4.0, 9.0, 16.0, 25.0};
  for (std::size_t k = 1; k <= five.size(); ++k) {
    EXPECT_NEAR(quantile(five, (static_cast<double>(k) - 1.0 / 3.0) / (5.0 + 1.0 / 3.0)), five[k - 1], 1e-12) << k;
  }
}

TEST(Quantile, EqualValuesGiveThemselvesToTheLastBit) {
  const std::vector<double> alike(20, 0.1 + 0.2);
  for (const double share : {0.0, 0.1, 0.37, 0.5, 0.9, 1.0}) EXPECT_EQ(quantile(alike, share), 0.1 + 0.2);
}

TEST(Quantile, OneValueIsAllThereIs) {
  for (const double share : {0.0, 0.1, 0.5, 1.0}) EXPECT_EQ(quantile({7.5}, share), 7.5);
}

TEST(Quantile, NeverFallsAsTheShareRises) {
  double before = quantile(twenty, 0.0);
  EXPECT_EQ(before, 0.4);
  for (int i = 1; i <= 1000; ++i) {
    const double now = quantile(twenty, 0.001 * i);
    EXPECT_GE(now, before) << i;
    before = now;
  }
  EXPECT_EQ(before, 12.5);
}

TEST(Quantile, NeedsValuesAndAShare) {
  EXPECT_THROW((void)quantile({}, 0.5), ContractViolation);
  EXPECT_THROW((void)quantile({1.0}, -0.1), ContractViolation);
  EXPECT_THROW((void)quantile({1.0}, 1.1), ContractViolation);
}

}  // namespace
}  // namespace houseleek::stats
