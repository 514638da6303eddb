// From a design to what the stepper is told: the house bare, planted as laid out, and under each plain rival.
#pragma once
#include <string>
#include <vector>

#include "climate/year.hpp"
#include "design/parse.hpp"
#include "plan/layout.hpp"
#include "simulation/group.hpp"

namespace houseleek::simulation {

/// What covers the roof. "Same squares": only where the design lays modules; "whole": all of the roof over rooms.
enum class Cover {
  bare,
  planted,
  white_same_squares,
  white_whole_roof,
  net_same_squares,
  net_whole_roof,
  board_same_squares,
  board_whole_roof
};

/// How a stack of a group came about.
enum class StackForm { bare, flat, raised, white, net, board };

/// One stack of the group, for the answers; in the order of Group::stacks.
struct StackOrigin {
  StackForm form = StackForm::bare;
  int room = 0;
  int recipe = -1;                  // index into Design::recipes; -1: none
  double distance_to_edge_m = 0.0;  // of the strip's middle to the edge; positive under the module, negative beside it
  bool is_middle = false;           // the strip under the module's middle; a whole roof's only one
  bool operator==(const StackOrigin&) const = default;
};

struct CoverGroup {
  Group group;
  std::vector<StackOrigin> origins;
  bool operator==(const CoverGroup&) const = default;
};

struct CoverOptions {
  bool is_held = false;      // rooms with machines
  bool has_sideways = true;  // false: area-weighted sorts without exchange (for comparison)
  // false: one strip of 0.15 m on each side of an edge instead of two: a third fewer stacks, a tenth less exchange
  bool has_fine_strips = true;
};

/// The whole house under one cover: for each room its repeating cells (strips under and beside the modules, joined
/// sideways) by recipe, form and spacing, and the rest of its roof bare (or under the rival).
/// Shape:    rooms in the order of the design. Areas of a room's stacks sum to the room's area under the roof.
/// Errors:   throws ContractViolation only; a ValidDesign always gives a group.
[[nodiscard]] CoverGroup make_cover_group(const design::ValidDesign& design, const plan::Layout& layout,
                                          const climate::WeatherYear& weather, Cover cover,
                                          const CoverOptions& options);

/// One room by itself, without edges and partitions.
struct RoomAlone {
  int room = 0;
  int recipe = -1;  // of a closed cover; -1: bare
  design::Placed placed = design::Placed::flat;
  bool is_held = false;
};
[[nodiscard]] CoverGroup make_room_group(const design::ValidDesign& design, const plan::Layout& layout,
                                         const climate::WeatherYear& weather, const RoomAlone& alone);

/// The design's largest room under a closed cover of one recipe in one form: what a recipe does by itself.
[[nodiscard]] CoverGroup make_recipe_group(const design::ValidDesign& design, const plan::Layout& layout,
                                           const climate::WeatherYear& weather, int recipe, design::Placed placed);

}  // namespace houseleek::simulation
