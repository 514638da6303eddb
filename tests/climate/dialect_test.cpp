// One year written in many dialects: each must read to the same hours, or say with a place what is open.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "base/issue_text.hpp"
#include "base/zone.hpp"
#include "climate/calendar.hpp"
#include "climate/invented_climates.hpp"
#include "climate/read_file.hpp"
#include "climate/time_stamp.hpp"

namespace houseleek::climate {
namespace {

// An hour and a half east of nothing special: in Berlin's zone, whose clocks change.
constexpr Place berlin = {52.5, 13.4, 40.0, 1.0};
constexpr int year_of_file = 2023;

/// One generated year; every dialect below is written from it with digits enough to come back.
const WeatherYear& original() {
  static const WeatherYear year = [] {
    tests::Climate climate = tests::dry_summer();
    return generate_year(berlin, climate.normals, 11, 0, {.year = year_of_file}).value();
  }();
  return year;
}

struct Dialect {
  std::string header = "time,temperature (degC),relative humidity (%),wind (m/s),global radiation (W/m2),rain (mm)\n";
  char delimiter = ',';
  char decimal_mark = '.';
  int stamp_shift_min = 0;  // what the file's clock shows at the start of an hour, from local standard time
  std::function<std::string(std::int64_t minute)> stamp = text_from_minute;
  std::function<double(double)> temperature = [](double value) { return value; };
  std::function<double(double)> wind = [](double value) { return value; };
  std::function<double(double)> global = [](double value) { return value; };
  std::function<double(double)> rain = [](double value) { return value; };
  std::function<std::int64_t(std::int64_t)> clock = [](std::int64_t minute) { return minute; };
};

double rain_of_hour_mm(const WeatherYear& year, std::size_t hour) {
  double sum_mm = 0.0;
  for (std::size_t slot = 6 * hour; slot < 6 * hour + 6; ++slot) sum_mm += year.rain_mm_per_10_min[slot];
  return sum_mm;
}

/// Air values belong to the moment of the stamp, sums and means to the hour; `air_from_hour` picks the mark.
std::string written(const Dialect& dialect, int air_mark = 0) {
  const WeatherYear& year = original();
  std::string text = dialect.header;
  const std::int64_t first = minute_from_date({year_of_file, 1, 1});
  const auto number = [&](double value) {
    std::string digits = fmt::format("{}", value);
    std::replace(digits.begin(), digits.end(), '.', dialect.decimal_mark);
    return digits;
  };
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    const std::size_t mark = (hour + static_cast<std::size_t>(air_mark)) % 8760;
    const double saturation_pa =
        610.8 * std::exp(17.27 * year.air_temperature_c[mark] / (year.air_temperature_c[mark] + 237.3));
    const double humidity = std::min(100.0, 100.0 * year.vapour_pressure_pa[mark] / saturation_pa);
    const std::int64_t minute = dialect.clock(first + 60 * static_cast<std::int64_t>(hour)) + dialect.stamp_shift_min;
    const char d = dialect.delimiter;
    text += fmt::format(
        "{}{}{}{}{}{}{}{}{}{}{}\n", dialect.stamp(minute), d, number(dialect.temperature(year.air_temperature_c[mark])),
        d, number(humidity), d, number(dialect.wind(year.wind_m_per_s[mark])), d,
        number(dialect.global(year.global_w_per_m2[hour])), d, number(dialect.rain(rain_of_hour_mm(year, hour))));
  }
  return text;
}

Result<WeatherFile> read(const std::string& text, const FileRules& rules = {}) {
  const std::vector<OffsetSpan> offsets = offsets_of_zone("Europe/Berlin", 1990, 2060);
  return read_weather_file({.text = text, .file_name = "w.csv", .place = berlin, .offsets = offsets, .rules = rules});
}

FileRules with_clock(FileClock clock) {
  FileRules rules;
  rules.clock = clock;
  return rules;
}

std::string finding(const WeatherFile& file, const std::string& about) {
  for (const Finding& one : file.report.findings) {
    if (one.about == about) return one.is;
  }
  return "";
}

struct Told {
  const char* about;
  const char* value;
};
void expect_findings(const WeatherFile& file, const std::vector<Told>& told) {
  for (const Told& one : told) EXPECT_EQ(finding(file, one.about), one.value) << one.about;
}

void expect_same_hours(const Result<WeatherFile>& result) {
  ASSERT_TRUE(result.has_value()) << text_from_issues(result.error(), "", 5);
  const WeatherYear& year = result.value().year;
  double worst_c = 0.0;
  double worst_pa = 0.0;
  double worst_wind = 0.0;
  double worst_w = 0.0;
  double worst_mm = 0.0;
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    const auto away = [hour](const std::vector<double>& a, const std::vector<double>& b) {
      return std::abs(a[hour] - b[hour]);
    };
    worst_c = std::max(worst_c, away(year.air_temperature_c, original().air_temperature_c));
    worst_pa = std::max(worst_pa, away(year.vapour_pressure_pa, original().vapour_pressure_pa));
    worst_wind = std::max(worst_wind, away(year.wind_m_per_s, original().wind_m_per_s));
    worst_w = std::max(worst_w, away(year.global_w_per_m2, original().global_w_per_m2));
    worst_mm = std::max(worst_mm, std::abs(rain_of_hour_mm(year, hour) - rain_of_hour_mm(original(), hour)));
  }
  EXPECT_LT(worst_c, 1e-9);
  EXPECT_LT(worst_pa, 1e-6);
  EXPECT_LT(worst_wind, 1e-9);
  EXPECT_LT(worst_w, 1e-9);
  EXPECT_LT(worst_mm, 1e-9);
}

