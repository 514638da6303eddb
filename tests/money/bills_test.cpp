// Bills before and after the modules: against R's least squares, and what is said where little can be said.
#include "money/bills.hpp"

#include <gtest/gtest.h>

#include <array>

#include "stats/sampling.hpp"
#include "support/reference_check.hpp"

namespace houseleek::money {
namespace {

/// Fourteen invented bills of two months, with a new appliance halfway through the eleventh.
BillQuestion invented_bills() {
  constexpr std::array<int, 14> days = {59, 61, 61, 62, 61, 61, 59, 61, 61, 62, 61, 61, 59, 61};
  constexpr std::array<double, 14> cold = {7.0, 3.1, 0.2, 0.0, 0.4, 3.9, 7.6, 2.7, 0.3, 0.0, 0.6, 4.4, 6.6, 3.3};
  constexpr std::array<double, 14> cover = {0, 0, 0, 0, 0, 0, 0, 0.1, 0.4, 0.6, 0.8, 1, 1, 1};
  constexpr std::array<double, 14> step = {0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.5, 1, 1, 1};
  constexpr std::array<double, 14> kwh = {1105, 655, 312, 280, 330, 742, 1160, 590, 318, 291, 330, 640, 826, 520};
  BillQuestion question;
  question.item = "gas";
  question.step_names = {"use since 2024-11-01"};
  std::int64_t day = 19000;
  for (std::size_t i = 0; i < days.size(); ++i) {
    question.bills.push_back({day, day + days[i] - 1, kwh[i], cold[i], 0.0, cover[i], {step[i]}});
    day += days[i];
  }
  return question;
}

TEST(Bills, LeastSquaresAsRHasThem) {
  const BillAnswer answer = judge_bills(invented_bills());
  ASSERT_TRUE(answer.less_kwh_per_year.has_value());
  // lm(kwh/days ~ cold + step + I(cover*cold), weights = days); R 4.2 of Debian 12, run for this test.
  tests::check_reference({.id = "BILL-01",
                          .what = "energy less in a year of the bills' mean weather, kWh",
                          .source = "recomputed with R's lm (weighted least squares)",
                          .expected = 450.5419999,
                          .got = *answer.less_kwh_per_year,
                          .tolerance = 1e-4,
                          .reason = "ten digits printed",
                          .function = "money::judge_bills"});
  tests::check_reference({.id = "BILL-02",
                          .what = "half width of its 95 % interval, kWh",
                          .source = "recomputed with R's lm, vcov and qt",
                          .expected = 146.040478,
                          .got = answer.high_kwh_per_year - *answer.less_kwh_per_year,
                          .tolerance = 1e-3,
                          .reason = "nine digits printed; quantile of t by another library",
                          .function = "money::judge_bills"});
  EXPECT_EQ(answer.outcome, BillOutcome::less);
  EXPECT_EQ(answer.n_before, 7);
  EXPECT_EQ(answer.n_after, 5);
  EXPECT_NE(answer.sentence.find("gas: 451 kWh a year less with the modules, 95 % interval 305 to 597"),
            std::string::npos)
      << answer.sentence;
  EXPECT_NE(answer.sentence.find("counted apart: use since 2024-11-01"), std::string::npos);
}

TEST(Bills, WithoutADifferenceNotToldApart) {
  BillQuestion question = invented_bills();
  question.step_names.clear();
  for (std::size_t i = 0; i < question.bills.size(); ++i) {
    BillPeriod& bill = question.bills[i];
    bill.steps.clear();
    const double days = static_cast<double>(bill.last_day - bill.first_day + 1);
    bill.energy_kwh = days * (5.0 + 2.0 * bill.cold_k) * (i % 2 == 0 ? 1.04 : 0.96);
  }
  const BillAnswer answer = judge_bills(question);
  EXPECT_EQ(answer.outcome, BillOutcome::not_told_apart);
  EXPECT_NE(answer.sentence.find("not told apart from before: between"), std::string::npos) << answer.sentence;
}

TEST(Bills, MoreIsSaidAsPlainlyAsLess) {
  BillQuestion question = invented_bills();
  for (BillPeriod& bill : question.bills) {
    const double days = static_cast<double>(bill.last_day - bill.first_day + 1);
    bill.energy_kwh = days * (5.0 + 2.0 * bill.cold_k + 0.8 * bill.covered_frac * bill.cold_k + 0.01 * bill.cold_k);
  }
  const BillAnswer answer = judge_bills(question);
  EXPECT_EQ(answer.outcome, BillOutcome::more);
  EXPECT_NE(answer.sentence.find("MORE with the modules"), std::string::npos) << answer.sentence;
}

TEST(Bills, AFewSayNothing) {
  BillQuestion question = invented_bills();
  question.bills.resize(9);
  EXPECT_EQ(judge_bills(question).outcome, BillOutcome::too_few);  // one with most of the modules
  question.bills.clear();
  EXPECT_EQ(judge_bills(question).outcome, BillOutcome::too_few);
}

TEST(Bills, WhatCameTogetherWithTheModulesCannotBeToldFromThem) {
  BillQuestion question = invented_bills();
  // In summer bills only: no cold day on any bill, so nothing that the modules could change.
  for (BillPeriod& bill : question.bills) bill.cold_k = 0.0;
  const BillAnswer answer = judge_bills(question);
  EXPECT_EQ(answer.outcome, BillOutcome::not_separable);
  EXPECT_NE(answer.sentence.find("cannot be said"), std::string::npos) << answer.sentence;
}

TEST(Bills, IntervalsHoldTheTruthAsOftenAsTheySay) {
  // 400 invented households with a true saving; scatter of 5 % of each bill.
  int n_held = 0;
  constexpr int n_trials = 400;
  for (std::uint32_t trial = 0; trial < n_trials; ++trial) {
    BillQuestion question = invented_bills();
    double mean_cold = 0.0;
    double all_days = 0.0;
    for (std::size_t i = 0; i < question.bills.size(); ++i) {
      BillPeriod& bill = question.bills[i];
      const double days = static_cast<double>(bill.last_day - bill.first_day + 1);
      mean_cold += days * bill.cold_k;
      all_days += days;
      const double noise =
          stats::random_normal(random_variable(11, "bill"), {.draw = trial, .index = static_cast<std::uint32_t>(i)});
      bill.energy_kwh = days * (5.0 + 2.0 * bill.cold_k - 0.3 * bill.covered_frac * bill.cold_k + 0.5 * noise);
    }
    const double truth = 365.25 * 0.3 * mean_cold / all_days;
    const BillAnswer answer = judge_bills(question);
    if (answer.low_kwh_per_year <= truth && truth <= answer.high_kwh_per_year) ++n_held;
  }
  // 95 % of 400 with a standard deviation of 4.4.
  EXPECT_GE(n_held, 380 - 13);
  EXPECT_LE(n_held, 380 + 13);
}

}  // namespace
}  // namespace houseleek::money
