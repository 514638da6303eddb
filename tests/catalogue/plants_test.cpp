// What follows from a plant's row: months south of the equator, lists of the country and of the Union, poison.
#include <gtest/gtest.h>

#include <algorithm>

#include "base/contract.hpp"
#include "catalogue/catalogue.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::catalogue {
namespace {

using tests::shipped_catalogue;

TEST(Plants, BloomHalfAYearLaterInTheSouth) {
  Plant plant;
  plant.bloom_first_month = 6;
  plant.bloom_last_month = 8;
  for (int month = 1; month <= 12; ++month) {
    EXPECT_EQ(blooms_in(plant, month, Hemisphere::north), month >= 6 && month <= 8) << month;
    EXPECT_EQ(blooms_in(plant, month, Hemisphere::south), month == 12 || month <= 2) << month;
  }
}

TEST(Plants, BloomOverTheTurnOfTheYear) {
  Plant plant;
  plant.bloom_first_month = 12;
  plant.bloom_last_month = 2;
  for (int month = 1; month <= 12; ++month) {
    EXPECT_EQ(blooms_in(plant, month, Hemisphere::north), month == 12 || month <= 2) << month;
    EXPECT_EQ(blooms_in(plant, month, Hemisphere::south), month >= 6 && month <= 8) << month;
  }
}

TEST(Plants, WithoutMonthsNothingBlooms) {
  const Plant plant;
  EXPECT_FALSE(blooms_in(plant, 5, Hemisphere::north));
  EXPECT_THROW((void)blooms_in(plant, 13, Hemisphere::north), ContractViolation);
  EXPECT_THROW((void)blooms_in(plant, 0, Hemisphere::north), ContractViolation);
}

TEST(Plants, ListsOfTheCountryAndOfTheUnion) {
  const Catalogue catalogue = shipped_catalogue();
  const Plant& fountain_grass = *find_plant(catalogue, "Cenchrus setaceus");
  EXPECT_EQ(invasive_listings(fountain_grass, "ES").size(), 2U);  // its own and the Union's
  EXPECT_EQ(invasive_listings(fountain_grass, "DE").size(), 1U);
  EXPECT_EQ(invasive_listings(fountain_grass, "CH").size(), 0U);
  const InvasiveListing union_list = invasive_listings(fountain_grass, "DE").front();
  EXPECT_EQ(union_list.country, "EU");
  EXPECT_EQ(union_list.new_plant, NewPlant::refused);
  EXPECT_EQ(union_list.already_here, AlreadyHere::remove);
  EXPECT_EQ(union_list.from_wild, FromWild::forbidden);
  EXPECT_NE(union_list.list.find("1143/2014"), std::string::npos);

  const Plant& sour_fig = *find_plant(catalogue, "Carpobrotus edulis");
  const InvasiveListing spain = invasive_listings(sour_fig, "ES").front();
  EXPECT_EQ(spain.new_plant, NewPlant::refused);
  EXPECT_EQ(spain.already_here, AlreadyHere::keep_in);
  EXPECT_NE(spain.list.find("630/2013"), std::string::npos);
  EXPECT_TRUE(invasive_listings(sour_fig, "DE").empty());
  EXPECT_TRUE(invasive_listings(sour_fig, "").empty());
  EXPECT_TRUE(invasive_listings(*find_plant(catalogue, "Sedum album"), "ES").empty());
}

// The eating kinds count; sap on the skin and spines do not.
TEST(Plants, PoisonIsOfWhatIsEaten) {
  Plant plant;
  EXPECT_FALSE(is_poisonous(plant));
  plant.hazards = {Hazard::spines, Hazard::skin};
  EXPECT_FALSE(is_poisonous(plant));
  plant.hazards.push_back(Hazard::poison_cats);
  EXPECT_TRUE(is_poisonous(plant));
  EXPECT_TRUE(is_poisonous(*find_plant(shipped_catalogue(), "myrtle spurge")));
}

// The rows that lists of vets name most often; the marks must not get lost in an edit.
TEST(Plants, KnownPoisonsAreMarked) {
  const Catalogue catalogue = shipped_catalogue();
  for (const char* name : {"Aloe vera", "Crassula ovata", "Tulipa tarda", "Allium cepa", "Allium schoenoprasum",
                           "Origanum vulgare", "Solanum lycopersicum", "Euphorbia myrsinites"}) {
    const Plant* plant = find_plant(catalogue, name);
    ASSERT_NE(plant, nullptr) << name;
    EXPECT_TRUE(is_poisonous(*plant)) << name;
  }
}

TEST(Plants, TreesHaveADateToLeave) {
  int n_trees = 0;
  for (const Plant& one : shipped_catalogue().plants) {
    EXPECT_EQ(one.group == "tree", one.leave_roof_after_years.has_value()) << one.name;
    n_trees += one.group == "tree" ? 1 : 0;
  }
  EXPECT_GE(n_trees, 5);
}

TEST(Plants, DepthForWarningsIsTheLikelyOne) {
  for (const Plant& one : shipped_catalogue().plants) {
    ASSERT_TRUE(one.medium_depth_mm) << one.name;
    EXPECT_EQ(one.least_depth_mm, one.medium_depth_mm->likely) << one.name;
  }
}

// Row by row: figures that do not fit each other or the plant's kind are slips of the pen.
TEST(Plants, RowsHangTogether) {
  const Catalogue catalogue = shipped_catalogue();
  EXPECT_GE(catalogue.plants.size(), 120U);
  for (const Plant& one : catalogue.plants) {
    SCOPED_TRACE(one.name);
    ASSERT_TRUE(one.medium_depth_mm && one.width_mm && one.lowest_temperature_c && one.dry_spell_days);
    ASSERT_TRUE(one.salt_spray && one.wind && one.lifespan && one.carbon_way);
    for (const Spread* figure : {&*one.medium_depth_mm, &*one.width_mm, &*one.lowest_temperature_c,
                                 &*one.dry_spell_days, &one.foliage.height_mm}) {
      EXPECT_LT(figure->low, figure->high);
      EXPECT_FALSE(figure->source.empty());
    }
    const bool is_of_season = one.lifespan == Lifespan::season;
    // What lives for years somewhere lives through its frost or grows where there is none.
    const bool is_frost_free =
        std::find(one.climates.begin(), one.climates.end(), Climate::frost_free) != one.climates.end();
    const bool is_cold = std::find(one.climates.begin(), one.climates.end(), Climate::cold) != one.climates.end();
    if (!is_of_season && is_cold) {
      EXPECT_LE(one.lowest_temperature_c->likely, -20.0);
    }
    if (!is_of_season && is_frost_free) {
      EXPECT_GE(one.lowest_temperature_c->likely, -10.0);
    }
    // Plants without water of their own, on a few days of store.
    if (one.group == "vegetable") {
      EXPECT_LE(one.dry_spell_days->likely, 7.0);
    }
    if (one.group == "succulent") {
      EXPECT_GE(one.dry_spell_days->likely, 14.0);
    }
    if (one.group == "tree") {
      EXPECT_GE(one.medium_depth_mm->likely, 300.0);
    }
    if (one.group == "vegetable") {
      EXPECT_GE(one.medium_depth_mm->likely, 100.0);
    }
    if (one.group == "vegetable") {
      EXPECT_FALSE(one.eaten.empty());
    }
    if (one.group == "succulent") {
      EXPECT_NE(*one.carbon_way, CarbonWay::c3);
    }
    if (one.group == "tree" || one.group == "shrub") {
      EXPECT_FALSE(is_of_season);
    }
    // Nobody visits a plant that does not bloom; one that feeds bees well has months.
    if (one.bee_worth >= 2) {
      EXPECT_GT(one.bloom_first_month, 0);
    }
    EXPECT_EQ(one.bloom_first_month == 0, one.bloom_last_month == 0);
    for (const RaisedFrom way : one.raised_from) {
      EXPECT_NE(find_raising(catalogue.raising, way, one.group), nullptr) << text_from_way(way);
    }
    for (const InvasiveListing& listing : one.invasive) {
      const bool is_refused = listing.new_plant == NewPlant::refused;
      EXPECT_EQ(is_refused, listing.from_wild == FromWild::forbidden) << listing.country;
      if (listing.already_here == AlreadyHere::remove) {
        EXPECT_TRUE(is_refused) << listing.country;
      }
    }
  }
}

// The job names them.
TEST(Plants, CarobPineStrawberryAndCommonVegetablesAreThere) {
  const Catalogue catalogue = shipped_catalogue();
  for (const char* name : {"carob", "stone pine", "strawberry", "tomato", "pepper", "lettuce", "green bean", "onion",
                           "garlic", "courgette", "cucumber", "spinach", "radish", "carrot", "potato", "basil"}) {
    EXPECT_NE(find_plant(catalogue, name), nullptr) << name;
  }
}

}  // namespace
}  // namespace houseleek::catalogue
