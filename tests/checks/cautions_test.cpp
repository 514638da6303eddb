// Which cautions apply: each condition met and not met.
#include "checks/cautions.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "support/catalogue_files.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

bool is_met(const std::vector<tests::Edit>& edits, std::string_view condition) {
  return is_condition_met(valid_design(edited(small_design_text(), edits)), condition);
}

TEST(Cautions, EachConditionTurnsWithTheDesign) {
  EXPECT_TRUE(is_met({}, "always"));
  EXPECT_FALSE(is_met({}, "no_allowable_load"));
  EXPECT_TRUE(is_met({{"when = 2024-03-01\n", ""}}, "no_allowable_load"));
  EXPECT_TRUE(is_met({}, "raised_modules"));
  EXPECT_FALSE(is_met({{"placed = \"raised\"", "placed = \"flat\""}}, "raised_modules"));
  EXPECT_FALSE(is_met({}, "timber_deck"));
  EXPECT_TRUE(is_met({{"\"reinforced concrete\"", "\"softwood\""}}, "timber_deck"));
  EXPECT_TRUE(is_met({}, "organic_medium"));  // jute
  EXPECT_FALSE(is_met({{"\"jute fabric\"", "\"HDPE shade cloth\""}}, "organic_medium"));
  EXPECT_TRUE(is_met({{"\"jute fabric\"", "\"HDPE shade cloth\""}, {"\"crushed brick\"", "\"green compost\""}},
                     "organic_medium"));
  EXPECT_FALSE(is_met({}, "raised_net"));
  EXPECT_TRUE(
      is_met({{"[recipe.spacer]", "[recipe.net]\nmaterial = \"HDPE shade cloth\"\nheight_mm = 300\n[recipe.spacer]"}},
             "raised_net"));
  EXPECT_TRUE(is_met({}, "watered"));
  EXPECT_FALSE(
      is_met({{"[recipe.watering]\nwhen_store_below_frac = 0.6\nlitres_per_module = 6\nhour = 7\n", ""}}, "watered"));
  EXPECT_TRUE(is_met({}, "fan"));
  EXPECT_FALSE(is_met({{"fan = { air_speed_m_per_s = 0.9, power_w = 45 }\n", ""}}, "fan"));
  EXPECT_FALSE(is_met({}, "hollow"));
  EXPECT_TRUE(is_met({{"[[roof.outlet]]",
                       "[[roof.hollow]]\noutline = [[3, 1], [3.5, 1], [3.5, 1.5], [3, 1.5]]\n"
                       "depth_mm = 10\n[[roof.outlet]]"}},
                     "hollow"));
}

TEST(Cautions, EveryConditionOfTheCatalogueIsKnown) {
  const design::ValidDesign design = valid_design(small_design_text());
  for (const std::string_view condition : catalogue::caution_conditions) {
    EXPECT_NO_THROW((void)is_condition_met(design, condition)) << condition;
  }
  EXPECT_THROW((void)is_condition_met(design, "full moon"), ContractViolation);
}

TEST(Cautions, AreFoundInTheOrderOfTheCatalogue) {
  std::vector<std::string> ids;
  for (const catalogue::Caution& caution :
       find_cautions(valid_design(small_design_text()), tests::shipped_catalogue())) {
    ids.push_back(caution.id);
  }
  const std::vector<std::string> expected = {
      "edges-and-ladders", "membrane", "wind-not-checked", "dry-fuel", "barrels-and-mosquitoes", "fans-in-great-heat"};
  EXPECT_EQ(ids, expected);
}

}  // namespace
}  // namespace houseleek::checks
