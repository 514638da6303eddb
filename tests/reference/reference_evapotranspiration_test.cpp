// The worked examples of FAO-56, to their printed digits.
#include "physics/reference_evapotranspiration.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "base/contract.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"
#include "physics/radiation.hpp"
#include "physics/wind.hpp"
#include "support/reference_check.hpp"

namespace houseleek::physics {
namespace {

using tests::check_reference;

constexpr double deg = radians_per_degree;
constexpr double bangkok_rad = (13.0 + 44.0 / 60.0) * deg;
constexpr double uccle_rad = (50.0 + 48.0 / 60.0) * deg;
constexpr double lyon_rad = (45.0 + 43.0 / 60.0) * deg;
constexpr double ndiaye_rad = (16.0 + 13.0 / 60.0) * deg;
constexpr double rio_rad = -22.90 * deg;

// A printed number: half a unit of its last digit, or what is said.
void check_printed(const char* id, const char* what, const std::string& example, double expected, double got,
                   double tolerance, const char* function,
                   const char* reason = "half a unit of the last printed digit") {
  check_reference({.id = id,
                   .what = what,
                   .source = "[allen1998] " + example + " (text seen)",
                   .expected = expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = reason,
                   .function = std::string("physics::") + function});
}

void check_recomputed(const char* id, const char* what, const std::string& example, double expected, double got,
                      double tolerance, const char* function) {
  check_reference({.id = id,
                   .what = what,
                   .source = "[allen1998] " + example + ", recomputed apart from this program",
                   .expected = expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = "half a unit of the last digit given",
                   .function = std::string("physics::") + function});
}

TEST(Evapotranspiration, VapourPressures) {
  check_printed("ET-01", "mean saturation, kPa", "Example 3", 2.39, mean_saturation_kpa(24.5, 15.0), 0.005,
                "mean_saturation_kpa");
  check_printed("ET-02", "saturation at the mean temperature, kPa", "Example 3", 2.30,
                mean_saturation_kpa(19.75, 19.75), 0.005, "mean_saturation_kpa");
  check_printed("ET-03", "saturation at 24.5 degC, kPa", "Example 3", 3.075, 1e-3 * saturation_vapour_pressure_pa(24.5),
                0.0005, "saturation_vapour_pressure_pa");
  check_printed("ET-04", "saturation at 15 degC, kPa", "Example 3", 1.705, 1e-3 * saturation_vapour_pressure_pa(15.0),
                0.0005, "saturation_vapour_pressure_pa");
  const HumidityDay day{.max_c = 25.0, .min_c = 18.0, .max_frac = 0.82, .min_frac = 0.54};
  check_printed("ET-05", "vapour pressure by Eq. 17, kPa", "Example 5", 1.70, vapour_pressure_of_day_kpa(day), 0.005,
                "vapour_pressure_of_day_kpa");
  check_printed("ET-06", "vapour pressure by Eq. 19, kPa", "Example 5", 1.78,
                vapour_pressure_of_mean_humidity_kpa(25.0, 18.0, 0.68), 0.005, "vapour_pressure_of_mean_humidity_kpa");
  check_printed("ET-06a", "vapour pressure deficit, kPa", "Example 6", 0.91,
                mean_saturation_kpa(25.0, 18.0) - vapour_pressure_of_day_kpa(day), 0.005, "mean_saturation_kpa");
  check_printed("ET-07", "vapour pressure, kPa", "Example 18", 1.409,
                vapour_pressure_of_day_kpa({.max_c = 21.5, .min_c = 12.3, .max_frac = 0.84, .min_frac = 0.63}), 0.0005,
                "vapour_pressure_of_day_kpa");
}

TEST(Evapotranspiration, SunOfADay) {
  const SolarDay day = solar_day(-20.0 * deg, 246);
  const char* function = "solar_day";
  check_printed("ET-08a", "inverse distance", "Example 8", 0.985, day.inverse_distance, 0.0005, function);
  check_printed("ET-08b", "declination, rad", "Example 8", 0.120, day.declination_rad, 0.0005, function);
  check_printed("ET-08c", "sunset hour angle, rad", "Example 8", 1.527, day.sunset_rad, 0.0005, function);
  check_printed("ET-08d", "extraterrestrial, MJ/(m2 d)", "Example 8", 32.2, day.extraterrestrial_mj_per_m2_d, 0.05,
                function);
  check_printed("ET-08e", "extraterrestrial, mm/d", "Example 8", 13.1,
                mm_per_mj_per_m2 * day.extraterrestrial_mj_per_m2_d, 0.05, function);
  check_recomputed("ET-08f", "extraterrestrial, more digits, MJ/(m2 d)", "Example 8", 32.19400,
                   day.extraterrestrial_mj_per_m2_d, 6e-6, function);
  check_printed("ET-09", "day length, h", "Example 9", 11.7, day.day_length_h, 0.05, function);
  check_recomputed("ET-09a", "day length, more digits, h", "Example 9", 11.66559, day.day_length_h, 6e-6, function);
  const SolarDay rio = solar_day(rio_rad, 135);
  check_printed("ET-10", "extraterrestrial, MJ/(m2 d)", "Example 10", 25.1, rio.extraterrestrial_mj_per_m2_d, 0.05,
                function);
  check_printed("ET-11", "day length, h", "Example 10", 10.9, rio.day_length_h, 0.05, function);
  check_printed("ET-13", "solar radiation, MJ/(m2 d)", "Example 10", 14.5,
                solar_frac_from_sunshine(220.0 / 31.0 / rio.day_length_h) * rio.extraterrestrial_mj_per_m2_d, 0.05,
                "solar_frac_from_sunshine");
}

TEST(Evapotranspiration, SunOfTheYear) {
  constexpr int days[] = {15, 46, 74, 105, 135, 162, 198, 228, 258, 288, 318, 344};
  struct Row {
    double latitude_deg;
    double extraterrestrial[12];
    const char* id;
  };
  constexpr Row rows[] = {{60.0, {3.3, 8.3, 16.6, 27.5, 36.7, 41.0, 38.8, 30.9, 20.5, 10.8, 4.5, 2.3}, "60 N"},
                          {50.0, {8.9, 14.4, 22.2, 31.5, 38.5, 41.6, 40.0, 34.1, 25.6, 16.8, 10.3, 7.7}, "50 N"},
                          {40.0, {15.0, 20.4, 27.2, 34.7, 39.7, 41.7, 40.6, 36.5, 29.9, 22.5, 16.4, 13.8}, "40 N"},
                          {0.0, {36.2, 37.4, 37.9, 36.8, 34.8, 33.5, 33.9, 35.7, 37.2, 37.3, 36.4, 35.7}, "0"},
                          {-40.0, {43.3, 38.1, 30.9, 22.2, 15.8, 12.9, 14.1, 19.3, 27.1, 35.3, 41.6, 44.4}, "40 S"}};
  for (const Row& row : rows) {
    for (int month = 0; month < 12; ++month) {
      check_reference({.id = std::string("ET-12 ") + row.id + " J " + std::to_string(days[month]),
                       .what = "extraterrestrial radiation, MJ/(m2 d)",
                       .source = "[allen1998] Eq. 21, recomputed apart from this program",
                       .expected = row.extraterrestrial[month],
                       .got = solar_day(row.latitude_deg * deg, days[month]).extraterrestrial_mj_per_m2_d,
                       .tolerance = 0.0501,
                       .reason = "one decimal is given",
                       .function = "physics::solar_day"});
    }
  }
  constexpr double length_60_n[] = {6.4, 8.8, 11.4, 14.2, 16.8, 18.3, 17.6, 15.2, 12.5, 9.7, 7.1, 5.7};
  constexpr double length_40_n[] = {9.5, 10.5, 11.7, 13.1, 14.2, 14.8, 14.5, 13.5, 12.2, 10.9, 9.8, 9.2};
  for (int month = 0; month < 12; ++month) {
    check_reference({.id = std::string("ET-09 60 N J ") + std::to_string(days[month]),
                     .what = "day length, h",
                     .source = "[allen1998] Eq. 34, recomputed apart from this program",
                     .expected = length_60_n[month],
                     .got = solar_day(60.0 * deg, days[month]).day_length_h,
                     .tolerance = 0.0501,
                     .reason = "one decimal is given",
                     .function = "physics::solar_day"});
    check_reference({.id = std::string("ET-09 40 N J ") + std::to_string(days[month]),
                     .what = "day length, h",
                     .source = "[allen1998] Eq. 34, recomputed apart from this program",
                     .expected = length_40_n[month],
                     .got = solar_day(40.0 * deg, days[month]).day_length_h,
                     .tolerance = 0.0501,
                     .reason = "one decimal is given",
                     .function = "physics::solar_day"});
  }
  EXPECT_EQ(solar_day(80.0 * deg, 355).extraterrestrial_mj_per_m2_d, 0.0);
  EXPECT_EQ(solar_day(80.0 * deg, 172).day_length_h, 24.0);
}

TEST(Evapotranspiration, RadiationFromTheRangeOfTemperature) {
  const double lyon = solar_day(lyon_rad, 196).extraterrestrial_mj_per_m2_d;
  check_printed("ET-14", "extraterrestrial, MJ/(m2 d)", "Example 15", 40.6, lyon, 0.05, "solar_day");
  check_printed("ET-15", "solar radiation, MJ/(m2 d)", "Example 15", 22.3,
                solar_frac_from_temperature_range(26.6 - 14.8, 0.16, clear_sky_frac(200.0)) * lyon, 0.05,
                "solar_frac_from_temperature_range");
  const double bangkok = solar_day(bangkok_rad, 105).extraterrestrial_mj_per_m2_d;
  const double solar = solar_frac_from_temperature_range(9.2, 0.19, 0.75) * bangkok;
  check_printed("ET-16", "solar radiation at the coast, MJ/(m2 d)", "Example 16", 21.9, solar, 0.05,
                "solar_frac_from_temperature_range");
  const double longwave = net_longwave_mj_per_m2_d(
      {.max_c = 34.8, .min_c = 25.6, .vapour_kpa = 2.85, .clear_share_frac = solar / (0.75 * bangkok)});
  check_printed("ET-16a", "net long-wave, MJ/(m2 d)", "Example 16", 3.0, longwave, 0.05, "net_longwave_mj_per_m2_d");
  check_recomputed("ET-16c", "net long-wave, more digits, MJ/(m2 d)", "Example 16", 2.96241, longwave, 6e-6,
                   "net_longwave_mj_per_m2_d");
  check_printed("ET-16b", "net radiation, MJ/(m2 d)", "Example 16", 13.9,
                (1.0 - reference_albedo_frac) * solar - longwave, 0.05, "net_longwave_mj_per_m2_d");
  EXPECT_EQ(solar_frac_from_temperature_range(30.0, 0.19, 0.75), 0.75);
}

TEST(Evapotranspiration, NetRadiation) {
  // Example 11 prints 38.8 and 35.8 for the two powers and then adds 38.7 and 35.7; the sum rounds to 3.5 either way.
  const LongwaveDay rio{.max_c = 25.1, .min_c = 19.1, .vapour_kpa = 2.1, .clear_share_frac = 14.5 / 18.8};
  const double longwave = net_longwave_mj_per_m2_d(rio);
  check_printed("ET-20", "net long-wave, MJ/(m2 d)", "Example 11", 3.5, longwave, 0.05, "net_longwave_mj_per_m2_d");
  check_recomputed("ET-22", "net long-wave, more digits, MJ/(m2 d)", "Example 11", 3.53403, longwave, 6e-6,
                   "net_longwave_mj_per_m2_d");
  check_printed("ET-21", "cloud factor", "Example 11", 0.69, longwave_cloud_frac(14.5 / 18.8), 0.005,
                "longwave_cloud_frac");
  // Example 12 prints 0.408 (7.7) beside a net radiation of 7.6.
  check_printed("ET-23", "net radiation, MJ/(m2 d)", "Example 12", 7.6, (1.0 - reference_albedo_frac) * 14.5 - longwave,
                0.05, "net_longwave_mj_per_m2_d");
  check_printed("ET-30", "heat into the ground in April, MJ/(m2 d)", "Example 13", 0.33,
                month_soil_heat_mj_per_m2_d(14.1, 18.8), 0.005, "month_soil_heat_mj_per_m2_d");
  check_recomputed("ET-30a", "heat into the ground in April, by hand, MJ/(m2 d)", "Example 13", 0.329,
                   month_soil_heat_mj_per_m2_d(14.1, 18.8), 1e-12, "month_soil_heat_mj_per_m2_d");
  check_printed("ET-31", "heat into the ground, MJ/(m2 d)", "Example 17", 0.14,
                month_soil_heat_from_past_mj_per_m2_d(29.2, 30.2), 1e-12, "month_soil_heat_from_past_mj_per_m2_d",
                "exact arithmetic");
  EXPECT_EQ(longwave_cloud_frac(1.4), longwave_cloud_frac(1.0));
}

TEST(Evapotranspiration, WindAtTwoMetres) {
  check_printed("ET-40", "wind at 2 m from 3.2 m/s at 10 m, m/s", "Example 14", 2.4,
                wind_speed_at_2_m_m_per_s(3.2, 10.0), 0.05, "wind_speed_at_2_m_m_per_s");
  check_printed("ET-40a", "factor from 10 m to 2 m", "Example 14", 0.75, wind_speed_at_2_m_m_per_s(1.0, 10.0), 0.005,
                "wind_speed_at_2_m_m_per_s");
  check_recomputed("ET-40b", "wind at 2 m, more digits, m/s", "Example 14", 2.39344,
                   wind_speed_at_2_m_m_per_s(3.2, 10.0), 6e-6, "wind_speed_at_2_m_m_per_s");
  check_printed("ET-40c", "wind at 2 m from 10 km/h at 10 m, m/s", "Example 18", 2.078,
                wind_speed_at_2_m_m_per_s(10.0 / 3.6, 10.0), 0.0005, "wind_speed_at_2_m_m_per_s");
  // The general profile over grass is what Eq. 47 rounds.
  EXPECT_NEAR(wind_speed_at_height_m_per_s(3.2, {.from_height_m = 10.0, .to_height_m = 2.0}), 2.39344, 0.002);
  EXPECT_DOUBLE_EQ(wind_speed_at_height_m_per_s(3.2, {.from_height_m = 10.0, .to_height_m = 10.0}), 3.2);
  EXPECT_THROW((void)wind_speed_at_2_m_m_per_s(-1.0, 10.0), ContractViolation);
  EXPECT_THROW((void)wind_speed_at_height_m_per_s(1.0, {.from_height_m = 0.09, .to_height_m = 2.0}), ContractViolation);
}

TEST(Evapotranspiration, MonthInBangkok) {
  const SolarDay sun = solar_day(bangkok_rad, 105);
  const double solar = solar_frac_from_sunshine(8.5 / sun.day_length_h) * sun.extraterrestrial_mj_per_m2_d;
  const ReferenceDay day = reference_day({.latitude_rad = bangkok_rad,
                                          .elevation_m = 2.0,
                                          .day_of_year = 105,
                                          .max_c = 34.8,
                                          .min_c = 25.6,
                                          .vapour_kpa = 2.85,
                                          .wind_at_2_m_m_per_s = 2.0,
                                          .solar_mj_per_m2_d = solar,
                                          .soil_heat_mj_per_m2_d = month_soil_heat_from_past_mj_per_m2_d(29.2, 30.2)});
  const char* of = "Example 17";
  check_printed("ET-50a", "slope, kPa/K", of, 0.246, day.slope_kpa_per_k, 0.0005, "reference_day");
  check_printed("ET-50b", "psychrometric constant, kPa/K", of, 0.0674, day.psychrometric_kpa_per_k, 0.0001,
                "reference_day", "read from a table; the formula gives 0.06735");
  check_printed("ET-50c", "mean saturation, kPa", of, 4.42, day.saturation_kpa, 0.005, "reference_day");
  check_printed("ET-50d", "extraterrestrial, MJ/(m2 d)", of, 38.06, day.extraterrestrial_mj_per_m2_d, 0.005,
                "reference_day");
  check_printed("ET-50e", "day length, h", of, 12.31, sun.day_length_h, 0.005, "solar_day");
  check_printed("ET-50f", "solar radiation, MJ/(m2 d)", of, 22.65, solar, 0.005, "solar_frac_from_sunshine");
  check_printed("ET-50g", "clear sky, MJ/(m2 d)", of, 28.54, day.clear_sky_mj_per_m2_d, 0.0051, "reference_day",
                "half a unit of the last printed digit; the printed product was of rounded factors");
  check_printed("ET-50h", "net short-wave, MJ/(m2 d)", of, 17.44, day.net_shortwave_mj_per_m2_d, 0.005,
                "reference_day");
  check_printed("ET-50i", "net long-wave, MJ/(m2 d)", of, 3.11, day.net_longwave_mj_per_m2_d, 0.005, "reference_day");
  check_printed("ET-50j", "net radiation, MJ/(m2 d)", of, 14.33, day.net_radiation_mj_per_m2_d, 0.005, "reference_day");
  check_printed("ET-50", "evapotranspiration, mm/d", of, 5.72, day.evapotranspiration_mm_per_d, 0.005, "reference_day");
  check_recomputed("ET-50k", "evapotranspiration, more digits, mm/d", of, 5.7161, day.evapotranspiration_mm_per_d,
                   0.00005, "reference_day");
}

TEST(Evapotranspiration, DayInUccle) {
  // The example writes n/N = 9.25/16.3 beside a day length of 16.1 h; its radiation follows 16.1.
  const SolarDay sun = solar_day(uccle_rad, 187);
  const double solar = solar_frac_from_sunshine(9.25 / sun.day_length_h) * sun.extraterrestrial_mj_per_m2_d;
  const ReferenceDay day = reference_day(
      {.latitude_rad = uccle_rad,
       .elevation_m = 100.0,
       .day_of_year = 187,
       .max_c = 21.5,
       .min_c = 12.3,
       .vapour_kpa = vapour_pressure_of_day_kpa({.max_c = 21.5, .min_c = 12.3, .max_frac = 0.84, .min_frac = 0.63}),
       .wind_at_2_m_m_per_s = wind_speed_at_2_m_m_per_s(10.0 / 3.6, 10.0),
       .solar_mj_per_m2_d = solar});
  const char* of = "Example 18";
  check_printed("ET-51a", "pressure, kPa", of, 100.1, 1e-3 * pressure_at_elevation_pa(100.0), 0.05,
                "pressure_at_elevation_pa");
  check_printed("ET-51b", "slope, kPa/K", of, 0.122, day.slope_kpa_per_k, 0.0005, "reference_day");
  check_printed("ET-51c", "psychrometric constant, kPa/K", of, 0.0666, day.psychrometric_kpa_per_k, 0.00005,
                "reference_day");
  check_printed("ET-51d", "mean saturation, kPa", of, 1.997, day.saturation_kpa, 0.0006, "reference_day",
                "half a unit of the last printed digit; the printed sum was of rounded terms");
  check_printed("ET-51e", "extraterrestrial, MJ/(m2 d)", of, 41.09, day.extraterrestrial_mj_per_m2_d, 0.005,
                "reference_day");
  check_printed("ET-51f", "day length, h", of, 16.1, sun.day_length_h, 0.05, "solar_day");
  check_printed("ET-51g", "solar radiation, MJ/(m2 d)", of, 22.07, solar, 0.005, "solar_frac_from_sunshine");
  check_printed("ET-51h", "clear sky, MJ/(m2 d)", of, 30.90, day.clear_sky_mj_per_m2_d, 0.005, "reference_day");
  check_printed("ET-51i", "net long-wave, MJ/(m2 d)", of, 3.71, day.net_longwave_mj_per_m2_d, 0.005, "reference_day");
  check_printed("ET-51j", "net radiation, MJ/(m2 d)", of, 13.28, day.net_radiation_mj_per_m2_d, 0.005, "reference_day");
  check_printed("ET-51", "evapotranspiration, mm/d", of, 3.88, day.evapotranspiration_mm_per_d, 0.005, "reference_day");
  check_recomputed("ET-51k", "evapotranspiration, more digits, mm/d", of, 3.8803, day.evapotranspiration_mm_per_d,
                   0.00005, "reference_day");
}

TEST(Evapotranspiration, TwoHoursInNDiaye) {
  const char* of = "Example 19";
  const DayPart afternoon{.latitude_rad = ndiaye_rad,
                          .longitude_deg = -16.25,
                          .zone_longitude_deg = -15.0,
                          .day_of_year = 274,
                          .middle_h = 14.5};
  const SolarHour sun = solar_hour(afternoon);
  check_printed("ET-60", "seasonal correction, h", of, 0.1889, sun.seasonal_correction_h, 0.00005, "solar_hour");
  check_printed("ET-61", "hour angle, rad", of, 0.682, sun.middle_rad, 0.0005, "solar_hour");
  check_printed("ET-62", "hour angle at the start, rad", of, 0.5512, sun.start_rad, 0.00005, "solar_hour");
  check_printed("ET-63", "hour angle at the end, rad", of, 0.8130, sun.end_rad, 0.00005, "solar_hour");
  check_printed("ET-64", "extraterrestrial, MJ/(m2 h)", of, 3.543, sun.extraterrestrial_mj_per_m2, 0.0005,
                "solar_hour");
  const double clear = clear_sky_frac(8.0) * sun.extraterrestrial_mj_per_m2;
  check_printed("ET-64a", "clear sky, MJ/(m2 h)", of, 2.658, clear, 0.0005, "clear_sky_frac");
  DayPart night = afternoon;
  night.middle_h = 2.5;
  check_printed("ET-64b", "hour angle by night, rad", of, -2.46, solar_hour(night).middle_rad, 0.005, "solar_hour");
  EXPECT_EQ(solar_hour(night).extraterrestrial_mj_per_m2, 0.0);

  const double gamma = 1e-3 * psychrometric_constant_pa_per_k(pressure_at_elevation_pa(8.0));
  check_printed("ET-64c", "psychrometric constant, kPa/K", of, 0.0673, gamma, 0.00005,
                "psychrometric_constant_pa_per_k");
  struct Hour {
    double temperature_c, humidity_frac, wind, solar, clear_share, longwave, net, soil_heat, evapotranspiration,
        more_digits, asce_short, asce_tall;
    const char* id;
  };
  const Hour hours[] = {
      {28.0, 0.90, 1.9, 0.0, 0.8, 0.100, -0.100, -0.050, 0.00, 0.0043, 0.0035, 0.0067, "night"},
      {38.0, 0.52, 3.3, 2.450, 2.450 / clear, 0.137, 1.749, 0.175, 0.63, 0.6269, 0.6560, 0.8218, "afternoon"}};
  for (const Hour& hour : hours) {
    const double saturation = 1e-3 * saturation_vapour_pressure_pa(hour.temperature_c);
    const double vapour = hour.humidity_frac * saturation;
    const double longwave = net_longwave_mj_per_m2_h(hour.temperature_c, vapour, hour.clear_share);
    const double net = (1.0 - reference_albedo_frac) * hour.solar - longwave;
    const double soil_heat = hour_soil_heat_frac(net) * net;
    PenmanMonteith air{.temperature_c = hour.temperature_c,
                       .net_radiation_mj_per_m2 = net,
                       .soil_heat_mj_per_m2 = soil_heat,
                       .wind_at_2_m_m_per_s = hour.wind,
                       .saturation_kpa = saturation,
                       .vapour_kpa = vapour,
                       .psychrometric_kpa_per_k = gamma};
    const double evapotranspiration = penman_monteith_mm(air, fao_hourly);
    const auto check_hour = [&](const char* id, const char* what, double expected, double got, double tolerance,
                                const char* function) {
      check_reference({.id = std::string(id) + " " + hour.id,
                       .what = what,
                       .source = "[allen1998] Example 19 (text seen)",
                       .expected = expected,
                       .got = got,
                       .tolerance = tolerance,
                       .reason = "half a unit of the last printed digit",
                       .function = function,
                       .scale = expected == 0.0 ? 0.6 : 0.0});
    };
    check_hour("ET-65", "net long-wave, MJ/(m2 h)", hour.longwave, longwave, 0.0005,
               "physics::net_longwave_mj_per_m2_h");
    check_hour("ET-65a", "net radiation, MJ/(m2 h)", hour.net, net, 0.0005, "physics::net_longwave_mj_per_m2_h");
    check_hour("ET-66", "heat into the ground, MJ/(m2 h)", hour.soil_heat, soil_heat, 0.0005,
               "physics::hour_soil_heat_frac");
    check_hour("ET-70", "evapotranspiration, mm/h", hour.evapotranspiration, evapotranspiration, 0.005,
               "physics::penman_monteith_mm");
    check_reference({.id = std::string("ET-71 ") + hour.id,
                     .what = "evapotranspiration, more digits, mm/h",
                     .source = "[allen1998] Example 19, recomputed apart from this program",
                     .expected = hour.more_digits,
                     .got = evapotranspiration,
                     .tolerance = 0.00006,
                     .reason = "half a unit of the last digit given",
                     .function = "physics::penman_monteith_mm",
                     .scale = 0.6});
    const auto asce = [&](AsceCover cover) {
      const AsceHour numbers = asce_hour(cover, net);
      air.soil_heat_mj_per_m2 = numbers.soil_heat_frac * net;
      return penman_monteith_mm(air, numbers.surface);
    };
    check_reference({.id = std::string("ET-72 ") + hour.id,
                     .what = "evapotranspiration of short cover, mm/h",
                     .source = "[asce2005] Table 1 on the inputs of [allen1998] Example 19, recomputed",
                     .expected = hour.asce_short,
                     .got = asce(AsceCover::short_grass),
                     .tolerance = 0.00006,
                     .reason = "half a unit of the last digit given",
                     .function = "physics::asce_hour",
                     .scale = 0.6});
    check_reference({.id = std::string("ET-73 ") + hour.id,
                     .what = "evapotranspiration of tall cover, mm/h",
                     .source = "[asce2005] Table 1 (from memory) on the inputs of [allen1998] Example 19, recomputed",
                     .expected = hour.asce_tall,
                     .got = asce(AsceCover::tall_alfalfa),
                     .tolerance = 0.00006,
                     .reason = "half a unit of the last digit given",
                     .function = "physics::asce_hour",
                     .scale = 0.6});
  }
}

TEST(Evapotranspiration, MonthInLyonFromTemperaturesAlone) {
  const double outside = solar_day(lyon_rad, 196).extraterrestrial_mj_per_m2_d;
  check_printed("ET-80", "by Hargreaves, mm/d", "Example 20", 5.0, hargreaves_mm_per_d(26.6, 14.8, outside), 0.05,
                "hargreaves_mm_per_d");
  check_recomputed("ET-80a", "by Hargreaves, more digits, mm/d", "Example 20", 5.03306,
                   hargreaves_mm_per_d(26.6, 14.8, outside), 6e-6, "hargreaves_mm_per_d");
  const double vapour = 1e-3 * saturation_vapour_pressure_pa(14.8);
  const ReferenceDay day = reference_day(
      {.latitude_rad = lyon_rad,
       .elevation_m = 200.0,
       .day_of_year = 196,
       .max_c = 26.6,
       .min_c = 14.8,
       .vapour_kpa = vapour,
       .wind_at_2_m_m_per_s = 2.0,
       .solar_mj_per_m2_d = outside * solar_frac_from_temperature_range(11.8, 0.16, clear_sky_frac(200.0))});
  check_printed("ET-81", "evapotranspiration, mm/d", "Example 20", 4.56, day.evapotranspiration_mm_per_d, 0.01,
                "reference_day", "the example works with two to three digits throughout");
}

TEST(Evapotranspiration, RefusesWhatIsOutsideItsRange) {
  EXPECT_THROW((void)solar_day(1.6, 100), ContractViolation);
  EXPECT_THROW((void)solar_day(0.5, 0), ContractViolation);
  EXPECT_THROW((void)solar_frac_from_sunshine(1.01), ContractViolation);
  EXPECT_THROW(
      (void)net_longwave_mj_per_m2_d({.max_c = 10.0, .min_c = 11.0, .vapour_kpa = 1.0, .clear_share_frac = 0.5}),
      ContractViolation);
  EXPECT_THROW((void)hargreaves_mm_per_d(10.0, 11.0, 30.0), ContractViolation);
  // No night of months: the clear-sky radiation it divides by is zero.
  EXPECT_THROW((void)reference_day({.latitude_rad = 80.0 * deg,
                                    .elevation_m = 0.0,
                                    .day_of_year = 355,
                                    .max_c = -20.0,
                                    .min_c = -30.0,
                                    .vapour_kpa = 0.05,
                                    .wind_at_2_m_m_per_s = 2.0,
                                    .solar_mj_per_m2_d = 0.0}),
               ContractViolation);
}

}  // namespace
}  // namespace houseleek::physics
