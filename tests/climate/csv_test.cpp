// Weather files: round trip, forgiving where it may be, and every fault with its place.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "base/issue_text.hpp"
#include "climate/invented_climates.hpp"
#include "climate/read_file.hpp"
#include "climate/sun_columns.hpp"
#include "climate/time_stamp.hpp"
#include "climate/write_csv.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

constexpr Place home = {37.4, -6.0, 20.0, 1.0};

/// One row an hour of a plain year: 15 degC, 60 %, sun at half of what arrives outside the air, no rain.
struct PlainYear {
  int year = 2025;
  std::string header = "time,air_temperature_c,relative_humidity_percent,global_w_per_m2,rain_mm";
  std::vector<std::string> rows;
  explicit PlainYear(int of_year = 2025) : year(of_year) {
    const WeatherYear sun = make_year_with_sun(home, year);
    for (int hour = 0; hour < 8760; ++hour) {
      const auto h = static_cast<std::size_t>(hour);
      const int global = static_cast<int>(0.5 * sun.sun_normal_w_per_m2[h] * sun.sun_mean_sine[h]);
      rows.push_back(text_from_hour_of_year(year, hour) + ",15,60," + std::to_string(global) + ",0");
    }
  }
  [[nodiscard]] std::string text() const {
    std::string all = header + "\n";
    for (const std::string& row : rows) all += row + "\n";
    return all;
  }
  /// Replaces the field (from 0) of an hour's row.
  void set(int hour, int field, const std::string& value) {
    std::string& row = rows[static_cast<std::size_t>(hour)];
    std::size_t begin = 0;
    for (int i = 0; i < field; ++i) begin = row.find(',', begin) + 1;
    const std::size_t end = std::min(row.find(',', begin), row.size());
    row.replace(begin, end - begin, value);
  }
  void erase(int hour, int n_rows) { rows.erase(rows.begin() + hour, rows.begin() + hour + n_rows); }
};

Result<WeatherYear> read_year_csv(std::string_view text, std::string_view file_name, const Place& place) {
  Result<WeatherFile> read = read_weather_file({.text = text, .file_name = file_name, .place = place});
  if (!read) return Unexpected{read.error()};
  return std::move(read).value().year;
}

Issues issues_of(const std::string& text) {
  const auto result = read_year_csv(text, "weather.csv", home);
  EXPECT_FALSE(result.has_value());
  return result ? Issues{} : result.error();
}

std::string place_of(const Issue& issue) {
  return issue.file + ":" + std::to_string(issue.line) + ":" + std::to_string(issue.column);
}

bool has_note(const WeatherYear& year, const std::string& part) {
  return std::any_of(year.notes.begin(), year.notes.end(),
                     [&](const std::string& note) { return note.find(part) != std::string::npos; });
}

TEST(Csv, AGeneratedYearReadsBackToTheSameBits) {
  for (const tests::Climate& climate : {tests::dry_summer(), tests::cold_inland(), tests::humid_south()}) {
    for (const int calendar_year : {2025, 2024}) {
      const WeatherYear year = generate_year(climate.place, climate.normals, 3, 1, {.year = calendar_year}).value();
      const auto result = read_year_csv(write_year_csv(year), "weather.csv", climate.place);
      ASSERT_TRUE(result.has_value()) << text_from_issues(result.error(), "", 5);
      const WeatherYear& back = result.value();
      EXPECT_EQ(back.year, calendar_year);
      EXPECT_EQ(back.pressure_pa, year.pressure_pa);
      EXPECT_EQ(back.air_temperature_c, year.air_temperature_c);
      EXPECT_EQ(back.vapour_pressure_pa, year.vapour_pressure_pa);
      EXPECT_EQ(back.wind_m_per_s, year.wind_m_per_s);
      EXPECT_EQ(back.sky_longwave_w_per_m2, year.sky_longwave_w_per_m2);
      EXPECT_EQ(back.global_w_per_m2, year.global_w_per_m2);
      EXPECT_EQ(back.diffuse_w_per_m2, year.diffuse_w_per_m2);
      EXPECT_EQ(back.rain_mm_per_10_min, year.rain_mm_per_10_min);
      EXPECT_EQ(back.sun_a, year.sun_a);
      EXPECT_EQ(back.sun_mean_sine, year.sun_mean_sine);
      EXPECT_EQ(back.notes, (std::vector<std::string>{"the last mark of the year is its first"}));
    }
  }
}

