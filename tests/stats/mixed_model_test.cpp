// REML variances and Kenward and Roger's errors against published data and R.
#include "stats/mixed_model.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::stats {
namespace {

using tests::check_reference;

// Penicillin assay: zones (mm) of six samples on each of 24 plates, [davies1972] section 6.6, as in R's lme4.
const std::vector<double> zones{
    27, 23, 26, 23, 23, 21, 27, 23, 26, 23, 23, 21, 25, 21, 25, 24, 24, 20, 26, 23, 25, 23, 23, 20, 25, 22, 26, 22, 23,
    20, 24, 22, 25, 23, 22, 19, 24, 20, 23, 21, 22, 19, 26, 22, 26, 24, 24, 21, 24, 21, 24, 22, 22, 20, 24, 21, 24, 23,
    22, 19, 26, 23, 26, 24, 24, 21, 25, 22, 26, 24, 24, 20, 26, 24, 26, 24, 25, 22, 26, 23, 26, 23, 23, 20, 26, 23, 25,
    24, 24, 22, 25, 22, 25, 23, 23, 20, 25, 21, 24, 23, 23, 20, 25, 22, 24, 23, 23, 19, 24, 21, 23, 21, 21, 19, 26, 23,
    26, 24, 24, 21, 25, 21, 24, 22, 22, 18, 25, 22, 25, 22, 22, 20, 24, 21, 24, 22, 24, 19, 24, 21, 24, 22, 21, 18};
// Strength (%) of a paste: two analyses of each of three casks of ten deliveries, [davies1972] section 6.5, as in lme4.
const std::vector<double> pastes{62.8, 62.6, 60.1, 62.3, 62.7, 63.1, 60,   61.4, 57.5, 56.9, 61.1, 58.9,
                                 58.7, 57.5, 63.9, 63.1, 65.4, 63.7, 57.1, 56.4, 56.9, 58.6, 64.7, 64.5,
                                 55.1, 55.1, 54.7, 54.2, 58.8, 57.5, 63.4, 64.9, 59.3, 58.1, 60.5, 60,
                                 62.5, 62.6, 61,   58.7, 56.9, 57.7, 59.2, 59.4, 65.2, 66,   64.8, 64.1,
                                 54.8, 54.8, 64,   64,   57.7, 56.8, 58.3, 59.3, 59.2, 59.2, 58.9, 56.6};

constexpr const char* lme4 = "R lme4 1.1-31, pbkrtest 0.5.2, tests/stats/recompute.R (recomputed)";

void check(const std::string& id, const std::string& what, double expected, double got, double tolerance) {
  check_reference({.id = id,
                   .what = what,
                   .source = lme4,
                   .expected = expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = "R's optimiser stops at about seven digits",
                   .function = "stats::fit_mixed_model"});
}

std::vector<int> labels(std::size_t n, int divisor, int modulus) {
  std::vector<int> result;
  for (std::size_t i = 0; i < n; ++i) result.push_back(static_cast<int>(i) / divisor % modulus);
  return result;
}

TEST(MixedModel, PlatesCrossedWithSamples) {
  const MixedFit fit = fit_mixed_model({.values = zones,
                                        .fixed = {std::vector<double>(zones.size(), 1.0)},
                                        .random_groups = {labels(144, 6, 24), labels(144, 1, 6)},
                                        .contrasts = {{1.0}}},
                                       0.95);
  check_reference({.id = "MIX-01",
                   .what = "penicillin assay: standard deviation between plates, mm",
                   .source = "[lme4_listing] (text seen)",
                   .expected = 0.8467,
                   .got = std::sqrt(fit.variances[0]),
                   .tolerance = 5e-5,
                   .reason = "half of the last printed digit",
                   .function = "stats::fit_mixed_model"});
  check_reference({.id = "MIX-02",
                   .what = "penicillin assay: standard deviation between samples, mm",
                   .source = "[lme4_listing] (text seen)",
                   .expected = 1.9316,
                   .got = std::sqrt(fit.variances[1]),
                   .tolerance = 5e-5,
                   .reason = "half of the last printed digit",
                   .function = "stats::fit_mixed_model"});
  check_reference({.id = "MIX-03",
                   .what = "penicillin assay: REML criterion",
                   .source = "[lme4_listing] (text seen)",
                   .expected = 330.8606,
                   .got = -2.0 * fit.restricted_log_likelihood,
                   .tolerance = 5e-5,
                   .reason = "half of the last printed digit",
                   .function = "stats::fit_mixed_model"});
  EXPECT_NEAR(std::sqrt(fit.variances[2]), 0.5499, 5e-5);
  EXPECT_NEAR(fit.coefficients[0], 22.97222222, 1e-8);
  check("MIX-04", "penicillin assay: degrees of freedom of the mean", 5.487092292, fit.contrasts[0].degrees_of_freedom,
        1e-5);
  EXPECT_NEAR(fit.contrasts[0].standard_error, 0.8085733606, 1e-6);
}

TEST(MixedModel, CasksWithinDeliveries) {
  const MixedFit fit = fit_mixed_model({.values = pastes,
                                        .fixed = {std::vector<double>(pastes.size(), 1.0)},
                                        .random_groups = {labels(60, 6, 10), labels(60, 2, 30)},
                                        .contrasts = {{1.0}}},
                                       0.95);
  check("MIX-05", "paste: variance between deliveries", 1.6573091295, fit.variances[0], 2e-6);
  EXPECT_NEAR(fit.variances[1], 8.4336665813, 2e-6);
  EXPECT_NEAR(fit.variances[2], 0.6779999845, 2e-7);
  EXPECT_NEAR(fit.restricted_log_likelihood, -123.4953729, 1e-7);
  EXPECT_NEAR(fit.contrasts[0].standard_error, 0.6768700998, 1e-7);
  EXPECT_NEAR(fit.contrasts[0].degrees_of_freedom, 9.0, 1e-6);  // ten deliveries, balanced
}

MixedData sides_in_blocks(const std::vector<double>& values, const std::vector<int>& sides,
                          const std::vector<int>& blocks, int n_sides) {
  MixedData data{.values = values, .fixed = {}, .random_groups = {blocks}, .contrasts = {}};
  for (int side = 0; side < n_sides; ++side) {
    std::vector<double> column;
    for (const int own : sides) column.push_back(own == side ? 1.0 : 0.0);
    data.fixed.push_back(column);
  }
  return data;
}

TEST(MixedModel, IncompleteBlocks) {
  // Of nine plates, two of each three keep four of the six samples.
  std::vector<double> values;
  std::vector<int> samples;
  std::vector<int> plates;
  for (int i = 0; i < 54; ++i) {
    const int plate = i / 6;
    const int sample = i % 6;
    if ((sample + plate) % 3 == 0 && plate % 3 < 2) continue;
    values.push_back(zones[static_cast<std::size_t>(i)]);
    samples.push_back(sample);
    plates.push_back(plate);
  }
  MixedData data = sides_in_blocks(values, samples, plates, 6);
  data.contrasts = {{1.0, -1.0, 0.0, 0.0, 0.0, 0.0}, {0.0, 0.0, 0.5, 0.5, -0.5, -0.5}};
  const MixedFit fit = fit_mixed_model(data, 0.95);
  check("MIX-06", "incomplete blocks: degrees of freedom of a difference", 28.60611473,
        fit.contrasts[0].degrees_of_freedom, 2e-5);
  check("MIX-07", "incomplete blocks: adjusted error of a difference", 0.3487552624, fit.contrasts[0].standard_error,
        1e-7);
  EXPECT_NEAR(fit.contrasts[0].value, 3.244693723, 1e-6);
  EXPECT_NEAR(fit.contrasts[1].value, 2.455680195, 1e-6);
  EXPECT_NEAR(fit.contrasts[1].standard_error, 0.2549425771, 1e-7);
  EXPECT_NEAR(fit.contrasts[1].degrees_of_freedom, 28.28808941, 2e-5);
  EXPECT_NEAR(fit.variances[0], 0.5214557087, 1e-6);
}

TEST(MixedModel, FewModulesAndAVarianceOfZero) {
  MixedData tiny = sides_in_blocks({3.1, 2.2, 3.9, 2.4, 2.6}, {0, 1, 0, 1, 0}, {0, 0, 1, 1, 2}, 2);
  tiny.contrasts = {{1.0, -1.0}};
  const MixedFit one = fit_mixed_model(tiny, 0.95);
  // lme4 and pbkrtest, as above: 1.108523188, 0.3462995999, 1.118667179.
  EXPECT_NEAR(one.contrasts[0].value, 1.108523188, 1e-6);
  EXPECT_NEAR(one.contrasts[0].standard_error, 0.3462995999, 1e-6);
  EXPECT_NEAR(one.contrasts[0].degrees_of_freedom, 1.118667179, 1e-5);
  MixedData flat = sides_in_blocks({3.1, 2.9, 2.2, 3.3, 2.4, 3.0}, {0, 1, 0, 1, 0, 1}, {0, 0, 1, 1, 2, 2}, 2);
  flat.contrasts = {{1.0, -1.0}};
  const MixedFit two = fit_mixed_model(flat, 0.95);
  EXPECT_EQ(two.variances[0], 0.0);
  EXPECT_NEAR(two.variances[1], 0.1333333333, 1e-9);
  EXPECT_NEAR(two.contrasts[0].standard_error, 0.298142397, 1e-8);
  EXPECT_NEAR(two.contrasts[0].degrees_of_freedom, 2.0, 1e-6);
}

TEST(MixedModel, WithoutGroupsItIsOrdinaryLeastSquares) {
  MixedData data = sides_in_blocks({1.0, 2.0, 4.0, 3.0, 7.0, 5.0}, {0, 0, 0, 1, 1, 1}, {}, 2);
  data.random_groups.clear();
  data.contrasts = {{1.0, -1.0}};
  const Estimate estimate = fit_mixed_model(data, 0.95).contrasts[0];
  // Sums of squares 14/3 and 8: pooled variance 19/6, four degrees of freedom.
  EXPECT_NEAR(estimate.value, 7.0 / 3.0 - 5.0, 1e-12);
  EXPECT_NEAR(estimate.standard_error, std::sqrt(19.0 / 6.0 * 2.0 / 3.0), 1e-12);
  EXPECT_NEAR(estimate.degrees_of_freedom, 4.0, 1e-9);
}

TEST(MixedModel, RefusesWhatHasNoAnswer) {
  const std::vector<double> ones(4, 1.0);
  EXPECT_THROW((void)fit_mixed_model({{1.0, 1.0, 1.0, 1.0}, {ones}, {}, {}}, 0.95), ContractViolation);
  EXPECT_THROW((void)fit_mixed_model({{1.0, 2.0, 3.0, 5.0}, {ones, ones}, {}, {}}, 0.95), ContractViolation);
  EXPECT_THROW((void)fit_mixed_model({{1.0, 2.0}, {{1.0, 1.0}, {0.0, 1.0}}, {}, {}}, 0.95), ContractViolation);
}

// Yields of four treatments A to D in five blends, row by row: Box, Hunter and Hunter, Statistics for Experimenters,
// the penicillin example (data from memory; sums of squares recomputed with R: blends 264 with 4, treatments 70 with 3,
// the rest 226 with 12 degrees of freedom).
TEST(MixedModel, TreatmentsInCompleteBlocks) {
  const std::vector<double> yields{89, 88, 97, 94, 84, 77, 92, 79, 81, 87, 87, 85, 87, 92, 89, 84, 79, 81, 80, 88};
  MixedData data{.values = yields, .fixed = {}, .random_groups = {labels(20, 4, 5)}, .contrasts = {{1, -1, 0, 0}}};
  for (std::size_t side = 0; side < 4; ++side) {
    std::vector<double> column(20, 0.0);
    for (std::size_t i = side; i < 20; i += 4) column[i] = 1.0;
    data.fixed.push_back(column);
  }
  const MixedFit fit = fit_mixed_model(data, 0.95);
  const std::vector<double> means{84.0, 85.0, 89.0, 86.0};
  for (std::size_t side = 0; side < 4; ++side) EXPECT_NEAR(fit.coefficients[side], means[side], 1e-9);
  check_reference({.id = "MIX-10",
                   .what = "treatments in complete blocks: error of a difference, sqrt(2 (226/12) / 5)",
                   .source = "R anova of the same table (recomputed)",
                   .expected = 2.744692,
                   .got = fit.contrasts[0].standard_error,
                   .tolerance = 2e-6,
                   .reason = "last printed digit",
                   .function = "stats::fit_mixed_model"});
  EXPECT_NEAR(fit.contrasts[0].degrees_of_freedom, 12.0, 1e-4);
  // Between blends: (264/4 - 226/12) / 4.
  EXPECT_NEAR(fit.variances[0], (264.0 / 4.0 - 226.0 / 12.0) / 4.0, 1e-5);
}

// Hours of sleep gained by ten people under two drugs, R's set sleep.
TEST(MixedModel, PairsAreThePairedT) {
  const std::vector<double> first{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
  const std::vector<double> second{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
  MixedData data{.values = first, .fixed = {{}, {}}, .random_groups = {labels(20, 1, 10)}, .contrasts = {{1, -1}}};
  data.values.insert(data.values.end(), second.begin(), second.end());
  for (std::size_t i = 0; i < 20; ++i) {
    data.fixed[0].push_back(i < 10 ? 1.0 : 0.0);
    data.fixed[1].push_back(i < 10 ? 0.0 : 1.0);
  }
  const Estimate one = fit_mixed_model(data, 0.95).contrasts[0];
  EXPECT_NEAR(one.value, -1.58, 1e-9);
  EXPECT_NEAR(one.two_sided_share, 0.0028329, 1e-6);
  check_reference({.id = "MIX-11",
                   .what = "two drugs, ten people: lower end of the 95 % interval of the difference",
                   .source = "R t.test(paired = TRUE) (recomputed)",
                   .expected = -2.45989,
                   .got = one.low,
                   .tolerance = 1e-5,
                   .reason = "last printed digit",
                   .function = "stats::fit_mixed_model"});
  check_reference({.id = "MIX-12",
                   .what = "two drugs, ten people: upper end of the 95 % interval of the difference",
                   .source = "R t.test(paired = TRUE) (recomputed)",
                   .expected = -0.70011,
                   .got = one.high,
                   .tolerance = 1e-5,
                   .reason = "last printed digit",
                   .function = "stats::fit_mixed_model"});
}

}  // namespace
}  // namespace houseleek::stats