std::string day_first(std::int64_t minute) {
  const std::string iso = text_from_minute(minute);
  return iso.substr(8, 2) + "." + iso.substr(5, 2) + "." + iso.substr(0, 4) + " " + iso.substr(11);
}

std::string month_first(std::int64_t minute) {
  const std::string iso = text_from_minute(minute);
  return iso.substr(5, 2) + "/" + iso.substr(8, 2) + "/" + iso.substr(0, 4) + " " + iso.substr(11);
}

TEST(Dialect, OrdinaryCommasAndPoints) {
  const auto result = read(written({}), with_clock(FileClock::standard));
  expect_same_hours(result);
  expect_findings(result.value(), {{"delimiter", "comma"},
                                   {"decimal mark", "point"},
                                   {"date order", "year_first"},
                                   {"stamps", "start of the row's time"}});
}

TEST(Dialect, SemicolonsAndDecimalCommasDayFirst) {
  Dialect dialect;
  dialect.header =
      "Datum;Temperatur [°C];Luftfeuchte [%];Windgeschwindigkeit [km/h];Globalstrahlung [W/m²];Niederschlag [mm]\n";
  dialect.delimiter = ';';
  dialect.decimal_mark = ',';
  dialect.stamp = day_first;
  dialect.wind = [](double value) { return 3.6 * value; };
  const auto result = read("\xEF\xBB\xBF" + written(dialect), with_clock(FileClock::standard));
  expect_same_hours(result);
  expect_findings(
      result.value(),
      {{"delimiter", "semicolon"}, {"decimal mark", "comma"}, {"date order", "day_first"}, {"characters", "UTF-8"}});
}

TEST(Dialect, Latin1IsToldByItsLetters) {
  Dialect dialect;
  dialect.header =
      "Zeit;Temperatur (\xB0"
      "C);Luftfeuchte (%);Wind (m/s);Globalstrahlung (W/m\xB2);Niederschlag (mm)\n";
  dialect.delimiter = ';';
  dialect.decimal_mark = ',';
  const auto result = read(written(dialect), with_clock(FileClock::standard));
  expect_same_hours(result);
  EXPECT_EQ(finding(result.value(), "characters"), "Latin-1");
}

TEST(Dialect, FahrenheitMilesInchesMonthFirst) {
  Dialect dialect;
  dialect.header = "date time,temp (F),humidity (%),wind speed (mph),solar radiation (MJ/m2),rainfall (in)\n";
  dialect.stamp = month_first;
  dialect.temperature = [](double value) { return 1.8 * value + 32.0; };
  dialect.wind = [](double value) { return value / 0.44704; };
  dialect.global = [](double value) { return value * 0.0036; };
  dialect.rain = [](double value) { return value / 25.4; };
  const auto result = read(written(dialect), with_clock(FileClock::standard));
  expect_same_hours(result);
  EXPECT_EQ(finding(result.value(), "date order"), "month_first");
}

TEST(Dialect, TabsKnotsAndALineOfUnits) {
  Dialect dialect;
  dialect.header = "time\tair temperature\trelative humidity\twind\tglobal\train\n\tdegC\t%\tkn\tJ/cm2\tmm\n";
  dialect.delimiter = '\t';
  dialect.wind = [](double value) { return value * 3600.0 / 1852.0; };
  dialect.global = [](double value) { return value * 0.36; };
  expect_same_hours(read(written(dialect), with_clock(FileClock::standard)));
}

