// Where a dry module floats, and what the ranges allow to say.
#include "checks/flotation.hpp"

#include <gtest/gtest.h>

#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

TEST(Flotation, ADryModuleFloatsWhereItsWeightInWaterIsGone) {
  const design::ValidDesign design = valid_design(small_design_text());
  const FloatingDepth raised = find_floating_depth(design, 0, design::Placed::raised);
  // 40 mm of crushed brick alone weigh 46 kg/m2: with wool, cloth, plants and spacers below the 70 mm of water they push
  // away.
  ASSERT_TRUE(raised.depth_mm);
  EXPECT_GT(raised.dry_kg_per_m2.likely, 46.0);
  EXPECT_LT(raised.dry_kg_per_m2.likely, 70.0);
  EXPECT_NEAR(raised.depth_mm->likely, 20.0 + raised.dry_kg_per_m2.likely, 1e-12);
  EXPECT_NEAR(raised.depth_mm->low, 20.0 + raised.dry_kg_per_m2.low, 1e-12);
  const FloatingDepth flat = find_floating_depth(design, 0, design::Placed::flat);
  EXPECT_NEAR(flat.depth_mm->likely, flat.dry_kg_per_m2.likely, 1e-12);
  EXPECT_LT(flat.dry_kg_per_m2.likely, raised.dry_kg_per_m2.likely);  // no spacers
}

TEST(Flotation, HeavierThanWaterStays) {
  const design::ValidDesign design = valid_design(
      edited(small_design_text(), {{"material = \"horticultural mineral wool\"", "material = \"crushed brick\""}}));
  const FloatingDepth floating = find_floating_depth(design, 0, design::Placed::raised);
  EXPECT_FALSE(floating.depth_mm);
  EXPECT_EQ(judge_floating(floating, {500, 500, 500}), Buoyancy::stays);
}

TEST(Flotation, WordsFollowTheRanges) {
  FloatingDepth floating;
  floating.depth_mm = results::Interval{60, 70, 80};
  EXPECT_EQ(judge_floating(floating, {10, 30, 59}), Buoyancy::stays);
  EXPECT_EQ(judge_floating(floating, {10, 30, 60}), Buoyancy::not_shown);
  EXPECT_EQ(judge_floating(floating, {10, 70, 90}), Buoyancy::not_shown);
  EXPECT_EQ(judge_floating(floating, {10, 71, 90}), Buoyancy::floats);
}

}  // namespace
}  // namespace houseleek::checks
