// Zones, coefficients and gusts of whole designs by hand.
#include "checks/wind_uplift.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using physics::RoofZone;
using tests::edited;
using tests::small_design_text;
using tests::valid_design;

/// A roof of 10 x 12 m with 9 x 11 modules of 1 m, flat.
std::string large_roof(const std::string& wind, const std::string& placed = "flat") {
  return edited(small_design_text(), {{"outline = [[0, 0], [4, 0], [4, 3], [0, 3]]\nfinish",
                                       "outline = [[0, 0], [10, 0], [10, 12], [0, 12]]\nfinish"},
                                      {"at = [3.8, 2.8]", "at = [9.9, 11.9]"},
                                      {"columns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50",
                                       "columns = 9\nrows = 11\norigin = [0.1, 0.1]\nplaced = \"" + placed + "\""},
                                      {"[rivals]", wind + "\n[rivals]"}});
}

TEST(WindUplift, ZonesOfARectangleByHand) {
  // h 6: wind along x sees b 12, e 12: F 1.2 x 3 m, G 1.2 m deep, H to 6 m, I beyond.
  const WindUplift wind = check_wind_uplift(valid_design(large_roof("[wind]\nroof_height_m = 6")));
  ASSERT_EQ(wind.modules.size(), 99U);
  EXPECT_NEAR(wind.edge_m, 12.0, 1e-12);
  EXPECT_EQ(wind.modules[0].zones[0], RoofZone::f);          // 0.1 from the left and from below
  EXPECT_EQ(wind.modules[4 * 9].zones[0], RoofZone::g);      // 4.1 m up
  EXPECT_EQ(wind.modules[4 * 9 + 3].zones[0], RoofZone::h);  // 3.1 m in
  EXPECT_EQ(wind.modules[4 * 9 + 7].zones[0], RoofZone::i);  // 7.1 m in
  EXPECT_EQ(wind.modules[4 * 9 + 8].zones[2], RoofZone::g);  // 0.9 m from the right
  // One square metre in a corner: 2.5; dry and without plants 49.025 kg/m2.
  EXPECT_NEAR(wind.modules[0].suction, 2.5, 1e-12);
  const double weight = 48.525 * 9.80665 / 1000.0;  // flat: no spacers
  EXPECT_NEAR(wind.modules[0].dry_kn_per_m2.likely, weight, 1e-9);
  EXPECT_NEAR(wind.modules[0].gust_km_per_h.likely, 3.6 * std::sqrt(2000.0 * 0.9 * weight / (1.5 * 2.5) / 1.25), 1e-9);
  // Tied to three others: the coefficient of 4 m2.
  const double linked = 2.5 - 0.7 * std::log10(4.0);
  EXPECT_NEAR(wind.modules[0].linked_gust_km_per_h[0],
              3.6 * std::sqrt(2000.0 * 0.9 * wind.modules[0].dry_kn_per_m2.low / (1.5 * linked) / 1.25), 1e-9);
}

TEST(WindUplift, OpenRaisedModulesGetThePressureFromBelowAndNoRelief) {
  const WindUplift flat = check_wind_uplift(valid_design(large_roof("[wind]\nroof_height_m = 6")));
  const WindUplift raised = check_wind_uplift(valid_design(large_roof("[wind]\nroof_height_m = 6", "raised")));
  EXPECT_EQ(flat.modules[0].below.high, 0.0);
  EXPECT_EQ(raised.modules[0].below.high, 1.0);
  EXPECT_LT(raised.modules[0].gust_km_per_h.low, flat.modules[0].gust_km_per_h.low);
  EXPECT_EQ(raised.modules[0].suction, flat.modules[0].suction);
}

TEST(WindUplift, BallastHoldsInTheGustOfThePlace) {
  const design::ValidDesign design =
      valid_design(large_roof("[wind]\nroof_height_m = 8\nbasic_wind_m_per_s = 25\nterrain = \"suburb\""));
  const WindUplift wind = check_wind_uplift(design);
  ASSERT_TRUE(wind.peak_pressure_kn_per_m2);
  EXPECT_NEAR(*wind.peak_pressure_kn_per_m2, 0.6119, 6e-5);
  // 1.5 x 2.5 x 0.6119/0.9 kN/m2 in the corner, less what it weighs.
  const ModuleWind& corner = wind.modules[0];
  EXPECT_NEAR(corner.ballast_kg_per_m2->likely, 1000.0 * (1.5 * 2.5 * 0.6119 / 0.9) / 9.80665 - 48.525, 0.03);
  EXPECT_TRUE(wind.assumed.size() == 1 && wind.assumed[0].find("parapet") != std::string::npos);
  EXPECT_NE(wind.statement.find("not shown to stay above"), std::string::npos);
}

TEST(WindUplift, AParapetHelpsAndNothingSaidIsTheSeverest) {
  const std::string with_parapet = edited(large_roof("[wind]\nroof_height_m = 6"),
                                          {{"finish = { albedo", "parapet_height_mm = 600\nfinish = { albedo"}});
  const WindUplift sheltered = check_wind_uplift(valid_design(with_parapet));
  EXPECT_NEAR(sheltered.parapet_over_height, 0.1, 1e-12);
  EXPECT_NEAR(sheltered.modules[0].suction, 1.8, 1e-12);
  const WindUplift nothing = check_wind_uplift(valid_design(large_roof("")));
  EXPECT_FALSE(nothing.peak_pressure_kn_per_m2);
  EXPECT_EQ(nothing.assumed.size(), 3U);
  for (std::size_t i = 0; i < nothing.modules.size(); ++i) {
    EXPECT_LE(nothing.modules[i].gust_km_per_h.low, sheltered.modules[i].gust_km_per_h.low + 1e-9);
  }
}

TEST(WindUplift, ALShapedRoofHasEdgesInside) {
  const std::string shape =
      edited(large_roof("[wind]\nroof_height_m = 6"),
             {{"outline = [[0, 0], [10, 0], [10, 12], [0, 12]]",
               "outline = [[0, 0], [10, 0], [10, 5], [5, 5], [5, 12], [0, 12]]"},
              {"columns = 9\nrows = 11\norigin = [0.1, 0.1]", "columns = 1\nrows = 1\norigin = [3.8, 4.5]"},
              {"at = [9.9, 11.9]", "at = [0.2, 0.2]"}});
  const WindUplift wind = check_wind_uplift(valid_design(shape));
  // In the middle of the rectangle round the roof, but 0.2 m from the inner corner.
  EXPECT_NEAR(wind.modules[0].suction, 2.5, 1e-12);
}

TEST(WindUplift, MirroredRoofMirrorsZones) {
  const WindUplift wind = check_wind_uplift(
      valid_design(edited(large_roof("[wind]\nroof_height_m = 6"), {{"origin = [0.1, 0.1]", "origin = [0.5, 0.5]"}})));
  for (int row = 0; row < 11; ++row) {
    for (int column = 0; column < 9; ++column) {
      const ModuleWind& one = wind.modules[static_cast<std::size_t>(row * 9 + column)];
      const ModuleWind& other = wind.modules[static_cast<std::size_t>(row * 9 + 8 - column)];
      EXPECT_EQ(one.zones[0], other.zones[2]);
      EXPECT_EQ(one.suction, other.suction);
    }
  }
}

}  // namespace
}  // namespace houseleek::checks
