// Carbon of modules against sums by hand.
#include "money/carbon.hpp"

#include <gtest/gtest.h>

#include "support/small_design.hpp"

namespace houseleek::money {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

CarbonLook likely_carbon(const design::ValidDesign& design, const YearOfUse& use) {
  const Terms terms = terms_of(design);
  const FigureOf figure = likely_of;
  RenewalTable renewals(terms, figure);
  return carbon_of(modules_of(design), use, terms, figure, renewals);
}

const catalogue::Material& layer_of(const design::ValidDesign& design, std::size_t layer) {
  return design->recipes[0].layers[layer].layer.material;
}

double kg_per_m2(const catalogue::Material& material, double thickness_m) {
  return thickness_m * material.density_kg_per_m3.likely * material.carbon_kg_per_kg->likely;
}

TEST(Carbon, MadeIsMassTimesTheCataloguesFigure) {
  const design::ValidDesign design = valid_design(small_design_text());
  // Four modules of 1 m2: 40 mm of brick, 30 mm of wool, 2 mm of jute.
  const double expected = 4.0 * (kg_per_m2(layer_of(design, 0), 0.04) + kg_per_m2(layer_of(design, 1), 0.03) +
                                 kg_per_m2(design->recipes[0].cover->material, 0.002));
  const CarbonLook look = likely_carbon(design, {});
  EXPECT_NEAR(look.made_kg, expected, 1e-9);
  EXPECT_GT(look.renewed_kg_per_year, 0.0);
  EXPECT_EQ(look.saved_kg_per_year, 0.0) << "nothing was bought before";
  EXPECT_FALSE(look.years);
  EXPECT_NEAR(look.left_kg, -look.made_kg - 20.0 * look.renewed_kg_per_year, 1e-9);
  EXPECT_EQ(not_counted_in_carbon(modules_of(design)),
            (std::vector<std::string>{"plant cutting", "spacer set", "ties"}));
}

TEST(Carbon, SavedIsEnergyNoLongerBoughtTimesItsFigure) {
  const design::ValidDesign design = valid_design(edited(small_design_text(), {{"[rivals]", R"([bills]
cooling_kwh_per_year = 1000
heating_kwh_per_year = 3000
[carbon]
electricity_kg_per_kwh = 0.5
heating_kg_per_kwh = 0.2
[rivals])"}}));
  YearOfUse use;
  use.bare.remove_kwh[6] = 100.0;
  use.covered.remove_kwh[6] = 40.0;
  use.bare.add_kwh[0] = 100.0;
  use.covered.add_kwh[0] = 110.0;
  // 600 kWh of electricity less, 300 kWh of heat more.
  const CarbonLook look = likely_carbon(design, use);
  EXPECT_NEAR(look.saved_kg_per_year, 600 * 0.5 - 300 * 0.2, 1e-9);
  ASSERT_TRUE(look.years);
  EXPECT_GT(*look.years, 0.0);
  EXPECT_LT(*look.years, 1.0) << "a few modules of brick and wool against a ton of kWh";
}

}  // namespace
}  // namespace houseleek::money