TEST(Csv, MissingColumnsAreEstimatedAndNamed) {
  const auto result = read_year_csv(PlainYear().text(), "weather.csv", home);
  ASSERT_TRUE(result.has_value()) << text_from_issues(result.error(), "", 5);
  const WeatherYear& year = result.value();
  EXPECT_EQ(year.year, 2025);
  EXPECT_NEAR(year.vapour_pressure_pa[5], 0.6 * 1705.346, 0.01);
  EXPECT_NEAR(year.wind_m_per_s[5], 2.674, 0.002);
  EXPECT_GT(year.diffuse_w_per_m2[12], 0.0);
  EXPECT_LT(year.diffuse_w_per_m2[12], year.global_w_per_m2[12]);
  EXPECT_GT(year.sky_longwave_w_per_m2[12], 250.0);
  for (const char* column : {"wind_m_per_s: no column", "diffuse_w_per_m2: no column",
                             "sky_longwave_w_per_m2: no column", "rain_mm: spread"}) {
    EXPECT_TRUE(has_note(year, column)) << column;
  }
  EXPECT_FALSE(has_note(year, "filled"));
}

TEST(Csv, WithoutHumidityTheDewPointIsTheDaysLowest) {
  PlainYear plain;
  plain.header = "time,air_temperature_c,sky_longwave_w_per_m2,global_w_per_m2,rain_mm";
  for (int hour = 0; hour < 8760; ++hour) plain.set(hour, 2, "300");
  plain.set(100, 1, "9");
  const WeatherYear year = read_year_csv(plain.text(), "weather.csv", home).value();
  EXPECT_NEAR(year.vapour_pressure_pa[110], physics::saturation_vapour_pressure_pa(9.0), 1e-9);
  EXPECT_NEAR(year.vapour_pressure_pa[130], physics::saturation_vapour_pressure_pa(15.0), 1e-9);
  EXPECT_TRUE(has_note(year, "vapour_pressure_pa: no column"));
  EXPECT_FALSE(has_note(year, "sky_longwave"));
}

TEST(Csv, ShortGapsAreFilledInAndCounted) {
  PlainYear plain;
  plain.set(2000, 1, "12");
  plain.set(2001, 1, "");
  plain.set(2002, 1, " ");
  plain.set(2003, 1, "");
  plain.set(2004, 1, "16");
  plain.set(4500, 3, "");  // global radiation, near noon of a summer day
  plain.erase(6000, 2);    // two rows
  const WeatherYear year = read_year_csv(plain.text(), "weather.csv", home).value();
  EXPECT_NEAR(year.air_temperature_c[2001], 13.0, 1e-12);
  EXPECT_NEAR(year.air_temperature_c[2003], 15.0, 1e-12);
  EXPECT_NEAR(year.air_temperature_c[6001], 15.0, 1e-12);
  const double outside = year.sun_normal_w_per_m2[4500] * year.sun_mean_sine[4500];
  EXPECT_NEAR(year.global_w_per_m2[4500], 0.5 * outside, 1.0) << "the clearness of the hours around";
  EXPECT_TRUE(has_note(year, "2 hours without a row are filled in"));
  EXPECT_TRUE(has_note(year, "air_temperature_c: 3 empty hours are filled in"));
  EXPECT_TRUE(has_note(year, "global_w_per_m2: 1 empty hours are filled in"));
}

TEST(Csv, GapsAcrossTheEndOfTheYearAreOneGap) {
  PlainYear plain;
  plain.set(8758, 1, "");
  plain.set(8759, 1, "");
  plain.set(0, 1, "");
  EXPECT_TRUE(read_year_csv(plain.text(), "weather.csv", home).has_value());
  plain.set(1, 1, "");
  const Issues issues = issues_of(plain.text());
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].message,
            "air_temperature_c has no value for 4 hours from 2025-12-31T22:00; gaps of up to 3 hours are filled in");
}

