// Fits of a cheap model with known properties: values, intervals, what cannot be told, held-back days.
#include "trials/fit.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/contract.hpp"
#include "warming_room.hpp"

namespace houseleek::trials {
namespace {

using invented::question_of;
using invented::room_c;
using invented::Sky;
using invented::sky_of;

bool warns(const FitAnswer& answer, FitWarningKind kind) {
  for (const FitWarning& warning : answer.warnings) {
    if (warning.kind == kind) return true;
  }
  return false;
}

TEST(Fit, FindsThePropertiesOfARoom) {
  FitQuestion question = question_of(sky_of(28, 1, 0), {}, 1, 0);
  question.is_profiled = true;
  question.held_back_days = last_quarter(question.day);
  EXPECT_EQ(question.held_back_days, (std::vector<int>{21, 22, 23, 24, 25, 26, 27}));
  const FitAnswer answer = fit_properties(question);
  EXPECT_EQ(answer.n_days, 21U);
  EXPECT_NEAR(answer.properties[0].value, 0.15, 0.02);
  EXPECT_NEAR(answer.properties[1].value, 1.2, 0.15);
  for (const FittedProperty& property : answer.properties) {
    EXPECT_LT(*property.low, property.value);
    EXPECT_GT(*property.high, property.value);
    EXPECT_LT(*property.high - *property.low, 0.5 * property.value);
  }
  EXPECT_LT(answer.rms_fitted, 0.6);
  EXPECT_LT(*answer.rms_held_back_fitted, *answer.rms_held_back_start);
  EXPECT_TRUE(answer.warnings.empty()) << answer.warnings.front().sentence;
  EXPECT_TRUE(answer.may_be_offered);
}

TEST(Fit, WithoutNoiseItIsExact) {
  const Sky sky = sky_of(10, 2, 0);
  FitQuestion question = question_of(sky, {.noise_k = 0.0, .day_noise_k = 0.0}, 2, 0);
  const FitAnswer answer = fit_properties(question);
  EXPECT_NEAR(answer.properties[0].value, 0.15, 1e-7);
  EXPECT_NEAR(answer.properties[1].value, 1.2, 1e-6);
}

TEST(Fit, TwoPropertiesThatUndoEachOther) {
  const Sky sky = sky_of(14, 3, 0);
  FitQuestion question = question_of(sky, {}, 3, 0);
  question.properties.push_back({"window_share", 0.9, 0.1, 2.0});
  question.model = [sky](std::span<const double> p) { return room_c(sky, p[0], p[1] * p[2]); };
  const FitAnswer answer = fit_properties(question);
  ASSERT_TRUE(warns(answer, FitWarningKind::not_told_apart));
  EXPECT_EQ(answer.warnings.back().properties, (std::vector<std::string>{"gain_k_per_h", "window_share"}));
  EXPECT_FALSE(answer.may_be_offered);
}

TEST(Fit, TwoPropertiesThatAreHardlyToldApart) {
  const Sky sky = sky_of(14, 3, 0);
  FitQuestion question = question_of(sky, {}, 3, 0);
  question.properties.push_back({"lamp_k_per_h", 0.1, -1.0, 1.0});
  // A lamp that burns as the sun shines, but a little longer.
  question.model = [sky](std::span<const double> p) {
    Sky lit = sky;
    for (std::size_t i = 0; i < lit.sun_w_per_m2.size(); ++i) {
      lit.sun_w_per_m2[i] += p[2] / p[1] * std::pow(sky.sun_w_per_m2[i], 0.97);
    }
    return room_c(lit, p[0], p[1]);
  };
  const FitAnswer answer = fit_properties(question);
  EXPECT_TRUE(warns(answer, FitWarningKind::not_told_apart));
  EXPECT_FALSE(answer.may_be_offered);
}

TEST(Fit, APropertyThatDoesNothingAndOneAtItsBound) {
  const Sky sky = sky_of(14, 4, 0);
  FitQuestion question = question_of(sky, {}, 4, 0);
  question.properties.push_back({"colour_of_the_door", 1.0, 0.0, 2.0});
  const FitAnswer idle = fit_properties(question);
  EXPECT_TRUE(warns(idle, FitWarningKind::no_effect));
  EXPECT_FALSE(idle.properties[2].low.has_value());
  question = question_of(sky, {}, 4, 0);
  question.properties[1].high = 0.8;
  const FitAnswer bound = fit_properties(question);
  EXPECT_TRUE(warns(bound, FitWarningKind::at_bound));
  EXPECT_TRUE(bound.properties[1].is_at_bound);
  EXPECT_FALSE(bound.may_be_offered);
}

TEST(Fit, TooFewDaysHaveNoInterval) {
  const FitAnswer answer = fit_properties(question_of(sky_of(6, 5, 0), {}, 5, 0));
  EXPECT_TRUE(warns(answer, FitWarningKind::too_few_days));
  EXPECT_FALSE(answer.properties[0].low.has_value());
  EXPECT_FALSE(answer.may_be_offered);
}

TEST(Fit, ReadingsThatSayNothing) {
  const FitAnswer answer = fit_properties(question_of(sky_of(14, 6, 0), {.noise_k = 60.0}, 6, 0));
  EXPECT_FALSE(answer.may_be_offered);
}

TEST(Fit, ABentIntervalIsSaidToBeRough) {
  // Readings of exp(-4 x) about x: the sum of squares is far from a parabola within so wide an interval.
  FitQuestion question;
  question.properties = {{"x", 1.0, 0.0, 50.0}};
  const RandomVariable noise = random_variable(9, "noise");
  for (int i = 0; i < 20; ++i) {
    question.observed.push_back(std::exp(-4.0) + 0.04 * stats::random_normal(noise, {0, i, 0}));
    question.day.push_back(i);
  }
  question.model = [](std::span<const double> p) { return std::vector<double>(20, std::exp(-4.0 * p[0])); };
  EXPECT_TRUE(warns(fit_properties(question), FitWarningKind::bends));
}

TEST(Fit, RefusesBrokenQuestions) {
  FitQuestion question = question_of(sky_of(8, 7, 0), {}, 7, 0);
  question.day.pop_back();
  EXPECT_THROW((void)fit_properties(question), ContractViolation);
  question = question_of(sky_of(8, 7, 0), {}, 7, 0);
  question.properties[0].start = 5.0;
  EXPECT_THROW((void)fit_properties(question), ContractViolation);
  question = question_of(sky_of(8, 7, 0), {}, 7, 0);
  question.model = [](std::span<const double>) { return std::vector<double>{1.0}; };
  EXPECT_THROW((void)fit_properties(question), ContractViolation);
}

}  // namespace
}  // namespace houseleek::trials
