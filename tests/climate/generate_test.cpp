// Generated years as a program meets them: same bits, independent streams, wrong normals, extreme climates.
#include "climate/generate.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/generate_rain.hpp"
#include "climate/generate_sun.hpp"
#include "climate/generate_wind.hpp"
#include "climate/invented_climates.hpp"
#include "climate/scale_to_sum.hpp"
#include "climate/summary.hpp"
#include "climate/sun_columns.hpp"
#include "physics/air.hpp"

namespace houseleek::climate {
namespace {

using Column = std::vector<double> WeatherYear::*;
constexpr Column weather_columns[] = {&WeatherYear::air_temperature_c, &WeatherYear::vapour_pressure_pa,
                                      &WeatherYear::wind_m_per_s,      &WeatherYear::sky_longwave_w_per_m2,
                                      &WeatherYear::global_w_per_m2,   &WeatherYear::diffuse_w_per_m2,
                                      &WeatherYear::rain_mm_per_10_min};

WeatherYear year_of(const tests::Climate& climate, std::uint64_t seed = 1, int draw = 0,
                    const GenerateOptions& options = {}) {
  auto year = generate_year(climate.place, climate.normals, seed, draw, options);
  EXPECT_TRUE(year.has_value()) << (year ? "" : year.error().front().message);
  return std::move(year).value();
}

std::vector<std::string> messages_of(const tests::Climate& climate) {
  const auto year = generate_year(climate.place, climate.normals, 1, 0);
  std::vector<std::string> messages;
  if (year) return messages;
  for (const Issue& issue : year.error()) messages.push_back(issue.message);
  return messages;
}

/// FNV-1a over the bits of all columns.
std::uint64_t digest_of(const WeatherYear& year) {
  std::uint64_t hash = 0xcbf29ce484222325ULL;
  for (const Column column : weather_columns) {
    for (const double value : year.*column) {
      const auto bits = std::bit_cast<std::uint64_t>(value);
      for (int byte = 0; byte < 8; ++byte) hash = (hash ^ ((bits >> (8 * byte)) & 0xFFU)) * 0x100000001b3ULL;
    }
  }
  return hash;
}

TEST(Generate, TheSameSeedGivesTheSameYear) {
  const WeatherYear a = year_of(tests::cold_inland(), 5, 3);
  const WeatherYear b = year_of(tests::cold_inland(), 5, 3);
  for (const Column column : weather_columns) EXPECT_EQ(a.*column, b.*column);
  EXPECT_EQ(a.notes, b.notes);
}

TEST(Generate, AnotherSeedOrDrawGivesAnotherYear) {
  const WeatherYear a = year_of(tests::cold_inland(), 5, 3);
  for (const WeatherYear& b : {year_of(tests::cold_inland(), 5, 4), year_of(tests::cold_inland(), 6, 3)}) {
    for (const Column column : weather_columns) EXPECT_NE(a.*column, b.*column);
  }
}

void expect_no_shift(int draw) {
  const tests::Climate base = tests::cold_inland();
  const WeatherYear before = year_of(base, 1, draw);
  const auto expect_same_but = [&](const tests::Climate& changed, const GenerateOptions& options,
                                   const std::vector<Column>& may_change) {
    const WeatherYear after = year_of(changed, 1, draw, options);
    for (const Column column : weather_columns) {
      const bool may = std::find(may_change.begin(), may_change.end(), column) != may_change.end();
      EXPECT_EQ(before.*column == after.*column, !may);
    }
  };
  tests::Climate windy = base;
  windy.normals.wind_m_per_s.reset();
  expect_same_but(windy, {}, {&WeatherYear::wind_m_per_s});
  tests::Climate wetter = base;
  for (double& mm : wetter.normals.rain_mm) mm *= 2.0;  // on the same days
  expect_same_but(wetter, {}, {&WeatherYear::rain_mm_per_10_min});
  tests::Climate dew = base;
  for (double& c : *dew.normals.dew_point_c) c -= 1.0;
  expect_same_but(dew, {}, {&WeatherYear::vapour_pressure_pa, &WeatherYear::sky_longwave_w_per_m2});
  GenerateOptions storms;
  storms.rain_intensity_mm_per_h = 3.0;
  expect_same_but(base, storms, {&WeatherYear::rain_mm_per_10_min});
  GenerateOptions hours;
  hours.hottest_solar_hour_h = 15.0;
  expect_same_but(
      base, hours,
      {&WeatherYear::air_temperature_c, &WeatherYear::vapour_pressure_pa, &WeatherYear::sky_longwave_w_per_m2});
}

TEST(Generate, AVariableDoesNotShiftTheOthers) {
  expect_no_shift(0);
  expect_no_shift(1);
}

TEST(Generate, ScatterOfMonthsIsReadByFurtherYearsOnly) {
  const tests::Climate base = tests::cold_inland();
  tests::Climate warmer = base;
  warmer.normals.month_mean_sd_k = Months{4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4};
  tests::Climate wetter = base;
  wetter.normals.month_rain_sd_mm = Months{44, 28, 36, 54, 92, 156, 182, 126, 80, 42, 36, 34};
  for (const Column column : weather_columns) {
    EXPECT_EQ(year_of(base).*column, year_of(warmer).*column);
    EXPECT_EQ(year_of(base).*column, year_of(wetter).*column);
  }
  const WeatherYear further = year_of(base, 1, 1);
  const WeatherYear further_warmer = year_of(warmer, 1, 1);
  const WeatherYear further_wetter = year_of(wetter, 1, 1);
  EXPECT_NE(further.air_temperature_c, further_warmer.air_temperature_c);
  EXPECT_EQ(further.rain_mm_per_10_min, further_warmer.rain_mm_per_10_min);
  EXPECT_EQ(further.global_w_per_m2, further_warmer.global_w_per_m2);
  EXPECT_NE(further.rain_mm_per_10_min, further_wetter.rain_mm_per_10_min);
  EXPECT_EQ(further.air_temperature_c, further_wetter.air_temperature_c);
}

TEST(Generate, RainFarMoreEvenThanItsDaysIsToldNotMade) {
  tests::Climate climate = tests::cold_inland();
  climate.normals.month_rain_sd_mm = Months{};
  const WeatherYear year = year_of(climate);
  EXPECT_EQ(std::count_if(year.notes.begin(), year.notes.end(),
                          [](const std::string& note) {
                            return note.find("in 12 months wet days alone scatter more") != std::string::npos;
                          }),
            1);
}

TEST(Generate, TheSameBitsOnEveryMachine) {
  // Renewed only when the method changes on purpose, never to please a compiler.
  EXPECT_EQ(digest_of(year_of(tests::dry_summer(), 1, 0)), 0x01c253c00690c958ULL);
  EXPECT_EQ(digest_of(year_of(tests::cold_inland(), 2, 0)), 0x5acaeea7f1609837ULL);
  EXPECT_EQ(digest_of(year_of(tests::humid_south(), 3, 0)), 0x690e508160dfb3e2ULL);
  // Years whose months vary.
  EXPECT_EQ(digest_of(year_of(tests::dry_summer(), 1, 3)), 0xf44267b556019063ULL);
  EXPECT_EQ(digest_of(year_of(tests::cold_inland(), 2, 1)), 0x0d24992bfcf86ef3ULL);
  EXPECT_EQ(digest_of(year_of(tests::humid_south(), 3, 2)), 0xfd4bc00b6ddf5e3dULL);
}

TEST(Generate, AWarmerYearIsWarmerByThat) {
  GenerateOptions warmer;
  warmer.warmer_by_k = 1.5;
  const WeatherYear now = year_of(tests::cold_inland());
  const WeatherYear later = year_of(tests::cold_inland(), 1, 0, warmer);
  for (std::size_t mark = 0; mark < now.air_temperature_c.size(); ++mark) {
    ASSERT_NEAR(later.air_temperature_c[mark] - now.air_temperature_c[mark], 1.5, 1e-3);
  }
  EXPECT_EQ(later.global_w_per_m2, now.global_w_per_m2);
  EXPECT_GT(later.vapour_pressure_pa[4000], now.vapour_pressure_pa[4000]);
  EXPECT_EQ(std::count_if(later.notes.begin(), later.notes.end(),
                          [](const std::string& note) { return note.find("shifted by 1.5 K") != std::string::npos; }),
            1);
}

TEST(Generate, EveryColumnSaysWhereItComesFrom) {
  for (const tests::Climate& climate : {tests::dry_summer(), tests::cold_inland(), tests::humid_south()}) {
    const WeatherYear year = year_of(climate);
    for (const char* column : {"global_w_per_m2", "diffuse_w_per_m2", "air_temperature_c", "vapour_pressure_pa",
                               "wind_m_per_s", "sky_longwave_w_per_m2", "rain_mm_per_10_min"}) {
      EXPECT_TRUE(std::any_of(year.notes.begin(), year.notes.end(), [&](const std::string& note) {
        return note.rfind(column, 0) == 0;
      })) << column;
    }
  }
}

TEST(Generate, WrongNormalsGiveAllTheirIssues) {
  tests::Climate climate = tests::dry_summer();
  climate.place.latitude_deg = 95.0;
  climate.normals.max_c[0] = std::nan("");
  climate.normals.max_c[3] = 11.5;
  climate.normals.min_c[6] = 60.0;
  climate.normals.rain_mm[2] = -1.0;
  (*climate.normals.rain_days)[1] = 30.0;
  (*climate.normals.rain_days)[4] = 0.0;
  (*climate.normals.relative_humidity_frac)[5] = 60.0;
  const std::vector<std::string> wanted = {
      "latitude_deg is 95; it must be from -90 to 90",
      "max_c[0] is nan; it must be from -45 to 50",
      "min_c[6] is 60; it must be from -50 to 45",
      "rain_mm[2] is -1; it must be from 0 to 3000",
      "relative_humidity_frac[5] is 60; it must be from 0.05 to 1",
      "rain_days[1] is 30; it must be from 0 to 28",
      "max_c[3] is 11.5, the minimum 11; the maximum must lie at least 1 K above",
      "rain_days[4] is 0, but the month has 31 mm of rain",
      "max_c[6] is 36, the minimum 60; the maximum must lie at least 1 K above",
  };
  EXPECT_EQ(messages_of(climate), wanted);
}

TEST(Generate, SunshineBecomesClearness) {
  // [allen1998] Eq. 35: half of the daylight sunny: 0.25 + 0.50 / 2 of the sun outside the air.
  tests::Climate climate = tests::even_clearness(0.3);
  const WeatherYear sun = make_year_with_sun(climate.place, 2025);
  climate.normals.sunshine_h = Months{};
  for (std::size_t day = 0; day < 365; ++day) {
    const double sunset_rad = std::acos(-sun.sun_a[24 * day + 12] / sun.sun_b[24 * day + 12]);
    (*climate.normals.sunshine_h)[static_cast<std::size_t>(month_of_day[day])] +=
        0.5 * sunset_rad * 24.0 / 3.14159265358979324;
  }
  const WeatherYear year = year_of(climate);
  Months global{};
  Months outside{};
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    const auto month = static_cast<std::size_t>(month_of_day[hour / 24]);
    global[month] += year.global_w_per_m2[hour];
    outside[month] += year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
  }
  for (std::size_t month = 0; month < 12; ++month) EXPECT_NEAR(global[month] / outside[month], 0.5, 1e-9);
}

TEST(Generate, NormalsThatTheSunContradicts) {
  tests::Climate climate = tests::dry_summer();
  (*climate.normals.sunshine_h)[11] = 320.0;
  EXPECT_EQ(messages_of(climate),
            (std::vector<std::string>{"sunshine_h[11] is 320; the month has 293.6 hours of daylight"}));
  climate = tests::cold_inland();
  std::rotate(climate.normals.global_mj_per_m2_d->begin(), climate.normals.global_mj_per_m2_d->begin() + 6,
              climate.normals.global_mj_per_m2_d->end());
  const std::vector<std::string> messages = messages_of(climate);
  EXPECT_GE(messages.size(), 3U);
  EXPECT_EQ(messages[0].substr(0, 55), "global_mj_per_m2_d[0] is 21.3; the sun sends 7.28 outsi");
  climate = tests::cold_inland();
  (*climate.normals.dew_point_c)[6] = 18.0;
  EXPECT_EQ(messages_of(climate),
            (std::vector<std::string>{
                "dew_point_c[6] asks for more vapour than air of these temperatures can hold through the day"}));
}

TEST(Generate, ExtremeClimatesKeepTheirNormals) {
  struct Case {
    const char* name;
    Place place;
    double mean_c, season_k, range_k, rain_mm;
  };
  const Case cases[] = {
      {"equator, wet", {0.0, 30.0, 1200.0, 2.0}, 25.0, 0.5, 9.0, 300.0},
      {"desert", {24.0, 45.0, 600.0, 3.0}, 27.0, 10.0, 16.0, 0.4},
      {"no rain at all", {-23.0, -70.0, 100.0, -4.0}, 18.0, 3.0, 7.0, 0.0},
      {"island, hardly a range", {-54.0, 159.0, 10.0, 10.0}, 5.0, 2.0, 1.6, 80.0},
      {"polar", {70.0, 25.0, 50.0, 1.0}, -3.0, 13.0, 7.0, 30.0},
      {"pole", {-90.0, 0.0, 2800.0, 0.0}, -48.0 + 15.0, 10.0, 4.0, 1.0},
      {"high plateau", {-16.5, -68.1, 4000.0, -4.0}, 8.0, 3.0, 15.0, 50.0},
      {"date line", {-14.0, -171.8, 5.0, 13.0}, 27.0, 0.5, 6.0, 250.0},
  };
  for (const Case& c : cases) {
    SCOPED_TRACE(c.name);
    tests::Climate climate = {.name = c.name, .place = c.place, .normals = {}};
    for (std::size_t month = 0; month < 12; ++month) {
      const double phase =
          std::cos(2.0 * 3.14159265 * (static_cast<double>(month) - (c.place.latitude_deg < 0.0 ? 0.5 : 6.5)) / 12.0);
      climate.normals.max_c[month] = c.mean_c + c.season_k * phase + 0.5 * c.range_k;
      climate.normals.min_c[month] = c.mean_c + c.season_k * phase - 0.5 * c.range_k;
      climate.normals.rain_mm[month] = c.rain_mm;
    }
    for (int draw = 0; draw < 10; ++draw) {
      const auto made = generate_year(climate.place, climate.normals, 11, draw);
      ASSERT_TRUE(made.has_value()) << made.error().front().message;
      const WeatherYear& year = made.value();
      const YearSummary summary = summarise(year);
      for (std::size_t month = 0; month < 12; ++month) {
        if (draw == 0) {
          EXPECT_NEAR(summary.max_c[month], climate.normals.max_c[month], 1e-3);
          EXPECT_NEAR(summary.min_c[month], climate.normals.min_c[month], 1e-3);
          EXPECT_NEAR(summary.rain_mm[month], c.rain_mm, 1e-9);
        } else {
          // Six standard deviations of the coldest winters.
          EXPECT_NEAR(summary.max_c[month], climate.normals.max_c[month], 18.0);
          EXPECT_GE(summary.max_c[month], summary.min_c[month] + 0.4 * c.range_k);
          if (c.rain_mm == 0.0) {
            EXPECT_EQ(summary.rain_mm[month], 0.0);
          }
        }
      }
      for (const Column column : weather_columns) {
        for (const double value : year.*column) ASSERT_TRUE(std::isfinite(value));
      }
      for (std::size_t mark = 0; mark <= 8760; ++mark) {
        ASSERT_LE(year.vapour_pressure_pa[mark], physics::saturation_vapour_pressure_pa(year.air_temperature_c[mark]));
      }
    }
  }
}

TEST(Generate, SmallDailyRangesShrinkTheDeparturesAndSayso) {
  tests::Climate climate = tests::even_clearness(0.3);
  for (std::size_t month = 0; month < 12; ++month) climate.normals.min_c[month] = climate.normals.max_c[month] - 1.2;
  climate.normals.sunshine_h = Months{100, 100, 100, 100, 100, 100, 100, 100, 100, 100, 100, 100};
  const WeatherYear year = year_of(climate);
  EXPECT_EQ(std::count_if(
                year.notes.begin(), year.notes.end(),
                [](const std::string& note) { return note.find("departures were made smaller") != std::string::npos; }),
            1);
}

TEST(Generate, NoYearOfADesertIsHotterThanAnyAirOnEarth) {
  tests::Climate climate = tests::dry_summer();
  climate.normals.max_c = Months{26, 29, 33, 38, 43, 45, 46, 46, 43, 38, 31, 27};
  climate.normals.min_c = Months{13, 15, 19, 24, 28, 31, 33, 33, 29, 24, 18, 14};
  int n_smaller = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const WeatherYear year = year_of(climate, seed);
    EXPECT_LE(*std::max_element(year.air_temperature_c.begin(), year.air_temperature_c.end()), 56.0) << seed;
    for (const std::string& note : year.notes) {
      n_smaller += note.find("hotter than any air on earth") != std::string::npos ? 1 : 0;
    }
  }
  EXPECT_GT(n_smaller, 0);
  EXPECT_LT(n_smaller, 40);
}

