// Which cautions apply: each condition met and not met.
#include "checks/cautions.hpp"

#include <fmt/format.h>
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
  return is_condition_met(valid_design(edited(small_design_text(), edits)), condition, tests::shipped_catalogue());
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

TEST(Cautions, ConditionsOfTheRoofsChecksTurnWithTheDesign) {
  const tests::Edit slab{"[[room]]\n",
                         "[roof.structure]\nkind = \"one_way_slab\"\nspans_along = \"x\"\nsupports_at_m = [0, 4]\n"
                         "[[room]]\n"};
  EXPECT_TRUE(is_met({}, "no_span_model"));
  EXPECT_FALSE(is_met({slab}, "no_span_model"));
  EXPECT_TRUE(is_met({{"[[room]]\n", "[roof.structure]\nkind = \"hollow_pots\"\n[[room]]\n"}}, "no_span_model"));
  EXPECT_TRUE(is_met({}, "upstand"));
  EXPECT_FALSE(is_met({{"finish = {", "parapet_height_mm = 0\nfinish = {"}}, "upstand"));
  EXPECT_TRUE(is_met({}, "not_shown_in_wind"));  // no gust of the place
  const auto with_wind = [](const char* basic) {
    return tests::Edit{"[rivals]", fmt::format("[wind]\nroof_height_m = 3\nterrain = \"town\"\n"
                                               "basic_wind_m_per_s = {}\n[rivals]",
                                               basic)};
  };
  const tests::Edit heavy{"thickness_mm = 40", "thickness_mm = 400"};
  EXPECT_TRUE(is_met({with_wind("30")}, "not_shown_in_wind"));
  const tests::Edit closed{"edges = \"open\"", "edges = \"closed\""};
  EXPECT_FALSE(is_met({with_wind("15"), heavy, closed}, "not_shown_in_wind"));
}

TEST(Cautions, ConditionsOfMaterialsTurnWithTheDesign) {
  const tests::Edit plastic_cover{"\"jute fabric\"", "\"HDPE shade cloth\""};
  EXPECT_TRUE(is_met({}, "heavy_module"));  // 40 mm of brick and 30 mm of wool, soaked
  EXPECT_FALSE(
      is_met({{"thickness_mm = 40", "thickness_mm = 3"}, {"thickness_mm = 30", "thickness_mm = 3"}}, "heavy_module"));
  EXPECT_TRUE(is_met({}, "mineral_fibres"));
  EXPECT_FALSE(is_met({{"\"horticultural mineral wool\"", "\"pine cones\""}}, "mineral_fibres"));
  EXPECT_TRUE(is_met({}, "dust"));
  EXPECT_FALSE(is_met(
      {{"\"horticultural mineral wool\"", "\"pine cones\""}, {"\"crushed brick\"", "\"expanded clay\""}, plastic_cover},
      "dust"));
  EXPECT_FALSE(is_met({}, "spores"));
  EXPECT_TRUE(is_met({{"\"crushed brick\"", "\"green compost\""}}, "spores"));
  EXPECT_FALSE(is_met({}, "foil"));
  EXPECT_TRUE(is_met({{"\"jute fabric\"", "\"LDPE film\""}}, "foil"));
  EXPECT_FALSE(is_met({}, "salty_finds"));
  EXPECT_TRUE(is_met({{"\"crushed brick\"", "\"coir pith\""}}, "salty_finds"));
  EXPECT_FALSE(is_met({}, "live_shoots"));
  EXPECT_TRUE(is_met({{"\"horticultural mineral wool\"", "\"reed\""}}, "live_shoots"));
  EXPECT_FALSE(is_met({}, "poisonous_mulch"));
  EXPECT_TRUE(is_met({{"\"horticultural mineral wool\"", "\"cocoa shells\""}}, "poisonous_mulch"));
  EXPECT_FALSE(is_met({}, "plastic_over_organic"));
  EXPECT_TRUE(is_met({{"\"crushed brick\"", "\"green compost\""}, plastic_cover}, "plastic_over_organic"));
  EXPECT_FALSE(is_met({plastic_cover}, "plastic_over_organic"));
  EXPECT_TRUE(is_met({}, "animal_gap"));
  EXPECT_FALSE(is_met({{"edges = \"open\"", "edges = \"closed\""}}, "animal_gap"));
}

TEST(Cautions, PlasticsThatSpoilEachOther) {
  const tests::Edit banner{"\"jute fabric\"", "\"reclaimed PVC banner\""};
  const tests::Edit foam{"\"horticultural mineral wool\"", "\"EPS box offcuts\""};
  const tests::Edit pvc_membrane{"\"bitumen felt\"", "\"PVC membrane\""};
  EXPECT_FALSE(is_met({}, "bitumen_meets_plasticised"));
  EXPECT_TRUE(is_met({banner}, "bitumen_meets_plasticised"));
  EXPECT_FALSE(is_met({banner, pvc_membrane}, "bitumen_meets_plasticised"));
  EXPECT_FALSE(is_met({}, "polystyrene_used"));
  EXPECT_TRUE(is_met({foam}, "polystyrene_used"));
  EXPECT_FALSE(is_met({foam}, "polystyrene_meets_plasticised"));
  EXPECT_TRUE(is_met({foam, pvc_membrane}, "polystyrene_meets_plasticised"));
  EXPECT_TRUE(is_met({foam, banner}, "polystyrene_meets_plasticised"));
}