TEST(Csv, LongGapsAreIssuesWithTheirPlace) {
  PlainYear plain;
  for (int hour = 100; hour < 104; ++hour) plain.set(hour, 1, "");
  for (int hour = 200; hour < 230; ++hour) plain.set(hour, 4, "");
  plain.erase(300, 5);
  const Issues issues = issues_of(plain.text());
  ASSERT_EQ(issues.size(), 3U);
  EXPECT_EQ(place_of(issues[0]), "weather.csv:102:18");
  EXPECT_EQ(issues[0].path, "air_temperature_c");
  EXPECT_EQ(issues[0].code, IssueCode::missing_field);
  EXPECT_EQ(issues[0].message,
            "air_temperature_c has no value for 4 hours from 2025-01-05T04:00; gaps of up to 3 hours are filled in");
  EXPECT_EQ(issues[1].path, "rain_mm");
  EXPECT_EQ(issues[1].line, 202);
  EXPECT_EQ(place_of(issues[2]), "weather.csv:302:1");
  EXPECT_EQ(issues[2].path, "time");
  EXPECT_EQ(issues[2].message,
            "there are no rows for 5 hours from 2025-01-13T12:00; gaps of up to 3 hours are filled in");
}

TEST(Csv, TheLeapDayMayBeThereAndIsLeftOut) {
  PlainYear plain(2024);
  EXPECT_TRUE(read_year_csv(plain.text(), "weather.csv", home).has_value());
  std::vector<std::string> leap_day;
  for (int hour = 0; hour < 24; ++hour)
    leap_day.push_back("2024-02-29T" + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + ":00,99,60,0,0");
  plain.rows.insert(plain.rows.begin() + 59 * 24, leap_day.begin(), leap_day.end());
  const Issues issues = issues_of(plain.text());
  EXPECT_EQ(issues.size(), 24U) << "99 degC cannot be, not even on 29 February";
  for (int hour = 0; hour < 24; ++hour) plain.set(59 * 24 + hour, 1, "30");
  const auto result = read_year_csv(plain.text(), "weather.csv", home);
  ASSERT_TRUE(result.has_value());
  EXPECT_EQ(result.value().n_hours(), 8760);
  EXPECT_EQ(result.value().air_temperature_c[59 * 24], 15.0) << "1 March follows 28 February";
  EXPECT_TRUE(has_note(result.value(), "29 February is left out: 24 rows"));
}

TEST(Csv, EveryFaultInOnePassSortedByPlace) {
  PlainYear plain;
  plain.set(10, 1, "warm");
  plain.set(20, 1, "71");
  plain.set(30, 2, "101");
  plain.set(40, 3, "n/k");
  plain.set(50, 4, "-1");
  plain.set(60, 0, "2025-01-03T11:30");
  plain.set(70, 0, "03.01.2025 22:00");
  plain.set(80, 0, "2024-01-04T08:00");  // another year, which is not used
  plain.rows[90] += ",7";
  plain.set(2, 3, "300");    // at night
  plain.set(12, 3, "1200");  // a winter noon
  const Issues issues = issues_of(plain.text());
  const std::vector<std::string> wanted = {
      "4: global_w_per_m2 is 300 while the sun is down",
      "12: air_temperature_c is 'warm'; it must be a number",
      "14: global_w_per_m2 is 1200; the sun sends 661 outside the air in this hour",
      "22: air_temperature_c is 71; it must be from -60 to 56",
      "32: relative_humidity_percent is 101; it must be from 1 to 100",
      "42: global_w_per_m2 is 'n/k'; it must be a number",
      "52: rain_mm is -1; it must be from 0 to 400",
      "62: time 2025-01-03T11:30 lies between the steps of 60 minutes",
      "72: time is '03.01.2025 22:00'; it must be like 2025-01-01T00:00",
      "92: this row has 6 fields; the others have 5",
  };
  ASSERT_EQ(issues.size(), wanted.size());
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    EXPECT_EQ(std::to_string(issues[i].line) + ": " + issues[i].message, wanted[i]);
    EXPECT_EQ(issues[i].file, "weather.csv");
    EXPECT_GT(issues[i].column, 0);
  }
}