TEST(Generate, HoursOfADayKeepItsRadiation) {
  // Through the parts: the clearness of the days is met by the sum of the hours.
  const WeatherYear sun = make_year_with_sun({45.0, 0.0, 0.0, 0.0}, 2025);
  const GeneratorKey key = {.seed = 9, .draw = 0};
  Months months{};
  months.fill(0.6);
  const std::vector<double> days =
      clearness_of_year_days(sun, months, draw_clearness_scores(key, 0.29), MonthRule::are_the_normals).value();
  const std::vector<double> hours = global_of_hours(sun, days, key);
  for (std::size_t day = 0; day < 365; ++day) {
    double sum = 0.0;
    double outside = 0.0;
    for (std::size_t hour = 24 * day; hour < 24 * day + 24; ++hour) {
      sum += hours[hour];
      outside += sun.sun_normal_w_per_m2[hour] * sun.sun_mean_sine[hour];
    }
    ASSERT_NEAR(sum, days[day] * outside, 1e-9 * outside);
    ASSERT_GE(days[day], 0.0);
    ASSERT_LE(days[day], 0.6313 + 0.267 * 0.6);
  }
}

TEST(Generate, RainOfADayIsOneStormOfItsSum) {
  const GeneratorKey key = {.seed = 4, .draw = 0};
  std::vector<double> days(365, 0.0);
  for (std::size_t day = 0; day < 365; day += 2) days[day] = 0.1 * static_cast<double>(1 + day);
  const std::vector<double> slots = rain_of_slots_mm(days, key, {});
  double largest_mm = 0.0;
  for (std::size_t day = 0; day < 365; ++day) {
    double sum = 0.0;
    std::size_t first = 144;
    std::size_t last = 0;
    for (std::size_t slot = 0; slot < 144; ++slot) {
      const double mm = slots[144 * day + slot];
      sum += mm;
      largest_mm = std::max(largest_mm, mm);
      if (mm > 0.0) first = std::min(first, slot), last = slot;
    }
    ASSERT_NEAR(sum, days[day], 1e-12 * (1.0 + days[day]));
    if (days[day] > 0.0) {
      ASSERT_GE(last - first + 1, 3U);
      ASSERT_LE(last - first + 1, 72U);
    }
  }
  EXPECT_GT(largest_mm, 2.0);
}

