// The weather at one moment: marks, sums of hours, slots of rain, and the sun's columns against the exact position.
#include "climate/year.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/invented_climates.hpp"
#include "climate/ring.hpp"
#include "climate/seasonal_curve.hpp"
#include "climate/summary.hpp"
#include "climate/sun_columns.hpp"
#include "physics/sun.hpp"

namespace houseleek::climate {
namespace {

constexpr double pi = 3.14159265358979324;

WeatherYear some_year(const tests::Climate& climate = tests::dry_summer()) {
  return generate_year(climate.place, climate.normals, 7, 0).value();
}

/// Mean of a function over 0 to 1 by the middle rule; splits at the tenths of minutes that rain keeps.
template <class Function>
double mean_over_hour(const Function& value) {
  constexpr int n = 6000;
  double sum = 0.0;
  for (int i = 0; i < n; ++i) sum += value((i + 0.5) / n);
  return sum / n;
}

TEST(Year, MarksAreMetAndLinesAreStraight) {
  const WeatherYear year = some_year();
  for (const int hour : {0, 13, 4380, 8759}) {
    const auto h = static_cast<std::size_t>(hour);
    const Forcing start = forcing_at(year, hour, 0.0);
    const Forcing middle = forcing_at(year, hour, 0.5);
    const Forcing end = forcing_at(year, hour, 1.0);
    EXPECT_EQ(start.air_temperature_c, year.air_temperature_c[h]);
    EXPECT_NEAR(end.air_temperature_c, year.air_temperature_c[h + 1], 1e-12);
    EXPECT_NEAR(middle.air_temperature_c, 0.5 * (start.air_temperature_c + end.air_temperature_c), 1e-12);
    EXPECT_NEAR(middle.vapour_pressure_pa, 0.5 * (year.vapour_pressure_pa[h] + year.vapour_pressure_pa[h + 1]), 1e-9);
    EXPECT_NEAR(middle.wind_m_per_s, 0.5 * (year.wind_m_per_s[h] + year.wind_m_per_s[h + 1]), 1e-12);
    EXPECT_NEAR(middle.sky_longwave_w_per_m2, 0.5 * (year.sky_longwave_w_per_m2[h] + year.sky_longwave_w_per_m2[h + 1]),
                1e-10);
  }
}

TEST(Year, RadiationAndRainKeepTheSumsOfTheHours) {
  const WeatherYear year = some_year();
  int n_partly_lit = 0;
  for (int hour = 4000; hour < 4048; ++hour) {
    const auto h = static_cast<std::size_t>(hour);
    const double mean = mean_over_hour([&](double f) { return forcing_at(year, hour, f).global_w_per_m2; });
    // The kink at sunrise and sunset costs the middle rule some of its order.
    EXPECT_NEAR(mean, year.global_w_per_m2[h], 1e-5 * (1.0 + year.global_w_per_m2[h])) << hour;
    const bool is_lit_at_start = forcing_at(year, hour, 0.0).global_w_per_m2 > 0.0;
    const bool is_lit_at_end = forcing_at(year, hour, 1.0).global_w_per_m2 > 0.0;
    n_partly_lit += is_lit_at_start != is_lit_at_end ? 1 : 0;
  }
  EXPECT_GE(n_partly_lit, 3);
  int n_rainy = 0;
  for (int hour = 0; hour < 8760 && n_rainy < 20; ++hour) {
    double wanted_mm = 0.0;
    for (std::size_t slot = 0; slot < 6; ++slot)
      wanted_mm += year.rain_mm_per_10_min[static_cast<std::size_t>(hour) * 6 + slot];
    if (wanted_mm <= 0.0) continue;
    ++n_rainy;
    const double mm = 3600.0 * mean_over_hour([&](double f) { return forcing_at(year, hour, f).rain_kg_per_m2_s; });
    EXPECT_NEAR(mm, wanted_mm, 1e-9 * (1.0 + wanted_mm));
  }
  EXPECT_EQ(n_rainy, 20);
}

TEST(Year, NoSunNoRadiation) {
  const WeatherYear year = some_year();
  int n_night = 0;
  for (int hour = 0; hour < 8760; ++hour) {
    const auto h = static_cast<std::size_t>(hour);
    if (year.sun_mean_sine[h] > 0.0) continue;
    ++n_night;
    for (const double f : {0.0, 0.3, 1.0}) ASSERT_EQ(forcing_at(year, hour, f).global_w_per_m2, 0.0);
  }
  EXPECT_GT(n_night, 3500);
  EXPECT_LT(n_night, 4380);
}

TEST(Year, AnHourWithHardlyAnySunIsSpreadEvenly) {
  WeatherYear year = some_year();
  std::size_t night = 0;
  while (year.sun_mean_sine[night] > 0.0) ++night;
  year.global_w_per_m2[night] = 4.0;  // moonlight of a file
  for (const double f : {0.0, 0.5, 1.0}) EXPECT_EQ(forcing_at(year, static_cast<int>(night), f).global_w_per_m2, 4.0);
}

TEST(Year, AStepThatEndsOnASlotsEdgeSeesItsOwnRain) {
  WeatherYear year = some_year();
  for (std::size_t slot = 0; slot < 6; ++slot) year.rain_mm_per_10_min[600 + slot] = static_cast<double>(slot + 1);
  const auto slot_at = [&](double fraction) {
    return static_cast<int>(std::lround(forcing_at(year, 100, fraction).rain_kg_per_m2_s * 600.0));
  };
  EXPECT_EQ(slot_at(0.0), 1);
  for (int slot = 1; slot <= 6; ++slot) {
    EXPECT_EQ(slot_at(slot / 6.0), slot) << "ends";
    EXPECT_EQ(slot_at(slot * 600.0 / 3600.0), slot) << "ends";
    EXPECT_EQ(slot_at((slot - 0.5) / 6.0), slot) << "inside";
    EXPECT_EQ(slot_at((slot - 1) / 6.0 + 1e-6), slot) << "begins";
  }
}

TEST(Year, RainFallsAtTheWetBulb) {
  WeatherYear year = some_year();
  year.pressure_pa = 101325.0;
  year.air_temperature_c[100] = year.air_temperature_c[101] = 20.0;
  year.vapour_pressure_pa[100] = year.vapour_pressure_pa[101] = 1169.14;
  year.rain_mm_per_10_min[600] = 1.0;
  year.rain_mm_per_10_min[601] = 0.0;
  // [hyland1983] by way of the psychrometric table: 13.78 degC at 20 degC and 50 %; our vapour formula is 0.01 K off.
  EXPECT_NEAR(forcing_at(year, 100, 0.1).rain_temperature_c, 13.78, 0.02);
  EXPECT_EQ(forcing_at(year, 100, 0.2).rain_temperature_c, 20.0)
      << "dry: nothing falls, the field holds the air's temperature";
  year.vapour_pressure_pa[100] = year.vapour_pressure_pa[101] = 2400.0;
  EXPECT_EQ(forcing_at(year, 100, 0.1).rain_temperature_c, 20.0) << "saturated";
}

TEST(Year, AsksForAnHourAndAFractionThatAreThere) {
  const WeatherYear year = some_year();
  EXPECT_THROW((void)forcing_at(year, -1, 0.0), ContractViolation);
  EXPECT_THROW((void)forcing_at(year, 8760, 0.0), ContractViolation);
  EXPECT_THROW((void)forcing_at(year, 0, -0.1), ContractViolation);
  EXPECT_THROW((void)forcing_at(year, 0, 1.1), ContractViolation);
}

TEST(Year, SunColumnsFollowTheExactPosition) {
  struct Case {
    Place place;
    int year;
  };
  for (const Case& c : {Case{{37.4, -6.0, 20.0, 1.0}, 2025}, Case{{-33.87, 151.21, 20.0, 10.0}, 2024},
                        Case{{64.15, -21.94, 0.0, 0.0}, 2023}}) {
    const WeatherYear year = make_year_with_sun(c.place, c.year);
    ASSERT_EQ(year.sun_a.size(), 8760U);
    const double new_year_jd = physics::julian_date({c.year, 1, 1, 0.0});
    double farthest_deg = 0.0;
    for (int hour = 3; hour < 8760; hour += 101) {
      const int day = hour / 24;
      const int calendar_day = is_leap_year(c.year) && day >= 59 ? day + 1 : day;
      for (const double fraction : {0.0, 0.25, 1.0}) {
        const auto h = static_cast<std::size_t>(hour);
        const double jd = new_year_jd + calendar_day + (hour % 24 + fraction - c.place.utc_offset_h) / 24.0;
        const physics::SunPosition exact =
            physics::sun_position(physics::geocentric_sun(jd),
                                  {.latitude_deg = c.place.latitude_deg, .longitude_deg = c.place.longitude_deg});
        const double sine = year.sun_a[h] + year.sun_b[h] * std::cos(year.sun_hour_angle_rad[h] + fraction * pi / 12.0);
        farthest_deg = std::max(farthest_deg, std::abs(std::asin(sine) * 180.0 / pi - exact.true_elevation_deg));
      }
    }
    EXPECT_LT(farthest_deg, 0.012) << "parallax 0.0024 and half an hour of declination 0.008 are left out";
  }
}

TEST(Year, HemispheresMirror) {
  // Half a year apart the sun stands as high on both sides of the equator, but for the uneven speed of the earth.
  const WeatherYear north = make_year_with_sun({40.0, 0.0, 0.0, 0.0}, 2025);
  const WeatherYear south = make_year_with_sun({-40.0, 0.0, 0.0, 0.0}, 2025);
  double north_june = 0.0;
  double south_december = 0.0;
  for (std::size_t hour = 0; hour < 24; ++hour) {
    north_june += north.sun_mean_sine[171 * 24 + hour];
    south_december += south.sun_mean_sine[354 * 24 + hour];
  }
  EXPECT_NEAR(north_june, south_december, 0.001 * north_june);
  EXPECT_NEAR(south.sun_normal_w_per_m2[354 * 24] / south.sun_normal_w_per_m2[171 * 24], 1.066, 0.003);
}

TEST(Year, PlacesThatCannotBe) {
  const Issues issues = issues_of_place({91.0, 200.0, 7000.0, 15.0}, 1500, "site");
  ASSERT_EQ(issues.size(), 5U);
  EXPECT_EQ(issues[0].path, "site.latitude_deg");
  EXPECT_EQ(issues[0].message, "site.latitude_deg is 91; it must be from -90 to 90");
  const Issues zone = issues_of_place({40.0, 116.0, 50.0, -8.0}, 2025, "site");
  ASSERT_EQ(zone.size(), 1U);
  EXPECT_EQ(zone[0].message, "site.utc_offset_h is -8; the sun at longitude 116 would be 8.3 hours off the clock");
  EXPECT_TRUE(issues_of_place({1.9, -157.4, 2.0, 14.0}, 2025, "site").empty()) << "the date line";
  const double nan = std::nan("");
  EXPECT_EQ(issues_of_place({nan, 0.0, 0.0, 0.0}, 2025, "site").size(), 1U);
}

TEST(Ring, FillsRoundTheEnd) {
  const auto filled = filled_on_ring({9, 0, 6, 0, 0, 3, 0, 0}, {false, true, true, false, false, true, false, false});
  const std::vector<double> wanted = {0.75, 0, 6, 5, 4, 3, 2.25, 1.5};
  for (std::size_t i = 0; i < wanted.size(); ++i) EXPECT_NEAR(filled[i], wanted[i], 1e-12) << i;
  EXPECT_EQ(filled_on_ring({1, 2, 3}, {false, true, false}), (std::vector<double>{2, 2, 2}));
  EXPECT_THROW((void)filled_on_ring({1, 2}, {false, false}), ContractViolation);
}

TEST(SeasonalCurve, KeepsTheMonthsAndHasNoSteps) {
  const Months means = {-10, -8, -2, 6, 13, 17, 19, 18, 12, 5, -3, -8};
  const Days days = seasonal_curve(means);
  for (std::size_t month = 0; month < 12; ++month) {
    double sum = 0.0;
    for (int day = first_day_of_month[month]; day < first_day_of_month[month + 1]; ++day)
      sum += days[static_cast<std::size_t>(day)];
    EXPECT_NEAR(sum / n_days_in_month[month], means[month], 1e-12);
  }
  for (std::size_t day = 0; day < 365; ++day) EXPECT_LT(std::abs(days[(day + 1) % 365] - days[day]), 0.4);
}

TEST(Summary, OfColumnsThatAreKnown) {
  WeatherYear year = make_year_with_sun({0.0, 0.0, 0.0, 0.0}, 2025);
  year.global_w_per_m2.assign(8760, 100.0);
  year.rain_mm_per_10_min.assign(52560, 0.0);
  year.wind_m_per_s.assign(8761, 3.0);
  year.vapour_pressure_pa.assign(8761, 1000.0);
  year.air_temperature_c.assign(8761, 10.0);
  year.air_temperature_c[24 * 31] = 20.0;  // midnight between January and February belongs to both days
  year.rain_mm_per_10_min[144 * 31] = 0.06;
  year.rain_mm_per_10_min[144 * 31 + 143] = 0.04;
  year.rain_mm_per_10_min[144 * 32] = 0.05;
  const YearSummary summary = summarise(year);
  EXPECT_NEAR(summary.max_c[0], 10.0 + 10.0 / 31.0, 1e-12);
  EXPECT_NEAR(summary.max_c[1], 10.0 + 10.0 / 28.0, 1e-12);
  EXPECT_NEAR(summary.min_c[1], 10.0, 1e-12);
  EXPECT_NEAR(summary.mean_c[0], 10.0, 1e-12);
  EXPECT_NEAR(summary.mean_c[1], 10.0 + 10.0 / (24.0 * 28.0), 1e-12);
  EXPECT_NEAR(summary.rain_mm[1], 0.15, 1e-12);
  EXPECT_EQ(summary.wet_days[1], 1.0);
  EXPECT_EQ(summarise(year, 0.05).wet_days[1], 2.0);
  EXPECT_NEAR(summary.global_mj_per_m2_d[5], 8.64, 1e-12);
  EXPECT_NEAR(summary.vapour_pressure_pa[5], 1000.0, 1e-9);
  EXPECT_NEAR(summary.relative_humidity_frac[5], 1000.0 / 1227.963, 1e-6);
  EXPECT_NEAR(summary.wind_m_per_s[5], 3.0, 1e-12);
}

TEST(Summary, HottestAndColdestMonths) {
  EXPECT_EQ(hottest_months(tests::dry_summer().normals), (ThreeMonths{6, 7, 5}));
  EXPECT_EQ(coldest_months(tests::dry_summer().normals), (ThreeMonths{0, 11, 1}));
  EXPECT_EQ(hottest_months(tests::humid_south().normals), (ThreeMonths{0, 1, 11}));
  EXPECT_EQ(coldest_months(tests::humid_south().normals), (ThreeMonths{6, 5, 7}));
}

}  // namespace
}  // namespace houseleek::climate
