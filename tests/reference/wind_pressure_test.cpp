// Wind on flat roofs against a worked example and the table of the code.
#include "physics/wind_pressure.hpp"

#include <gtest/gtest.h>

#include <string>

#include "support/reference_check.hpp"

namespace houseleek::tests {
namespace {

using physics::roof_suction;
using physics::RoofZone;
using physics::terrain_roughness;
using physics::wind_at_height;

void check_wind(const std::string& id, const std::string& what, const std::string& source, double expected, double got,
                double tolerance) {
  check_reference({.id = id,
                   .what = what,
                   .source = "[en1991_1_4] " + source,
                   .expected = expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = "half of the last printed digit",
                   .function = "physics::wind_at_height"});
}

TEST(WindPressure, WorkedExample) {
  // Category IV, 26 m/s, 9 m: the least height of 10 m governs.
  const physics::WindAtHeight wind = wind_at_height(terrain_roughness[4], 26.0, 9.0);
  const std::string example = "worked example of a barn, public copy (text seen)";
  check_wind("WIND-01", "basic pressure, kN/m2", example, 0.422, wind.basic_pressure_kn_per_m2, 6e-4);
  check_wind("WIND-02", "turbulence", example, 0.434, wind.turbulence_frac, 6e-4);
  check_wind("WIND-03", "peak pressure, kN/m2", example, 0.497, wind.peak_pressure_kn_per_m2, 6e-4);
  check_wind("WIND-04", "mean wind, m/s", "the same example (recomputed)", 14.03, wind.mean_m_per_s, 6e-3);
  check_wind("WIND-05", "exposure, peak over basic", example, 1.18,
             wind.peak_pressure_kn_per_m2 / wind.basic_pressure_kn_per_m2, 6e-3);
}

TEST(WindPressure, FiveTerrains) {
  const std::string source = "4.3 to 4.5 (from memory, recomputed)";
  const double expected[] = {1.2610, 1.1697, 0.9938, 0.7221, 0.4969};
  for (int i = 0; i < 5; ++i) {
    check_wind("WIND-" + std::string(i < 4 ? "0" : "") + std::to_string(6 + i),
               "peak pressure at 10 m, 26 m/s, category " + std::to_string(i), source, expected[i],
               wind_at_height(terrain_roughness[i], 26.0, 10.0).peak_pressure_kn_per_m2, 6e-5);
  }
  check_wind("WIND-18", "category III at 8 m, 25 m/s", source, 0.6119,
             wind_at_height(terrain_roughness[3], 25.0, 8.0).peak_pressure_kn_per_m2, 6e-5);
  // sqrt(2 x 611.9/1.25) = 31.29 m/s, by hand.
  check_wind("WIND-19", "gust of 0.6119 kN/m2, km/h", "definition (recomputed)", 112.64, physics::gust_km_per_h(0.6119),
             0.01);
}

TEST(WindPressure, ZonesOfFlatRoofs) {
  const std::string seen = "Table 7.2 (text seen)";
  const auto check_zone = [](const std::string& id, const std::string& what, const std::string& source, double expected,
                             double got, double tolerance) {
    check_reference({.id = id,
                     .what = what,
                     .source = "[en1991_1_4] " + source,
                     .expected = expected,
                     .got = got,
                     .tolerance = tolerance,
                     .reason = "a figure of the table, or half of the last digit",
                     .function = "physics::roof_suction"});
  };
  check_zone("WIND-20", "F, sharp edge, 10 m2", seen, 1.8, roof_suction(RoofZone::f, 10.0, 0.0), 1e-12);
  check_zone("WIND-21", "F, sharp edge, 1 m2", seen, 2.5, roof_suction(RoofZone::f, 1.0, 0.0), 1e-12);
  check_zone("WIND-22", "G, sharp edge, 10 m2", seen, 1.2, roof_suction(RoofZone::g, 10.0, 0.0), 1e-12);
  check_zone("WIND-23", "G, sharp edge, 1 m2", seen, 2.0, roof_suction(RoofZone::g, 1.0, 0.0), 1e-12);
  check_zone("WIND-24", "H, 1 m2", seen, 1.2, roof_suction(RoofZone::h, 1.0, 0.0), 1e-12);
  check_zone("WIND-25", "I", seen, 0.2, roof_suction(RoofZone::i, 1.0, 0.0), 1e-12);
  check_zone("WIND-26", "F, parapet 0.025, 10 m2", seen, 1.6, roof_suction(RoofZone::f, 20.0, 0.025), 1e-12);
  check_zone("WIND-27", "G, parapet 0.05, 1 m2", seen, 1.6, roof_suction(RoofZone::g, 0.5, 0.05), 1e-12);
  check_zone("WIND-28", "F, parapet 0.10, 1 m2", seen, 1.8, roof_suction(RoofZone::f, 1.0, 0.10), 1e-12);
  check_zone("WIND-29", "F, parapet above 0.10", seen, 1.2, roof_suction(RoofZone::f, 10.0, 0.5), 1e-12);
  check_zone("WIND-30", "F, 2 m2", "Figure 7.2 (recomputed)", 2.2893, roof_suction(RoofZone::f, 2.0, 0.0), 6e-5);
  check_zone("WIND-31", "F, 5 m2", "Figure 7.2 (recomputed)", 2.0107, roof_suction(RoofZone::f, 5.0, 0.0), 6e-5);
  check_zone("WIND-32", "F, 10 m2, halfway between parapets 0.05 and 0.10", "Table 7.2, note 1 (from memory)", 1.3,
             roof_suction(RoofZone::f, 10.0, 0.075), 1e-12);
}

}  // namespace
}  // namespace houseleek::tests
