// Outlines: areas, crossings, insides; against hand sums and against counting points.
#include "geometry/outline.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace houseleek::geometry {
namespace {

const Outline square{{0, 0}, {4, 0}, {4, 4}, {0, 4}};
const Outline ell{{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}};  // L shape, 12 m2
const Outline ell_clockwise(ell.rbegin(), ell.rend());

TEST(Outline, AreaEitherWayRound) {
  EXPECT_DOUBLE_EQ(area_m2(ell), 12.0);
  EXPECT_DOUBLE_EQ(area_m2(ell_clockwise), 12.0);
  const Outline far_off{{5000, 5000}, {5001, 5000}, {5001, 5001}, {5000, 5001}};
  EXPECT_DOUBLE_EQ(area_m2(far_off), 1.0);
}

TEST(Outline, FindsCrossings) {
  EXPECT_FALSE(find_crossing(square));
  EXPECT_FALSE(find_crossing(ell));
  EXPECT_EQ(find_crossing(Outline{{0, 0}, {4, 4}, {4, 0}, {0, 4}}), (std::pair{0, 2}));  // bow tie
  EXPECT_TRUE(find_crossing(Outline{{0, 0}, {4, 0}, {2, 0}, {2, 3}}));                   // folds back
  EXPECT_TRUE(find_crossing(Outline{{0, 0}, {4, 0}, {4, 0}, {0, 4}}));                   // a corner twice
  EXPECT_TRUE(find_crossing(Outline{{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}}));           // touches its own side
  EXPECT_TRUE(find_crossing(Outline{{0, 0}, {2, 0}, {4, 0}}));                           // no area
  EXPECT_FALSE(find_crossing(Outline{{0, 0}, {4, 0}, {4, 4}, {2, 0.001}, {0, 4}}));      // 1 mm clear
}

TEST(Outline, ContainsBorderAndInside) {
  EXPECT_TRUE(contains(ell, {1, 3}));
  EXPECT_FALSE(contains(ell, {3, 3}));
  EXPECT_TRUE(contains(ell, {2, 3}));  // on the border
  EXPECT_TRUE(contains(ell, {2, 2}));  // the inner corner
  EXPECT_TRUE(contains(ell_clockwise, {1, 3}));
  EXPECT_FALSE(contains(ell, {-0.001, 1}));
}

TEST(Outline, RectanglesInsideAndOverlapping) {
  EXPECT_TRUE(is_inside(ell, RectangleM{0, 0, 4, 2}));       // flush with three sides
  EXPECT_FALSE(is_inside(ell, RectangleM{0, 0, 4, 2.001}));  // 1 mm out
  EXPECT_FALSE(is_inside(ell, RectangleM{1, 1, 3, 3}));      // corner out
  EXPECT_NEAR(overlap_area_m2(ell, RectangleM{1, 1, 3, 3}), 3.0, 1e-12);
  EXPECT_FALSE(is_overlapping(ell, RectangleM{2, 2, 4, 4}));  // fills the notch, touches only
  EXPECT_TRUE(is_overlapping(RectangleM{0, 0, 1, 1}, RectangleM{0.99, 0.99, 2, 2}));
  EXPECT_FALSE(is_overlapping(RectangleM{0, 0, 1, 1}, RectangleM{1, 0, 2, 1}));
}

TEST(Outline, OverlapIsSymmetricAndSelfOverlapIsArea) {
  const Outline tee{{1, 1}, {5, 1}, {5, 3}, {3.5, 3}, {3.5, 6}, {2.5, 6}, {2.5, 3}, {1, 3}};
  EXPECT_NEAR(overlap_area_m2(ell, tee), overlap_area_m2(tee, ell_clockwise), 1e-12);
  EXPECT_NEAR(overlap_area_m2(tee, tee), area_m2(tee), 1e-12);
  EXPECT_TRUE(is_inside(tee, tee));
  // By hand: in the ell and the tee lie x 1..4, y 1..2 (3 m2) and x 1..2, y 2..3 (1 m2).
  EXPECT_NEAR(overlap_area_m2(ell, tee), 4.0, 1e-12);
}

TEST(Outline, OverlapAgreesWithCountingPoints) {
  std::mt19937_64 random(7);
  const auto unit = [&random] { return static_cast<double>(random() >> 11) * 0x1p-53; };
  for (int trial = 0; trial < 20; ++trial) {
    // A star around a centre: simple, seldom convex.
    const auto star = [&unit](PointM centre) {
      Outline outline;
      for (int i = 0; i < 9; ++i) {
        const double angle = 2.0 * 3.14159265358979 * (i + 0.3 * unit()) / 9.0;
        const double radius_m = 0.5 + 2.0 * unit();
        outline.push_back({centre.x_m + radius_m * std::cos(angle), centre.y_m + radius_m * std::sin(angle)});
      }
      return outline;
    };
    const Outline a = star({0, 0});
    const Outline b = star({1, 0.5});
    ASSERT_FALSE(find_crossing(a));
    int n_in = 0;
    constexpr int n_a_side = 150;
    for (int i = 0; i < n_a_side; ++i) {
      for (int j = 0; j < n_a_side; ++j) {
        const PointM point{-3.0 + 6.0 * (i + 0.5) / n_a_side, -3.0 + 6.0 * (j + 0.5) / n_a_side};
        n_in += contains(a, point) && contains(b, point) ? 1 : 0;
      }
    }
    const double counted_m2 = 36.0 * n_in / (n_a_side * n_a_side);
    // Border squares of 0.04 m: 16 m of border times half a square's side, if all fell one way, is 0.3; usual 0.03.
    EXPECT_NEAR(overlap_area_m2(a, b), counted_m2, 0.1) << trial;
  }
}

}  // namespace
}  // namespace houseleek::geometry
