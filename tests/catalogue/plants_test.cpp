// What follows from a plant's row: months south of the equator, lists of the country and of the Union, poison.
#include <gtest/gtest.h>

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

}  // namespace
}  // namespace houseleek::catalogue
