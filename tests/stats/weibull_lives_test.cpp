// Weibull lives against published and recomputed fits; the posterior against its prior and a finer grid.
#include "stats/weibull_lives.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::stats {
namespace {

using tests::check_reference;

constexpr double still_in_use = std::numeric_limits<double>::infinity();
constexpr const char* survival = "R survival 3.5 survreg, tests/stats/recompute.R (recomputed)";

PartLife failed_at(double age, double n = 1.0) { return {age, age, 0.0, n}; }
PartLife failed_between(double low, double high, double n = 1.0) { return {low, high, 0.0, n}; }
PartLife in_use_at(double age, double n = 1.0) { return {age, still_in_use, 0.0, n}; }

void check(const std::string& id, const std::string& what, double expected, double got, double tolerance) {
  check_reference({.id = id,
                   .what = what,
                   .source = survival,
                   .expected = expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = "curvature by differences of 1e-4",
                   .function = "stats::fit_weibull"});
}

std::vector<PartLife> twenty_units() {
  std::vector<PartLife> lives{in_use_at(500.0, 10.0)};
  for (const double hours : {54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0}) {
    lives.push_back(failed_at(hours));
  }
  return lives;
}

TEST(WeibullFit, TwentyUnitsOfWhichTenFailed) {
  const WeibullFit fit = fit_weibull(twenty_units());
  check_reference({.id = "WBL-01",
                   .what = "shape, 20 units on test for 500 hours",
                   .source = "[nist_handbook] 8.4.1.3 (text seen)",
                   .expected = 1.7208,
                   .got = fit.law.shape,
                   .tolerance = 5e-5,
                   .reason = "half of the last printed digit",
                   .function = "stats::fit_weibull"});
  check_reference({.id = "WBL-02",
                   .what = "characteristic life, hours, 20 units on test for 500 hours",
                   .source = "[nist_handbook] 8.4.1.3 (text seen)",
                   .expected = 606.5280,
                   .got = fit.law.scale_years,
                   .tolerance = 0.001,
                   .reason = "the handbook's 606.5280 and R's 606.52756 differ by 0.0005",
                   .function = "stats::fit_weibull"});
  check("WBL-03", "log likelihood, 20 units on test for 500 hours", -75.13461816, fit.log_likelihood, 1e-7);
  EXPECT_NEAR(fit.variance_log_scale, 0.04241289365, 1e-6);
  EXPECT_NEAR(fit.variance_log_sigma, 0.08515468874, 1e-6);
  EXPECT_NEAR(fit.covariance, 0.0271278424, 1e-6);
}

TEST(WeibullFit, ShockAbsorbers) {
  // Kilometres of 38 shock absorbers, 11 failed [meeker1998]; mu 10.23 and sigma 0.316 there (from memory).
  std::vector<PartLife> lives;
  for (const double km :
       {6700.0, 9120.0, 12200.0, 13150.0, 14300.0, 17520.0, 20100.0, 20900.0, 22700.0, 26510.0, 27490.0}) {
    lives.push_back(failed_at(km));
  }
  for (const double km : {6950.0,  7820.0,  8790.0,  9660.0,  9820.0,  11310.0, 11690.0, 11850.0, 11880.0,
                          12140.0, 12870.0, 13330.0, 13470.0, 14040.0, 17540.0, 17890.0, 18450.0, 18960.0,
                          18980.0, 19410.0, 20100.0, 20150.0, 20320.0, 23490.0, 27410.0, 27890.0, 28100.0}) {
    lives.push_back(in_use_at(km));
  }
  const WeibullFit fit = fit_weibull(lives);
  check_reference({.id = "WBL-04",
                   .what = "log of the characteristic distance of shock absorbers",
                   .source = "[meeker1998] example 8.5 (from memory; recomputed 10.2299)",
                   .expected = 10.23,
                   .got = std::log(fit.law.scale_years),
                   .tolerance = 0.005,
                   .reason = "half of the last printed digit",
                   .function = "stats::fit_weibull"});
  EXPECT_NEAR(1.0 / fit.law.shape, 0.31641, 1e-5);
  EXPECT_NEAR(fit.log_likelihood, -123.9954, 1e-4);
  EXPECT_NEAR(std::sqrt(fit.variance_log_scale), 0.1099, 1e-4);
  EXPECT_NEAR(median_life_years(fit.law), 24683.6, 0.2);
}

TEST(WeibullFit, FailuresBetweenTwoLooks) {
  const std::vector<PartLife> lives{failed_between(0.0, 2.0, 3.0), failed_between(2.0, 4.0, 5.0),
                                    failed_between(4.0, 6.0, 6.0), failed_between(6.0, 8.0, 3.0), in_use_at(8.0, 3.0)};
  const WeibullFit fit = fit_weibull(lives);
  check("WBL-05", "shape, 20 parts looked at every two years", 1.811871959, fit.law.shape, 1e-6);
  check("WBL-06", "characteristic life, years, 20 parts looked at every two years", 5.582346666, fit.law.scale_years,
        1e-6);
  EXPECT_NEAR(fit.log_likelihood, -31.35403891, 1e-7);
  EXPECT_NEAR(fit.variance_log_scale, 0.01874665635, 1e-6);
  EXPECT_NEAR(fit.covariance, -0.004617158942, 1e-6);
}

TEST(WeibullFit, AllKindsTogether) {
  const std::vector<PartLife> lives{failed_at(1.2),           failed_at(2.5),           failed_at(3.0),
                                    failed_between(1.0, 2.0), failed_between(2.0, 4.0), failed_between(0.0, 1.0),
                                    in_use_at(4.0, 3.0),      failed_between(2.0, 3.5)};
  const WeibullFit fit = fit_weibull(lives);
  check("WBL-07", "shape, exact, between and in use together", 1.662538936, fit.law.shape, 1e-6);
  EXPECT_NEAR(fit.law.scale_years, 3.500781842, 1e-6);
  EXPECT_NEAR(fit.log_likelihood, -14.37069479, 1e-7);
}

TEST(WeibullLikelihood, AConstantHazardForgetsTheAgeAtEntry) {
  // With shape 1 a part that entered at age 3 and is in use at 5 says what one says that is in use at 2.
  const Weibull law{1.0, 4.0};
  const std::vector<PartLife> late{{5.0, still_in_use, 3.0, 1.0}};
  const std::vector<PartLife> early{in_use_at(2.0)};
  EXPECT_NEAR(log_likelihood(late, law), log_likelihood(early, law), 1e-14);
  EXPECT_THROW((void)log_likelihood(std::vector<PartLife>{{2.0, 1.0, 0.0, 1.0}}, law), ContractViolation);
  EXPECT_THROW((void)log_likelihood(std::vector<PartLife>{{0.0, 0.0, 0.0, 1.0}}, law), ContractViolation);
  EXPECT_THROW((void)fit_weibull(std::vector<PartLife>{failed_at(2.0), in_use_at(3.0)}), ContractViolation);
}

Quantiles medians(const std::vector<WeightedLaw>& laws) {
  std::vector<WeightedValue> values;
  for (const WeightedLaw& law : laws) values.push_back({median_life_years(law.law), law.weight});
  return weighted_quantiles(values, 0.9);
}

TEST(WeibullPosterior, PriorAloneComesBack) {
  const LifePrior prior{.median_low_years = 2.0, .median_high_years = 8.0, .shape_low = 1.0, .shape_high = 6.0};
  const Quantiles alone = medians(weibull_posterior({}, prior));
  EXPECT_NEAR(alone.low, 2.0, 0.01);
  EXPECT_NEAR(alone.middle, 4.0, 0.01);
  EXPECT_NEAR(alone.high, 8.0, 0.04);
}

/// Median life's quantiles by a plain rectangle of 400 x 400 points, no turning, no cutting.
Quantiles by_brute_force(const std::vector<PartLife>& lives, const LifePrior& prior) {
  constexpr double reach = 1.6448536269514722;
  const double middle = 0.5 * std::log(prior.median_low_years * prior.median_high_years);
  const double sd = 0.5 * std::log(prior.median_high_years / prior.median_low_years) / reach;
  const double middle_shape = 0.5 * std::log(prior.shape_low * prior.shape_high);
  const double sd_shape = 0.5 * std::log(prior.shape_high / prior.shape_low) / reach;
  std::vector<WeightedValue> values;
  for (int i = 0; i < 400; ++i) {
    for (int j = 0; j < 400; ++j) {
      const double a = -6.0 + 12.0 * (i + 0.5) / 400.0;
      const double b = -6.0 + 12.0 * (j + 0.5) / 400.0;
      const double shape = std::exp(middle_shape + sd_shape * b);
      const double median = std::exp(middle + sd * a);
      const Weibull law{shape, median / std::pow(std::numbers::ln2, 1.0 / shape)};
      values.push_back({median, std::exp(log_likelihood(lives, law) - 0.5 * (a * a + b * b))});
    }
  }
  return weighted_quantiles(values, 0.9);
}

TEST(WeibullPosterior, AFinerGridSaysTheSame) {
  const LifePrior prior{.median_low_years = 1.0, .median_high_years = 6.0, .shape_low = 1.0, .shape_high = 6.0};
  const std::vector<std::vector<PartLife>> logs{
      {in_use_at(2.0, 12.0)},
      {failed_between(1.0, 1.5, 2.0), failed_at(2.2), in_use_at(2.5, 9.0)},
      {failed_between(0.5, 1.0, 4.0), failed_between(1.0, 2.0, 9.0), failed_at(1.6, 3.0), in_use_at(2.0, 6.0)}};
  for (const std::vector<PartLife>& lives : logs) {
    const Quantiles got = medians(weibull_posterior(lives, prior));
    const Quantiles fine = by_brute_force(lives, prior);
    EXPECT_NEAR(got.low / fine.low, 1.0, 0.003);
    EXPECT_NEAR(got.middle / fine.middle, 1.0, 0.003);
    EXPECT_NEAR(got.high / fine.high, 1.0, 0.003);
  }
}

TEST(WeibullPosterior, ManyFailuresOutweighAWrongPrior) {
  // Prior far too long; 6000 failures say 2 years. The top lies seven prior standard deviations off.
  const LifePrior prior{.median_low_years = 10.0, .median_high_years = 25.0, .shape_low = 1.0, .shape_high = 6.0};
  std::vector<PartLife> lives;
  for (int i = 1; i <= 200; ++i) {
    lives.push_back(failed_at(2.4 * std::sqrt(-std::log(1.0 - (i - 0.5) / 200.0)), 30.0));
  }
  const Quantiles got = medians(weibull_posterior(lives, prior));
  EXPECT_NEAR(got.middle, 2.4 * std::sqrt(std::numbers::ln2), 0.01);
}

TEST(WeibullForecast, AConstantHazardGivesAConstantRate) {
  // Shape 1: a renewal process of constant rate whatever the ages; by whole months the rate is exact.
  const std::vector<PartsInUse> parts{{0.0, 10.0}, {3.7, 5.0}};
  const std::vector<double> months = expected_replacements({1.0, 2.0}, parts, 24);
  for (const double month : months) EXPECT_NEAR(month, 15.0 * (1.0 - std::exp(-1.0 / 24.0)), 1e-12);
}

TEST(WeibullForecast, PartsThatWearOutTogetherComeInWaves) {
  const std::vector<PartsInUse> parts{{1.0, 100.0}};
  const std::vector<double> months = expected_replacements({12.0, 1.5}, parts, 36);
  double first = 0.0;
  for (std::size_t i = 0; i < 12; ++i) first += months[i];
  EXPECT_NEAR(first, 100.0, 5.0);  // almost all reach 1.5 years within the first year
  EXPECT_LT(months[12], 2.0);      // then none is old
  EXPECT_GT(months[23], 10.0);     // then the second wave
}

}  // namespace
}  // namespace houseleek::stats