TEST(Generate, DryMonthsGetTheirRainOnTheirDimmestDay) {
  const GeneratorKey key = {.seed = 4, .draw = 0};
  const ClearnessScores clearness = draw_clearness_scores(key, 0.29);
  RainNormals rain;
  rain.rain_mm.fill(1.0);
  rain.rain_days.fill(1e-9);
  rain.rain_mm[5] = 0.0;
  rain.rain_days[5] = 10.0;
  const std::vector<bool> is_wet = wet_days_of_year(rain, clearness, key, {}, MonthRule::are_the_normals);
  for (std::size_t month = 0; month < 12; ++month) {
    int n_wet = 0;
    std::size_t dimmest = static_cast<std::size_t>(first_day_of_month[month]);
    std::size_t wet = dimmest;
    for (int i = first_day_of_month[month]; i < first_day_of_month[month + 1]; ++i) {
      const auto day = static_cast<std::size_t>(i);
      if (clearness.score[day] < clearness.score[dimmest]) dimmest = day;
      if (is_wet[day]) ++n_wet, wet = day;
    }
    EXPECT_EQ(n_wet, month == 5 ? 0 : 1);
    if (n_wet > 0) {
      EXPECT_EQ(wet, dimmest);
    }
  }
}

TEST(Generate, WindFallsOffAtNightAndRunsOn) {
  const WeatherYear sun = make_year_with_sun({45.0, 0.0, 0.0, 0.0}, 2025);
  Months mean{};
  mean.fill(4.0);
  double afternoon = 0, night = 0, n = 0, x = 0, xx = 0, xy = 0, most = 0;
  for (std::uint32_t draw = 0; draw < 10; ++draw) {
    const std::vector<double> wind =
        wind_of_marks_m_per_s(sun, mean, {.seed = 1, .draw = draw}, {}, MonthRule::are_the_normals);
    for (std::size_t day = 0; day < 365; ++day)
      afternoon += wind[24 * day + 15] / 3650.0, night += wind[24 * day + 3] / 3650.0;
    for (std::size_t hour = 0; hour < 8759; ++hour) {
      n += 1, x += wind[hour], xx += wind[hour] * wind[hour], xy += wind[hour] * wind[hour + 1];
      most = std::max(most, wind[hour]);
    }
  }
  // The afternoon 30 % above the mean, the night as much below; hours hang together; Weibull of shape 2 has a
  // standard deviation of 0.523 of its mean, the course of the day adds to it.
  EXPECT_NEAR(afternoon, 5.2, 0.15);
  EXPECT_NEAR(night, 2.8, 0.15);
  const double variance = xx / n - x / n * (x / n);
  EXPECT_NEAR((xy / n - x / n * (x / n)) / variance, 0.89, 0.02);
  EXPECT_NEAR(std::sqrt(variance) / 4.0, std::sqrt(0.523 * 0.523 * (1.0 + 0.045) + 0.045), 0.02);
  EXPECT_GT(most, 12.0);
}

