// Areas and edges of modules over rooms, worked out by hand for small roofs and summed for the terrace house.
#include "plan/layout.hpp"

#include <gtest/gtest.h>

#include "plan/block_area.hpp"
#include "support/example_house.hpp"

namespace houseleek::plan {
namespace {

using geometry::Outline;
using geometry::RectangleM;
using tests::patches_of;
using tests::read_valid;
using tests::terrace_house_text;
using tests::with_patches;
using tests::with_text;

std::string patch(std::string_view recipe, int columns, int rows, std::string_view origin, int spacing_mm) {
  return "[[patch]]\nrecipe = \"" + std::string(recipe) + "\"\ncolumns = " + std::to_string(columns) +
         "\nrows = " + std::to_string(rows) + "\norigin = " + std::string(origin) +
         "\nspacing_mm = " + std::to_string(spacing_mm) + "\n";
}

Layout layout_of(const std::string& text) { return make_layout(read_valid(text)); }

void expect_areas_close(const RoomLayout& room) {
  double sum_m2 = room.covered_m2 + room.margin_m2[0] + room.margin_m2[1] + room.rest_m2;
  double covered_m2 = 0.0;
  for (const Cell& cell : room.cells) {
    sum_m2 += cell.open_m2;
    covered_m2 += cell.covered_m2;
    EXPECT_GE(cell.open_m2, 0.0);
    EXPECT_GT(cell.covered_m2, 0.0);
  }
  EXPECT_NEAR(sum_m2, room.area_m2, 1e-9);
  EXPECT_NEAR(covered_m2, room.covered_m2, 1e-9);
  EXPECT_NEAR(room.bare_m2 + room.covered_m2, room.area_m2, 1e-9);
}

TEST(BlockArea, OverlapsCountOnceAndTheOutlineCuts) {
  const Outline square = {{0, 0}, {2, 0}, {2, 2}, {0, 2}};
  const RectangleM a{-1, -1, 1, 1}, b{0.5, 0.5, 1.5, 3.0}, c{0.5, 0.5, 1.5, 1.0};
  // a: 1 inside; b: 1.5 inside, 0.25 of it shared with a; c inside b.
  EXPECT_NEAR(union_area_m2(std::vector{a, b, c}, square), 2.25, 1e-12);
  EXPECT_EQ(union_area_m2(std::vector{a, b, c}, square), union_area_m2(std::vector{c, a, b}, square));
  EXPECT_EQ(union_area_m2(std::vector<RectangleM>{}, square), 0.0);
}

TEST(BlockArea, EdgeIsTheFreeEdgeInsideTheOutline) {
  const Outline square = {{0, 0}, {2, 0}, {2, 2}, {0, 2}};
  // Two that touch, one corner in the outline's corner: 1.0 along the top, 1.0 on the right.
  const std::vector<RectangleM> pair = {{0, 0, 0.5, 1}, {0.5, 0, 1, 1}};
  EXPECT_NEAR(union_edge_m(pair, square, 0.0), 2.0, 0.0011);
  EXPECT_NEAR(union_edge_m(pair, square, 0.1), 2.2, 0.0011);
  EXPECT_EQ(area_m2(grown({0, 0, 1, 1}, -0.6)), 0.0);
}

TEST(Layout, TerraceHouseAreasClose) {
  const Layout layout = layout_of(terrace_house_text());
  EXPECT_NEAR(layout.area_m2, 63.84, 1e-9);
  EXPECT_NEAR(layout.covered_m2, 24.0, 1e-9);
  EXPECT_EQ(layout.n_modules, 24);
  EXPECT_NEAR(layout.no_room_m2, 0.0, 1e-9);
  double modules = 0.0;
  for (const RoomLayout& room : layout.rooms) {
    expect_areas_close(room);
    for (const Cell& cell : room.cells) modules += cell.n_modules;
  }
  EXPECT_NEAR(modules, 24.0, 1e-9);
}

// By hand: columns of the street side begin at 0.6 and every 1.02 m; the wall below is at 4.2 m, 0.54 m into the
// fourth.
TEST(Layout, ModuleOverTwoRoomsIsSharedByArea) {
  const Layout layout = layout_of(terrace_house_text());
  EXPECT_NEAR(layout.rooms[0].cells[0].n_modules, 7.08, 1e-9);
  EXPECT_NEAR(layout.rooms[1].cells[0].n_modules, 6.92, 1e-9);
  // West of the hatch: rows 2.64 to 3.64 and 3.66 to 4.66, the wall at 3.8.
  EXPECT_NEAR(layout.rooms[0].cells[1].n_modules, 2.0 + 2.0 * 0.14, 1e-9);
  EXPECT_NEAR(layout.rooms[2].cells[0].n_modules, 2.0 * 0.86, 1e-9);
}

TEST(Layout, ObstaclesAreBareDeck) {
  const Layout layout = layout_of(terrace_house_text());
  EXPECT_NEAR(layout.rooms[2].obstacle_m2, 1.44 + 0.5 * 0.8, 1e-9);
  EXPECT_NEAR(layout.rooms[2].bare_m2, 15.96 - 3.6, 1e-9);
}

TEST(Layout, OrderOfPatchesChangesNoBit) {
  const std::string text = terrace_house_text();
  std::vector<std::string> patches = patches_of(text);
  ASSERT_EQ(patches.size(), 4U);
  std::string reversed;
  for (auto one = patches.rbegin(); one != patches.rend(); ++one) reversed += *one;
  const Layout forwards = layout_of(text);
  const Layout backwards = layout_of(with_patches(text, reversed));
  ASSERT_EQ(forwards.rooms.size(), backwards.rooms.size());
  EXPECT_EQ(forwards.covered_m2, backwards.covered_m2);
  for (std::size_t i = 0; i < forwards.rooms.size(); ++i) {
    const RoomLayout& a = forwards.rooms[i];
    const RoomLayout& b = backwards.rooms[i];
    EXPECT_EQ(a.covered_m2, b.covered_m2);
    EXPECT_EQ(a.margin_m2, b.margin_m2);
    EXPECT_EQ(a.margin_edge_m, b.margin_edge_m);
    EXPECT_EQ(a.rest_m2, b.rest_m2);
    ASSERT_EQ(a.cells.size(), b.cells.size());
    for (std::size_t k = 0; k < a.cells.size(); ++k) {
      EXPECT_EQ(a.cells[k].patch, 3 - b.cells[k].patch);
      EXPECT_EQ(a.cells[k].covered_m2, b.cells[k].covered_m2);
      EXPECT_EQ(a.cells[k].open_m2, b.cells[k].open_m2);
      EXPECT_EQ(a.cells[k].inner_m2, b.cells[k].inner_m2);
      EXPECT_EQ(a.cells[k].bare_edge_m, b.cells[k].bare_edge_m);
    }
  }
}

// Two columns and one row of 1 m modules 0.4 m apart, inside one room: block 2.4 m by 1 m.
TEST(Layout, SpacedModulesByHand) {
  const Layout layout = layout_of(with_patches(terrace_house_text(), patch("thin stonecrop", 2, 1, "[0.6, 0.6]", 400)));
  const RoomLayout& room = layout.rooms[0];
  ASSERT_EQ(room.cells.size(), 1U);
  const Cell& cell = room.cells[0];
  EXPECT_NEAR(cell.covered_m2, 2.0, 1e-9);
  EXPECT_NEAR(cell.block_m2, 2.4, 1e-9);
  EXPECT_NEAR(cell.open_m2, 0.4, 1e-9);
  EXPECT_NEAR(cell.between_edge_m, 2.0, 1e-9);  // one space, an edge on either side
  EXPECT_NEAR(cell.bare_edge_m, 6.0, 0.004);    // of 6.8 m of the block's edge, 0.8 are the space's mouths
  EXPECT_NEAR(cell.bare_edge_frac, 1.0, 1e-9);
  EXPECT_NEAR(room.margin_m2[0], 2.5 * 1.1 - 2.4, 1e-9);
  EXPECT_NEAR(room.margin_m2[1], 2.7 * 1.3 - 2.5 * 1.1, 1e-9);
  EXPECT_NEAR(room.margin_edge_m[1], 7.2, 0.005);
  expect_areas_close(room);
}

// Two closed blocks side by side: only what faces bare deck counts.
TEST(Layout, TouchingBlocksHaveNoBareEdgeBetweenThem) {
  const Layout layout = layout_of(with_patches(terrace_house_text(), patch("thin stonecrop", 1, 1, "[0.6, 0.6]", 0) +
                                                                         patch("deeper herbs", 1, 1, "[1.6, 0.6]", 0)));
  const RoomLayout& room = layout.rooms[0];
  ASSERT_EQ(room.cells.size(), 2U);
  for (const Cell& cell : room.cells) {
    EXPECT_NEAR(cell.bare_edge_m, 3.0, 0.005);
    EXPECT_NEAR(cell.bare_edge_frac, 0.75, 0.002);
    EXPECT_EQ(cell.open_m2, 0.0);
    EXPECT_EQ(cell.between_edge_m, 0.0);
    EXPECT_NEAR(cell.inner_m2[0], 0.81, 1e-9);
    EXPECT_NEAR(cell.inner_edge_m[0], 3.6, 0.005);
  }
  expect_areas_close(room);
}

// Single modules of one patch stand in the spaces of another: their blocks overlap, their modules do not.
TEST(Layout, InterleavedBlocksShareTheirSpaces) {
  const Layout layout = layout_of(with_patches(terrace_house_text(), patch("thin stonecrop", 2, 1, "[0.2, 0.6]", 1200) +
                                                                         patch("deeper herbs", 1, 1, "[1.3, 0.6]", 0)));
  const RoomLayout& room = layout.rooms[0];
  ASSERT_EQ(room.cells.size(), 2U);
  EXPECT_NEAR(room.covered_m2, 3.0, 1e-9);
  EXPECT_NEAR(room.cells[0].open_m2 + room.cells[1].open_m2, 0.2, 1e-9);
  expect_areas_close(room);
}

TEST(Layout, RoofOverNoRoomIsCounted) {
  const std::string text = with_text(terrace_house_text(), "outline = [[4.2, 4.4], [8.4, 4.4], [8.4, 7.6], [4.2, 7.6]]",
                                     "outline = [[5.2, 4.4], [8.4, 4.4], [8.4, 7.6], [5.2, 7.6]]");
  const Layout layout = layout_of(text);
  EXPECT_NEAR(layout.no_room_m2, 3.2, 1e-9);
  // Herbs over the north bedroom reach 0.12 m into the strip.
  EXPECT_NEAR(layout.no_room_covered_m2, 0.12, 1e-9);
  for (const RoomLayout& room : layout.rooms) expect_areas_close(room);
}

TEST(Layout, TurnedModulesLieTheOtherWay) {
  std::string text = with_text(terrace_house_text(), "length_mm = 1000", "length_mm = 1500");
  text = with_patches(text, patch("thin stonecrop", 1, 2, "[0.6, 0.6]", 0) + "turned = true\n");
  const Layout layout = layout_of(text);
  const Cell& cell = layout.rooms[0].cells.at(0);
  EXPECT_NEAR(cell.block_length_m, 1.0, 1e-12);
  EXPECT_NEAR(cell.block_width_m, 3.0, 1e-12);
  EXPECT_NEAR(cell.module_length_m, 1.5, 1e-12);
  EXPECT_NEAR(cell.module_width_m, 1.0, 1e-12);
  EXPECT_NEAR(cell.n_modules, 2.0, 1e-9);
}

}  // namespace
}  // namespace houseleek::plan
