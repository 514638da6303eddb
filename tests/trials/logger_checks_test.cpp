// Each kind of bad logger is flagged with its time; good ones are not.
#include "trials/logger_checks.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "base/contract.hpp"
#include "invented_readings.hpp"

namespace houseleek::trials {
namespace {

using logbook::LoggerColumn;
using logbook::n_seconds_in_day;

std::vector<LoggerColumn> four_good(int n_days) {
  std::vector<LoggerColumn> columns;
  for (int i = 0; i < 4; ++i) {
    LoggerColumn column = invented::wave(fmt::format("logger {}", i + 1), 100, n_days, 25.0 + 0.3 * i, 6.0, 15.0);
    const RandomVariable noise = random_variable(7, column.name);
    for (std::size_t k = 0; k < column.value_c.size(); ++k) {
      column.value_c[k] += 0.1 * stats::random_normal(noise, {0, 0, static_cast<std::uint32_t>(k)});
    }
    columns.push_back(std::move(column));
  }
  return columns;
}

std::size_t count(const std::vector<LoggerFlag>& flags, FlagKind kind, const std::string& column) {
  return static_cast<std::size_t>(std::count_if(
      flags.begin(), flags.end(), [&](const LoggerFlag& flag) { return flag.kind == kind && flag.column == column; }));
}

TEST(LoggerChecks, GoodLoggersAreNotFlagged) {
  EXPECT_TRUE(check_loggers(four_good(40)).empty());
  EXPECT_TRUE(check_loggers({}).empty());
  EXPECT_TRUE(check_loggers(std::vector<LoggerColumn>{{.name = "empty", .time_s = {}, .value_c = {}}}).empty());
}

TEST(LoggerChecks, StandingStill) {
  std::vector<LoggerColumn> columns = four_good(10);
  for (std::size_t k = 300; k < 340; ++k) columns[1].value_c[k] = 24.5;  // ten hours
  const std::vector<LoggerColumn> before = columns;
  const std::vector<LoggerFlag> flags = check_loggers(columns);
  ASSERT_EQ(flags.size(), 1U);
  EXPECT_EQ(flags[0].kind, FlagKind::stuck);
  EXPECT_EQ(flags[0].column, "logger 2");
  EXPECT_EQ(flags[0].from_s, columns[1].time_s[300]);
  EXPECT_EQ(flags[0].to_s, columns[1].time_s[339]);
  EXPECT_NEAR(flags[0].size, 9.75, 1e-9);
  EXPECT_EQ(columns, before);
  // Alone, a room may well stand still for ten hours, hardly for thirteen.
  EXPECT_TRUE(check_loggers(std::vector<LoggerColumn>{columns[1]}).empty());
  for (std::size_t k = 300; k < 353; ++k) columns[1].value_c[k] = 24.5;
  EXPECT_EQ(count(check_loggers(std::vector<LoggerColumn>{columns[1]}), FlagKind::stuck, "logger 2"), 1U);
}

TEST(LoggerChecks, StruckByTheSun) {
  std::vector<LoggerColumn> columns = four_good(10);
  for (std::size_t k = 5 * 96 + 40; k < 5 * 96 + 48; ++k) columns[2].value_c[k] += 7.0;  // 10:00 to 12:00
  // As warm for all is weather, and the same at night is something else.
  for (LoggerColumn& column : columns) {
    for (std::size_t k = 7 * 96 + 40; k < 7 * 96 + 48; ++k) column.value_c[k] += 7.0;
  }
  const std::vector<LoggerFlag> flags = check_loggers(columns);
  ASSERT_EQ(flags.size(), 1U) << flags[1].sentence;
  EXPECT_EQ(flags[0].kind, FlagKind::sun_struck);
  EXPECT_EQ(flags[0].from_s, columns[2].time_s[5 * 96 + 40]);
  EXPECT_EQ(flags[0].to_s, columns[2].time_s[5 * 96 + 47]);
  EXPECT_NEAR(flags[0].size, 7.5, 0.6);
}

TEST(LoggerChecks, Drift) {
  std::vector<LoggerColumn> columns = four_good(60);
  for (std::size_t k = 0; k < columns[3].value_c.size(); ++k) {
    columns[3].value_c[k] += 1.5 * static_cast<double>(k) / static_cast<double>(columns[3].value_c.size());
  }
  const std::vector<LoggerFlag> flags = check_loggers(columns);
  ASSERT_EQ(flags.size(), 1U);
  EXPECT_EQ(flags[0].kind, FlagKind::drift);
  EXPECT_EQ(flags[0].column, "logger 4");
  EXPECT_NEAR(flags[0].size, 1.0, 0.1);  // from the middle of the first third to that of the last
  // Too few nights to tell.
  for (LoggerColumn& column : columns) {
    column.time_s.resize(15 * 96);
    column.value_c.resize(15 * 96);
  }
  EXPECT_TRUE(check_loggers(columns).empty());
}

TEST(LoggerChecks, GapsAndImpossibleValues) {
  std::vector<LoggerColumn> columns = four_good(3);
  columns[0].value_c[100] = 127.0;
  columns[1].time_s.erase(columns[1].time_s.begin() + 50, columns[1].time_s.begin() + 62);
  columns[1].value_c.erase(columns[1].value_c.begin() + 50, columns[1].value_c.begin() + 62);
  const std::vector<LoggerFlag> flags = check_loggers(columns);
  EXPECT_EQ(count(flags, FlagKind::out_of_range, "logger 1"), 1U);
  EXPECT_EQ(count(flags, FlagKind::gap, "logger 2"), 1U);
  EXPECT_EQ(flags.back().sentence, "logger 2: nothing recorded for 3.2 hours.");
  std::swap(columns[0].time_s[5], columns[0].time_s[6]);
  EXPECT_THROW((void)check_loggers(columns), ContractViolation);
}

}  // namespace
}  // namespace houseleek::trials
