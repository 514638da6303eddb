// Which modules lie over which room, and how much bare deck lies between and beside them.
#include "plan/layout.hpp"

#include <algorithm>
#include <tuple>

#include "plan/block_area.hpp"

namespace houseleek::plan {
namespace {

using geometry::Outline;
using geometry::RectangleM;

constexpr double metres_per_mm = 0.001;

/// A patch with its block and its modules; of modules placed one by one each is a block of its own.
struct Block {
  int patch = 0;
  const design::Patch* spec = nullptr;
  int columns = 1;
  int rows = 1;
  double spacing_mm = 0.0;
  double module_x_m = 0.0;  // along x
  double module_y_m = 0.0;
  RectangleM rectangle;
  std::vector<RectangleM> modules;
};

/// Everything but the place in the file, so that patches can be listed in any order.
auto sort_key(const Block& block) {
  const design::Patch& patch = *block.spec;
  return std::tuple(patch.recipe, static_cast<int>(patch.placed), block.spacing_mm, patch.is_turned,
                    block.rectangle.left_m, block.rectangle.bottom_m, block.columns, block.rows);
}

Block make_block(const design::Design& design, std::size_t index) {
  Block block;
  block.patch = static_cast<int>(index);
  block.spec = &design.patches[index];
  const design::Recipe& recipe = design.recipes[static_cast<std::size_t>(block.spec->recipe)];
  block.module_x_m = metres_per_mm * (block.spec->is_turned ? recipe.width_mm : recipe.length_mm);
  block.module_y_m = metres_per_mm * (block.spec->is_turned ? recipe.length_mm : recipe.width_mm);
  if (block.spec->places.empty()) {
    block.columns = block.spec->columns;
    block.rows = block.spec->rows;
    block.spacing_mm = block.spec->spacing_mm;
  }
  return block;
}

std::vector<Block> make_blocks(const design::Design& design) {
  std::vector<Block> blocks;
  int last_patch = -1;
  for (const design::ModulePlace& place : design.modules) {
    const auto patch = static_cast<std::size_t>(place.patch);
    if (place.patch != last_patch || !design.patches[patch].places.empty()) {
      blocks.push_back(make_block(design, patch));
      blocks.back().rectangle = place.rectangle;
    }
    last_patch = place.patch;
    Block& block = blocks.back();
    const RectangleM& one = place.rectangle;
    block.rectangle = {std::min(block.rectangle.left_m, one.left_m), std::min(block.rectangle.bottom_m, one.bottom_m),
                       std::max(block.rectangle.right_m, one.right_m), std::max(block.rectangle.top_m, one.top_m)};
    block.modules.push_back(one);
  }
  std::sort(blocks.begin(), blocks.end(), [](const Block& a, const Block& b) { return sort_key(a) < sort_key(b); });
  return blocks;
}

/// Share of the block's edge that is a module's edge; the rest is the mouths of the spaces between.
double module_share_of_edge(const Block& block) {
  const double length_m = block.rectangle.right_m - block.rectangle.left_m;
  const double width_m = block.rectangle.top_m - block.rectangle.bottom_m;
  return (block.columns * block.module_x_m + block.rows * block.module_y_m) / (length_m + width_m);
}

/// Edges along the spaces between modules, for one module of the patch in the mean.
double between_edge_of_module_m(const Block& block) {
  const double columns = block.columns;
  const double rows = block.rows;
  if (block.spacing_mm == 0.0) return 0.0;
  return 2.0 * ((columns - 1.0) * rows * block.module_y_m + (rows - 1.0) * columns * block.module_x_m) /
         (columns * rows);
}

/// Length of the block's edge over the room that has no other block beside it.
double open_edge_m(const Block& block, const std::vector<Block>& blocks, const Outline& room) {
  const RectangleM reach = grown(block.rectangle, edge_step_m);
  std::vector<RectangleM> near;
  for (const Block& other : blocks) {
    const RectangleM& one = other.rectangle;
    if (one.left_m < reach.right_m && one.right_m > reach.left_m && one.bottom_m < reach.top_m &&
        one.top_m > reach.bottom_m) {
      near.push_back(one);
    }
  }
  const double without_m2 = union_area_m2(near, room);
  near.push_back(reach);
  return std::max(0.0, union_area_m2(near, room) - without_m2) / edge_step_m;
}

Cell make_cell(const Block& block, const std::vector<Block>& blocks, const Outline& room) {
  Cell cell;
  cell.patch = block.patch;
  cell.recipe = block.spec->recipe;
  cell.placed = block.spec->placed;
  cell.module_length_m = std::max(block.module_x_m, block.module_y_m);
  cell.module_width_m = std::min(block.module_x_m, block.module_y_m);
  cell.spacing_m = metres_per_mm * block.spacing_mm;
  cell.columns = block.columns;
  cell.rows = block.rows;
  cell.block_length_m = block.rectangle.right_m - block.rectangle.left_m;
  cell.block_width_m = block.rectangle.top_m - block.rectangle.bottom_m;
  for (const RectangleM& module : block.modules) cell.covered_m2 += geometry::overlap_area_m2(room, module);
  cell.n_modules = cell.covered_m2 / (block.module_x_m * block.module_y_m);
  if (cell.covered_m2 <= geometry::least_area_m2) return cell;
  cell.block_m2 = geometry::overlap_area_m2(room, block.rectangle);
  // A closed block's modules fill it: what rounding leaves is no space between modules.
  cell.open_m2 = block.spacing_mm == 0.0 ? 0.0 : std::max(0.0, cell.block_m2 - cell.covered_m2);
  for (std::size_t i = 0; i < edge_distances_m.size(); ++i) {
    const RectangleM inner = grown(block.rectangle, -edge_distances_m[i]);
    if (area_m2(inner) <= 0.0) continue;
    cell.inner_m2[i] = geometry::overlap_area_m2(room, inner);
    cell.inner_edge_m[i] = union_edge_m(std::span(&inner, 1), room, 0.0);
  }
  cell.between_edge_m = cell.n_modules * between_edge_of_module_m(block);
  const double block_edge_m = union_edge_m(std::span(&block.rectangle, 1), room, 0.0);
  const double bare_m = open_edge_m(block, blocks, room);
  cell.bare_edge_m = bare_m * module_share_of_edge(block);
  cell.bare_edge_frac = block_edge_m > 0.0 ? bare_m / block_edge_m : 0.0;
  return cell;
}

RoomLayout make_room(const design::Design& design, int index, const std::vector<Block>& blocks) {
  const Outline& room = design.rooms[static_cast<std::size_t>(index)].outline;
  RoomLayout layout;
  layout.room = index;
  layout.area_m2 = geometry::overlap_area_m2(design.roof.outline, room);
  for (const design::Obstacle& obstacle : design.roof.obstacles) {
    layout.obstacle_m2 += geometry::overlap_area_m2(room, obstacle.outline);
  }
  std::vector<RectangleM> rectangles;
  double open_m2 = 0.0;
  for (const Block& block : blocks) {
    rectangles.push_back(block.rectangle);
    Cell cell = make_cell(block, blocks, room);
    if (cell.covered_m2 <= geometry::least_area_m2) continue;
    layout.covered_m2 += cell.covered_m2;
    open_m2 += cell.open_m2;
    layout.cells.push_back(cell);
  }
  layout.bare_m2 = layout.area_m2 - layout.covered_m2;
  const double blocks_m2 = union_area_m2(rectangles, room);
  // Blocks of spaced modules may overlap though their modules do not: the spaces are shared out.
  const double between_m2 = std::max(0.0, blocks_m2 - layout.covered_m2);
  for (Cell& cell : layout.cells) {
    if (open_m2 > 0.0) cell.open_m2 *= std::min(1.0, between_m2 / open_m2);
  }
  double within_m2 = blocks_m2;
  layout.margin_edge_m[0] = union_edge_m(rectangles, room, 0.0);
  for (std::size_t i = 0; i < edge_distances_m.size(); ++i) {
    std::vector<RectangleM> reach;
    for (const RectangleM& one : rectangles) reach.push_back(grown(one, edge_distances_m[i]));
    const double reach_m2 = union_area_m2(reach, room);
    layout.margin_m2[i] = std::max(0.0, reach_m2 - within_m2);
    layout.margin_edge_m[i + 1] = union_edge_m(rectangles, room, edge_distances_m[i]);
    within_m2 = reach_m2;
  }
  layout.rest_m2 = std::max(0.0, layout.area_m2 - within_m2);
  return layout;
}

}  // namespace

Layout make_layout(const design::ValidDesign& design) {
  const std::vector<Block> blocks = make_blocks(*design);
  Layout layout;
  layout.area_m2 = geometry::area_m2(design->roof.outline);
  layout.n_modules = static_cast<int>(design->modules.size());
  for (const Block& block : blocks) {
    for (const RectangleM& module : block.modules) layout.covered_m2 += area_m2(module);
  }
  double rooms_m2 = 0.0;
  double rooms_covered_m2 = 0.0;
  for (std::size_t i = 0; i < design->rooms.size(); ++i) {
    layout.rooms.push_back(make_room(*design, static_cast<int>(i), blocks));
    rooms_m2 += layout.rooms.back().area_m2;
    rooms_covered_m2 += layout.rooms.back().covered_m2;
  }
  layout.no_room_m2 = std::max(0.0, layout.area_m2 - rooms_m2);
  layout.no_room_covered_m2 = std::max(0.0, layout.covered_m2 - rooms_covered_m2);
  return layout;
}

}  // namespace houseleek::plan
