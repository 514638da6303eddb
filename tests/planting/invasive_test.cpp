// Invasive plants in their three states, and countries that nobody looked at.
#include "planting/invasive.hpp"

#include <gtest/gtest.h>

#include "catalogue/catalogue.hpp"
#include "planting/food.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::planting {
namespace {

using design::PlantOrigin;
using tests::shipped_catalogue;

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

TEST(Invasive, ANewOneIsRefusedWithTheListAndHowItIsKnown) {
  const catalogue::Catalogue all = shipped_catalogue();
  const catalogue::Plant& fig = *catalogue::find_plant(all, "Carpobrotus edulis");
  for (const PlantOrigin origin : {PlantOrigin::unsaid, PlantOrigin::fresh}) {
    const InvasiveWord word = judge_invasive(fig, "ES", origin, {});
    EXPECT_EQ(word.standing, Standing::refused);
    EXPECT_TRUE(has(word.text, "refused")) << word.text;
    EXPECT_TRUE(has(word.text, "Real Decreto 630/2013")) << word.text;
    EXPECT_TRUE(has(word.text, "as remembered, not read again")) << word.text;
    EXPECT_TRUE(word.steps.empty());
  }
  // Greece: no list known, a remark alone.
  EXPECT_EQ(judge_invasive(fig, "GR", PlantOrigin::fresh, {}).standing, Standing::advised_against);
  EXPECT_EQ(judge_invasive(fig, "DE", PlantOrigin::fresh, {}).standing, Standing::not_listed);
  EXPECT_EQ(judge_invasive(fig, "", PlantOrigin::fresh, {}).standing, Standing::not_listed);
  // The Union's text was seen.
  const catalogue::Plant& grass = *catalogue::find_plant(all, "Cenchrus setaceus");
  const InvasiveWord seen = judge_invasive(grass, "DE", PlantOrigin::fresh, {});
  EXPECT_EQ(seen.standing, Standing::refused);
  EXPECT_TRUE(has(seen.text, "its text was seen")) << seen.text;
}

TEST(Invasive, TheSameAlreadyHereIsKeptIn) {
  const catalogue::Catalogue all = shipped_catalogue();
  const catalogue::Plant& fig = *catalogue::find_plant(all, "Carpobrotus edulis");
  const InvasiveWord word = judge_invasive(fig, "ES", PlantOrigin::already_here, {.n_modules = 7});
  EXPECT_EQ(word.standing, Standing::keep_in);
  ASSERT_EQ(word.steps.size(), 4U);
  EXPECT_TRUE(has(word.steps[0], "Edge"));
  EXPECT_TRUE(has(word.steps[1], "April to July")) << word.steps[1];
  EXPECT_TRUE(has(word.steps[2], "every scrap roots")) << word.steps[2];
  // A third of seven, rounded up, and so three years.
  EXPECT_TRUE(has(word.steps[3], "7 modules")) << word.steps[3];
  EXPECT_TRUE(has(word.steps[3], "make 3 anew")) << word.steps[3];
  EXPECT_TRUE(has(word.steps[3], "August")) << word.steps[3];
  EXPECT_TRUE(has(word.steps[3], "in 3 years")) << word.steps[3];
  const InvasiveWord south = judge_invasive(fig, "ES", PlantOrigin::already_here,
                                            {.n_modules = 7, .hemisphere = catalogue::Hemisphere::south});
  EXPECT_TRUE(has(south.steps[1], "October to January")) << south.steps[1];
}

TEST(Invasive, WhatMustGoIsRemoved) {
  const catalogue::Catalogue all = shipped_catalogue();
  const catalogue::Plant& grass = *catalogue::find_plant(all, "Cenchrus setaceus");
  const InvasiveWord word = judge_invasive(grass, "GR", PlantOrigin::already_here, {.n_modules = 1});
  EXPECT_EQ(word.standing, Standing::remove);
  ASSERT_GE(word.steps.size(), 4U);
  EXPECT_TRUE(has(word.steps.front(), "authority"));
}

TEST(Invasive, FromTheWild) {
  const catalogue::Catalogue all = shipped_catalogue();
  const catalogue::Plant& fig = *catalogue::find_plant(all, "Carpobrotus edulis");
  const InvasiveWord forbidden = judge_invasive(fig, "ES", PlantOrigin::from_wild, {});
  EXPECT_EQ(forbidden.standing, Standing::refused);
  EXPECT_TRUE(has(forbidden.from_wild, "may not be taken")) << forbidden.from_wild;
  const InvasiveWord ask = judge_invasive(fig, "GR", PlantOrigin::from_wild, {});
  EXPECT_EQ(ask.standing, Standing::advised_against);
  EXPECT_TRUE(has(ask.from_wild, "ask the authority")) << ask.from_wild;
  EXPECT_TRUE(has(wild_rule(true), "joint"));
  EXPECT_FALSE(has(wild_rule(false), "reed"));
}

TEST(Invasive, ACountryThatNobodyLookedAtSaysSo) {
  const catalogue::Catalogue all = shipped_catalogue();
  EXPECT_TRUE(has(lists_of_country(all.plants, ""), "names no country"));
  const std::string poland = lists_of_country(all.plants, "PL");
  EXPECT_TRUE(has(poland, "No list of invasive plants of PL was looked at")) << poland;
  EXPECT_TRUE(has(poland, "European Union holds there too")) << poland;
  const std::string japan = lists_of_country(all.plants, "JP");
  EXPECT_TRUE(has(japan, "No list")) << japan;
  EXPECT_FALSE(has(japan, "European Union")) << japan;
  EXPECT_TRUE(has(lists_of_country(all.plants, "ES"), "all from memory"));
}

TEST(Food, EveryLayerAndTheRoofsWater) {
  design::Recipe recipe;
  design::RecipeLayer layer;
  layer.layer.material.name = "mix";
  layer.layer.material.near_food = catalogue::NearFood::yes;
  recipe.layers.push_back(layer);
  EXPECT_EQ(food_in(recipe).word, catalogue::NearFood::yes);
  EXPECT_TRUE(food_in(recipe).because.empty());
  layer.role = design::LayerRole::core;
  layer.layer.material.name = "old boards";
  layer.layer.material.near_food.reset();
  recipe.layers.push_back(layer);
  EXPECT_EQ(food_in(recipe).word, catalogue::NearFood::doubtful);
  EXPECT_TRUE(has(food_in(recipe).because.front(), "nobody said")) << food_in(recipe).because.front();
  layer.layer.material.near_food = catalogue::NearFood::no;
  recipe.layers.push_back(layer);
  EXPECT_EQ(food_in(recipe).word, catalogue::NearFood::no);
  design::Roof roof;
  design::Layer felt;
  felt.material.name = "bitumen felt";
  felt.material.family = catalogue::Family::bitumen;
  roof.deck.push_back(felt);
  EXPECT_EQ(food_from_roof_water(roof).word, catalogue::NearFood::doubtful);
  EXPECT_TRUE(has(food_from_roof_water(roof).because.front(), "poison against roots"));
}

}  // namespace
}  // namespace houseleek::planting
