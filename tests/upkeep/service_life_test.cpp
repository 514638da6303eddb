// Lives of parts from a log: too few to say, intervals, forecasts by month.
#include "upkeep/service_life.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/contract.hpp"

namespace houseleek::upkeep {
namespace {

constexpr double still_in_use = std::numeric_limits<double>::infinity();

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

ServiceLifeQuestion ties(double n_failed) {
  ServiceLifeQuestion question;
  question.part = "ties of sisal";
  question.lives = {{1.0, 1.5, 0.0, n_failed}, {1.5, still_in_use, 0.0, 20.0 - n_failed}};
  question.prior = {.median_low_years = 1.0, .median_high_years = 5.0, .shape_low = 1.0, .shape_high = 6.0};
  question.in_use = {{1.5, 20.0 - n_failed}, {0.25, n_failed}};
  question.n_months = 12;
  return question;
}

TEST(ServiceLife, UnderFiveFailuresThePriorIsShownAsPrior) {
  const ServiceLifeAnswer answer = judge_service_life(ties(4.0));
  EXPECT_TRUE(answer.is_too_few);
  EXPECT_EQ(answer.median_life_years.middle, answer.prior_median_life_years.middle);
  EXPECT_NEAR(answer.median_life_years.low, 1.0, 0.01);
  EXPECT_NEAR(answer.median_life_years.high, 5.0, 0.05);
  EXPECT_TRUE(holds(answer.sentence, "too few to say (4 failures so far; 5 are needed). The catalogue believes"))
      << answer.sentence;
  EXPECT_TRUE(holds(answer.forecast_sentence, "mostly from what the catalogue believes"));
}

TEST(ServiceLife, FiveFailuresSaySomething) {
  const ServiceLifeAnswer answer = judge_service_life(ties(5.0));
  EXPECT_FALSE(answer.is_too_few);
  EXPECT_LT(answer.median_life_years.high - answer.median_life_years.low, 4.0);
  EXPECT_GT(answer.median_life_years.low, 1.2);  // 15 of 20 are in use at a year and a half
  EXPECT_TRUE(holds(answer.sentence, "ties of sisal: half last")) << answer.sentence;
  EXPECT_TRUE(holds(answer.sentence, "90 % interval, from 5 failures")) << answer.sentence;
}

TEST(ServiceLife, DrawnFuturesAgreeWithTheExpectation) {
  const ServiceLifeAnswer answer = judge_service_life(ties(8.0));
  ASSERT_EQ(answer.months.size(), 12U);
  double sum = 0.0;
  for (const Replacements& month : answer.months) {
    sum += month.expected;
    EXPECT_LE(month.low, month.expected + 1.0);
    EXPECT_GE(month.high + 1.0, month.expected);
  }
  EXPECT_NEAR(sum, answer.total.expected, 1e-9);
  EXPECT_GT(answer.total.expected, answer.total.low);
  EXPECT_LT(answer.total.expected, answer.total.high);
  // More parts, more replacements; the same seed, the same answer.
  ServiceLifeQuestion more = ties(8.0);
  more.in_use.push_back({1.0, 30.0});
  EXPECT_GT(judge_service_life(more).total.expected, answer.total.expected + 5.0);
  EXPECT_EQ(judge_service_life(ties(8.0)).total.high, answer.total.high);
}

TEST(ServiceLife, ManyPartsOfKnownLifeAreForecastAsCounted) {
  // A law known from 2000 failures: 500 new parts, no scatter but their own. Failures expected in 12 months of shape 3
  // and scale 2: 500 (1 - exp(-(1/2)^3)) = 58.75, standard deviation 7.2.
  ServiceLifeQuestion question = ties(5.0);
  question.lives.clear();
  for (int i = 1; i <= 200; ++i) {
    const double age = 2.0 * std::cbrt(-std::log(1.0 - (i - 0.5) / 200.0));
    question.lives.push_back({age, age, 0.0, 10.0});
  }
  question.in_use = {{0.0, 500.0}};
  question.n_months = 12;
  const ServiceLifeAnswer answer = judge_service_life(question);
  EXPECT_NEAR(answer.total.expected, 58.75, 2.0);
  EXPECT_NEAR(answer.total.low, 58.75 - 1.645 * 7.2, 4.0);
  EXPECT_NEAR(answer.total.high, 58.75 + 1.645 * 7.2, 4.0);
  EXPECT_NEAR(answer.shape.middle, 3.0, 0.1);
}

TEST(ServiceLife, ThePriorOfACatalogue) {
  const stats::LifePrior prior = prior_from_catalogue({2.0, 4.0, 6.0, "", catalogue::Certainty::estimate});
  EXPECT_EQ(prior.median_low_years, 2.0);
  EXPECT_EQ(prior.median_high_years, 6.0);
  EXPECT_THROW((void)prior_from_catalogue({4.0, 4.0, 4.0, "", catalogue::Certainty::estimate}), ContractViolation);
}

}  // namespace
}  // namespace houseleek::upkeep
