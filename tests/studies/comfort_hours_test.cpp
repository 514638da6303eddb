// Running means and hours above limits, on days made by hand.
#include "studies/comfort_hours.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "climate/calendar.hpp"

namespace houseleek::studies {
namespace {

/// A year whose air has one temperature a day.
climate::WeatherYear year_of(double (*day_c)(int day)) {
  climate::WeatherYear year;
  year.global_w_per_m2.assign(climate::n_hours_in_year, 0.0);
  for (int hour = 0; hour <= climate::n_hours_in_year; ++hour) {
    year.air_temperature_c.push_back(day_c(hour / climate::n_hours_in_day % climate::n_days_in_year));
  }
  return year;
}

TEST(RunningMean, OfAConstantYearIsItsTemperature) {
  const std::vector<double> means_c = running_means_c(year_of([](int) { return 17.5; }));
  ASSERT_EQ(means_c.size(), 365U);
  for (const double mean_c : means_c) EXPECT_NEAR(mean_c, 17.5, 1e-12);
}

TEST(RunningMean, FollowsTheDayBeforeByAFifth) {
  // 10 degC but for day 100, which has 20: the next day's mean is 12, then 11.6, 11.28.
  const std::vector<double> means_c = running_means_c(year_of([](int day) { return day == 100 ? 20.0 : 10.0; }));
  EXPECT_NEAR(means_c[100], 10.0, 1e-9);
  EXPECT_NEAR(means_c[101], 12.0, 1e-9);
  EXPECT_NEAR(means_c[102], 11.6, 1e-9);
  EXPECT_NEAR(means_c[103], 11.28, 1e-9);
}

TEST(RunningMean, TheYearIsARing) {
  const std::vector<double> means_c = running_means_c(year_of([](int day) { return day == 364 ? 20.0 : 10.0; }));
  EXPECT_NEAR(means_c[0], 12.0, 1e-9);
}

TEST(RunningMean, NeedsAWholeYear) {
  climate::WeatherYear year = year_of([](int) { return 10.0; });
  year.global_w_per_m2.pop_back();
  EXPECT_THROW((void)running_means_c(year), ContractViolation);
}

LimitsByDay limits_everywhere(double running_mean_c) {
  return LimitsByDay(365, physics::adaptive_limits(running_mean_c, physics::ComfortCategory::ii));
}

TEST(ComfortHours, CountsAboveBelowAndDegreeHours) {
  // Running mean 20 degC: comfort 25.4, upper limit of category II 28.4, lower 21.4.
  const std::vector<double> operative_c = {21.3, 21.5, 28.3, 28.9, 30.4, 31.0};
  const ComfortSums sums = sum_comfort(limits_everywhere(20.0), {.operative_c = operative_c});
  EXPECT_EQ(sums.n_below, 1);
  EXPECT_EQ(sums.n_above, 3);
  EXPECT_EQ(sums.n_above_with_fan, 3);
  EXPECT_NEAR(sums.degree_hours_above_k_h, 0.5 + 2.0 + 2.6, 1e-9);
  EXPECT_EQ(sums.n_without_limit, 0);
}

TEST(ComfortHours, AFanRaisesTheLimit) {
  const std::vector<double> operative_c = {28.9, 30.1, 30.3, 31.0};
  // 0.9 m/s: 1.8 K, so up to 30.2.
  const ComfortSums sums = sum_comfort(limits_everywhere(20.0), {.operative_c = operative_c, .fan_speed_m_per_s = 0.9});
  EXPECT_EQ(sums.n_above, 4);
  EXPECT_EQ(sums.n_above_with_fan, 2);
}

TEST(ComfortHours, DaysWithoutALimitAreCountedApart) {
  LimitsByDay limits = limits_everywhere(20.0);
  limits[1] = std::nullopt;
  const std::vector<double> operative_c(72, 35.0);
  const ComfortSums sums = sum_comfort(limits, {.operative_c = operative_c});
  EXPECT_EQ(sums.n_above, 48);
  EXPECT_EQ(sums.n_without_limit, 24);
}

TEST(ComfortHours, NightsAreFrom22To7) {
  const std::vector<double> operative_c(48, 35.0);
  const ComfortSums sums = sum_comfort(limits_everywhere(20.0), {.operative_c = operative_c, .nights_only = true});
  EXPECT_EQ(sums.n_above, 2 * 9);
}

TEST(ComfortHours, HoursWrapAtTheYearsEnd) {
  LimitsByDay limits(365);
  limits[0] = physics::adaptive_limits(20.0, physics::ComfortCategory::ii);
  const std::vector<double> operative_c(48, 35.0);
  const ComfortSums sums = sum_comfort(limits, {.first_hour = 364 * 24, .operative_c = operative_c});
  EXPECT_EQ(sums.n_without_limit, 24);
  EXPECT_EQ(sums.n_above, 24);
}

}  // namespace
}  // namespace houseleek::studies
