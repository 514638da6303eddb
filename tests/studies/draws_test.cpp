// Draws of money with years: how often a rival does better, and what its ranges are made of.
#include "studies/draws.hpp"

#include <gtest/gtest.h>

#include "plan/layout.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using tests::edited;
using tests::small_design_text;

/// A year whose house has these degree-hours under each cover, in their order.
YearAnswer year_of(const std::array<double, report::n_covers>& degree_hours_k_h, double watering_m3) {
  YearAnswer year;
  for (std::size_t i = 0; i < report::n_covers; ++i) {
    year.house.covers[i].degree_hours_above_k_h = results::figure_without_range(degree_hours_k_h[i], "made up");
  }
  year.watering_m3 = watering_m3;
  return year;
}

constexpr std::array<double, report::n_covers> one_summer = {1000, 600, 900, 500, 950, 700, 800, 400};

MoneyDraws drawn_of(const design::ValidDesign& design, const std::vector<YearAnswer>& years, int n_draws) {
  const plan::Layout layout = plan::make_layout(design);
  return draw_money({.design = design, .layout = layout, .years = years, .n_draws = n_draws});
}

/// Prices without any range: paint and modules.
std::vector<tests::Edit> exact_prices() {
  const std::string items = tests::price_items({{"white paint", "per_m2", 5, 5},
                                                {"crushed brick", "per_m3", 25},
                                                {"horticultural mineral wool", "per_m3", 140},
                                                {"jute fabric", "per_m2", 1.5},
                                                {"plant cutting", "each", 0},
                                                {"spacer set", "each", 1.5, 10},
                                                {"ties", "each", 0.3, 1},
                                                {"module labour", "each", 0}});
  return {{"[rivals]", "[prices]\n" + items + "[tariff]\nwater_per_m3 = 2\n[rivals]"}};
}

TEST(MoneyDraws, WithExactPricesTheYearsAloneMakeTheRange) {
  const design::ValidDesign design = tests::valid_design(edited(small_design_text(), exact_prices()));
  const std::vector<YearAnswer> years = {year_of(one_summer, 2.0),
                                         year_of({2000, 1600, 1900, 1500, 1950, 1700, 1800, 1400}, 4.0)};
  const MoneyDraws drawn = drawn_of(design, years, 200);
  // Brick 0.04 m3, wool 0.03 m3, jute, spacers and ties of four modules: 4 * 8.5.
  EXPECT_NEAR(*drawn.outlay.value, 34.0, 1e-9);
  EXPECT_EQ(drawn.outlay.range->low, drawn.outlay.range->high);
  EXPECT_EQ(drawn.outlay.range->from, "10, 50 and 90 % of 200 draws from assumed spreads of prices and lives");
  // Half of the draws meet either year: 2 and 4 m3 at 2.
  EXPECT_NEAR(drawn.water_per_year.range->low, 4.0, 1e-9);
  EXPECT_NEAR(*drawn.water_per_year.value, 6.0, 1e-9);
  EXPECT_NEAR(drawn.water_per_year.range->high, 8.0, 1e-9);
  EXPECT_EQ(drawn.water_per_year.range->from,
            "10, 50 and 90 % of 200 draws from assumed spreads of prices and lives and of 2 made years");
  // Modules take 400 K h away in both years.
  EXPECT_NEAR(*drawn.degree_hours_less_per_outlay_k_h.value, 400.0 / 34.0, 1e-9);
}

TEST(MoneyDraws, ARivalIsComparedInTheSameYearAtTheSamePrices) {
  const design::ValidDesign design = tests::valid_design(edited(small_design_text(), exact_prices()));
  // Paint on the same four squares costs 20 for 34: it does better where it takes more than 400 * 20/34 = 235 K h away.
  std::array<double, report::n_covers> better = one_summer;
  better[report::index_of(CoverKind::white_same)] = 1000 - 236;
  std::array<double, report::n_covers> worse = one_summer;
  worse[report::index_of(CoverKind::white_same)] = 1000 - 235;
  const MoneyDraws drawn =
      drawn_of(design, {year_of(better, 0), year_of(worse, 0), year_of(worse, 0), year_of(worse, 0)}, 200);
  ASSERT_TRUE(drawn.rivals[0].better_for_its_money);
  EXPECT_EQ(drawn.rivals[0].better_for_its_money->n_draws, 50);
  EXPECT_EQ(drawn.rivals[0].better_for_its_money->n_all, 200);
}

TEST(MoneyDraws, ARivalThatTakesNothingAwayIsNeverBetter) {
  const design::ValidDesign design = tests::valid_design(small_design_text());
  std::array<double, report::n_covers> useless = one_summer;
  useless[report::index_of(CoverKind::planted)] = 1200;
  useless[report::index_of(CoverKind::white_same)] = 1000;
  const MoneyDraws drawn = drawn_of(design, {year_of(useless, 0)}, 200);
  EXPECT_EQ(drawn.rivals[0].better_for_its_money->n_draws, 0) << "no worse than bare, for money";
}

TEST(MoneyDraws, ShareOfDrawsFollowsTheSpreadOfAPrice) {
  // With the price of paint between 3 and 12 the answer changes within the draws: not all, not none.
  const design::ValidDesign design = tests::valid_design(
      edited(edited(small_design_text(), exact_prices()),
             {{"price_per_m2 = 5\n", "price_per_m2 = { low = 3, likely = 6, high = 12, source = \"invented\" }\n"}}));
  std::array<double, report::n_covers> close = one_summer;
  close[report::index_of(CoverKind::white_same)] = 1000 - 400 * (4 * 6.0) / 34.0;  // equal at the likely price
  const MoneyDraws drawn = drawn_of(design, {year_of(close, 0)}, 1000);
  // Half of the draws lie below the likely price; a share of 1000 has a standard error of 1.6 %.
  EXPECT_NEAR(drawn.rivals[0].better_for_its_money->n_draws, 500, 64);
  EXPECT_LT(drawn.rivals[0].outlay.range->low, *drawn.rivals[0].outlay.value);
}

TEST(MoneyDraws, WhatHasNoPriceIsNamedAndComparedWithNothing) {
  const design::ValidDesign design = tests::valid_design(edited(small_design_text(), tests::wool_without_a_price()));
  const MoneyDraws drawn = drawn_of(design, {year_of(one_summer, 0)}, 200);
  EXPECT_EQ(drawn.outlay.because, "no price is known of rag wool: add it under [[prices.item]]");
  EXPECT_EQ(drawn.recipes[0].per_module.because, drawn.outlay.because);
  EXPECT_FALSE(drawn.degree_hours_less_per_outlay_k_h.value);
  EXPECT_TRUE(drawn.rivals[0].outlay.value);
  EXPECT_FALSE(drawn.rivals[0].better_for_its_money);
}

}  // namespace
}  // namespace houseleek::studies