TEST(Csv, ClocksThatArePutForwardAndBackAreFound) {
  PlainYear plain;
  // From 30 March 02:00 to 26 October 02:00 the stamps run an hour ahead, as in summer time.
  for (int hour = 88 * 24 + 2; hour < 298 * 24 + 2; ++hour) plain.set(hour, 0, text_from_hour_of_year(2025, hour + 1));
  const Issues issues = issues_of(plain.text());
  const auto doubled = std::find_if(issues.begin(), issues.end(),
                                    [](const Issue& i) { return i.message.find("second time") != std::string::npos; });
  ASSERT_NE(doubled, issues.end());
  EXPECT_EQ(doubled->message, "time 2025-10-26T02:00 is here a second time; the first is in line 7155");
  EXPECT_EQ(doubled->hint, "clocks put back in autumn? write clock = \"daylight_saving\" under [climate.layout]");
}

TEST(Csv, BackwardStampsAreFound) {
  PlainYear plain;
  std::swap(plain.rows[500], plain.rows[501]);
  const Issues issues = issues_of(plain.text());
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].line, 503);
  EXPECT_EQ(issues[0].message, "time 2025-01-21T20:00 goes back");
}

TEST(Csv, StampsMayCarryThePlacesOffset) {
  PlainYear plain;
  for (int hour = 0; hour < 8760; ++hour) plain.set(hour, 0, text_from_hour_of_year(2025, hour) + ":00+01:00");
  EXPECT_TRUE(read_year_csv(plain.text(), "weather.csv", home).has_value());
  plain.set(7, 0, "2025-01-01T07:00Z");
  const Issues issues = issues_of(plain.text());
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].message, "time 2025-01-01T07:00 is here a second time; the first is in line 9");
}

TEST(Csv, HeadersThatCannotBeRead) {
  const auto messages_of = [](const std::string& text) {
    std::vector<std::string> messages;
    for (const Issue& issue : issues_of(text))
      messages.push_back(issue.message + (issue.hint.empty() ? "" : " (" + issue.hint + ")"));
    return messages;
  };
  using Messages = std::vector<std::string>;
  EXPECT_EQ(messages_of(""),
            (Messages{"the file is empty (a header line that names the columns, then one row an hour)"}));
  EXPECT_EQ(
      messages_of("time\n"),
      (Messages{
          "the file has no rows below its first line (a header line that names the columns, then one row an hour)"}));
  EXPECT_EQ(
      messages_of("time;air_temperature_c\n1;2\n"),
      (Messages{"column rain_mm is missing (rain cannot be estimated; a year without rain is a column of zeros; write "
                "rain = \"...\" under [climate.columns]; there are: time, air_temperature_c)"}));
  EXPECT_EQ(
      messages_of("time,air_temprature_c,global_w_per_m2,rain_mm\n1,2,3,4\n"),
      (Messages{"column air_temperature_c is missing (write air_temperature = \"...\" under [climate.columns]; there "
                "are: time, air_temprature_c, global_w_per_m2, rain_mm)",
                "there is no column called 'air_temprature_c' (did you mean air_temperature_c?)"}));
  EXPECT_EQ(messages_of("time,air_temperature_c,global_w_per_m2,rain_mm,rain_mm,rain_0_10_mm\n1,2,3,4,5,6\n"),
            (Messages{"give either rain_mm or the six columns of ten minutes; there are both",
                      "column rain_mm is here a second time (write rain = \"rain_mm\" under [climate.columns])"}));
  EXPECT_EQ(messages_of("time,air_temperature_c,global_w_per_m2,rain_0_10_mm\n1,2,3,4\n").size(), 5U);
  EXPECT_EQ(messages_of("time,air_temperature_c,temperature,rain_mm\n2023-01-01T00:00,2,3,4\n"),
            (Messages{"air_temperature may be the column 'air_temperature_c' or 'temperature' (write air_temperature = "
                      "\"air_temperature_c\" under [climate.columns])"}));
  EXPECT_EQ(messages_of("time,air_temperature_c,global_w_per_m2,rain_mm\nx,2,3,4\n"),
            (Messages{"time is 'x'; it must be like 2023-01-31T05:00"}));
  EXPECT_EQ(messages_of(std::string("time\0,b\n", 8)),
            (Messages{"there is a byte here that is no text (save the file as plain text, UTF-8)"}));
}

