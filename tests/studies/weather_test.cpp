// Weather of a design: draws, picks, what the design fixes about its file, and the answer's figures.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "base/utf8.hpp"
#include "climate/file_units.hpp"
#include "climate/summary.hpp"
#include "climate/write_csv.hpp"
#include "design/climate_limits.hpp"
#include "report/weather_text.hpp"
#include "studies/weather_answer.hpp"
#include "studies/weather_ensemble.hpp"
#include "support/small_design.hpp"

namespace houseleek::studies {
namespace {

using houseleek::tests::edited;
using houseleek::tests::small_design_text;
using houseleek::tests::valid_design;

std::string with_file(const std::string& more) {
  return edited(small_design_text(), {{"seed = 7\n", "seed = 7\nfile = \"year.csv\"\n" + more}});
}

TEST(WeatherEnsemble, TwentyDrawsAreTwentyYears) {
  const design::ValidDesign design = valid_design(small_design_text());
  const auto years = make_weather_ensemble(design, std::nullopt, 20);
  ASSERT_TRUE(years.has_value());
  ASSERT_EQ(years.value().size(), 20U);
  std::set<std::vector<double>> temperatures;
  std::set<std::vector<double>> rains;
  std::set<std::vector<double>> suns;
  for (const climate::WeatherYear& year : years.value()) {
    temperatures.insert(year.air_temperature_c);
    rains.insert(year.rain_mm_per_10_min);
    suns.insert(year.global_w_per_m2);
  }
  EXPECT_EQ(temperatures.size(), 20U);
  EXPECT_EQ(rains.size(), 20U);
  EXPECT_EQ(suns.size(), 20U);
  EXPECT_EQ(years.value()[0].air_temperature_c, make_weather(design, std::nullopt).value().air_temperature_c);
  // Independent: the departures of one year say nothing of the next one's. 365 days with lags of some 4 days.
  double xy = 0, xx = 0, yy = 0;
  const auto days = [&](std::size_t draw) { return climate::figures_of_days(years.value()[draw]); };
  std::vector<std::vector<climate::DayFigures>> all;
  for (std::size_t draw = 0; draw < 20; ++draw) all.push_back(days(draw));
  for (std::size_t day = 0; day < 365; ++day) {
    double mean = 0;
    for (const auto& year : all) mean += year[day].mean_c / 20.0;
    for (std::size_t draw = 0; draw + 1 < 20; draw += 2) {
      const double x = all[draw][day].mean_c - mean;
      const double y = all[draw + 1][day].mean_c - mean;
      xy += x * y, xx += x * x, yy += y * y;
    }
  }
  // Departures from the mean of twenty hang together by -1/19; three standard errors of 3650 days in runs of 4: 0.10.
  EXPECT_NEAR(xy / std::sqrt(xx * yy), -1.0 / 19.0, 0.10);
}

TEST(WeatherEnsemble, PicksByTheirCriteria) {
  const design::ValidDesign design = valid_design(small_design_text());
  std::vector<climate::WeatherYear> years = make_weather_ensemble(design, std::nullopt, 4).value();
  for (std::size_t hour = 4800; hour < 4872; ++hour) years[2].air_temperature_c[hour] = 50.0;
  std::fill(years[1].rain_mm_per_10_min.begin(), years[1].rain_mm_per_10_min.end(), 0.0);
  years[3].rain_mm_per_10_min[1000] = 500.0;
  const EnsemblePicks picks = pick_years(years);
  EXPECT_EQ(picks.hottest, 2U);
  EXPECT_EQ(picks.driest, 1U);
  EXPECT_EQ(picks.wettest, 3U);
  const YearCriteria hot = criteria_of(years[2]);
  EXPECT_NEAR(hot.hottest_three_days_c, 50.0, 1e-9);
  EXPECT_EQ(criteria_of(years[1]).longest_dry_spell_days, 365);
  EXPECT_GE(criteria_of(years[3]).wettest_seven_days_mm, 500.0);
}

TEST(WeatherEnsemble, AFileOfOneYearGivesNone) {
  const design::ValidDesign made = valid_design(small_design_text());
  const NamedText file = {"year.csv", climate::write_year_csv(make_weather(made, std::nullopt).value())};
  const design::ValidDesign design = valid_design(with_file(""));
  EXPECT_TRUE(make_weather_ensemble(design, file, 1).has_value());
  const auto more = make_weather_ensemble(design, file, 20);
  ASSERT_FALSE(more.has_value());
  EXPECT_EQ(more.error().front().path, "climate.year");
  EXPECT_EQ(more.error().front().message, "the file holds one year of weather; a range cannot come from it");
}

TEST(WeatherRules, WhatTheDesignFixesReachesTheReader) {
  const design::ValidDesign design = valid_design(with_file(R"(year = 2021
[climate.layout]
delimiter = "bar"
decimal_mark = "comma"
header_line = 0
date_order = "month_first"
stamps = "end"
clock = "utc"
missing = ["n/k"]
[climate.columns]
date = 1
air_temperature = {name = "T", unit = "degF"}
)"));
  const climate::FileRules rules = rules_from(design->climate);
  EXPECT_EQ(rules.delimiter, '|');
  EXPECT_EQ(rules.decimal_mark, climate::DecimalMark::comma);
  EXPECT_EQ(rules.header_line, 0);
  EXPECT_EQ(rules.date_order, climate::DateOrder::month_first);
  EXPECT_EQ(rules.stamps, climate::StampMarks::end);
  EXPECT_EQ(rules.clock, climate::FileClock::utc);
  EXPECT_EQ(rules.year, 2021);
  EXPECT_EQ(rules.missing, (std::vector<std::string>{"n/k"}));
  ASSERT_EQ(rules.columns.size(), 2U);
  EXPECT_EQ(rules.columns[0].time_part, climate::TimePart::stamp);
  EXPECT_EQ(rules.columns[0].number, 1);
  EXPECT_EQ(rules.columns[1].quantity, climate::WeatherColumn::air_temperature);
  EXPECT_EQ(rules.columns[1].name, "T");
  EXPECT_EQ(rules.columns[1].unit, climate::Unit::deg_f);
}

TEST(WeatherRules, TheDesignKnowsEveryColumnAndUnitOfTheReader) {
  for (std::size_t i = 0; i < climate::first_rain_slot; ++i) {
    const auto column = static_cast<climate::WeatherColumn>(i);
    const auto words =
        std::find_if(design::weather_column_words.begin(), design::weather_column_words.end(),
                     [&](const design::WeatherColumnWords& one) { return one.key == climate::info_of(column).word; });
    ASSERT_NE(words, design::weather_column_words.end()) << climate::info_of(column).word;
    std::string units;
    for (const climate::Unit unit : climate::units_of(column)) {
      if (!units.empty()) units += ' ';
      units += climate::text_from_unit(unit);
    }
    EXPECT_EQ(words->units, units);
  }
}

TEST(WeatherAnswer, LinesFitATerminalAndDaysAreInOrder) {
  const design::ValidDesign design = valid_design(small_design_text());
  const WeatherInUse weather = find_weather(design, std::nullopt).value();
  const report::WeatherInUseAnswer answer = answer_weather(design, weather);
  EXPECT_GE(answer.hottest_days[0].mean_c, answer.hottest_days[1].mean_c);
  EXPECT_LE(answer.coldest_days[0].mean_c, answer.coldest_days[1].mean_c);
  for (std::size_t month = 0; month < 12; ++month) {
    EXPECT_GE(answer.extremes.highest_c[month], answer.months.max_c[month]);
    EXPECT_LE(answer.extremes.lowest_c[month], answer.months.min_c[month]);
    EXPECT_LE(answer.extremes.wettest_day_mm[month], answer.months.rain_mm[month] + 1e-9);
  }
  const std::string text = report::text_from(answer);
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = text.find('\n', begin);
    EXPECT_LE(count_characters(text.substr(begin, end - begin)), 80U) << text.substr(begin, end - begin);
    begin = end + 1;
  }
}

}  // namespace
}  // namespace houseleek::studies