TEST(Dialect, BlanksWithCommentsAndTwoColumnsOfTime) {
  Dialect dialect;
  dialect.header = "# a station on a roof\n# date clock temperature_c humidity_percent wind_kmh global_w_m2 rain_mm\n";
  dialect.delimiter = ' ';
  dialect.wind = [](double value) { return 3.6 * value; };
  dialect.stamp = [](std::int64_t minute) {
    std::string iso = text_from_minute(minute);
    iso[10] = ' ';
    return iso;
  };
  const auto result = read(written(dialect), with_clock(FileClock::standard));
  expect_same_hours(result);
  EXPECT_EQ(finding(result.value(), "comment lines"), "1 left out");
}

TEST(Dialect, WithoutAHeaderColumnsByNumber) {
  Dialect dialect;
  dialect.header = "";
  const auto without = read(written(dialect));
  ASSERT_FALSE(without.has_value());
  EXPECT_EQ(without.error().front().message, "column air_temperature_c is missing");
  EXPECT_NE(without.error().front().hint.find("number = 2"), std::string::npos);
  FileRules rules = with_clock(FileClock::standard);
  rules.stamps = StampMarks::start;
  const auto add = [&](WeatherColumn quantity, int number, Unit unit) {
    ColumnRule rule;
    rule.quantity = quantity;
    rule.word = info_of(quantity).word;
    rule.number = number;
    rule.unit = unit;
    rules.columns.push_back(rule);
  };
  add(WeatherColumn::air_temperature, 2, Unit::deg_c);
  add(WeatherColumn::relative_humidity, 3, Unit::percent);
  add(WeatherColumn::wind, 4, Unit::m_per_s);
  add(WeatherColumn::global, 5, Unit::w_per_m2);
  add(WeatherColumn::rain, 6, Unit::mm);
  expect_same_hours(read(written(dialect), rules));
}

TEST(Dialect, OffsetsInStampsSecondsSince1970AndUtcInTheHeader) {
  Dialect dialect;
  dialect.clock = [](std::int64_t minute) { return minute - 60; };
  dialect.stamp = [](std::int64_t minute) { return text_from_minute(minute) + "Z"; };
  expect_same_hours(read(written(dialect)));
  dialect.stamp = [](std::int64_t minute) { return fmt::format("{}", 60 * minute); };
  expect_same_hours(read(written(dialect)));
  dialect.stamp = text_from_minute;
  dialect.header = "time (UTC),temperature (degC),relative humidity (%),wind (m/s),global radiation (W/m2),rain (mm)\n";
  expect_same_hours(read(written(dialect)));
}

/// What clocks in Berlin show in 2023: put forward on 26 March at 2:00, back on 29 October at 3:00.
std::int64_t wall_clock(std::int64_t minute) {
  const std::int64_t forward = minute_from_date({2023, 3, 26}) + 120;
  const std::int64_t back = minute_from_date({2023, 10, 29}) + 120;
  return minute >= forward && minute < back ? minute + 60 : minute;
}

TEST(Dialect, DaylightSavingIsToldByItsMissingAndDoubledHour) {
  Dialect dialect;
  dialect.clock = wall_clock;
  const auto result = read(written(dialect));
  expect_same_hours(result);
  EXPECT_EQ(finding(result.value(), "clock"), "daylight_saving");
  // Fixed as standard time the doubled hour has its issue, with its place.
  FileRules rules = with_clock(FileClock::standard);
  rules.stamps = StampMarks::start;
  const auto fixed = read(written(dialect), rules);
  ASSERT_FALSE(fixed.has_value());
  const Issues& issues = fixed.error();
  const auto doubled =
      std::find_if(issues.begin(), issues.end(), [](const Issue& issue) { return issue.path == "time"; });
  ASSERT_NE(doubled, issues.end());
  EXPECT_EQ(doubled->message, "time 2023-10-29T02:00 is here a second time; the first is in line 7227");
  EXPECT_EQ(doubled->line, 7228);
}

TEST(Dialect, EndsOfHoursAreToldByTheSun) {
  Dialect dialect;
  dialect.stamp_shift_min = 60;
  const auto result = read(written(dialect, 1), with_clock(FileClock::standard));
  expect_same_hours(result);
  EXPECT_EQ(finding(result.value(), "stamps"), "end of the row's time");
  FileRules rules = with_clock(FileClock::utc);
  dialect.stamp_shift_min = 0;
  expect_same_hours(read(written(dialect, 1), rules));
}

