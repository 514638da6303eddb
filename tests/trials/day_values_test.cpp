// A day's numbers from hand readings and loggers, against sums by hand.
#include "trials/day_values.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "base/contract.hpp"
#include "invented_readings.hpp"

namespace houseleek::trials {
namespace {

using logbook::HandReading;

const std::vector<HandReading> three_days{{"under R1", 100, 6.0, 21.0},  {"under R1", 100, 16.0, 33.5},
                                          {"under R1", 101, 6.2, 22.0},  {"under R1", 101, 15.8, 30.0},
                                          {"under R1", 101, 17.0, 31.0}, {"under R1", 102, 9.0, 26.0},
                                          {"under R1", 103, 16.0, 28.0}};

TEST(DayValues, TwoHandReadingsADay) {
  const DaySeries highest = days_from_hand(three_days, Measure::maximum);
  ASSERT_EQ(highest.days.size(), 3U);
  EXPECT_EQ(highest.days[0], (DayValue{100, 33.5, ""}));
  EXPECT_EQ(highest.days[1].value, 31.0);  // the higher of two
  ASSERT_EQ(highest.left_out.size(), 1U);
  EXPECT_EQ(highest.left_out[0], (LeftOutDay{102, "no reading after noon"}));
  const DaySeries lowest = days_from_hand(three_days, Measure::minimum);
  ASSERT_EQ(lowest.days.size(), 3U);
  EXPECT_EQ(lowest.days[2].value, 26.0);
  EXPECT_EQ(lowest.days[2].flag, "read at 9.0 h, usually at 6.2 h");  // kept, and marked
  const DaySeries swing = days_from_hand(three_days, Measure::swing);
  ASSERT_EQ(swing.days.size(), 2U);
  EXPECT_EQ(swing.days[0].value, 12.5);
  EXPECT_EQ(swing.left_out.size(), 2U);
}

TEST(DayValues, NoLagFromTwoReadings) {
  const DaySeries lag = days_from_hand(three_days, Measure::lag);
  EXPECT_TRUE(lag.days.empty());
  EXPECT_EQ(lag.left_out.size(), 4U);
  EXPECT_TRUE(days_from_hand({}, Measure::maximum).days.empty());
}

/// Integral of max(0, middle + half cos) over a day by many small steps.
double by_small_steps(double middle_k, double half_k) {
  double sum = 0.0;
  constexpr int n = 200000;
  for (int i = 0; i < n; ++i) {
    sum += std::max(0.0, middle_k + half_k * std::cos(2.0 * std::numbers::pi * (i + 0.5) / n)) * 24.0 / n;
  }
  return sum;
}

TEST(DayValues, DegreeHoursOfACosine) {
  for (const double base_c : {15.0, 22.0, 26.0, 27.25, 33.0, 40.0}) {
    const DaySeries series = days_from_hand(std::vector<HandReading>{three_days[0], three_days[1]},
                                            Measure::degree_hours, {.base_c = base_c});
    EXPECT_FALSE(series.note.empty());
    EXPECT_NEAR(series.days[0].value, by_small_steps(27.25 - base_c, 6.25), 1e-6) << base_c;
  }
}

TEST(DayValues, ALoggersDay) {
  const logbook::LoggerColumn column = invented::wave("under R1", 200, 3, 27.0, 6.0, 15.0);
  const LoggerDays source{.column = column, .reference = nullptr, .flags = {}};
  const DaySeries highest = days_from_logger(source, Measure::maximum);
  ASSERT_EQ(highest.days.size(), 3U);
  EXPECT_EQ(highest.days[0].day, 200);
  EXPECT_NEAR(highest.days[1].value, 33.0, 1e-9);
  EXPECT_NEAR(days_from_logger(source, Measure::minimum).days[1].value, 21.0, 1e-9);
  EXPECT_NEAR(days_from_logger(source, Measure::swing).days[1].value, 12.0, 1e-9);
  // Quarter hours, by trapezia.
  EXPECT_NEAR(days_from_logger(source, Measure::degree_hours).days[1].value, by_small_steps(1.0, 6.0), 0.02);
}

TEST(DayValues, LagIsAShiftOfPhase) {
  const logbook::LoggerColumn air = invented::wave("air", 200, 2, 25.0, 8.0, 14.0);
  const logbook::LoggerColumn room = invented::wave("room", 200, 2, 26.0, 2.0, 20.5);
  const logbook::LoggerColumn early = invented::wave("skin", 200, 2, 26.0, 20.0, 12.5);
  const logbook::LoggerColumn still = invented::wave("cellar", 200, 2, 18.0, 0.05, 3.0);
  EXPECT_NEAR(days_from_logger({room, &air, {}}, Measure::lag).days[0].value, 6.5, 1e-9);
  EXPECT_NEAR(days_from_logger({early, &air, {}}, Measure::lag).days[0].value, -1.5, 1e-9);
  const DaySeries none = days_from_logger({still, &air, {}}, Measure::lag);
  EXPECT_TRUE(none.days.empty());
  EXPECT_EQ(none.left_out.at(0).why, "too small a swing for a lag");
  EXPECT_THROW((void)days_from_logger({room, nullptr, {}}, Measure::lag), ContractViolation);
}

TEST(DayValues, AGapLeavesADayOutAndAFlagMarksIt) {
  logbook::LoggerColumn column = invented::wave("under R1", 200, 3, 27.0, 6.0, 15.0);
  // Day 201 loses the hours from 10:00 to 14:00.
  const auto from = column.time_s.begin() + 96 + 40;
  column.value_c.erase(column.value_c.begin() + 96 + 40, column.value_c.begin() + 96 + 56);
  column.time_s.erase(from, from + 16);
  const std::vector<LoggerFlag> flags{{FlagKind::stuck, "under R1", 202 * logbook::n_seconds_in_day + 7200,
                                       202 * logbook::n_seconds_in_day + 36000, 8.0, "stood still"}};
  const DaySeries series = days_from_logger({column, nullptr, flags}, Measure::maximum);
  ASSERT_EQ(series.days.size(), 2U);
  EXPECT_EQ(series.days[0].flag, "");
  EXPECT_EQ(series.days[1].flag, "stood still");
  ASSERT_EQ(series.left_out.size(), 1U);
  EXPECT_EQ(series.left_out[0], (LeftOutDay{201, "4.2 hours without a reading"}));
}

}  // namespace
}  // namespace houseleek::trials