TEST(ScaledToSum, KeepsLimitsAndSum) {
  const std::vector<LimitedValue> values = {{1.0, 10.0, 1.0}, {2.0, 3.0, 2.0}, {4.0, 4.5, 1.0}, {5.0, 9.0, 0.0}};
  for (const double wanted : {0.0, 2.0, 9.0, 12.0, 19.0, 20.5}) {
    const auto scaled = scaled_to_sum(values, wanted);
    ASSERT_TRUE(scaled.has_value()) << wanted;
    double sum = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
      EXPECT_LE((*scaled)[i], values[i].limit);
      sum += (*scaled)[i] * values[i].weight;
    }
    EXPECT_NEAR(sum, wanted, 1e-12);
  }
  EXPECT_EQ(scaled_to_sum(values, 9.0)->at(0), 1.0) << "already the sum: nothing moves";
  EXPECT_FALSE(scaled_to_sum(values, 20.6).has_value());
  EXPECT_EQ(scaled_to_sum({{0.0, 1.0, 1.0}, {0.0, 1.0, 1.0}}, 1.0), (std::vector<double>{0.5, 0.5}));
  EXPECT_THROW((void)scaled_to_sum({{-1.0, 1.0, 1.0}}, 1.0), ContractViolation);
}

TEST(Generate, OptionsOutOfRangeAreOurMistake) {
  const tests::Climate climate = tests::dry_summer();
  EXPECT_THROW((void)generate_year(climate.place, climate.normals, 1, -1), ContractViolation);
  EXPECT_THROW((void)generate_year(climate.place, climate.normals, 1, 0, {.wind_lag = 1.0}), ContractViolation);
}

}  // namespace
}  // namespace houseleek::climate