TEST(Dialect, HoursFromOneToTwentyFour) {
  Dialect dialect;
  dialect.header = "date,hour,temperature (degC),relative humidity (%),wind (m/s),global radiation (W/m2),rain (mm)\n";
  dialect.stamp_shift_min = 60;
  dialect.stamp = [](std::int64_t minute) {
    const std::string iso = text_from_minute(minute - 60);
    return iso.substr(0, 10) + fmt::format(",{}", std::stoi(iso.substr(11, 2)) + 1);
  };
  const auto result = read(written(dialect, 1), with_clock(FileClock::standard));
  expect_same_hours(result);
  EXPECT_EQ(finding(result.value(), "stamps"), "end of the row's time");
}

TEST(Dialect, NewestRowFirst) {
  const std::string text = written({});
  std::vector<std::string> lines;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin);
    lines.push_back(text.substr(begin, end - begin + 1));
    begin = end + 1;
  }
  std::reverse(lines.begin() + 1, lines.end());
  std::string turned;
  for (const std::string& line : lines) turned += line;
  expect_same_hours(read(turned, with_clock(FileClock::standard)));
}

TEST(Dialect, TheClockThatTwoReadingsShareIsAsked) {
  const auto result = read(written({}));
  ASSERT_FALSE(result.has_value());
  ASSERT_EQ(result.error().size(), 1U);
  EXPECT_EQ(result.error().front().path, "climate.layout.clock");
  EXPECT_EQ(
      result.error().front().message,
      "the stamps can be read in 2 ways: clock standard, stamps at the start; or clock utc, stamps at the end (the "
      "hours of rain and sun are the same, the moments of temperature are not)");
  EXPECT_EQ(result.error().front().line, 2);
}

TEST(Dialect, UnitsThatNothingTellsAreAsked) {
  Dialect dialect;
  dialect.header = "time,temperature,humidity,wind,global,rain\n";
  const auto result = read(written(dialect), with_clock(FileClock::standard));
  ASSERT_FALSE(result.has_value());
  std::vector<std::string> paths;
  for (const Issue& issue : result.error()) paths.push_back(issue.path);
  // Temperature, humidity and radiation are told by their values.
  EXPECT_EQ(paths, (std::vector<std::string>{"climate.columns.wind.unit", "climate.columns.rain.unit"}));
}

TEST(Dialect, ThousandsAndDecimalsAreAsked) {
  std::string text = "time;temperature (degC);rain (mm)\n";
  for (int hour = 0; hour < 48; ++hour) text += text_from_hour_of_year(2023, hour) + ";12,500;1,250\n";
  const auto result = read(text);
  ASSERT_FALSE(result.has_value());
  EXPECT_EQ(result.error().front().path, "climate.layout.decimal_mark");
}

TEST(Dialect, DailyRowsSayWhatIsNeeded) {
  std::string text = "date,temperature (degC),rain (mm)\n";
  for (int day = 0; day < 365; ++day) text += text_from_hour_of_year(2023, 24 * day).substr(0, 10) + ",10,0\n";
  const auto result = read(text);
  ASSERT_FALSE(result.has_value());
  EXPECT_EQ(result.error().front().message, "the file has one row a day or fewer; the hours of a day are needed");
  EXPECT_NE(result.error().front().hint.find("[climate.normals]"), std::string::npos);
}

TEST(Dialect, MissingWordsAreCounted) {
  std::string text = written({});
  const std::size_t row = text.find("2023-05-01T03:00,") + 17;
  text.replace(row, text.find(',', row) - row, "-999");
  const auto result = read(text, with_clock(FileClock::standard));
  ASSERT_TRUE(result.has_value()) << text_from_issues(result.error(), "", 5);
  EXPECT_EQ(finding(result.value(), "missing values"), "'-999' in 1 fields");
  ASSERT_EQ(result.value().report.filled.size(), 1U);
  EXPECT_EQ(result.value().report.filled[0], (FilledColumn{"air_temperature_c", 1}));
}