TEST(Cautions, ConditionsOfPlantsTurnWithTheDesign) {
  const auto planted = [](const char* name) { return tests::Edit{"\"Sedum album\"", std::string("\"") + name + "\""}; };
  const auto in = [](const char* country) {
    return tests::Edit{"time_zone = ", std::string("country = \"") + country + "\"\ntime_zone = "};
  };
  EXPECT_FALSE(is_met({}, "poisonous_plant"));
  EXPECT_TRUE(is_met({planted("Aloe vera")}, "poisonous_plant"));
  EXPECT_FALSE(is_met({}, "irritating_plant"));
  EXPECT_TRUE(is_met({planted("Opuntia humifusa")}, "irritating_plant"));
  EXPECT_FALSE(is_met({}, "tree"));
  EXPECT_TRUE(is_met({planted("Ceratonia siliqua")}, "tree"));
  EXPECT_FALSE(is_met({planted("Carpobrotus edulis")}, "invasive_plant"));  // no country
  EXPECT_TRUE(is_met({planted("Carpobrotus edulis")}, "country_not_given"));
  EXPECT_FALSE(is_met({}, "country_not_given"));
  EXPECT_TRUE(is_met({planted("Carpobrotus edulis"), in("ES")}, "invasive_plant"));
  EXPECT_FALSE(is_met({planted("Carpobrotus edulis"), in("DE")}, "invasive_plant"));
  EXPECT_FALSE(is_met({planted("Carpobrotus edulis"), in("ES")}, "country_not_given"));
  EXPECT_TRUE(is_met({planted("Cenchrus setaceus"), in("DE")}, "invasive_plant"));  // the Union's list
  EXPECT_FALSE(is_met({planted("Cenchrus setaceus"), in("JP")}, "invasive_plant"));
  EXPECT_FALSE(is_met({}, "food_doubtful"));
  EXPECT_TRUE(is_met({planted("Lactuca sativa")}, "food_doubtful"));  // over bitumen felt
  const std::vector<tests::Edit> over_concrete = {planted("Lactuca sativa"), {"\"bitumen felt\"", "\"cement screed\""}};
  EXPECT_TRUE(is_met(over_concrete, "food_doubtful"));  // crushed brick of unknown make
  std::vector<tests::Edit> clean = over_concrete;
  clean.push_back({"\"crushed brick\"", "\"pumice\""});
  EXPECT_FALSE(is_met(clean, "food_doubtful"));
}

TEST(Cautions, BagsAndPotsCountToo) {
  const tests::Edit bag{
      "[[roof.outlet]]",
      "[[container]]\nname = \"bag\"\nat = [3.5, 2.2]\ndiameter_mm = 300\nmedium = \"peat-free potting mix\"\n"
      "fill_mm = 250\nempty_kg = 0.4\nplant_kg = 0.5\n[[roof.outlet]]"};
  EXPECT_FALSE(is_met({}, "containers"));
  EXPECT_TRUE(is_met({bag}, "containers"));
  EXPECT_FALSE(is_met({}, "spores"));
  EXPECT_TRUE(is_met({bag}, "spores"));
}

TEST(Cautions, EveryConditionOfTheCatalogueIsKnown) {
  const design::ValidDesign design = valid_design(small_design_text());
  const catalogue::Catalogue catalogue = tests::shipped_catalogue();
  for (const std::string_view condition : catalogue::caution_conditions) {
    EXPECT_NO_THROW((void)is_condition_met(design, condition, catalogue)) << condition;
  }
  EXPECT_THROW((void)is_condition_met(design, "full moon", catalogue), ContractViolation);
}

TEST(Cautions, AreFoundInTheOrderOfTheCatalogue) {
  std::vector<std::string> ids;
  for (const catalogue::Caution& caution :
       find_cautions(valid_design(small_design_text()), tests::shipped_catalogue())) {
    ids.push_back(caution.id);
  }
  const std::vector<std::string> expected = {"spans-not-looked-at",
                                             "edges-and-ladders",
                                             "membrane",
                                             "wind-may-lift",
                                             "dry-fuel",
                                             "water-weight",
                                             "barrels-and-mosquitoes",
                                             "fans-in-great-heat",
                                             "lifting",
                                             "wet-stacks",
                                             "electrics",
                                             "no-holes",
                                             "wire-tails",
                                             "feet",
                                             "fire-strips",
                                             "fibres",
                                             "dust",
                                             "nests"};
  EXPECT_EQ(ids, expected);
}

}  // namespace
}  // namespace houseleek::checks
