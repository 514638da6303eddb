// Which modules lie over which room, and how much bare deck lies between and beside them.
#pragma once
#include <array>
#include <vector>

#include "design/parse.hpp"

namespace houseleek::plan {

/// Distances from a block's edge between which strips are counted, on both sides of it.
inline constexpr std::array<double, 2> edge_distances_m = {0.05, 0.15};

/// One patch over one room, or one module of a patch whose modules are placed one by one. Its block is the rectangle
/// around all its modules, the spaces between them included.
struct Cell {
  int patch = 0;   // index into Design::patches
  int recipe = 0;  // index into Design::recipes
  design::Placed placed = design::Placed::raised;
  double module_length_m = 0.0;  // the longer side
  double module_width_m = 0.0;
  double spacing_m = 0.0;
  int columns = 0;  // of the whole patch
  int rows = 0;
  double block_length_m = 0.0;  // of the whole patch, along x
  double block_width_m = 0.0;
  double n_modules = 0.0;  // a module over two rooms counts in each by its area there
  double covered_m2 = 0.0;
  double block_m2 = 0.0;
  double open_m2 = 0.0;                  // bare deck between the modules of the block
  std::array<double, 2> inner_m2{};      // of the block, farther than each distance from its edge
  std::array<double, 2> inner_edge_m{};  // length of the edges of these
  double between_edge_m = 0.0;           // edges of modules along the spaces between them
  double bare_edge_m = 0.0;              // edges of modules along the block's edge, with bare deck beside them
  double bare_edge_frac = 0.0;           // of the block's edge over this room: what has bare deck beside it
};

/// The roof over one room. area = covered + spaces between modules (open_m2 of the cells) + margin_m2 + rest_m2.
struct RoomLayout {
  int room = 0;
  double area_m2 = 0.0;  // under the roof
  double covered_m2 = 0.0;
  double bare_m2 = 0.0;      // not under a module
  double obstacle_m2 = 0.0;  // of the bare deck: what stands on it; counted as bare deck
  std::vector<Cell> cells;
  std::array<double, 2> margin_m2{};      // bare deck beside blocks, up to each distance from them
  std::array<double, 3> margin_edge_m{};  // edge of all blocks, and of the area up to each distance
  double rest_m2 = 0.0;                   // bare deck farther from every block
};

struct Layout {
  std::vector<RoomLayout> rooms;  // in the order of the design
  double area_m2 = 0.0;           // of the roof
  double covered_m2 = 0.0;
  int n_modules = 0;
  double no_room_m2 = 0.0;          // roof over no room
  double no_room_covered_m2 = 0.0;  // of it: under modules
};

/// Areas of a design's roof, room by room and patch by patch.
/// Shape:    rooms in the order of the design; cells by recipe, placing, spacing, size and place. The order of
///           patches in the design changes no figure, only Cell::patch.
/// Units:    m, m2. Areas by exact clipping; edges within 1 mm for each free corner of a block.
/// Errors:   none: a ValidDesign has rooms inside the roof and modules that do not overlap.
[[nodiscard]] Layout make_layout(const design::ValidDesign& design);

}  // namespace houseleek::plan
