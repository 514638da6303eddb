// Steps of survival against R's and against counts by hand.
#include "stats/kaplan_meier.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::stats {
namespace {

using tests::check_reference;

constexpr double still_in_use = std::numeric_limits<double>::infinity();
constexpr const char* survival = "R survival 3.5 survfit on its own data set aml (recomputed)";

PartLife failed_at(double age, double n = 1.0) { return {age, age, 0.0, n}; }
PartLife in_use_at(double age, double n = 1.0) { return {age, still_in_use, 0.0, n}; }

/// Weeks of patients of the set aml whose treatment was kept up.
std::vector<PartLife> maintained() {
  return {failed_at(9),  failed_at(13), in_use_at(13), failed_at(18), failed_at(23), in_use_at(28),
          failed_at(31), failed_at(34), in_use_at(45), failed_at(48), in_use_at(161)};
}

TEST(KaplanMeier, MaintainedTreatment) {
  const std::vector<SurvivalStep> steps = kaplan_meier(maintained());
  const std::vector<double> ages = {9, 13, 18, 23, 31, 34, 48};
  const std::vector<double> shares = {0.9091, 0.8182, 0.7159, 0.6136, 0.4909, 0.3682, 0.1841};
  const std::vector<double> errors = {0.08668, 0.11629, 0.13966, 0.15263, 0.16419, 0.16267, 0.15349};
  ASSERT_EQ(steps.size(), ages.size());
  for (std::size_t i = 0; i < ages.size(); ++i) {
    EXPECT_EQ(steps[i].age_years, ages[i]);
    EXPECT_NEAR(steps[i].share_in_use, shares[i], 5e-5) << ages[i];
    EXPECT_NEAR(steps[i].standard_error, errors[i], 5e-6) << ages[i];
  }
  check_reference({.id = "KPM-01",
                   .what = "share surviving 31 weeks, maintained treatment",
                   .source = survival,
                   .expected = 0.4909,
                   .got = steps[4].share_in_use,
                   .tolerance = 5e-5,
                   .reason = "half of the last printed digit",
                   .function = "stats::kaplan_meier"});
  check_reference({.id = "KPM-02",
                   .what = "Greenwood's error of the share surviving 31 weeks",
                   .source = survival,
                   .expected = 0.16419,
                   .got = steps[4].standard_error,
                   .tolerance = 5e-6,
                   .reason = "half of the last printed digit",
                   .function = "stats::kaplan_meier"});
}

TEST(KaplanMeier, NonMaintainedTreatment) {
  const std::vector<PartLife> lives = {failed_at(5, 2), failed_at(8, 2), failed_at(12), in_use_at(16), failed_at(23),
                                       failed_at(27),   failed_at(30),   failed_at(33), failed_at(43), failed_at(45)};
  const std::vector<SurvivalStep> steps = kaplan_meier(lives);
  const std::vector<double> shares = {0.8333, 0.6667, 0.5833, 0.4861, 0.3889, 0.2917, 0.1944, 0.0972, 0.0};
  ASSERT_EQ(steps.size(), shares.size());
  for (std::size_t i = 0; i < shares.size(); ++i) EXPECT_NEAR(steps[i].share_in_use, shares[i], 5e-5) << i;
  check_reference({.id = "KPM-03",
                   .what = "share surviving 23 weeks, treatment not kept up",
                   .source = survival,
                   .expected = 0.4861,
                   .got = steps[3].share_in_use,
                   .tolerance = 5e-5,
                   .reason = "half of the last printed digit",
                   .function = "stats::kaplan_meier"});
}

TEST(KaplanMeier, WhoEnteredLaterIsNotAtRiskBefore) {
  // Of two on record at age 1 one fails; a third is on record from age 2 on: at age 3 one of two fails.
  const std::vector<PartLife> lives = {failed_at(1), failed_at(3), {4.0, still_in_use, 2.0, 1.0}};
  const std::vector<SurvivalStep> steps = kaplan_meier(lives);
  ASSERT_EQ(steps.size(), 2U);
  EXPECT_EQ(steps[0].n_at_risk, 2.0);
  EXPECT_EQ(steps[0].share_in_use, 0.5);
  EXPECT_EQ(steps[1].n_at_risk, 2.0);
  EXPECT_EQ(steps[1].share_in_use, 0.25);
  EXPECT_TRUE(kaplan_meier({}).empty());
  EXPECT_THROW((void)kaplan_meier(std::vector<PartLife>{{1.0, 2.0, 0.0, 1.0}}), ContractViolation);
}

}  // namespace
}  // namespace houseleek::stats
