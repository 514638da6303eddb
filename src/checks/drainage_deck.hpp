// A design's roof as squares that water runs over: modules, spacers, silt, outlets, overflows, edges.
#pragma once
#include <vector>

#include "checks/drainage_flow.hpp"
#include "design/parse.hpp"
#include "plan/levels.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

/// All that is not known well, taken together so that water stays low, as likely, or stands high.
enum class DrainageEnd { easy, likely, hard };

/// Which module lies on a square; the one with the greatest share.
struct SquareModule {
  int recipe = -1;  // -1: bare
  int patch = -1;
  design::Placed placed = design::Placed::flat;
  double covered_frac = 0.0;
};

struct DrainageDeck {
  plan::DeckLevels levels;
  FlowSquares squares;
  std::vector<SquareModule> modules;  // by square
  std::size_t n_outlets = 0;          // the first exits: the design's outlets, in its order
  std::size_t n_overflows = 0;        // the next: its overflows; all others are stretches of the roof's edge
  double walled_in_m2 = 0.0;          // deck that obstacles cut off from every outlet and edge: left out
};

/// The roof for one end of all ranges.
/// Equation: gap = spacer - silt a year times years since cleaning; free width = 1 - blocked; slats across the way are
///           dams of their height; a flat module carries K d S in its lowest layer with a known K
/// Shape:    design in, struct out; pure.
/// Units:    SI.
/// Valid:    modules hang down with the deck: a stiff one stands on the ridges and leaves more room. Containers and
///           feet of machines are not in the way. Edges are as high as said above the deck beside them.
/// Errors:   none.
/// Source:   docs/equations/drainage.md.   Checked by: DrainageDeck tests.
[[nodiscard]] DrainageDeck make_drainage_deck(const design::ValidDesign& design, const plan::LevelOptions& options,
                                              DrainageEnd end);

/// What this check assumes that the design does not say.
[[nodiscard]] std::vector<design::Assumption> assumed_drainage(const design::ValidDesign& design);

/// Silt in the gap since it was last cleaned, mm.
[[nodiscard]] results::Interval silt_mm(const design::Design& design);

}  // namespace houseleek::checks
