// What must hold of rain on any roof: random designs, under a storm.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>

#include "checks/drainage.hpp"
#include "property/random_designs.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {
namespace {

using checks::DrainageCase;
using checks::DrainageKind;

constexpr const char* storms =
    "\n[design_rain]\nsource = \"invented\"\n"
    "[[design_rain.intensity]]\nreturn_years = 10\nduration_min = 5\nintensity_mm_per_h = 150\n"
    "[[design_rain.intensity]]\nreturn_years = 10\nduration_min = 30\nintensity_mm_per_h = 70\n";

TEST(DrainageOfRandomDesigns, WaterIsAllAccountedForAndEveryAnswerIsANumber) {
  const catalogue::Catalogue catalogue = shipped_catalogue();
  checks::DrainageOptions options;
  options.levels.most_squares = 120;
  int n_with_outlets = 0;
  for (std::uint32_t number = 0; number < 20; ++number) {
    const std::string text = random_design_text(512, number, catalogue) + storms;
    const Result<design::ValidDesign> without = design::read_design(text, "random.toml", catalogue);
    ASSERT_TRUE(without) << number;
    // An outlet in the roof's first corner, unless a module lies there.
    const geometry::PointM corner = without.value()->roof.outline.front();
    const Result<design::ValidDesign> with = design::read_design(
        text + fmt::format("\n[[roof.outlet]]\nat = [{}, {}]\ndiameter_mm = 90\n", corner.x_m, corner.y_m),
        "random.toml", catalogue);
    const design::ValidDesign& design = with ? with.value() : without.value();
    if (!design->roof.outlets.empty()) ++n_with_outlets;
    const checks::DrainageCheck check = checks::check_drainage(design, options);
    for (const DrainageCase& one : check.cases) {
      for (const results::Interval& range :
           {one.max_depth_mm, one.water_kn, one.heaviest_kn_per_m2, one.minutes_to_drain}) {
        EXPECT_TRUE(std::isfinite(range.high)) << number << " " << one.name;
        EXPECT_LE(0.0, range.low) << number << " " << one.name;
        EXPECT_LE(range.low, range.likely) << number << " " << one.name;
        EXPECT_LE(range.likely, range.high) << number << " " << one.name;
      }
      EXPECT_FALSE(one.statement.empty());
    }
    const checks::DrainageDeck deck = checks::make_drainage_deck(design, options.levels, checks::DrainageEnd::hard);
    checks::RunOff rain;
    rain.columns_mm_per_min = {{0.5, 3.0, 0.0, 1.0, 0.0}};
    double area_m2 = 0.0;
    for (const double square_m2 : deck.squares.deck.area_m2) {
      rain.column_of_square.push_back(square_m2 > 0.0 ? 0 : -1);
      area_m2 += square_m2;
    }
    const checks::Routed routed = checks::route_runoff(deck.squares, rain, {.step_s = 20.0, .minutes_after = 10});
    EXPECT_NEAR(routed.arrived_m3, 0.0045 * area_m2, 1e-12 * area_m2) << number;
    EXPECT_NEAR(routed.stored_m3 + routed.left_m3, routed.arrived_m3, 1e-12 * routed.arrived_m3) << number;
    EXPECT_LE(routed.worst_residual_frac, 1e-12) << number;
    EXPECT_LE(routed.worst_limit, 1e-6) << number;
  }
  EXPECT_GE(n_with_outlets, 15);
}

}  // namespace
}  // namespace houseleek::tests