TEST(Csv, SmallFaultsOfSensorsAreMendedAndCounted) {
  PlainYear plain;
  plain.header += ",diffuse_w_per_m2,dew_point_c";
  for (std::string& row : plain.rows) row += ",0,5";
  plain.header.replace(plain.header.find("relative_humidity_percent"), 25, "wind_m_per_s");
  plain.set(1, 3, "-3");  // an offset at night
  plain.set(2, 3, "4");
  plain.set(12, 5, "9999");  // beyond its limit
  EXPECT_EQ(issues_of(plain.text()).size(), 1U);
  plain.set(12, 5, "400");  // above global, 330
  Issues issues = issues_of(plain.text());
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].message, "diffuse_w_per_m2 is 400, more than global_w_per_m2, 330");
  plain.set(12, 5, "335");
  plain.set(20, 6, "15.1");
  plain.set(21, 6, "16");
  issues = issues_of(plain.text());
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].message, "dew_point_c is 16, more than air of 15 degC can hold");
  plain.set(21, 6, "15");
  const WeatherYear year = read_year_csv(plain.text(), "weather.csv", home).value();
  EXPECT_EQ(year.global_w_per_m2[1], 0.0);
  EXPECT_EQ(year.diffuse_w_per_m2[12], 330.0);
  EXPECT_TRUE(has_note(year, "global_w_per_m2: 2 hours below zero or with the sun down are set to zero"));
  EXPECT_TRUE(has_note(year, "diffuse_w_per_m2: 1 hours below zero or above global are held there"));
  EXPECT_TRUE(has_note(year, "vapour_pressure_pa: 1 hours were above saturation and are held at it"));
}

TEST(Csv, AFileOfTheWrongPlaceOrAnHourOffIsFound) {
  const std::string text = PlainYear().text();
  const auto far_east = read_year_csv(text, "weather.csv", {37.4, 54.0, 20.0, 5.0});
  EXPECT_TRUE(far_east.has_value()) << "the same sun by the clock";
  const auto south = read_year_csv(text, "weather.csv", {-37.4, -6.0, 20.0, 1.0});
  ASSERT_FALSE(south.has_value());
  EXPECT_GT(south.error().size(), 300U);
  const auto zone = read_year_csv(text, "weather.csv", {37.4, -6.0, 20.0, 3.0});
  ASSERT_FALSE(zone.has_value());
  EXPECT_FALSE(read_year_csv(text, "weather.csv", {99.0, 0.0, 0.0, 0.0}).has_value());
}

TEST(Csv, HostileTextGivesIssuesAndNoCrash) {
  const std::string good = PlainYear().text();
  std::string long_line = good;
  long_line.insert(long_line.find("\n2025-01-02T00:00") + 1, std::string(400000, 'x') + "\n");
  const auto result = read_year_csv(long_line, "weather.csv", home);
  ASSERT_FALSE(result.has_value());
  EXPECT_EQ(result.error()[0].line, 26);
  EXPECT_LT(text_from_issues(result.error(), long_line, 50).size(), 2000U);
  for (std::size_t length = 0; length < good.size(); length += 9973) {
    EXPECT_FALSE(read_year_csv(good.substr(0, length), "weather.csv", home).has_value()) << length;
  }
  std::string binary;
  for (int i = 0; i < 4096; ++i) binary += static_cast<char>((i * 37 + i / 7) & 0xFF);
  EXPECT_EQ(issues_of(binary).size(), 1U);
  EXPECT_FALSE(
      read_year_csv("time,air_temperature_c,global_w_per_m2,rain_mm\n2025-01-01T00:00,,,\n", "weather.csv", home)
          .has_value());
}

