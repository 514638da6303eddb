// The deck's levels from falls, spot levels and puddles; hollows filled to where they spill.
#include "plan/levels.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <string>

#include "plan/flow_paths.hpp"
#include "support/small_design.hpp"

namespace houseleek::plan {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

/// The small house's roof (4 m by 3 m) with lines in front of the rooms.
std::string with_roof(const std::string& lines, const std::string& tables = "") {
  return edited(small_design_text(), {{"finish = { albedo = 0.2, emissivity = 0.9 }\n",
                                       "finish = { albedo = 0.2, emissivity = 0.9 }\n" + lines},
                                      {"[rivals]\n", tables + "[rivals]\n"}});
}

DeckLevels levels_of(const std::string& text, Unevenness unevenness = Unevenness::likely) {
  return make_deck_levels(valid_design(text), {.square_m = 0.25, .most_squares = 2000, .unevenness = unevenness});
}

double level_at(const DeckLevels& levels, double x_m, double y_m) {
  return levels.shape.level_m[static_cast<std::size_t>(square_at(levels.shape, {x_m, y_m}))];
}

TEST(DeckLevels, OneFallIsAPlane) {
  // 20 mm/m towards the south-east, plan turned by 15 degrees.
  const DeckLevels levels = levels_of(with_roof("fall_mm_per_m = 20\nfall_towards_deg = 150\nnorth_deg = 15\n"));
  EXPECT_EQ(levels.shape.columns, 16);
  EXPECT_EQ(levels.shape.rows, 12);
  const double down_x = std::sin(135.0 * M_PI / 180.0);
  const double down_y = std::cos(135.0 * M_PI / 180.0);
  for (int square = 0; square < 16 * 12; ++square) {
    const geometry::PointM p = middle_of(levels.shape, square);
    const geometry::PointM q = middle_of(levels.shape, 15);  // the lowest corner: right, bottom
    const double expected_m = -0.020 * (down_x * (p.x_m - q.x_m) + down_y * (p.y_m - q.y_m));
    EXPECT_NEAR(levels.shape.level_m[static_cast<std::size_t>(square)], expected_m, 1e-12);
  }
  EXPECT_EQ(levels.from, "one fall");
}

TEST(DeckLevels, NoFallIsLevelAndSaysSo) {
  const DeckLevels levels = levels_of(with_roof(""));
  for (const double level_m : levels.shape.level_m) EXPECT_EQ(level_m, 0.0);
  EXPECT_EQ(levels.from, "no fall known: taken as level");
}

TEST(DeckLevels, FallsToTheNearestOfTwoOutlets) {
  const DeckLevels levels =
      levels_of(with_roof("[[roof.outlet]]\nat = [0.25, 2.75]\n", "[drainage]\nfall_to_outlets_mm_per_m = 10\n"));
  // Outlets at (0.25, 2.75) and (3.8, 2.8): highest on the middle line's far end.
  const double near_first_m = level_at(levels, 1.0, 1.0);
  const double near_second_m = level_at(levels, 3.0, 1.0);
  const geometry::PointM p = middle_of(levels.shape, square_at(levels.shape, {1.0, 1.0}));
  const geometry::PointM q = middle_of(levels.shape, square_at(levels.shape, {3.0, 1.0}));
  EXPECT_NEAR(near_second_m - near_first_m,
              0.010 * (std::hypot(q.x_m - 3.8, q.y_m - 2.8) - std::hypot(p.x_m - 0.25, p.y_m - 2.75)), 1e-12);
}

const char* const four_spots =
    "[[drainage.level]]\nat = [0.125, 0.125]\nlevel_mm = 1040\n"
    "[[drainage.level]]\nat = [3.875, 0.125]\nlevel_mm = 1040\n"
    "[[drainage.level]]\nat = [0.125, 2.875]\nlevel_mm = 1012.5\n"
    "[[drainage.level]]\nat = [3.875, 2.875]\nlevel_mm = 1012.5\n";

TEST(DeckLevels, SpotLevelsAloneGiveThePlaneThroughThem) {
  const DeckLevels levels = levels_of(with_roof("", four_spots));
  EXPECT_NEAR(level_at(levels, 2.0, 0.1) - level_at(levels, 2.0, 2.9), 0.0275, 1e-12);
  EXPECT_NEAR(level_at(levels, 1.1, 1.4), level_at(levels, 3.1, 1.4), 1e-12);
  EXPECT_NEAR(levels.leave_one_out_mm, 0.0, 1e-9);
  EXPECT_EQ(levels.from, "the plane through the spot levels, 4 spot levels");
}

TEST(DeckLevels, SpotLevelsAreMetAndRoughenedByTheirError) {
  const std::string sunk = std::string(four_spots) + "[[drainage.level]]\nat = [2.125, 1.625]\nlevel_mm = 1005.25\n";
  const std::string text =
      with_roof("fall_mm_per_m = 10\nfall_towards_deg = 0\n", "[drainage]\nlevel_error_mm = 3\n" + sunk);
  // On the plane of 10 mm/m the corners agree with 1040 to 1012.5; the middle one should be 1025 and lies 19.75 lower.
  const DeckLevels likely = levels_of(text);
  const DeckLevels smooth = levels_of(text, Unevenness::smooth);
  const DeckLevels rough = levels_of(text, Unevenness::rough);
  const auto dip_mm = [](const DeckLevels& levels) {
    return 1000.0 * (level_at(levels, 0.1, 0.1) - level_at(levels, 2.1, 1.6));
  };
  EXPECT_NEAR(dip_mm(likely), 1040.0 - 1005.25, 1e-9);
  // Means taken out: the corners lie 3.95 above the fall, the middle 15.8 below.
  EXPECT_NEAR(dip_mm(rough), 1040.0 - 1005.25 + 6.0, 1e-9);
  EXPECT_NEAR(dip_mm(smooth), 1040.0 - 1005.25 - 6.0, 1e-9);
  EXPECT_GT(likely.leave_one_out_mm, 5.0);
  // Between spots no level is beyond theirs.
  for (int square = 0; square < 16 * 12; ++square) {
    const geometry::PointM p = middle_of(likely.shape, square);
    const double off_fall_m = likely.shape.level_m[static_cast<std::size_t>(square)] + 0.010 * p.y_m;
    const double corner_m = level_at(likely, 0.1, 0.1) + 0.010 * 0.125;
    EXPECT_LE(off_fall_m, corner_m + 1e-12);
    EXPECT_GE(off_fall_m, corner_m - 0.01975 - 1e-12);
  }
}

std::string round_puddle(double x_m, double y_m, double radius_m, double depth_mm) {
  std::string corners;
  for (int k = 0; k < 48; ++k) {
    const double angle = 2.0 * M_PI * k / 48;
    corners += (k > 0 ? ", [" : "[") + std::to_string(x_m + radius_m * std::cos(angle)) + ", " +
               std::to_string(y_m + radius_m * std::sin(angle)) + "]";
  }
  return "[[roof.hollow]]\noutline = [" + corners + "]\ndepth_mm = " + std::to_string(depth_mm) + "\n";
}

TEST(FilledDeck, APuddleStandsAsDrawn) {
  // Radius 1 m, 20 mm deep, on a fall: still water fills the outline to its lowest edge, half the depth in the mean.
  for (const double fall : {0.0, 12.0}) {
    const std::string text = with_roof("fall_mm_per_m = " + std::to_string(fall) + "\nfall_towards_deg = 0\n" +
                                       round_puddle(2.0, 1.5, 1.0, 20.0));
    const DeckLevels levels = make_deck_levels(
        valid_design(text), {.square_m = 0.05, .most_squares = 100000, .unevenness = Unevenness::likely});
    const std::vector<Spout> foot = {{square_at(levels.shape, {2.0, 2.99}), 0.0}};
    const std::vector<double> depth_m = standing_depth_m(levels.shape, fill_hollows(levels.shape, foot));
    double volume_m3 = 0.0;
    double deepest_m = 0.0;
    for (std::size_t k = 0; k < depth_m.size(); ++k) {
      volume_m3 += depth_m[k] * levels.shape.area_m2[k];
      deepest_m = std::max(deepest_m, depth_m[k]);
    }
    EXPECT_NEAR(deepest_m, 0.020, 1e-4) << fall;
    EXPECT_NEAR(volume_m3, 0.5 * 0.020 * M_PI, 0.01 * 0.01 * M_PI) << fall;  // a paraboloid; 1 % for squares
  }
}

TEST(FilledDeck, PuddleDepthCarriesTheErrorOfLevels) {
  const std::string text = with_roof("fall_mm_per_m = 12\nfall_towards_deg = 0\n" + round_puddle(2.0, 1.5, 1.0, 20.0),
                                     "[drainage]\nlevel_error_mm = 7\n");
  const auto deepest_mm = [&](Unevenness unevenness) {
    const DeckLevels levels = levels_of(text, unevenness);
    const std::vector<Spout> foot = {{square_at(levels.shape, {2.0, 2.99}), 0.0}};
    const std::vector<double> depth_m = standing_depth_m(levels.shape, fill_hollows(levels.shape, foot));
    return 1000.0 * *std::max_element(depth_m.begin(), depth_m.end());
  };
  const double likely_mm = deepest_mm(Unevenness::likely);
  EXPECT_NEAR(likely_mm, 20.0 * (1.0 - 0.03125), 0.05);  // no square's middle is the puddle's: 0.177 m off
  EXPECT_NEAR(deepest_mm(Unevenness::rough), likely_mm * 27.0 / 20.0, 1e-9);
  EXPECT_NEAR(deepest_mm(Unevenness::smooth), likely_mm * 13.0 / 20.0, 1e-9);
}

TEST(DeckLevels, AreasCloseAroundObstaclesAndCorners) {
  const std::string text = edited(small_design_text(), {{"outline = [[0, 0], [4, 0], [4, 3], [0, 3]]\nfinish",
                                                         "outline = [[0, 0], [4, 0], [4, 3], [1, 3], [0, 2]]\nfinish"},
                                                        {"outline = [[0, 0], [4, 0], [4, 3], [0, 3]]\nheight_m",
                                                         "outline = [[0, 0], [4, 0], [4, 1], [0, 1]]\nheight_m"},
                                                        {"[[roof.outlet]]\n",
                                                         "[[roof.obstacle]]\nname = \"tank\"\noutline = [[2.7, 1.0], "
                                                         "[3.5, 1.0], [3.5, 1.8], [2.7, 1.8]]\n[[roof.outlet]]\n"}});
  const DeckLevels levels = levels_of(text);
  const double area_m2 = std::accumulate(levels.shape.area_m2.begin(), levels.shape.area_m2.end(), 0.0);
  const double shed_m2 = std::accumulate(levels.shed_m2.begin(), levels.shed_m2.end(), 0.0);
  EXPECT_NEAR(area_m2 + shed_m2, 11.5, 1e-9);
  EXPECT_NEAR(shed_m2, 0.64, 0.2);
  EXPECT_EQ(levels.shape.area_m2[static_cast<std::size_t>(11 * 16)], 0.0);  // beyond the cut corner
  for (std::size_t k = 0; k < levels.shed_m2.size(); ++k) {
    if (levels.shape.area_m2[k] == 0.0) {
      EXPECT_EQ(levels.shed_m2[k], 0.0);
    }
  }
}

TEST(FilledDeck, TwoOutletsShareAPlane) {
  const DeckLevels levels = levels_of(with_roof("fall_mm_per_m = 12\nfall_towards_deg = 0\n"));
  const std::vector<Spout> spouts = {{square_at(levels.shape, {0.6, 2.9}), 0.0},
                                     {square_at(levels.shape, {3.4, 2.9}), 0.0}};
  const FilledDeck filled = fill_hollows(levels.shape, spouts);
  const std::vector<double> shares_m2 = catchments_m2(levels.shape, filled, levels.shed_m2, 2);
  EXPECT_NEAR(shares_m2[0] + shares_m2[1], 12.0, 1e-9);
  EXPECT_NEAR(shares_m2[0], 6.0, 0.8);
  // Every square leads to its spout, never upwards.
  for (int square = 0; square < 16 * 12; ++square) {
    int now = square;
    int n_steps = 0;
    while (filled.flows_to[static_cast<std::size_t>(now)] != now) {
      const int next = filled.flows_to[static_cast<std::size_t>(now)];
      EXPECT_LE(filled.level_m[static_cast<std::size_t>(next)], filled.level_m[static_cast<std::size_t>(now)]);
      now = next;
      ASSERT_LT(++n_steps, 200);
    }
    EXPECT_EQ(now, spouts[static_cast<std::size_t>(filled.spout[static_cast<std::size_t>(square)])].square);
  }
}

TEST(FilledDeck, ALidIsTheLowestOfAllWaysOut) {
  // 1 x 5: a bowl between two rims, a spout at either end.
  DeckShape deck;
  deck.columns = 5;
  deck.rows = 1;
  deck.width_m = deck.height_m = 1.0;
  deck.area_m2.assign(5, 1.0);
  deck.level_m = {0.00, 0.06, 0.01, 0.04, 0.02};
  deck.sill_x_m = {0.06, 0.06, 0.04, 0.05};  // the last face is a threshold of its own
  const FilledDeck filled = fill_hollows(deck, std::vector<Spout>{{0, 0.0}, {4, 0.03}});
  EXPECT_EQ(filled.level_m, (std::vector<double>{0.00, 0.06, 0.05, 0.05, 0.03}));
  EXPECT_EQ(filled.spout, (std::vector<int>{0, 0, 1, 1, 1}));
  deck.sill_x_m[3] = std::numeric_limits<double>::infinity();
  EXPECT_EQ(fill_hollows(deck, std::vector<Spout>{{0, 0.0}}).spout, (std::vector<int>{0, 0, 0, 0, -1}));
}

}  // namespace
}  // namespace houseleek::plan
