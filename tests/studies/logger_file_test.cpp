// Loggers' files of many dialects, clocks that are put forward and back, and what is asked or refused.
#include "studies/logger_file.hpp"

#include <gtest/gtest.h>

#include <tuple>

#include "studies/logger_columns.hpp"

namespace houseleek::studies {
namespace {

using Readings = std::vector<std::tuple<std::string, std::int64_t, double>>;

store::Project new_project() {
  sqlite3* handle = nullptr;
  EXPECT_EQ(sqlite3_open(":memory:", &handle), SQLITE_OK);
  return store::make_project(store::Database(handle, "a.houseleek"));
}

std::string messages(const Issues& issues) {
  std::string text;
  for (const Issue& issue : issues) text += std::to_string(issue.line) + " " + issue.path + ": " + issue.message + "\n";
  return text;
}

LoggerRules standard_rules() {
  LoggerRules rules;
  rules.logger = "south";
  rules.clock = climate::FileClock::standard;
  return rules;
}

class Given {
 public:
  Given(std::string file_text, LoggerRules said = standard_rules(), std::string of_zone = "Europe/Athens")
      : text(std::move(file_text)), rules(std::move(said)), zone(std::move(of_zone)) {}
  std::string text;
  LoggerRules rules;
  std::string zone;
};

/// Reads a file into a project, in pieces of seven bytes; what was wrong with it.
std::string import_into(const store::Project& project, const Given& given, LoggerCounts* counts = nullptr) {
  const Result<LoggerDialect> dialect = find_logger_dialect(given.text, "log.csv", given.zone, given.rules);
  if (!dialect) return messages(dialect.error());
  LoggerImport import(project, dialect.value(), {"log.csv", given.zone, 1});
  for (std::size_t at = 0; at < given.text.size(); at += 7) import.take(std::string_view(given.text).substr(at, 7));
  const Result<LoggerCounts> done = import.finish();
  if (!done) return messages(done.error());
  if (counts != nullptr) *counts = done.value();
  return "";
}

Readings readings_in(const store::Project& project) {
  Readings readings;
  (void)store::read_readings(project, [&readings](const store::ReadingRow& row) {
    readings.emplace_back(row.sensor, row.at_utc_s, row.value);
  });
  return readings;
}

// 2026-07-12 23:40 in Athens' standard time is 21:40 UTC (`date -u -d 2026-07-12T21:40Z +%s`).
constexpr std::int64_t first_s = 1783892400;
const Readings six = {{"south", first_s, 25.0},        {"south", first_s + 600, 24.5},
                      {"south", first_s + 1200, 24.0}, {"south", first_s + 1800, 23.5},
                      {"south", first_s + 2400, -1.5}, {"south", first_s + 3000, 22.5}};

void expect_six(const Given& given) {
  const store::Project project = new_project();
  EXPECT_EQ(import_into(project, given), "");
  EXPECT_EQ(readings_in(project), six);
}

TEST(LoggerDialects, CommasAndIso) {
  expect_six(
      {"time,temperature (degC)\n2026-07-12T23:40,25.0\n2026-07-12T23:50,24.5\n2026-07-13T00:00,24.0\n"
       "2026-07-13T00:10,23.5\n2026-07-13T00:20,-1.5\n2026-07-13T00:30,22.5\n"});
}

TEST(LoggerDialects, SemicolonsDecimalCommasDayFirstLatin1) {
  expect_six(
      {"Datum;Temperatur [\xB0"
       "C]\r\n12.07.2026 23:40;25,0\r\n12.07.2026 23:50;24,5\r\n13.07.2026 00:00;24\r\n"
       "13.07.2026 00:10;23,5\r\n13.07.2026 00:20;-1,5\r\n13.07.2026 00:30;22,5"});
}

TEST(LoggerDialects, TabsWithDateAndClockApart) {
  expect_six(
      {"date\ttime\tT1 (\xC2\xB0"
       "C)\n2026-07-12\t23:40:00\t25.0\n2026-07-12\t23:50:00\t24.5\n"
       "2026-07-13\t00:00:00\t24.0\n2026-07-13\t00:10:00\t23.5\n2026-07-13\t00:20:00\t-1.5\n2026-07-13\t00:30:00\t22."
       "5\n"});
}

TEST(LoggerDialects, MonthFirstAfternoonsAndFahrenheit) {
  // 77 degF is 25 degC; 29.3 degF is -1.5 degC.
  const store::Project project = new_project();
  ASSERT_EQ(import_into(project, {"Date Time,Temp (\xC2\xB0"
                                  "F)\n07/12/26 11:40 PM,77.0\n07/12/26 11:50 PM,76.1\n"
                                  "07/13/26 12:00 AM,75.2\n07/13/26 12:10 AM,74.3\n07/13/26 12:20 AM,29.3\n"
                                  "07/13/26 12:30 AM,72.5\n"}),
            "");
  const Readings read = readings_in(project);
  ASSERT_EQ(read.size(), six.size());
  for (std::size_t i = 0; i < six.size(); ++i) {
    EXPECT_EQ(std::get<1>(read[i]), std::get<1>(six[i]));
    EXPECT_NEAR(std::get<2>(read[i]), std::get<2>(six[i]), 1e-12);
  }
}

TEST(LoggerDialects, SecondsSince1970) {
  expect_six(
      {"epoch,temp_c\n1783892400,25.0\n1783893000,24.5\n1783893600,24\n1783894200,23.5\n1783894800,-1.5\n"
       "1783895400,22.5\n",
       {.logger = "south"}});
}

TEST(LoggerDialects, OffsetsInTheStamps) {
  expect_six(
      {"time,temperature (degC)\n2026-07-13T00:40+03:00,25.0\n2026-07-13T00:50+03:00,24.5\n"
       "2026-07-12T22:00Z,24.0\n2026-07-12T22:10Z,23.5\n2026-07-12T22:20Z,-1.5\n2026-07-12T22:30Z,22.5\n",
       {.logger = "south"}});
}

TEST(LoggerDialects, UtcInTheHeader) {
  expect_six(
      {"time (UTC),temperature (degC)\n2026-07-12 21:40,25.0\n2026-07-12 21:50,24.5\n2026-07-12 22:00,24.0\n"
       "2026-07-12 22:10,23.5\n2026-07-12 22:20,-1.5\n2026-07-12 22:30,22.5\n",
       {.logger = "south"}});
}

TEST(LoggerDialects, BlanksAndComments) {
  expect_six(
      {"# a logger\n# time temperature_degC\n2026-07-12 23:40 25.0\n2026-07-12 23:50 24.5\n# a remark\n"
       "2026-07-13 00:00 24.0\n2026-07-13 00:10 23.5\n\n2026-07-13 00:20 -1.5\n2026-07-13 00:30 22.5\n",
       {.logger = "south", .clock = climate::FileClock::standard, .unit = climate::Unit::deg_c}});
}

TEST(LoggerDialects, TitlesAndALineOfUnits) {
  expect_six(
      {"Logger 7, on the roof\nexported by hand\nStamp;Temp;Battery\n;\xC2\xB0"
       "C;V\n"
       "2026-07-12 23:40;25.0;3.1\n2026-07-12 23:50;24.5;3.1\n2026-07-13 00:00;24.0;3.1\n2026-07-13 00:10;23.5;3.1\n"
       "2026-07-13 00:20;-1.5;3.1\n2026-07-13 00:30;22.5;3.1\n"});
}

TEST(LoggerDialects, WithoutAHeaderTheUnitIsAsked) {
  const std::string rows =
      "20260712 2340;25.0\n20260712 2350;24.5\n20260713 0000;24.0\n20260713 0010;23.5\n20260713 0020;-1.5\n"
      "20260713 0030;22.5\n";
  EXPECT_EQ(import_into(new_project(), {rows}), "1 unit: the column \"column 2\" does not say its unit\n");
  expect_six({rows, {.logger = "south", .clock = climate::FileClock::standard, .unit = climate::Unit::deg_c}});
}

TEST(LoggerDialects, NewestFirst) {
  expect_six(
      {"time,temperature (degC)\n2026-07-13T00:30,22.5\n2026-07-13T00:20,-1.5\n2026-07-13T00:10,23.5\n"
       "2026-07-13T00:00,24.0\n2026-07-12T23:50,24.5\n2026-07-12T23:40,25.0\n"});
}

TEST(LoggerDialects, QuotesAByteOrderMarkAndEmptyTails) {
  expect_six(
      {"\xEF\xBB\xBF\"time\",\"temperature (degC)\",\r\n\"2026-07-12T23:40\",\"25.0\",\r\n"
       "\"2026-07-12T23:50\",\"24.5\",\r\n\"2026-07-13T00:00\",\"24.0\",\r\n\"2026-07-13T00:10\",\"23.5\",\r\n"
       "\"2026-07-13T00:20\",\"-1.5\",\r\n\"2026-07-13T00:30\",\"22.5\",\r\n"});
}

TEST(LoggerDialects, SeveralColumnsAndFieldsWithoutAValue) {
  const store::Project project = new_project();
  LoggerCounts counts;
  ASSERT_EQ(
      import_into(project,
                  {"time,under A (degC),beside A (degC),humidity (%),battery (V)\n"
                   "2026-07-12T23:40,25.0,30.0,40,3\n2026-07-12T23:50,,30.5,41,3\n2026-07-13T00:00,NA,-99.9,42,3\n"},
                  &counts),
      "");
  EXPECT_EQ(readings_in(project), (Readings{{"south under A", first_s, 25.0},
                                            {"south beside A", first_s, 30.0},
                                            {"south beside A", first_s + 600, 30.5},
                                            {"south humidity", first_s, 40.0},
                                            {"south humidity", first_s + 600, 41.0},
                                            {"south humidity", first_s + 1200, 42.0}}));
  EXPECT_EQ(counts.n_rows, 3);
  EXPECT_EQ(counts.n_added, 6);
  EXPECT_EQ(counts.n_missing, 3);
}

TEST(LoggerClocks, WhetherTheClockWasPutForwardIsAsked) {
  const std::string text = "time,temp (degC)\n2026-07-12T23:40,25\n2026-07-12T23:50,24\n";
  EXPECT_EQ(import_into(new_project(), {text, {.logger = "south"}}),
            "2 clock: the file does not say whether the logger's clock was put forward in summer\n");
  // Where nobody puts clocks forward there is nothing to ask.
  const store::Project project = new_project();
  ASSERT_EQ(import_into(project, {text, {.logger = "south"}, "Asia/Tokyo"}), "");
  EXPECT_EQ(std::get<1>(readings_in(project).front()), first_s - 7 * 3600);
}

// Clocks of Athens go forward on 2026-03-29 at 01:00 UTC and back on 2026-10-25 at 01:00 UTC
// (`zdump -v Europe/Athens`).
constexpr std::int64_t forward_s = 1774746000;
constexpr std::int64_t back_s = 1792890000;

TEST(LoggerClocks, AnHourThatIsShownTwiceIsToldByTheOrderOfRows) {
  const std::string header = "time,temp (degC)\n";
  const std::vector<std::string> rows = {"2026-10-25T03:00,1\n", "2026-10-25T03:30,2\n", "2026-10-25T03:00,3\n",
                                         "2026-10-25T03:30,4\n", "2026-10-25T04:00,5\n"};
  const LoggerRules rules = {.logger = "south", .clock = climate::FileClock::daylight_saving};
  const Readings expected = {{"south", back_s - 3600, 1.0},
                             {"south", back_s - 1800, 2.0},
                             {"south", back_s, 3.0},
                             {"south", back_s + 1800, 4.0},
                             {"south", back_s + 3600, 5.0}};
  std::string oldest_first = header + "2026-10-25T02:30,0\n";
  std::string newest_first = header;
  for (const std::string& row : rows) oldest_first += row;
  for (auto row = rows.rbegin(); row != rows.rend(); ++row) newest_first += *row;
  const store::Project forwards = new_project();
  ASSERT_EQ(import_into(forwards, {oldest_first, rules}), "");
  Readings with_first = expected;
  with_first.insert(with_first.begin(), {"south", back_s - 5400, 0.0});
  EXPECT_EQ(readings_in(forwards), with_first);
  const store::Project backwards = new_project();
  ASSERT_EQ(import_into(backwards, {newest_first, rules}), "");
  EXPECT_EQ(readings_in(backwards), expected);
}

TEST(LoggerClocks, AnHourThatClocksLeaptOverIsRefused) {
  const std::string text = "time,temp (degC)\n2026-03-29T02:30,1\n2026-03-29T03:30,2\n2026-03-29T04:30,3\n";
  const store::Project project = new_project();
  EXPECT_EQ(
      import_into(project, {text, {.logger = "south", .clock = climate::FileClock::daylight_saving}}),
      "3 time: time is '2026-03-29T03:30'; clocks of Europe/Athens were put forward over that time and never showed "
      "it\n");
  EXPECT_EQ(readings_in(project), Readings{});
  ASSERT_EQ(import_into(project, {text}), "");
  EXPECT_EQ(
      readings_in(project),
      (Readings{{"south", forward_s - 1800, 1.0}, {"south", forward_s + 1800, 2.0}, {"south", forward_s + 5400, 3.0}}));
}

TEST(LoggerRows, EveryProblemWithItsLineAndNothingKept) {
  const store::Project project = new_project();
  EXPECT_EQ(
      import_into(project, {"time,temp (degC)\n2026-07-12T23:40,25\n2026-07-12T23:50,warm\nyesterday,24\n"
                            "2026-07-13T00:00,24,7\n2026-07-13T00:10,23\n2026-07-13T00:10,23\n2026-07-13T00:10,22\n"
                            "2026-07-13T00:20,23\n2026-07-13T00:30,23\n2026-07-13T00:40,23\n2026-07-13T00:50,23\n"
                            "2026-07-13T01:00,23\n2026-07-13T01:10,23\n2026-07-13T01:20,23\n2026-07-13T01:30,23\n"}),
      "3 south: south is 'warm'; it must be a number\n"
      "4 time: time is 'yesterday'; the rows above have another form\n"
      "5 : this row has 3 fields; the others have 2\n"
      "8 south: south has another value at 2026-07-12T22:10Z already\n");
  EXPECT_EQ(readings_in(project), Readings{});
}

TEST(LoggerRows, AFileThatOverlapsAddsWhatIsNew) {
  const store::Project project = new_project();
  LoggerCounts counts;
  ASSERT_EQ(import_into(project, {"time,temp (degC)\n2026-07-12T23:40,25\n2026-07-12T23:50,24\n"}), "");
  ASSERT_EQ(import_into(project, {"time,temp (degC)\n2026-07-12T23:50,24\n2026-07-12T23:55,24\n2026-07-13T00:00,23\n"},
                        &counts),
            "");
  EXPECT_EQ(counts.n_added, 2);
  EXPECT_EQ(counts.n_known_before, 1);
  EXPECT_EQ(readings_in(project).size(), 4U);
}

TEST(LoggerRows, ADateThatCanBeReadInTwoWaysIsAsked) {
  const Given given("time,temp (degC)\n02/03/2026 10:00,25\n02/03/2026 10:10,24\n");
  EXPECT_EQ(import_into(new_project(), given),
            "2 date_order: the dates may be read with the day first or with the month first\n");
  Given said = given;
  said.rules.date_order = climate::DateOrder::day_first;
  const store::Project project = new_project();
  ASSERT_EQ(import_into(project, said), "");
  EXPECT_EQ(std::get<1>(readings_in(project).front()), 1772438400);  // date -u -d 2026-03-02T08:00Z +%s
}

TEST(LoggerColumns, AreThermometersInStandardTime) {
  const store::Project project = new_project();
  LoggerRules rules = standard_rules();
  rules.clock = climate::FileClock::daylight_saving;
  ASSERT_EQ(
      import_into(project, {"time,a (degC),b (degC),humidity (%)\n2026-03-29T02:00,1,5,50\n2026-03-29T04:00,2,6,51\n"
                            "2026-07-01T12:00,3,7,52\n",
                            rules}),
      "");
  // In standard time an hour passes where clocks are put forward, and it is eleven in the morning in July.
  constexpr std::int64_t march_s = 1774742400 + 2 * 3600;  // date -u -d 2026-03-29T00:00Z +%s
  constexpr std::int64_t july_s = 1782864000 + 11 * 3600;  // date -u -d 2026-07-01T00:00Z +%s
  EXPECT_EQ(logger_columns_of(project, "Europe/Athens"),
            (std::vector<logbook::LoggerColumn>{{"south a", {march_s, march_s + 3600, july_s}, {1.0, 2.0, 3.0}},
                                                {"south b", {march_s, march_s + 3600, july_s}, {5.0, 6.0, 7.0}}}));
}

TEST(LoggerRows, ASensorKeepsItsQuantity) {
  const store::Project project = new_project();
  ASSERT_EQ(import_into(project, {"time,temp (degC)\n2026-07-12T23:40,25\n2026-07-12T23:50,24\n"}), "");
  EXPECT_EQ(import_into(project, {"time,humidity (%)\n2026-07-12T23:40,25\n2026-07-12T23:50,24\n"}),
            "0 south: the sensor \"south\" is known with another quantity\n");
}

}  // namespace
}  // namespace houseleek::studies
