// Weights of a module against sums done by hand.
#include "checks/weights.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using design::Placed;
using tests::edited;
using tests::small_design_text;
using tests::valid_design;

constexpr double rounding_kg = 1e-9;

TEST(Weights, OfASmallModuleAreTheSumOfItsParts) {
  const ModuleWeights weights = compute_weights(valid_design(small_design_text()), 0, Placed::raised);
  // Brick 40 mm of 1150 kg/m3, wool 30 mm of 62.5, jute 2 mm of 325, stonecrops 0.8 of 4.5, spacers 0.5 on 1 m2.
  EXPECT_NEAR(weights.dry_kg_per_m2.likely, 46.0 + 1.875 + 0.65 + 3.6 + 0.5, rounding_kg);
  // Water at field capacity 0.275, 0.8 and 0.375.
  EXPECT_NEAR(weights.drained_kg_per_m2.likely - weights.dry_kg_per_m2.likely, 11.0 + 24.0 + 0.75, rounding_kg);
  // Water with all reachable pores full 0.5, 0.95 and 0.7.
  EXPECT_NEAR(weights.soaked_kg_per_m2.likely - weights.dry_kg_per_m2.likely, 20.0 + 28.5 + 1.4, rounding_kg);
  EXPECT_TRUE(weights.not_counted.empty());
}

TEST(Weights, RangeIsTheSumOfTheEnds) {
  const ModuleWeights weights = compute_weights(valid_design(small_design_text()), 0, Placed::raised);
  // Wool from 45 to 80 kg/m3 and stonecrops from 2 to 8 kg/m2 of the covered part are among the ends.
  EXPECT_LT(weights.dry_kg_per_m2.low, weights.dry_kg_per_m2.likely - 0.03 * (62.5 - 45.0) - 0.8 * (4.5 - 2.0) + 1e-9);
  EXPECT_GT(weights.dry_kg_per_m2.high, weights.dry_kg_per_m2.likely + 0.03 * (80.0 - 62.5) + 0.8 * (8.0 - 4.5) - 1e-9);
  EXPECT_LT(weights.dry_kg_per_m2.likely, weights.drained_kg_per_m2.likely);
  EXPECT_LT(weights.drained_kg_per_m2.likely, weights.soaked_kg_per_m2.likely);
}

TEST(Weights, OwnFiguresTakeTheRangeAway) {
  const std::string text = edited(small_design_text(), {{"[rivals]", R"([[material]]
name = "crushed brick"
density_kg_per_m3 = 1100
saturated_water_frac = 0.48

[rivals])"}});
  const ModuleWeights usual = compute_weights(valid_design(small_design_text()), 0, Placed::raised);
  const ModuleWeights own = compute_weights(valid_design(text), 0, Placed::raised);
  EXPECT_NEAR(own.dry_kg_per_m2.likely, usual.dry_kg_per_m2.likely - 0.04 * 50.0, rounding_kg);
  EXPECT_LT(own.dry_kg_per_m2.high - own.dry_kg_per_m2.low, usual.dry_kg_per_m2.high - usual.dry_kg_per_m2.low);
}

TEST(Weights, FlatModulesHaveNoSpacers) {
  const design::ValidDesign design = valid_design(small_design_text());
  EXPECT_NEAR(compute_weights(design, 0, Placed::raised).dry_kg_per_m2.likely -
                  compute_weights(design, 0, Placed::flat).dry_kg_per_m2.likely,
              0.5, rounding_kg);
}

TEST(Weights, ANetIsWeighedAndItsFrameIsNot) {
  const std::string text =
      edited(small_design_text(), {{"[recipe.cover]",
                                    "[recipe.net]\nmaterial = \"HDPE shade cloth\"\nthickness_mm = 1\nheight_mm = 300\n"
                                    "[recipe.cover]"}});
  const ModuleWeights weights = compute_weights(valid_design(text), 0, Placed::raised);
  EXPECT_NEAR(weights.dry_kg_per_m2.likely, 52.625 + 0.001 * 150.0, rounding_kg);
  ASSERT_EQ(weights.not_counted.size(), 1U);
  EXPECT_EQ(weights.not_counted.front(), "the frame that holds the net");
}

TEST(Weights, OfRivals) {
  const design::ValidDesign design = valid_design(small_design_text());
  // XPS 80 mm of 34 kg/m3 and gravel 50 mm of 1700 kg/m3; soaked 0.0185 and 0.035 of their volume.
  EXPECT_NEAR(compute_board_weights(design).dry_kg_per_m2.likely, 2.72 + 85.0, rounding_kg);
  EXPECT_NEAR(compute_board_weights(design).soaked_kg_per_m2.likely, 2.72 + 85.0 + 1.48 + 1.75, rounding_kg);
  // Shade cloth 1 mm of 150 kg/m3, which holds no water.
  EXPECT_NEAR(compute_net_weights(design).soaked_kg_per_m2.likely, 0.15, rounding_kg);
}

TEST(Weights, OfARecipeThatIsNotThere) {
  EXPECT_THROW((void)compute_weights(valid_design(small_design_text()), 1, Placed::flat), ContractViolation);
}

}  // namespace
}  // namespace houseleek::checks
