// One module moved: the weight of all stays to the last bit, and every check sees where it lies now.
#include <gtest/gtest.h>

#include <cmath>

#include "checks/drainage_deck.hpp"
#include "checks/footprints.hpp"
#include "checks/load_cases.hpp"
#include "checks/load_map.hpp"
#include "checks/wind_uplift.hpp"
#include "plan/layout.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

constexpr const char* block = "columns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50\n";

/// Three modules of 1 m x 0.5 m or so; the last one at x.
design::ValidDesign placed(double x_m, double y_m) {
  return tests::valid_design(tests::edited(
      tests::small_design_text(),
      {{block, "at = [[0.5, 0.4], [0.5, 1.6], [" + std::to_string(x_m) + ", " + std::to_string(y_m) + "]]\n"}}));
}

double soaked_kn(const design::ValidDesign& design) {
  double sum_kn = 0.0;
  for (const Footprint& one : find_footprints(design)) sum_kn += one.soaked_kn.likely;
  return sum_kn;
}

TEST(FreePlaces, AMovedModuleKeepsTheWeightOfAllToTheLastBit) {
  const design::ValidDesign before = placed(2.0, 0.4);
  const design::ValidDesign after = placed(2.61, 1.13);
  EXPECT_EQ(soaked_kn(before), soaked_kn(after));
  const std::vector<LoadCase> cases_before = compute_load_cases(before);
  const std::vector<LoadCase> cases_after = compute_load_cases(after);
  ASSERT_EQ(cases_before.size(), cases_after.size());
  for (std::size_t i = 0; i < cases_before.size(); ++i) {
    EXPECT_EQ(cases_before[i].whole_roof_kn.likely, cases_after[i].whole_roof_kn.likely) << cases_before[i].name;
    EXPECT_EQ(cases_before[i].whole_roof_kn.high, cases_after[i].whole_roof_kn.high) << cases_before[i].name;
  }
  // The map holds the same weight, on other squares.
  const LoadMap map_before = make_load_map(before, 0.5);
  const LoadMap map_after = make_load_map(after, 0.5);
  double sum_before = 0.0, sum_after = 0.0, moved = 0.0;
  for (std::size_t i = 0; i < map_before.soaked_kn_per_m2.size(); ++i) {
    sum_before += map_before.soaked_kn_per_m2[i];
    sum_after += map_after.soaked_kn_per_m2[i];
    moved += std::fabs(map_before.soaked_kn_per_m2[i] - map_after.soaked_kn_per_m2[i]);
  }
  EXPECT_NEAR(sum_before, sum_after, 1e-12 * sum_before);
  EXPECT_GT(moved, 0.1 * sum_before);
}

TEST(FreePlaces, EveryCheckSeesWhereTheModuleLies) {
  const design::ValidDesign before = placed(2.0, 0.4);
  const design::ValidDesign after = placed(2.61, 1.13);
  const plan::Layout layout_before = plan::make_layout(before);
  const plan::Layout layout_after = plan::make_layout(after);
  EXPECT_EQ(layout_before.n_modules, 3);
  EXPECT_NEAR(layout_before.covered_m2, layout_after.covered_m2, 1e-12);
  EXPECT_EQ(layout_after.rooms.front().cells.size(), 3U);  // each a block of its own
  EXPECT_NEAR(layout_after.rooms.front().covered_m2, layout_after.covered_m2, 1e-9);
  const WindUplift wind = check_wind_uplift(after);
  ASSERT_EQ(wind.modules.size(), 3U);
  const plan::LevelOptions levels{.most_squares = 192};
  const auto covered = [&](const design::ValidDesign& design) {
    std::vector<double> shares;
    for (const SquareModule& one : make_drainage_deck(design, levels, DrainageEnd::likely).modules) {
      shares.push_back(one.covered_frac);
    }
    return shares;
  };
  EXPECT_NE(covered(before), covered(after));
}

TEST(FreePlaces, ABlockAndItsModulesOneByOneCoverTheSame) {
  const design::ValidDesign as_block = tests::valid_design(tests::edited(
      tests::small_design_text(), {{block, "columns = 2\nrows = 1\norigin = [0.5, 0.4]\nspacing_mm = 0\n"}}));
  const double next_m = as_block->modules[1].rectangle.left_m;
  const design::ValidDesign one_by_one = tests::valid_design(tests::edited(
      tests::small_design_text(), {{block, "at = [[0.5, 0.4], [" + std::to_string(next_m) + ", 0.4]]\n"}}));
  const plan::RoomLayout a = plan::make_layout(as_block).rooms.front();
  const plan::RoomLayout b = plan::make_layout(one_by_one).rooms.front();
  EXPECT_NEAR(a.covered_m2, b.covered_m2, 1e-9);
  for (std::size_t i = 0; i < a.margin_m2.size(); ++i) EXPECT_NEAR(a.margin_m2[i], b.margin_m2[i], 1e-9);
  double edge_a = 0.0, edge_b = 0.0;
  for (const plan::Cell& cell : a.cells) edge_a += cell.bare_edge_m;
  for (const plan::Cell& cell : b.cells) edge_b += cell.bare_edge_m;
  // 2 m x 1 m has an edge of 6 m; the layout states 1 mm for each corner, of which there are four and twice four.
  EXPECT_NEAR(edge_a, 6.0, 4e-3 + 1e-6);
  EXPECT_NEAR(edge_b, 6.0, 8e-3 + 1e-6);
}

}  // namespace
}  // namespace houseleek::checks