StampText clocked(std::array<int, 3> date, bool is_year_first, int hour, int minute) {
  StampText stamp;
  stamp.has_date = true;
  stamp.has_clock = true;
  stamp.date = date;
  stamp.is_year_first = is_year_first;
  stamp.hour = hour;
  stamp.minute = minute;
  return stamp;
}

TEST(TimeStamp, FormsThatAreRead) {
  EXPECT_EQ(stamp_text_from("2023-01-31T05:00"), clocked({2023, 1, 31}, true, 5, 0));
  EXPECT_EQ(stamp_text_from("2023/1/31 5:00"), clocked({2023, 1, 31}, true, 5, 0));
  EXPECT_EQ(stamp_text_from("31.01.2023 05:10"), clocked({31, 1, 2023}, false, 5, 10));
  EXPECT_EQ(stamp_text_from("1/31/2023 5:10 PM"), clocked({1, 31, 2023}, false, 17, 10));
  EXPECT_EQ(stamp_text_from("1/31/2023 12:10 am"), clocked({1, 31, 2023}, false, 0, 10));
  EXPECT_EQ(stamp_text_from("202301310510"), clocked({2023, 1, 31}, true, 5, 10));
  EXPECT_EQ(stamp_text_from("20230131 0510"), clocked({2023, 1, 31}, true, 5, 10));
  EXPECT_EQ(stamp_text_from("2023013105"), clocked({2023, 1, 31}, true, 5, 0));
  EXPECT_EQ(stamp_text_from("2023-01-31T24:00"), clocked({2023, 1, 31}, true, 24, 0));
  EXPECT_TRUE(stamp_text_from("31.1.23 05:10")->is_year_short);
  EXPECT_EQ(stamp_text_from("2023-01-31 05:10:20.5")->second, 20);
  EXPECT_EQ(stamp_text_from("2024-02-29T23:00Z")->utc_offset_min, 0);
  EXPECT_EQ(stamp_text_from("2023-01-31T05:00-03:30")->utc_offset_min, -210);
  EXPECT_EQ(stamp_text_from("2023-01-31T05:00+0100")->utc_offset_min, 60);
  EXPECT_EQ(stamp_text_from("1675141200")->epoch_s, 1675141200);
  EXPECT_EQ(stamp_text_from("1675141200000")->epoch_s, 1675141200);
  EXPECT_FALSE(stamp_text_from("2023-01-31")->has_clock);
  EXPECT_FALSE(stamp_text_from("17:45")->has_date);
  for (const char* text : {"", "202", "2023-01-31T24:01", "2023-01-31T05", "2023-01-31T05:00+", "2023-01-31T05:00+1",
                           "2023-01-31T05:60", "2023-01-31T05:00+24:00", "2023-01.31 05:00", "31-01-202 05:00",
                           "13:00 PM", "1.5", "12,5", "2023-01-31T05:00:61"}) {
    EXPECT_EQ(stamp_text_from(text), std::nullopt) << text;
  }
}

TEST(TimeStamp, MinutesAndDates) {
  EXPECT_EQ(minute_from_date({1970, 1, 1}), 0);
  EXPECT_EQ(minute_from_date({2024, 3, 1}), 1440 * 19783);
  for (const std::int64_t minute : {-1440 * 400 - 1, -1, 0, 1440 * 19783 + 61}) {
    int minute_of_day = 0;
    const CivilDate date = date_from_minute(minute, minute_of_day);
    EXPECT_EQ(minute_from_date(date) + minute_of_day, minute);
    EXPECT_TRUE(is_on_calendar(date));
  }
  EXPECT_EQ(text_from_minute(1440 * 19783 + 61), "2024-03-01T01:01");
  EXPECT_FALSE(is_on_calendar({2023, 2, 29}));
  EXPECT_TRUE(is_leap_day({2024, 2, 29}));
  EXPECT_EQ(day_of_year({2024, 3, 1}), 59);
  EXPECT_EQ(text_from_hour_of_year(2024, 59 * 24 + 5), "2024-03-01T05:00");
  EXPECT_EQ(text_from_hour_of_year(2023, 8759), "2023-12-31T23:00");
}

}  // namespace
}  // namespace houseleek::climate
