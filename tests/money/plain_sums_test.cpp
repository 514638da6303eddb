// Plain sums of money against sums done by hand with the catalogue's invented prices.
#include "money/plain_sums.hpp"

#include <gtest/gtest.h>

#include "support/small_design.hpp"

namespace houseleek::money {
namespace {

using design::Placed;
using tests::edited;
using tests::small_design_text;
using tests::valid_design;

constexpr double rounding = 1e-9;

TEST(PlainSums, AModuleIsTheSumOfItsParts) {
  const Cost cost = cost_of_module(valid_design(small_design_text()), 0, Placed::raised);
  // Brick 0.04 m3 at 25, wool 0.03 m3 at 140, jute 1.5, 0.8 * 16 cuttings at 0.3, spacers 1.5, ties 0.3, labour 0.
  EXPECT_NEAR(outlay_of(cost)->likely, 1.0 + 4.2 + 1.5 + 3.84 + 1.5 + 0.3, rounding);
  // The low ends: brick 0, wool 90, jute 0.8, cuttings 0, spacers 0.5, ties 0.1.
  EXPECT_NEAR(outlay_of(cost)->low, 2.7 + 0.8 + 0.5 + 0.1, rounding);
  // The high ends: brick 50, wool 200, jute 2.5, 0.8 * 25 cuttings at 1, spacers 4, ties 0.8, labour 15.
  EXPECT_NEAR(outlay_of(cost)->high, 2.0 + 6.0 + 2.5 + 20.0 + 4.0 + 0.8 + 15.0, rounding);
  EXPECT_TRUE(cost.unpriced.empty());
  EXPECT_TRUE(cost.without_life.empty());
}

TEST(PlainSums, ReplacementIsCostOverLife) {
  const Cost cost = cost_of_module(valid_design(small_design_text()), 0, Placed::raised);
  // Brick 50 years, wool 7.5, jute in the sun 1, cuttings 10, spacers 10, ties 1.
  EXPECT_NEAR(replacement_per_year(cost)->likely, 1.0 / 50 + 4.2 / 7.5 + 1.5 / 1 + 3.84 / 10 + 1.5 / 10 + 0.3 / 1,
              rounding);
  // Dear and short-lived: brick 2/50, wool 6/5, jute 2.5/0.5, cuttings 20/5, spacers 4/5, ties 0.8/0.5.
  EXPECT_NEAR(replacement_per_year(cost)->high, 2.0 / 50 + 6.0 / 5 + 2.5 / 0.5 + 20.0 / 5 + 4.0 / 5 + 0.8 / 0.5,
              rounding);
}

TEST(PlainSums, TheWholeRoofIsModulesTimesOne) {
  const PlantedOutlay planted = planted_outlay(valid_design(small_design_text()));
  ASSERT_EQ(planted.recipes.size(), 1U);
  EXPECT_EQ(planted.recipes[0].n_modules, 4);
  EXPECT_NEAR(*planted.recipes[0].per_module.value, 12.34, rounding);
  EXPECT_NEAR(*planted.outlay.value, 4 * 12.34, rounding);
  EXPECT_NEAR(*planted.replacement_per_year.value, 4 * 2.914, rounding);
  EXPECT_EQ(planted.outlay.range->from, "low and high ends of every price added up");
}

TEST(PlainSums, StockAtItsOwnPriceOfZero) {
  const design::ValidDesign design = valid_design(edited(
      small_design_text(),
      {{"[rivals]", "[prices]\n[[prices.item]]\nname = \"horticultural mineral wool\"\nprice_per_m3 = 0\n[rivals]"}}));
  EXPECT_NEAR(*planted_outlay(design).outlay.value, 4 * (12.34 - 4.2), rounding);
}

TEST(PlainSums, PricesByWeightAndByThePiece) {
  const design::ValidDesign design = valid_design(edited(
      small_design_text(), {{"[rivals]",
                             "[prices]\n[[prices.item]]\nname = \"horticultural mineral wool\"\nprice_per_kg = 2\n"
                             "[[prices.item]]\nname = \"crushed brick\"\nprice_each = 3\n[rivals]"}}));
  const Cost cost = cost_of_module(design, 0, Placed::raised);
  // Wool 0.03 m of 62.5 kg/m3 at 2; brick 3 a module.
  EXPECT_NEAR(outlay_of(cost)->likely, 12.34 - 4.2 - 1.0 + 3.75 + 3.0, rounding);
}

TEST(PlainSums, WhatHasNoPriceIsNamedAndNotTakenAsZero) {
  const design::ValidDesign design = valid_design(edited(small_design_text(), tests::wool_without_a_price()));
  const PlantedOutlay planted = planted_outlay(design);
  EXPECT_FALSE(planted.outlay.value);
  EXPECT_EQ(planted.outlay.because, "no price is known of rag wool: add it under [[prices.item]]");
  EXPECT_FALSE(planted.replacement_per_year.value);
  EXPECT_EQ(planted.unpriced, std::vector<std::string>{"rag wool"});
}

TEST(PlainSums, WhatHasNoLifeIsNamed) {
  const std::string without_price = edited(small_design_text(), tests::wool_without_a_price());
  const design::ValidDesign design = valid_design(edited(
      without_price, {{"[rivals]", "[prices]\n[[prices.item]]\nname = \"rag wool\"\nprice_per_m2 = 1\n[rivals]"}}));
  EXPECT_EQ(planted_outlay(design).without_life, std::vector<std::string>{"rag wool"});
  EXPECT_NEAR(*planted_outlay(design).replacement_per_year.value, 4 * (2.914 - 4.2 / 7.5), rounding);
}

TEST(PlainSums, RivalsByTheSquareMetre) {
  const design::ValidDesign design = valid_design(small_design_text());
  const Cost white = cost_of_white_per_m2(design);
  EXPECT_NEAR(outlay_of(white)->likely, 4.5, rounding);
  EXPECT_NEAR(replacement_per_year(white)->likely, 0.75, rounding);
  EXPECT_NEAR(replacement_per_year(white)->high, 8.0 / 3.0, rounding);
  // Cloth 1.5 for 1.5 years in the sun, frame 6 for 12.
  EXPECT_NEAR(outlay_of(cost_of_net_per_m2(design))->likely, 7.5, rounding);
  EXPECT_NEAR(replacement_per_year(cost_of_net_per_m2(design))->likely, 1.5, rounding);
  // XPS 0.08 m3 at 190, gravel 0.05 m3 at 50.
  EXPECT_NEAR(outlay_of(cost_of_board_per_m2(design))->likely, 15.2 + 2.5, rounding);
}

TEST(PlainSums, NothingLaidCostsNothing) {
  const design::ValidDesign design = valid_design(edited(small_design_text(), {{R"([[patch]]
recipe = "thin stonecrop"
columns = 2
rows = 2
origin = [0.5, 0.4]
spacing_mm = 50
)",
                                                                                ""}}));
  EXPECT_EQ(*planted_outlay(design).outlay.value, 0.0);
  EXPECT_TRUE(planted_outlay(design).recipes.empty());
}

}  // namespace
}  // namespace houseleek::money
