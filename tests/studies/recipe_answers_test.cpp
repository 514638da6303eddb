// What each recipe is by itself, against sums by hand.
#include "studies/recipe_answers.hpp"

#include <gtest/gtest.h>

#include "support/small_design.hpp"

namespace houseleek::studies {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

// The small house: felt 8 mm of 0.23, concrete 120 mm of 2.5 W/(m K).
constexpr double deck_m2_k_per_w = 0.008 / 0.23 + 0.120 / 2.5;
// Brick 40 mm and wool 30 mm of 0.0405 W/(m K), dry.
constexpr double wool_m2_k_per_w = 0.030 / 0.0405;

report::RecipeAnswer answer_of(const std::vector<tests::Edit>& edits) {
  return answer_recipes(valid_design(edited(small_design_text(), edits))).front();
}

TEST(RecipeAnswers, BareDeck) {
  const report::DeckAnswer deck = answer_deck(valid_design(small_design_text()));
  EXPECT_NEAR(*deck.u_value_w_per_m2_k.value, 1.0 / (0.10 + 0.04 + deck_m2_k_per_w), 1e-12);
  EXPECT_LT(deck.u_value_w_per_m2_k.range->low, *deck.u_value_w_per_m2_k.value);
  EXPECT_GT(*deck.decrement_factor.value, 0.0);
  EXPECT_LT(*deck.decrement_factor.value, 1.0);
}

TEST(RecipeAnswers, FlatAddsContactAndModule) {
  const report::RecipeAnswer answer = answer_of({});
  const design::ValidDesign design = valid_design(small_design_text());
  const double brick = design->recipes[0].layers[0].layer.material.conductivity_w_per_m_k.likely;
  EXPECT_NEAR(*answer.flat.u_value_dry_w_per_m2_k.value,
              1.0 / (0.10 + 0.04 + deck_m2_k_per_w + 0.01 + 0.040 / brick + wool_m2_k_per_w), 1e-12);
  EXPECT_GT(*answer.flat.u_value_wet_w_per_m2_k.value, *answer.flat.u_value_dry_w_per_m2_k.value);
}

TEST(RecipeAnswers, RaisedWithOpenEdgesLeavesTheModuleOut) {
  const report::RecipeAnswer answer = answer_of({});
  ASSERT_TRUE(answer.raised);
  EXPECT_NEAR(*answer.raised->u_value_dry_w_per_m2_k.value, 1.0 / (0.10 + 0.10 + deck_m2_k_per_w), 1e-12);
  EXPECT_EQ(answer.raised->u_value_wet_w_per_m2_k, answer.raised->u_value_dry_w_per_m2_k);
  EXPECT_NE(answer.raised->note.find("well ventilated"), std::string::npos);
}

TEST(RecipeAnswers, RaisedWithClosedEdgesCountsStillAir) {
  const report::RecipeAnswer open = answer_of({});
  const report::RecipeAnswer closed = answer_of({{"edges = \"open\"", "edges = \"closed\""}});
  const design::ValidDesign design = valid_design(small_design_text());
  const double brick = design->recipes[0].layers[0].layer.material.conductivity_w_per_m_k.likely;
  // 20 mm of still air with heat going up: h_a 1.95, h_r 4 sigma 283.15^3 / (2/0.9 - 1).
  const double radiative = 4.0 * 5.670374419e-8 * 283.15 * 283.15 * 283.15 / (2.0 / 0.9 - 1.0);
  const double air = 1.0 / (1.95 + radiative);
  EXPECT_NEAR(*closed.raised->u_value_dry_w_per_m2_k.value,
              1.0 / (0.10 + 0.04 + deck_m2_k_per_w + air + 0.040 / brick + wool_m2_k_per_w), 1e-9);
  EXPECT_LT(*closed.raised->u_value_dry_w_per_m2_k.value, *open.raised->u_value_dry_w_per_m2_k.value);
  EXPECT_NE(closed.raised->note.find("still air"), std::string::npos);
}

TEST(RecipeAnswers, NearlyClosedEdgesLieBetween) {
  // 3 mm by 4 m by 0.1 open: 1200 mm2 on a square metre, between 500 and 1500.
  const report::RecipeAnswer slight =
      answer_of({{"height_mm = 20", "height_mm = 3"}, {"blocked_frac = 0.2", "blocked_frac = 0.9"}});
  const report::RecipeAnswer closed =
      answer_of({{"height_mm = 20", "height_mm = 3"}, {"edges = \"open\"", "edges = \"closed\""}});
  EXPECT_NE(slight.raised->note.find("slightly ventilated"), std::string::npos);
  const double still = 1.0 / *closed.raised->u_value_dry_w_per_m2_k.value;
  const double well = 0.20 + deck_m2_k_per_w;
  EXPECT_NEAR(1.0 / *slight.raised->u_value_dry_w_per_m2_k.value, (300.0 * still + 700.0 * well) / 1000.0, 1e-9);
}

TEST(RecipeAnswers, AClosedGapHigherThanTheStandardKnows) {
  const report::RecipeAnswer answer =
      answer_of({{"height_mm = 20", "height_mm = 400"}, {"edges = \"open\"", "edges = \"closed\""}});
  EXPECT_FALSE(answer.raised->u_value_dry_w_per_m2_k.value);
  EXPECT_FALSE(answer.raised->u_value_dry_w_per_m2_k.because.empty());
}

TEST(RecipeAnswers, WithoutSpacersNothingIsRaised) {
  const report::RecipeAnswer answer =
      answer_of({{"placed = \"raised\"", "placed = \"flat\""},
                 {"[recipe.spacer]\nheight_mm = 20\nedges = \"open\"\nblocked_frac = 0.2\ngap_wind_frac = 0.1\n"
                  "mass_kg_per_module = 0.5\n",
                  ""}});
  EXPECT_FALSE(answer.raised);
}

TEST(RecipeAnswers, FloatsWhereItsWeightOfWaterStands) {
  // 52.625 kg/m2 dry on spacers of 20 mm.
  EXPECT_NEAR(*answer_of({}).floats_at_mm.value, 20.0 + 52.625, 1e-9);
  // Brick of 40 mm alone weighs 46 kg/m2, more than 40 mm of water.
  const report::RecipeAnswer heavy = answer_of(
      {{"[[recipe.layer]]\nrole = \"core\"\nmaterial = \"horticultural mineral wool\"\nthickness_mm = 30\n", ""}});
  EXPECT_FALSE(heavy.floats_at_mm.value);
}

TEST(RecipeAnswers, CountsItsModules) {
  EXPECT_EQ(answer_of({}).n_modules, 4);
  EXPECT_EQ(answer_of({{"columns = 2", "columns = 1"}}).n_modules, 2);
}

}  // namespace
}  // namespace houseleek::studies
