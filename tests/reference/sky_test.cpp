// Emissivity of the sky and what it sends down.
#include "physics/sky.hpp"

#include <gtest/gtest.h>

#include <string>

#include "support/reference_check.hpp"

namespace houseleek::physics {
namespace {

using tests::check_reference;

// Vapour pressure and dew point by the WMO Magnus formula; the daily term of Berdahl and Martin left out.
struct Row {
  double temperature_c, vapour_hpa, dew_point_c, brutsaert, berdahl_martin, brutsaert_depression_k,
      berdahl_depression_k;
  const char* id;
};
constexpr Row rows[] = {{0.0, 4.8896, -3.0404, 0.69796, 0.69624, 23.48, 23.64, "0 degC 80 %"},
                        {10.0, 7.3562, 2.5838, 0.73611, 0.72755, 20.88, 21.64, "10 degC 60 %"},
                        {20.0, 11.6630, 9.2552, 0.78231, 0.77067, 17.45, 18.48, "20 degC 50 %"},
                        {30.0, 16.9349, 14.9251, 0.82118, 0.81243, 14.57, 15.34, "30 degC 40 %"},
                        {35.0, 11.2257, 8.6883, 0.77253, 0.76675, 19.25, 19.80, "35 degC 20 %"}};

TEST(Sky, ClearSky) {
  for (const Row& row : rows) {
    const double air_k = row.temperature_c + zero_celsius_k;
    const double brutsaert = clear_sky_emissivity_brutsaert(100.0 * row.vapour_hpa, air_k);
    const double berdahl = clear_sky_emissivity_berdahl_martin({.dew_point_c = row.dew_point_c});
    const auto check = [&](const char* id, const char* what, const char* key, double expected, double got,
                           double tolerance, const char* function) {
      check_reference({.id = std::string(id) + " " + row.id,
                       .what = what,
                       .source = std::string(key) + " (recomputed from remembered coefficients)",
                       .expected = expected,
                       .got = got,
                       .tolerance = tolerance,
                       .reason = "last digit given",
                       .function = function});
    };
    check("SKY-01", "emissivity", "[brutsaert1975]", row.brutsaert, brutsaert, 6e-6,
          "physics::clear_sky_emissivity_brutsaert");
    check("SKY-02", "emissivity", "[berdahl1984]", row.berdahl_martin, berdahl, 6e-6,
          "physics::clear_sky_emissivity_berdahl_martin");
    check("SKY-03", "air minus sky temperature, K", "[brutsaert1975]", row.brutsaert_depression_k,
          air_k - sky_temperature_k(brutsaert, air_k), 0.006, "physics::sky_temperature_k");
    check("SKY-04", "air minus sky temperature, K", "[berdahl1984]", row.berdahl_depression_k,
          air_k - sky_temperature_k(berdahl, air_k), 0.006, "physics::sky_temperature_k");
  }
  check_reference({.id = "SKY-10",
                   .what = "down-welling at 20 degC and 50 %, W/m2",
                   .source = "[brutsaert1975] (recomputed from remembered coefficients)",
                   .expected = 327.607,
                   .got = sky_longwave_w_per_m2(clear_sky_emissivity_brutsaert(1166.30, 293.15), 293.15),
                   .tolerance = 0.001,
                   .reason = "three decimals, vapour pressure rounded",
                   .function = "physics::sky_longwave_w_per_m2"});
  // Midnight is 0.013 above the mean, noon as much below.
  const double mean = clear_sky_emissivity_berdahl_martin({.dew_point_c = 5.0});
  EXPECT_NEAR(clear_sky_emissivity_berdahl_martin({.dew_point_c = 5.0, .solar_hour_h = 0.0}) - mean, 0.013, 1e-12);
  EXPECT_NEAR(clear_sky_emissivity_berdahl_martin({.dew_point_c = 5.0, .solar_hour_h = 12.0}) - mean, -0.013, 1e-12);
}

TEST(Sky, Clouds) {
  check_reference({.id = "SKY-05",
                   .what = "emissivity, clear 0.8, half the radiation missing",
                   .source = "[crawford1999] (formula from memory)",
                   .expected = 0.9,
                   .got = sky_emissivity(0.8, sky_cloud_frac(0.5)),
                   .tolerance = 1e-12,
                   .reason = "exact arithmetic",
                   .function = "physics::sky_emissivity"});
  check_reference({.id = "SKY-06",
                   .what = "cloud share where radiation is 0.3 of a clear sky's",
                   .source = "[crawford1999] (formula from memory)",
                   .expected = 0.7,
                   .got = sky_cloud_frac(0.3),
                   .tolerance = 1e-12,
                   .reason = "exact arithmetic",
                   .function = "physics::sky_cloud_frac"});
  EXPECT_EQ(sky_cloud_frac(1.2), 0.0);
  EXPECT_EQ(sky_emissivity(0.7, 0.0), 0.7);
  EXPECT_EQ(sky_emissivity(0.7, 1.0), 1.0);
}

TEST(Sky, RefusesWhatIsOutsideItsRange) {
  EXPECT_THROW((void)clear_sky_emissivity_brutsaert(0.0, 293.15), ContractViolation);
  EXPECT_THROW((void)clear_sky_emissivity_berdahl_martin({.dew_point_c = 36.0}), ContractViolation);
  EXPECT_THROW((void)sky_cloud_frac(-0.1), ContractViolation);
  EXPECT_THROW((void)sky_emissivity(0.8, 1.1), ContractViolation);
  EXPECT_THROW((void)sky_longwave_w_per_m2(0.8, 20.0), ContractViolation);
}

}  // namespace
}  // namespace houseleek::physics
