// Normal and gamma distributions against digits made elsewhere, and variates against their own laws.
#include "stats/distributions.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/contract.hpp"
#include "stats/sampling.hpp"

namespace houseleek {
namespace {

// All expected digits here recomputed with mpmath 1.3 (40 digits, for the double nearest to each argument).

void expect_relative(double got, double expected, double bar, double argument) {
  EXPECT_LE(std::fabs(got - expected), bar * std::fabs(expected)) << "at " << argument << ": " << got;
}

struct Digits {
  double x;
  double expected;
};

TEST(NormalDistribution, ShareBelow) {
  for (const auto& [x, expected] : std::vector<Digits>{{-37.0, 5.7255712225245768227e-300},
                                                       {-20.0, 2.7536241186062336951e-89},
                                                       {-8.0, 6.2209605742717841235e-16},
                                                       {-3.0, 0.0013498980316300945267},
                                                       {-1.0, 0.15865525393145705141},
                                                       {-0.1, 0.46017216272297101633},
                                                       {0.0, 0.5},
                                                       {0.5, 0.69146246127401310364},
                                                       {1.96, 0.97500210485177956379},
                                                       {3.5, 0.99976737092096447496},
                                                       {6.0, 0.99999999901341235496}}) {
    expect_relative(stats::standard_normal_cdf(x), expected, 1e-15, x);
  }
  EXPECT_EQ(stats::standard_normal_cdf(-40.0), 0.0);
  EXPECT_EQ(stats::standard_normal_cdf(40.0), 1.0);
  EXPECT_THROW((void)stats::standard_normal_cdf(std::nan("")), ContractViolation);
}

TEST(NormalDistribution, Quantile) {
  for (const auto& [p, expected] : std::vector<Digits>{{1e-300, -37.047096299361199237},
                                                       {1e-20, -9.2623400897984075796},
                                                       {1e-5, -4.2648907939228246102},
                                                       {0.01, -2.3263478740408410931},
                                                       {0.075, -1.4395314709384559349},
                                                       {0.3, -0.52440051270804081597},
                                                       {0.6, 0.25334710313579974132},
                                                       {0.95, 1.6448536269514722843},
                                                       {0.999999, 4.7534243088170877657}}) {
    expect_relative(stats::standard_normal_quantile(p), expected, 1e-15, p);
  }
  EXPECT_EQ(stats::standard_normal_quantile(0.5), 0.0);
  for (const double p : {0.0, 1.0, -0.1, std::nan("")}) {
    EXPECT_THROW((void)stats::standard_normal_quantile(p), ContractViolation);
  }
}

TEST(NormalDistribution, QuantileTurnsTheShareBack) {
  for (double z = -37.0; z <= 0.0; z += 0.01) {
    // A relative error e of the share moves z by e Phi / density, less than e / |z|.
    const double back = stats::standard_normal_quantile(stats::standard_normal_cdf(z));
    EXPECT_NEAR(back, z, 2e-15 * std::fmax(1.0, std::fabs(z))) << z;
  }
}

TEST(GammaDistribution, LogarithmOfTheGammaFunction) {
  for (const auto& [x, expected] : std::vector<Digits>{{1e-5, 11.512919692895825626},
                                                       {0.1, 2.2527126517342059020},
                                                       {0.5, 0.57236494292470008707},
                                                       {1.5, -0.12078223763524522235},
                                                       {3.3, 0.98709857789473440406},
                                                       {9.99, 12.779315214350193360},
                                                       {10.0, 12.801827480081469611},
                                                       {100.5, 361.43554046777762156},
                                                       {1e6, 12815504.569147611660}}) {
    EXPECT_NEAR(stats::log_gamma(x), expected, 8e-15 * std::fmax(1.0, std::fabs(expected))) << x;
  }
  EXPECT_THROW((void)stats::log_gamma(0.0), ContractViolation);
}

TEST(GammaDistribution, SharesBelowAndAbove) {
  struct Row {
    double shape, x, below, above;
  };
  for (const Row& row : std::vector<Row>{{0.05, 1e-6, 0.51482795452517817164, 0.48517204547482182836},
                                         {0.7, 0.1, 0.21082407575330608616, 0.78917592424669391384},
                                         {0.7, 3.0, 0.97444738771635648885, 0.025552612283643511152},
                                         {1.0, 1.0, 0.63212055882855767840, 0.36787944117144232160},
                                         {2.5, 9.0, 0.99705359541211970963, 0.0029464045878802903731},
                                         {30.0, 20.0, 0.021818217525557391559, 0.97818178247444260844},
                                         {30.0, 60.0, 0.99999312373503126790, 6.8762649687320966864e-6},
                                         {900.0, 850.0, 0.045762494179241799485, 0.95423750582075820051}}) {
    const stats::GammaShares shares = stats::gamma_shares(row.shape, row.x);
    expect_relative(shares.below, row.below, 2e-12, row.x);
    expect_relative(shares.above, row.above, 2e-12, row.x);
  }
  EXPECT_EQ(stats::gamma_shares(2.0, 0.0).below, 0.0);
  EXPECT_THROW((void)stats::gamma_shares(0.001, 1.0), ContractViolation);
  EXPECT_THROW((void)stats::gamma_shares(2.0, -1.0), ContractViolation);
}

TEST(GammaDistribution, Quantile) {
  struct Row {
    double shape, p, expected;
  };
  for (const Row& row : std::vector<Row>{{0.05, 0.3, 2.0378971887326643863e-11},
                                         {0.7, 0.001, 0.000045170632965198833460},
                                         {0.7, 0.5, 0.40742374847644126709},
                                         {0.7, 0.999, 6.0637395638872750442},
                                         {1.0, 0.5, 0.69314718055994530942},
                                         {2.5, 0.9999, 12.872415979528061247},
                                         {30.0, 0.01, 18.742425764901892796},
                                         {900.0, 0.6, 907.28686889354944940}}) {
    expect_relative(stats::gamma_quantile(row.shape, row.p), row.expected, 2e-12, row.p);
  }
  EXPECT_EQ(stats::gamma_quantile(0.01, 1e-10), 0.0);
  EXPECT_THROW((void)stats::gamma_quantile(1.0, 1.0), ContractViolation);
}

TEST(GammaDistribution, QuantileConvergesAndGrowsEverywhere) {
  for (double shape = 0.01; shape <= 1000.0; shape *= 1.25) {
    double before = 0.0;
    for (int i = 1; i < 400; ++i) {
      // Dense at both ends: shares from 2^-52 to 1 - 2^-52.
      const double end = std::exp2(-51.0 * std::abs(200 - i) / 200.0 - 1.0);
      const double p = i < 200 ? end : 1.0 - end;
      const double x = stats::gamma_quantile(shape, p);
      EXPECT_GE(x, before) << shape << " " << p;
      EXPECT_LT(x, 100.0 + 2.0 * shape) << shape << " " << p;
      before = x;
    }
  }
}

constexpr int n_numbers = 400000;
constexpr double bar_z = 5.0;  // comes by chance in 6e-7 of such checks

TEST(Sampling, NormalNumbersHaveTheMomentsOfTheNormalLaw) {
  const RandomVariable variable = random_variable(11, "normal");
  double sum = 0.0, squares = 0.0, cubes = 0.0, fourths = 0.0, lagged = 0.0, before = 0.0;
  for (int i = 0; i < n_numbers; ++i) {
    const double z = stats::random_normal(variable, {0, i, 0});
    sum += z;
    squares += z * z - 1.0;
    cubes += z * z * z;
    fourths += z * z * z * z - 3.0;
    lagged += z * before;
    before = z;
  }
  const double root_n = std::sqrt(static_cast<double>(n_numbers));
  // Variances of z, z^2, z^3, z^4 are 1, 2, 15, 96; of a product of two numbers 1.
  EXPECT_LT(std::fabs(sum) / root_n, bar_z);
  EXPECT_LT(std::fabs(squares) / (root_n * std::sqrt(2.0)), bar_z);
  EXPECT_LT(std::fabs(cubes) / (root_n * std::sqrt(15.0)), bar_z);
  EXPECT_LT(std::fabs(fourths) / (root_n * std::sqrt(96.0)), bar_z);
  EXPECT_LT(std::fabs(lagged) / root_n, bar_z);
}

TEST(Sampling, GammaNumbersHaveTheMomentsOfTheGammaLaw) {
  for (const double shape : {0.4, 0.75, 2.0, 40.0}) {
    const RandomVariable variable = random_variable(12, "gamma");
    constexpr double scale = 6.5;
    constexpr int n = 40000;
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < n; ++i) {
      const double x = stats::random_gamma(variable, {3, i, 0}, {shape, scale}) / scale - shape;
      sum += x;
      squares += x * x - shape;
    }
    // Central moments of scale 1: second a, fourth 3 a^2 + 6 a.
    EXPECT_LT(std::fabs(sum) / std::sqrt(n * shape), bar_z) << shape;
    EXPECT_LT(std::fabs(squares) / std::sqrt(n * (2.0 * shape * shape + 6.0 * shape)), bar_z) << shape;
  }
}

TEST(Sampling, EventsHappenAsOftenAsTheirProbability) {
  const RandomVariable variable = random_variable(13, "event");
  int n_events = 0;
  for (int i = 0; i < n_numbers; ++i) n_events += stats::random_event(variable, {0, i, 0}, 0.3) ? 1 : 0;
  EXPECT_LT(std::fabs(n_events - 0.3 * n_numbers) / std::sqrt(0.21 * n_numbers), bar_z);
  EXPECT_FALSE(stats::random_event(variable, {0, 0, 0}, 0.0));
  EXPECT_TRUE(stats::random_event(variable, {0, 0, 0}, 1.0));
}

}  // namespace
}  // namespace houseleek
