// Squares of the roof and free places: by hand, and every place checked against what it must keep off.
#include "plan/squares.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "base/contract.hpp"
#include "support/small_design.hpp"

namespace houseleek::plan {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

std::string l_shaped() {
  return edited(small_design_text(), {{"outline = [[0, 0], [4, 0], [4, 3], [0, 3]]\nfinish",
                                       "outline = [[0, 0], [6, 0], [6, 3], [4, 3], [4, 5], [0, 5]]\nfinish"},
                                      {"[[room]]\n", R"([[roof.obstacle]]
name = "tank"
outline = [[4.6, 0.4], [5.6, 0.4], [5.1, 1.4]]
[[room]]
)"}});
}

TEST(Squares, CoverTheRoofExactly) {
  const design::ValidDesign design = valid_design(l_shaped());
  for (const double side_m : {0.3, 0.5, 1.0, 7.0}) {
    const Squares squares = cut_squares(design->roof, side_m);
    const double roof_m2 = std::accumulate(squares.roof_m2.begin(), squares.roof_m2.end(), 0.0);
    EXPECT_NEAR(roof_m2, 26.0, 1e-9) << side_m;
    EXPECT_NEAR(std::accumulate(squares.obstacle_m2.begin(), squares.obstacle_m2.end(), 0.0), 0.5, 1e-9) << side_m;
  }
  EXPECT_EQ(cut_squares(design->roof, 1.0).left_m.size(), 26U);
  EXPECT_EQ(cut_squares(design->roof, 7.0).left_m.size(), 1U);
}

TEST(FreePlacesOfARoof, KeepOffEverything) {
  const design::ValidDesign design = valid_design(l_shaped());
  const std::vector<geometry::Outline> kept_free = {geometry::outline_from_rectangle({0, 4.5, 4, 5})};
  const FreePlaces wanted{.width_m = 0.6, .height_m = 0.4, .step_m = 0.1, .gap_m = 0.05};
  const auto places = find_free_places(design, wanted, kept_free);
  ASSERT_GT(places.size(), 100U);
  for (const geometry::RectangleM& place : places) {
    EXPECT_TRUE(geometry::is_inside(design->roof.outline, place));
    EXPECT_FALSE(geometry::is_overlapping(design->roof.obstacles[0].outline, place));
    EXPECT_FALSE(geometry::is_overlapping(kept_free[0], place));
    for (const design::ModulePlace& module : design->modules) {
      EXPECT_FALSE(geometry::is_overlapping(module.rectangle, place));
    }
  }
}

TEST(FreePlacesOfARoof, CountByHand) {
  // An empty roof of 4 x 3 m, an outlet of 80 mm at 3.8, 2.8: metre squares but the one with the outlet.
  const design::ValidDesign design = valid_design(edited(
      small_design_text(),
      {{"[[patch]]\nrecipe = \"thin stonecrop\"\ncolumns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50\n", ""}}));
  EXPECT_EQ(find_free_places(design, {.width_m = 1, .height_m = 1, .step_m = 1}, {}).size(), 11U);
  EXPECT_EQ(find_free_places(design, {.width_m = 1, .height_m = 1, .step_m = 0.5}, {}).size(), 7U * 5U - 1U);
  EXPECT_EQ(find_free_places(design, {.width_m = 5, .height_m = 1, .step_m = 0.5}, {}).size(), 0U);
  EXPECT_THROW((void)find_free_places(design, {.width_m = 1, .height_m = 1, .step_m = 0}, {}), ContractViolation);
}

}  // namespace
}  // namespace houseleek::plan
