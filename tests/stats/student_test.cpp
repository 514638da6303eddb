// Student's t, power, exact shares, Holm's steps and exact tests against published and recomputed values.
#include "stats/student.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/contract.hpp"
#include "stats/exact_tests.hpp"
#include "stats/holm.hpp"
#include "support/reference_check.hpp"

namespace houseleek::stats {
namespace {

using tests::check_reference;

constexpr const char* scipy = "[scipy] 1.10.1, tests/stats/recompute.py (recomputed)";
constexpr const char* last_digits = "rounding of two different algorithms";

TEST(Student, QuantilesAndShares) {
  check_reference({.id = "STT-01",
                   .what = "97.5 % quantile of Student's t with 3 degrees of freedom",
                   .source = scipy,
                   .expected = 3.182446305284263,
                   .got = student_quantile(0.975, 3.0),
                   .tolerance = 1e-11,
                   .reason = last_digits,
                   .function = "stats::student_quantile"});
  check_reference({.id = "STT-02",
                   .what = "97.5 % quantile of Student's t with 3.7 degrees of freedom",
                   .source = scipy,
                   .expected = 2.8675207071912086,
                   .got = student_quantile(0.975, 3.7),
                   .tolerance = 1e-11,
                   .reason = last_digits,
                   .function = "stats::student_quantile"});
  EXPECT_NEAR(student_quantile(0.9, 2.2), 1.812384921776358, 1e-11);
  // The paired sleep data: t -4.06213 with 9 degrees of freedom, p 0.002833 (R's help page, recomputed with R).
  EXPECT_NEAR(student_two_sided_share(-4.062128, 9.0), 0.002832888852, 1e-11);
  EXPECT_EQ(student_two_sided_share(std::numeric_limits<double>::infinity(), 3.0), 0.0);
  EXPECT_EQ(student_two_sided_share(0.0, 3.0), 1.0);
  EXPECT_THROW((void)student_quantile(1.0, 3.0), ContractViolation);
  EXPECT_THROW((void)student_quantile(0.5, 0.0), ContractViolation);
}

TEST(Student, PowerOfAComparison) {
  check_reference({.id = "PWR-01",
                   .what = "power of two groups of 20, difference 1, standard deviation 1",
                   .source = "R power.t.test(strict = TRUE) (recomputed)",
                   .expected = 0.8689530277,
                   .got = power_of_t({1.0, std::sqrt(2.0 / 20.0), 38.0, 0.95}),
                   .tolerance = 1e-7,
                   .reason = "the noncentral t of R and Boost differ in the eighth digit",
                   .function = "stats::power_of_t"});
  check_reference({.id = "PWR-02",
                   .what = "power of two groups of 3, difference 2, standard deviation 1",
                   .source = scipy,
                   .expected = 0.46264081189130546,
                   .got = power_of_t({2.0, std::sqrt(2.0 / 3.0), 4.0, 0.95}),
                   .tolerance = 1e-7,
                   .reason = last_digits,
                   .function = "stats::power_of_t"});
  check_reference({.id = "PWR-04",
                   .what = "power of 33.36721 pairs, difference 1, standard deviation 2 of the differences",
                   .source = "R power.t.test(type = \"paired\"), n for a power of 0.8 (recomputed)",
                   .expected = 0.8,
                   .got = power_of_t({1.0, 2.0 / std::sqrt(33.36721), 32.36721, 0.95}),
                   .tolerance = 1e-5,
                   .reason = "R leaves out the other tail; n to seven digits",
                   .function = "stats::power_of_t"});
  check_reference({.id = "PWR-05",
                   .what = "power of two groups of 22.02110, difference 1, standard deviation 1",
                   .source = "R power.t.test, n for a power of 0.9 (recomputed)",
                   .expected = 0.9,
                   .got = power_of_t({1.0, std::sqrt(2.0 / 22.02110), 42.04220, 0.95}),
                   .tolerance = 1e-6,
                   .reason = "n to seven digits",
                   .function = "stats::power_of_t"});
  EXPECT_NEAR(power_of_t({0.0, 1.0, 3.0, 0.95}), 0.05, 1e-12);
  EXPECT_NEAR(power_of_t({-1.0, 1.0, 5.0, 0.95}), power_of_t({1.0, 1.0, 5.0, 0.95}), 1e-12);
  EXPECT_GT(power_of_t({1000.0, 1.0, 3.0, 0.95}), 0.999999);
}

TEST(ExactShares, ClopperAndPearson) {
  const ShareInterval seven = exact_share_interval(7, 20, 0.95);
  check_reference({.id = "CLP-01",
                   .what = "lower end of the exact 95 % interval of 7 in 20",
                   .source = "R binom.test (recomputed)",
                   .expected = 0.1539092048,
                   .got = seven.low,
                   .tolerance = 1e-9,
                   .reason = "last printed digit",
                   .function = "stats::exact_share_interval"});
  EXPECT_NEAR(seven.high, 0.5921885345, 1e-9);
  EXPECT_EQ(exact_share_interval(0, 12, 0.95).low, 0.0);
  EXPECT_NEAR(exact_share_interval(0, 12, 0.95).high, 0.2646484694, 1e-9);
  EXPECT_EQ(exact_share_interval(12, 12, 0.95).high, 1.0);
}

TEST(FisherExact, TwoSided) {
  check_reference({.id = "FSH-01",
                   .what = "two-sided share of 3 of 4 against 1 of 4 (the tea taster)",
                   .source = "[fisher1935] chapter II; R's help page of fisher.test (from memory, recomputed)",
                   .expected = 0.4857142857,
                   .got = fisher_two_sided_share({3, 4, 1, 4}),
                   .tolerance = 1e-9,
                   .reason = "last printed digit",
                   .function = "stats::fisher_two_sided_share"});
  check_reference({.id = "FSH-02",
                   .what = "two-sided share of 18 of 20 against 11 of 20",
                   .source = scipy,
                   .expected = 0.030950305143853538,
                   .got = fisher_two_sided_share({18, 20, 11, 20}),
                   .tolerance = 1e-9,
                   .reason = last_digits,
                   .function = "stats::fisher_two_sided_share"});
  EXPECT_NEAR(fisher_two_sided_share({7, 19, 0, 5}), 0.272068511198946, 1e-9);
  EXPECT_NEAR(fisher_two_sided_share({5, 5, 5, 5}), 1.0, 1e-9);
  EXPECT_THROW((void)fisher_two_sided_share({5, 4, 1, 4}), ContractViolation);
}

TEST(PermutationTest, CountsEveryArrangement) {
  const SideScores grades{{4, 5, 3, 5, 2, 3, 1, 3, 2}, {true, true, true, true, false, false, false, false, false}, {}};
  const PermutationAnswer answer = permutation_test(grades, 1);
  check_reference({.id = "PRM-01",
                   .what = "grades 4 5 3 5 against 2 3 1 3 2, all 126 arrangements",
                   .source = scipy,
                   .expected = 0.023809523809523808,
                   .got = answer.two_sided_share,
                   .tolerance = 1e-12,
                   .reason = "a fraction of whole numbers",
                   .function = "stats::permutation_test"});
  EXPECT_NEAR(answer.difference, 4.25 - 2.2, 1e-12);
  EXPECT_TRUE(answer.is_every_arrangement);
  const SideScores pairs{{5, 3, 4, 4, 3, 1, 5, 2, 4, 3, 2, 3},
                         {true, false, true, false, true, false, true, false, true, false, true, false},
                         {0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5}};
  check_reference({.id = "PRM-02",
                   .what = "six pairs of grades, all 64 swaps",
                   .source = scipy,
                   .expected = 0.1875,
                   .got = permutation_test(pairs, 1).two_sided_share,
                   .tolerance = 1e-12,
                   .reason = "a fraction of whole numbers",
                   .function = "stats::permutation_test"});
  // Three against three: even the clearest result is one of 20 arrangements on each side.
  const SideScores three{{5, 5, 4, 1, 2, 1}, {true, true, true, false, false, false}, {}};
  check_reference({.id = "PRM-03",
                   .what = "least two-sided share that three modules against three can reach",
                   .source = "2 of 20 arrangements, by definition",
                   .expected = 0.1,
                   .got = permutation_test(three, 1).least_share,
                   .tolerance = 1e-12,
                   .reason = "a fraction of whole numbers",
                   .function = "stats::permutation_test"});
}

TEST(PermutationTest, DrawnArrangementsComeNearTheExactShare) {
  // 2 x 11 units: 705,432 arrangements are too many to count; the t test of the same scores gives 0.0157.
  SideScores many;
  for (int i = 0; i < 22; ++i) {
    many.scores.push_back((i * 7 % 11) + (i < 11 ? 3.6 : 0.0));
    many.is_first.push_back(i < 11);
  }
  const PermutationAnswer answer = permutation_test(many, 5);
  EXPECT_FALSE(answer.is_every_arrangement);
  EXPECT_EQ(answer, permutation_test(many, 5));
  // Scores 0 to 10 on both sides, moved by 3.6: variance 11 about each mean, error sqrt(2).
  EXPECT_NEAR(answer.two_sided_share, student_two_sided_share(3.6 / std::sqrt(2.0), 20.0), 0.005);
}

TEST(Holm, StepsAndIntervals) {
  const std::vector<double> shares{0.01, 0.04, 0.03, 0.005, 0.3};
  const std::vector<HolmStep> steps = holm_steps(shares, 0.95);
  const std::vector<double> adjusted{0.040, 0.090, 0.090, 0.025, 0.300};  // R p.adjust(method = "holm") (recomputed)
  for (std::size_t i = 0; i < shares.size(); ++i) {
    EXPECT_NEAR(steps[i].adjusted_share, adjusted[i], 1e-12);
    EXPECT_EQ(steps[i].is_told_apart, adjusted[i] <= 0.05);
    // Its interval leaves zero out exactly where the step is told apart.
    EXPECT_EQ(shares[i] <= 1.0 - steps[i].interval_confidence_frac, steps[i].is_told_apart);
  }
  check_reference({.id = "HLM-01",
                   .what = "Holm's share of 0.01 among 0.01 0.04 0.03 0.005 0.3",
                   .source = "R p.adjust (recomputed)",
                   .expected = 0.04,
                   .got = steps[0].adjusted_share,
                   .tolerance = 1e-12,
                   .reason = "a product of two numbers",
                   .function = "stats::holm_steps"});
  EXPECT_TRUE(holm_steps(std::vector<double>{}, 0.95).empty());
  EXPECT_NEAR(holm_steps(std::vector<double>{0.2}, 0.9).front().interval_confidence_frac, 0.9, 1e-15);
}

}  // namespace
}  // namespace houseleek::stats
