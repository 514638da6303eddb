// Sun on walls: against the light on a plane computed moment by moment, symmetries, and what must not happen.
#include "climate/facade.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "base/contract.hpp"
#include "climate/estimate.hpp"
#include "climate/invented_climates.hpp"
#include "climate/sun_columns.hpp"
#include "physics/radiation.hpp"
#include "physics/sky.hpp"
#include "physics/sun.hpp"

namespace houseleek::climate {
namespace {

constexpr double pi = 3.14159265358979324;

WeatherYear some_year(const tests::Climate& climate = tests::dry_summer()) {
  return generate_year(climate.place, climate.normals, 7, 0).value();
}

double mean_of_days(const std::vector<double>& hours, std::size_t from_day, std::size_t to_day) {
  return std::accumulate(hours.begin() + static_cast<std::ptrdiff_t>(24 * from_day),
                         hours.begin() + static_cast<std::ptrdiff_t>(24 * to_day), 0.0) /
         static_cast<double>(24 * (to_day - from_day));
}

TEST(Facade, AgreesWithTheLightOnAPlaneMomentByMoment) {
  // The same sky by physics/radiation.hpp at 600 moments of the hour, azimuths and incidence by physics/sun.hpp.
  const WeatherYear year = some_year();
  for (const double azimuth_deg : {90.0, 180.0, 235.0, 0.0}) {
    const std::vector<double> facade = facade_irradiance_w_per_m2(year, azimuth_deg);
    double worst = 0.0;
    int n_compared = 0;
    for (int hour = 24 * 170; hour < 24 * 174; ++hour) {
      const auto h = static_cast<std::size_t>(hour);
      if (year.sun_mean_sine[h] < 0.1) continue;
      const double declination_rad = std::asin(year.sun_sine_declination[h]);
      const double latitude_rad = year.place.latitude_deg * pi / 180.0;
      double sum = 0.0;
      constexpr int n = 600;
      for (int i = 0; i < n; ++i) {
        const double angle_rad = year.sun_hour_angle_rad[h] + (i + 0.5) / n * pi / 12.0;
        const double sine = year.sun_a[h] + year.sun_b[h] * std::cos(angle_rad);
        if (sine <= 0.0) continue;
        const double zenith_deg = std::acos(sine) * 180.0 / pi;
        const double sun_azimuth_deg = physics::sun_azimuth_rad(latitude_rad, declination_rad, angle_rad) * 180.0 / pi;
        const physics::SkyLight light = {
            .direct_normal_w_per_m2 = (year.global_w_per_m2[h] - year.diffuse_w_per_m2[h]) / year.sun_mean_sine[h],
            .diffuse_horizontal_w_per_m2 = year.diffuse_w_per_m2[h] * sine / year.sun_mean_sine[h],
            .extraterrestrial_normal_w_per_m2 = year.sun_normal_w_per_m2[h],
            .zenith_rad = std::acos(sine),
            .relative_air_mass = 1.0};
        const physics::LitPlane wall = {
            .slope_rad = pi / 2.0,
            .cos_incidence = physics::cosine_of_incidence(zenith_deg, sun_azimuth_deg,
                                                          {.slope_deg = 90.0, .azimuth_deg = azimuth_deg}),
            .ground_albedo_frac = 0.2};
        sum += physics::plane_light_hay_davies(light, wall).total_w_per_m2();
      }
      worst = std::max(worst, std::abs(facade[h] - sum / n));
      ++n_compared;
    }
    EXPECT_GT(n_compared, 40);
    EXPECT_LT(worst, 5.0) << "six parts of the hour: largest where the sun comes round the wall's edge";
  }
}

TEST(Facade, OvercastIsHalfOfTheSkyAndOfTheGround) {
  WeatherYear year = some_year();
  year.diffuse_w_per_m2 = year.global_w_per_m2;
  const std::vector<double> facade = facade_irradiance_w_per_m2(year, 123.0, 0.3);
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    ASSERT_NEAR(facade[hour], 0.5 * 1.3 * year.global_w_per_m2[hour], 1e-9);
  }
}

TEST(Facade, EachSideHasItsTime) {
  const WeatherYear north = some_year();
  const std::vector<double> east = facade_irradiance_w_per_m2(north, 90.0);
  const std::vector<double> west = facade_irradiance_w_per_m2(north, 270.0);
  const std::vector<double> to_sun = facade_irradiance_w_per_m2(north, 180.0);
  const std::vector<double> to_pole = facade_irradiance_w_per_m2(north, 0.0);
  // Winter noon is for the wall that faces the equator; summer forenoon for the east.
  EXPECT_GT(mean_of_days(to_sun, 0, 59), 2.0 * mean_of_days(to_pole, 0, 59));
  EXPECT_GT(mean_of_days(to_sun, 0, 59), 1.3 * mean_of_days(east, 0, 59));
  EXPECT_GT(mean_of_days(west, 152, 243), mean_of_days(to_sun, 152, 243));
  double forenoon_east = 0.0;
  double forenoon_west = 0.0;
  for (std::size_t hour = 0; hour < 8760; ++hour) {
    if (north.sun_hour_angle_rad[hour] < -0.6) forenoon_east += east[hour], forenoon_west += west[hour];
  }
  EXPECT_GT(forenoon_east, 2.0 * forenoon_west);
  const WeatherYear south = some_year(tests::humid_south());
  EXPECT_GT(mean_of_days(facade_irradiance_w_per_m2(south, 0.0), 152, 243),
            1.5 * mean_of_days(facade_irradiance_w_per_m2(south, 180.0), 152, 243));
}

TEST(Facade, MirroredHousesGetTheSameBits) {
  const WeatherYear year = some_year();
  const WeatherYear mirrored = mirrored_north_south(year);
  EXPECT_EQ(mirrored.place.latitude_deg, -year.place.latitude_deg);
  EXPECT_EQ(facade_irradiance_w_per_m2(year, 90.0), facade_irradiance_w_per_m2(mirrored, 90.0));
  EXPECT_EQ(facade_irradiance_w_per_m2(year, 180.0), facade_irradiance_w_per_m2(mirrored, 0.0));
  EXPECT_EQ(facade_irradiance_w_per_m2(year, 235.0), facade_irradiance_w_per_m2(mirrored, -55.0));
  EXPECT_NE(facade_irradiance_w_per_m2(year, 235.0), facade_irradiance_w_per_m2(mirrored, 235.0));
}

TEST(Facade, ABeamIsNeverStrongerThanTheSun) {
  WeatherYear year = some_year();
  std::size_t dawn = 24 * 172;
  while (year.sun_mean_sine[dawn] < least_shaping_sine || year.sun_mean_sine[dawn] > 0.1) ++dawn;
  year.global_w_per_m2[dawn] = 300.0;  // a file's hour that the sun only grazes
  year.diffuse_w_per_m2[dawn] = 0.0;
  for (const double azimuth_deg : {0.0, 60.0, 90.0, 120.0}) {
    EXPECT_LT(facade_irradiance_w_per_m2(year, azimuth_deg)[dawn], year.sun_normal_w_per_m2[dawn] + 200.0);
  }
  EXPECT_THROW((void)facade_irradiance_w_per_m2(year, 90.0, 1.5), ContractViolation);
}

TEST(Estimate, SkyOfClearAndOvercastDays) {
  WeatherYear year = make_year_with_sun({40.0, 0.0, 0.0, 0.0}, 2025);
  year.air_temperature_c.assign(8761, 20.0);
  year.vapour_pressure_pa.assign(8761, 1169.14);
  year.global_w_per_m2.assign(8760, 0.0);
  // Without any radiation by day the sky is a black body of the air's temperature: sigma 293.15^4.
  for (const double sky : estimate_sky_longwave_w_per_m2(year)) ASSERT_NEAR(sky, 418.76, 0.02);
  // As bright as the sun allows: clear. [brutsaert1975] at 20 degC and 50 % by FAO-56 vapour: 0.7824 of it.
  for (std::size_t hour = 0; hour < 8760; ++hour)
    year.global_w_per_m2[hour] = 0.95 * year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
  for (const double sky : estimate_sky_longwave_w_per_m2(year)) ASSERT_NEAR(sky, 327.6, 0.2);
}

TEST(Estimate, NightsAreAsCloudyAsTheDaysAround) {
  WeatherYear year = make_year_with_sun({40.0, 0.0, 0.0, 0.0}, 2025);
  year.air_temperature_c.assign(8761, 20.0);
  year.vapour_pressure_pa.assign(8761, 1169.14);
  year.global_w_per_m2.assign(8760, 0.0);
  for (std::size_t hour = 24 * 100; hour < 24 * 101; ++hour) {
    year.global_w_per_m2[hour] = 0.95 * year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
  }
  const std::vector<double> sky = estimate_sky_longwave_w_per_m2(year);
  EXPECT_NEAR(sky[24 * 99 + 12], 418.76, 0.02);
  EXPECT_NEAR(sky[24 * 100 + 12], 327.6, 0.2);
  for (std::size_t hour = 24 * 100 + 20; hour < 24 * 101 + 4; ++hour)
    EXPECT_GT(sky[hour], sky[hour - 1]) << "clouds come in through the night";
}

TEST(Estimate, PolarNightHasACloudShareToo) {
  WeatherYear year = make_year_with_sun({89.9, 0.0, 0.0, 0.0}, 2025);
  year.air_temperature_c.assign(8761, -30.0);
  year.vapour_pressure_pa.assign(8761, 30.0);
  year.global_w_per_m2.assign(8760, 0.0);
  for (const double sky : estimate_sky_longwave_w_per_m2(year)) {
    ASSERT_GT(sky, 100.0);
    ASSERT_LE(sky, 198.3);  // sigma 243.15^4
  }
}

TEST(Estimate, GlobalByTheRangeOfTemperature) {
  WeatherYear year = make_year_with_sun({40.0, 0.0, 1000.0, 0.0}, 2025);
  year.air_temperature_c.assign(8761, 10.0);
  const std::size_t noon = 24 * 172 + 12;
  year.air_temperature_c[noon] = 19.0;
  year.air_temperature_c[noon + 48] = 60.0;
  const std::vector<double> global = estimate_global_w_per_m2(year);
  const auto clearness = [&](std::size_t hour) {
    return global[hour] / (year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour]);
  };
  // [allen1998] Eq. 50: 0.16 times the root of 9 K; Eq. 37 bounds it: 0.75 + 2e-5 times 1000 m.
  EXPECT_NEAR(clearness(noon), 0.48, 1e-12);
  EXPECT_NEAR(clearness(noon - 4), 0.48, 1e-12) << "all hours of a day alike";
  EXPECT_NEAR(clearness(noon + 48), 0.77, 1e-12);
  EXPECT_EQ(global[noon + 24], 0.0) << "no range, no sun";
}

TEST(Estimate, DiffuseByTheFit) {
  WeatherYear year = make_year_with_sun({40.0, 0.0, 0.0, 0.0}, 2025);
  year.global_w_per_m2.assign(8760, 0.0);
  const std::size_t noon = 24 * 172 + 12;
  year.global_w_per_m2[noon] = 0.5 * year.sun_normal_w_per_m2[noon] * year.sun_mean_sine[noon];
  year.global_w_per_m2[24 * 172] = 3.0;  // at night
  const std::vector<double> diffuse = estimate_diffuse_w_per_m2(year);
  // [erbs1982] hourly fit at 0.5: 0.6591 (recomputed from coefficients seen).
  EXPECT_NEAR(diffuse[noon] / year.global_w_per_m2[noon], 0.6591, 1e-4);
  EXPECT_EQ(diffuse[24 * 172], 3.0);
}

}  // namespace
}  // namespace houseleek::climate
