// Set operations and distances: cases by hand, and random outlines against a throw of points.
#include "geometry/region.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "geometry/distance.hpp"

namespace houseleek::geometry {
namespace {

Outline box(double left, double bottom, double right, double top) {
  return outline_from_rectangle({left, bottom, right, top});
}

TEST(Region, ByHand) {
  const Outline roof = box(0, 0, 10, 8);
  const std::vector<Outline> taken = {box(2, 2, 4, 4), box(3, 3, 5, 5), box(9, -1, 11, 9)};
  const Region left = region_without(roof, taken);
  EXPECT_NEAR(area_m2(left), 80.0 - 7.0 - 8.0, 1e-9);
  ASSERT_EQ(left.parts.size(), 1U);
  EXPECT_EQ(left.parts[0].holes.size(), 1U);
  EXPECT_NEAR(area_m2(region_of_all(taken)), 7.0 + 20.0, 1e-9);
  EXPECT_NEAR(overlap_area_m2(left, box(0, 0, 5, 5)), 25.0 - 7.0, 1e-9);
}

TEST(Region, CutInTwoAndAllGone) {
  const std::vector<Outline> across = {box(4, -1, 5, 9)};
  EXPECT_EQ(region_without(box(0, 0, 10, 8), across).parts.size(), 2U);
  const std::vector<Outline> all = {box(-1, -1, 11, 9)};
  EXPECT_TRUE(region_without(box(0, 0, 10, 8), all).parts.empty());
  EXPECT_NEAR(area_m2(region_without(box(0, 0, 10, 8), {})), 80.0, 1e-12);
}

TEST(Region, EitherSenseOfCorners) {
  Outline turned = box(1, 1, 3, 3);
  std::reverse(turned.begin(), turned.end());
  const std::vector<Outline> one = {turned};
  Outline roof = box(0, 0, 4, 4);
  std::reverse(roof.begin(), roof.end());
  EXPECT_NEAR(area_m2(region_without(roof, one)), 12.0, 1e-12);
}

/// A star round a point: simple for any radii.
Outline star(std::mt19937_64& random, double x_m, double y_m, double least_m, double most_m, int n_corners) {
  Outline outline;
  for (int i = 0; i < n_corners; ++i) {
    const double angle = 2.0 * std::numbers::pi * i / n_corners;
    const double r = least_m + (most_m - least_m) * static_cast<double>(random() >> 11) * 0x1p-53;
    outline.push_back({x_m + r * std::cos(angle), y_m + r * std::sin(angle)});
  }
  return outline;
}

TEST(Region, RandomOutlinesAgainstThrownPoints) {
  std::mt19937_64 random(99);
  const auto draw = [&random](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  for (int trial = 0; trial < 8; ++trial) {
    const Outline roof = star(random, 0.0, 0.0, 3.0, 6.0, 5 + trial);
    std::vector<Outline> taken;
    for (int i = 0; i < 6; ++i) taken.push_back(star(random, draw(-5, 5), draw(-5, 5), 0.3, 2.0, 4 + i));
    const Outline window = star(random, draw(-2, 2), draw(-2, 2), 1.0, 3.0, 7);
    const Region left = region_without(roof, taken);
    const Region all = region_of_all(taken);
    const int n = 40000;
    int n_left = 0, n_all = 0, n_window = 0;
    for (int i = 0; i < n; ++i) {
      const PointM point{draw(-8, 8), draw(-8, 8)};
      const bool is_taken =
          std::any_of(taken.begin(), taken.end(), [&point](const Outline& one) { return contains(one, point); });
      const bool is_left = contains(roof, point) && !is_taken;
      n_left += is_left ? 1 : 0;
      n_all += is_taken ? 1 : 0;
      n_window += is_left && contains(window, point) ? 1 : 0;
    }
    const auto expect_area = [n](double area, int hits) {
      const double share = static_cast<double>(hits) / n;
      const double error = 256.0 * std::sqrt(share * (1.0 - share) / n);
      EXPECT_NEAR(area, 256.0 * share, 4.5 * error + 1e-3);
    };
    expect_area(area_m2(left), n_left);
    expect_area(area_m2(all), n_all);
    expect_area(overlap_area_m2(left, window), n_window);
    // The library and our own clipping of two outlines; the library moves crossings to a grid of about a micrometre.
    const std::vector<Outline> one = {taken[0]};
    EXPECT_NEAR(area_m2(roof) - area_m2(region_without(roof, one)), overlap_area_m2(roof, taken[0]), 2e-6);
  }
}

TEST(Distance, ByHand) {
  EXPECT_NEAR(distance_m(RectangleM{0, 0, 1, 1}, RectangleM{4, 5, 6, 6}), 5.0, 1e-12);
  EXPECT_EQ(distance_m(RectangleM{0, 0, 1, 1}, RectangleM{1, 0, 2, 1}), 0.0);
  const Outline roof = box(0, 0, 10, 8);
  EXPECT_NEAR(distance_to_sides_m(roof, {2, 3, 4, 4}), 2.0, 1e-12);  // inside: the left side
  EXPECT_NEAR(distance_to_sides_m(roof, {13, 12, 14, 13}), 5.0, 1e-12);
  EXPECT_EQ(distance_to_sides_m(roof, {9, 3, 11, 4}), 0.0);
  // Nearest to the inner corner of an L.
  const Outline l = {{0, 0}, {10, 0}, {10, 5}, {5, 5}, {5, 12}, {0, 12}};
  EXPECT_NEAR(distance_to_sides_m(l, {1, 1, 2, 2}), 1.0, 1e-12);
  EXPECT_NEAR(distance_to_sides_m(l, {3, 2, 4.4, 4.2}), std::hypot(0.6, 0.8), 1e-12);
  // A slanted side: from the corner at a right angle.
  const Outline slant = {{0, 0}, {4, 0}, {0, 4}};
  EXPECT_NEAR(distance_to_sides_m(slant, {0.5, 0.5, 1, 1}), 0.5, 1e-12);
  EXPECT_NEAR(distance_to_sides_m(slant, {3, 3, 4, 4}), std::sqrt(2.0), 1e-12);
}

TEST(Distance, BandsHoldEveryPointThatIsNear) {
  std::mt19937_64 random(5);
  const Outline outline = star(random, 0.0, 0.0, 2.0, 5.0, 9);
  const std::vector<Outline> bands = bands_along(outline, 0.5);
  for (int i = 0; i < 20000; ++i) {
    const double x = -6.0 + 12.0 * static_cast<double>(random() >> 11) * 0x1p-53;
    const double y = -6.0 + 12.0 * static_cast<double>(random() >> 11) * 0x1p-53;
    const double distance = distance_to_sides_m(outline, {x, y, x, y});
    const bool is_in = std::any_of(bands.begin(), bands.end(), [&](const Outline& band) {
      return contains(band, {x, y});
    });
    if (distance < 0.4999) {
      EXPECT_TRUE(is_in) << x << " " << y;
    }
    if (distance > 0.5 * std::numbers::sqrt2 + 1e-3) {
      EXPECT_FALSE(is_in) << x << " " << y;
    }
  }
}

}  // namespace
}  // namespace houseleek::geometry
