// Fuel of recipes by hand, dry spells, and strips that stay bare.
#include "checks/fire_load.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/contract.hpp"
#include "checks/clear_strips.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

TEST(FireLoad, JuteOnBrickByHand) {
  const RecipeFuel fuel = compute_recipe_fuels(valid_design(small_design_text()))[0];
  // Jute 2 mm of 325 kg/m3 with 17.5 MJ/kg; the binder of 30 mm of mineral wool of 62.5 kg/m3 with 0.6 MJ/kg.
  EXPECT_NEAR(fuel.fuel_mj_per_m2.likely, 0.65 * 17.5 + 1.875 * 0.6, 1e-9);
  EXPECT_NEAR(fuel.burning_frac.likely, 1.875 * 0.03 / 47.875, 1e-12);
  EXPECT_TRUE(fuel.not_counted.empty());
  EXPECT_NEAR(fuel.mineral_mm, 70.0, 1e-12);
  ASSERT_EQ(fuel.against.size(), 1U);
  EXPECT_NE(fuel.against[0].find("jute fabric"), std::string::npos);
  // 3.6 kg/m2 of fresh stonecrop, 15 % dry matter.
  EXPECT_NEAR(fuel.plants_mj_per_m2.likely, 3.6 * 0.15 * 17.5, 1e-9);
}

TEST(FireLoad, StrawUnderANetDoesNotMeetThePresumption) {
  const std::string text = edited(
      small_design_text(),
      {{"material = \"crushed brick\"\nthickness_mm = 40", "material = \"crushed brick\"\nthickness_mm = 20"},
       {"material = \"horticultural mineral wool\"\nthickness_mm = 30", "material = \"straw\"\nthickness_mm = 80"},
       {"[recipe.cover]",
        "[recipe.net]\nmaterial = \"HDPE shade cloth\"\nthickness_mm = 1\nheight_mm = "
        "300\n[recipe.cover]"}});
  const RecipeFuel fuel = compute_recipe_fuels(valid_design(text))[0];
  EXPECT_EQ(fuel.against.size(), 4U);
  EXPECT_GT(fuel.burning_frac.likely, 0.2);
  EXPECT_NE(fuel.statement.find("does not meet the usual mineral-layer presumption"), std::string::npos);
  double sum = 0.0;
  for (const FuelPart& part : fuel.parts) sum += part.fuel_mj_per_m2.likely;
  EXPECT_NEAR(sum, fuel.fuel_mj_per_m2.likely, 1e-9);
}

TEST(FireLoad, OwnMixByItsOrganicShareAndWithoutAKnownHeat) {
  const std::string text = edited(
      small_design_text(), {{"material = \"crushed brick\"", "material = \"own mix\""}, {"[rivals]", R"([[material]]
name = "own mix"
wet_rule = "mineral_medium"
density_kg_per_m3 = 600
conductivity_w_per_m_k = 0.12
heat_capacity_j_per_kg_k = 1000
solids_conductivity_w_per_m_k = 1.1
cote_konrad_k = 1.2
organic_frac = 0.3
porosity_frac = 0.7
saturated_water_frac = 0.6
field_capacity_frac = 0.35
wilting_water_frac = 0.08
residual_water_frac = 0.03
saturated_conductivity_mm_per_h = 1000
brooks_corey_exponent = 8
albedo_dry = 0.2
albedo_wet = 0.12
emissivity = 0.95
service_life_years = 10
[rivals])"}});
  const RecipeFuel fuel = compute_recipe_fuels(valid_design(text))[0];
  ASSERT_EQ(fuel.not_counted.size(), 1U);
  EXPECT_EQ(fuel.not_counted[0], "own mix");
  // 30 % of the solids by volume: 450/(450 + 0.7 x 2650) of 24 kg, and 3 % of 1.875 kg of wool.
  EXPECT_NEAR(fuel.burning_frac.likely, (24.0 * 450.0 / 2305.0 + 1.875 * 0.03) / 25.875, 1e-12);
}

TEST(FireDryDays, SpellsByHand) {
  const std::vector<double> store = {0.5, 0.05, 0.05, 0.2, 0.05, 0.05, 0.05, 0.05, 0.3, 0.09, 0.09, 0.09};
  const DrySpells spells = count_fire_dry_days(store);
  EXPECT_EQ(spells.n_spells, 2);
  EXPECT_EQ(spells.n_days, 7);
  EXPECT_EQ(spells.longest_days, 4);
  EXPECT_EQ(count_fire_dry_days(store, 0.1, 1).n_days, 9);
  EXPECT_EQ(count_fire_dry_days({}, 0.1, 3).n_days, 0);
  const std::vector<double> broken = {std::numeric_limits<double>::quiet_NaN()};
  EXPECT_THROW((void)count_fire_dry_days(broken), ContractViolation);
}

TEST(ClearStrips, DistancesByHand) {
  // Modules from 0.5 to 2.55 and from 0.4 to 2.45 on a roof of 4 x 3 m; an outlet of 80 mm at 3.8, 2.8.
  const ClearStripCheck check = check_clear_strips(valid_design(small_design_text()));
  ASSERT_EQ(check.rules.size(), 2U);
  EXPECT_EQ(check.rules[0].width_mm, 500.0);
  EXPECT_NE(check.rules[0].source.find("FLL guideline"), std::string::npos);
  // Three of four are nearer than 500 mm to the lower or the left edge... the left column stands at 500 exactly.
  ASSERT_EQ(check.breaches.size(), 2U);
  EXPECT_NEAR(check.breaches[0].distance_mm, 400.0, 1e-9);
  EXPECT_EQ(check.breaches[0].module, 0);
  EXPECT_EQ(check.breaches[1].module, 1);
  EXPECT_TRUE(check.long_blocks.empty());
  // 3 x 2 m inside the edge strip; the outlet's strip takes no more than a corner of it.
  EXPECT_LE(check.left_m2, 6.0);
  EXPECT_GT(check.left_m2, 5.8);
}

TEST(ClearStrips, OwnWidthsAndObstacles) {
  const std::string text = edited(small_design_text(), {{"[[room]]\n", R"([roof.clear_strips]
edge_mm = 300
flue_mm = 600
[[roof.obstacle]]
name = "flue"
kind = "flue"
outline = [[3, 1], [3.2, 1], [3.2, 1.2], [3, 1.2]]
[[room]]
)"}});
  const ClearStripCheck check = check_clear_strips(valid_design(text));
  ASSERT_EQ(check.rules.size(), 3U);
  EXPECT_EQ(check.rules[1].source, "as this design says");
  ASSERT_EQ(check.breaches.size(), 2U);  // 0.45 m from the right column, both rows
  EXPECT_NEAR(check.breaches[0].distance_mm, 450.0, 1e-9);
}

TEST(ClearStrips, ALongBlockWantsABreak) {
  const auto of = [](const char* spacing) {
    return check_clear_strips(valid_design(edited(
        small_design_text(),
        {{"outline = [[0, 0], [4, 0], [4, 3], [0, 3]]\nfinish", "outline = [[0, 0], [90, 0], [90, 3], [0, 3]]\nfinish"},
         {"columns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50",
          std::string("columns = 42\nrows = 1\norigin = [0.5, 0.4]\nspacing_mm = ") + spacing}})));
  };
  EXPECT_EQ(of("50").long_blocks.size(), 1U);
  EXPECT_NEAR(of("50").long_blocks[0].length_m, 44.05, 1e-9);
  EXPECT_TRUE(of("1000").long_blocks.empty());
}

}  // namespace
}  // namespace houseleek::checks
