// Strips under and beside modules: their areas, the edges they share, and how far apart their middles count
// (docs/equations/covers.md).
#pragma once
#include <vector>

#include "plan/layout.hpp"
#include "simulation/group.hpp"

namespace houseleek::simulation {

/// Modules over one room that are reckoned as one repeating cell: sums over the patches that are alike.
struct CellKind {
  int recipe = -1;  // -1: reckoned without regard to recipe and placing
  design::Placed placed = design::Placed::flat;
  double module_length_m = 0.0;
  double module_width_m = 0.0;
  double spacing_m = 0.0;
  double n_modules = 0.0;
  double covered_m2 = 0.0;
  double block_m2 = 0.0;
  double open_m2 = 0.0;
  std::array<double, 2> inner_m2{};
  std::array<double, 2> inner_edge_m{};
  double between_edge_m = 0.0;
  double bare_edge_m = 0.0;
  double narrowest_block_m = 0.0;  // the smaller side of the widest block
  double block_side_m = 0.0;       // mean of sqrt(length width) of the blocks, weighted by modules
  /// True if the edge that counts is the block's, because the spaces are joints rather than bare roof.
  [[nodiscard]] bool is_block() const;
};

/// Kinds of a room, in the order of its cells.
[[nodiscard]] std::vector<CellKind> cell_kinds(const plan::RoomLayout& room, bool is_by_recipe);

struct Strip {
  double area_m2 = 0.0;
  double from_m = 0.0;         // nearer border's distance to the edge
  double to_m = 0.0;           // farther border's
  double onward_edge_m = 0.0;  // border shared with the next strip; 0 for the last
};

/// The first two strips in one where there are three or more.
[[nodiscard]] std::vector<Strip> coarser(std::vector<Strip> strips);

/// Distance from a strip's border at which its middle counts: half its width, but no more than heat reaches sideways
/// in a day.
[[nodiscard]] double half_width_m(double width_m);

/// From the edge inwards, under the modules. Areas sum to covered_m2.
[[nodiscard]] std::vector<Strip> strips_under(const CellKind& kind);

/// From the modules' edges outwards, in the spaces between them. Areas sum to open_m2; none without open deck.
[[nodiscard]] std::vector<Strip> strips_between(const CellKind& kind);

/// Beside the blocks of a room, from their edge outwards; the last is the rest of its bare deck. Areas sum to margins
/// and rest.
[[nodiscard]] std::vector<Strip> strips_beside(const plan::RoomLayout& room);

/// Share of the sky, and of what it sends, that reaches the floor of a joint between two walls.
/// Equation: F = sqrt(1 + (h/s)^2) - h/s
/// Shape:    scalars in, scalar out; pure.   Units: height_m and spacing_m in m.   Valid: spacing above 0.
/// Source:   crossed strings [incropera] Table 13.1 (from memory).
[[nodiscard]] double joint_sky_frac(double height_m, double spacing_m);

/// Lengthens the distance of links whose exchange would be too fast for steps of ten minutes; both strips are at one
/// temperature then anyway.
/// Equation: sum over a stack's links of a_max edge/(distance area) <= 1/600 s, a_max: largest diffusivity of a deck
///           layer
void slow_down_links(Group& group);

}  // namespace houseleek::simulation