TEST(FileUnits, EveryUnitByItsDefinition) {
  struct Row {
    const char* text;
    double value;
    double ours;
  };
  for (const Row& row :
       {Row{"°F", 212.0, 100.0}, Row{"K", 273.15, 0.0}, Row{"hPa", 10.0, 1000.0}, Row{"kPa", 1.0, 1000.0},
        Row{"mmHg", 1.0, 133.322}, Row{"fraction", 0.5, 50.0}, Row{"MJ/m²", 3.6, 1000.0}, Row{"kJ m-2", 3600.0, 1000.0},
        Row{"J/cm2", 360.0, 1000.0}, Row{"Wh/m2", 1000.0, 1000.0}, Row{"inch", 1.0, 25.4}, Row{"mm/h", 2.0, 2.0},
        Row{"km/h", 36.0, 10.0}, Row{"mph", 1.0, 0.44704}, Row{"kn", 3600.0, 1852.0}, Row{"°C", 7.0, 7.0},
        Row{"W m-2", 7.0, 7.0}, Row{"m s-1", 7.0, 7.0}}) {
    const std::optional<Unit> unit = unit_from_text(row.text);
    ASSERT_TRUE(unit.has_value()) << row.text;
    EXPECT_NEAR(value_in_our_unit(row.value, *unit, 60.0), row.ours, 1e-9 * (1.0 + row.ours)) << row.text;
    EXPECT_EQ(unit_from_text(text_from_unit(*unit)), unit) << row.text;
  }
  EXPECT_NEAR(value_in_our_unit(0.6, Unit::mj_per_m2, 10.0), 1000.0, 1e-9) << "in ten minutes";
  EXPECT_EQ(unit_from_text("furlong"), std::nullopt);
}

TEST(Hours, TenMinutesBecomeHours) {
  std::string text = "time,temperature (degC),global radiation (W/m2),rain (mm)\n";
  const std::int64_t first = minute_from_date({2023, 1, 1});
  for (std::int64_t i = 0; i < 6 * 8760; ++i) {
    const std::size_t hour = static_cast<std::size_t>(i / 6);
    text += fmt::format("{},{},{},{}\n", text_from_minute(first + 10 * i), i % 6, original().global_w_per_m2[hour],
                        i % 6 == 2 ? 0.6 : 0.0);
  }
  FileRules rules = with_clock(FileClock::standard);
  const auto result = read(text, rules);
  ASSERT_TRUE(result.has_value()) << text_from_issues(result.error(), "", 5);
  EXPECT_EQ(result.value().report.warnings.size(), 1U) << "which end of ten minutes is open";
  const WeatherYear& year = result.value().year;
  // Around a full hour: 3/2, 4, 5, 0, 1, 2, 3/2 over 6.
  EXPECT_NEAR(year.air_temperature_c[100], (1.5 + 4 + 5 + 0 + 1 + 2 + 1.5) / 6.0, 1e-12);
  EXPECT_NEAR(year.global_w_per_m2[4000], original().global_w_per_m2[4000], 1e-9);
  EXPECT_EQ(year.rain_mm_per_10_min[602], 0.6);
  EXPECT_EQ(year.rain_mm_per_10_min[603], 0.0);
}

TEST(Years, TheLatestCompleteOneOrTheOneThatIsNamed) {
  std::string text = written({});
  for (const int year : {2021, 2022}) {
    std::string more = written({});
    more = more.substr(more.find('\n') + 1);
    for (std::size_t at = more.find("2023-"); at != std::string::npos; at = more.find("2023-", at)) {
      more.replace(at, 4, std::to_string(year));
    }
    text = text.substr(0, text.find('\n') + 1) + more + text.substr(text.find('\n') + 1);
  }
  // Rows stand in order 2022, 2021, 2023 now: only the years' own order matters.
  FileRules rules = with_clock(FileClock::standard);
  rules.stamps = StampMarks::start;
  const auto latest = read(text, rules);
  ASSERT_TRUE(latest.has_value()) << text_from_issues(latest.error(), "", 5);
  EXPECT_EQ(latest.value().year.year, 2023);
  EXPECT_EQ(latest.value().report.complete_years, (std::vector<int>{2021, 2022, 2023}));
  rules.year = 2021;
  EXPECT_EQ(read(text, rules).value().year.year, 2021);
  rules.year = 2019;
  EXPECT_EQ(read(text, rules).error().front().message, "climate.year is 2019; the file has 2021, 2022, 2023");
}

TEST(Years, AFileOfOneYearGivesNoRange) {
  FileRequest request;
  const std::string text = written({});
  request.text = text;
  request.file_name = "w.csv";
  request.place = berlin;
  request.rules = with_clock(FileClock::standard);
  request.nth_year = 1;
  const auto result = read_weather_file(request);
  ASSERT_FALSE(result.has_value());
  EXPECT_EQ(result.error().front().message, "the file holds one year of weather; a range cannot come from it");
}

}  // namespace
}  // namespace houseleek::climate
