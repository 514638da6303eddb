// Hollows filled to where they spill, and which way every square drains.
#pragma once
#include <span>
#include <vector>

#include "plan/levels.hpp"

namespace houseleek::plan {

/// A square that water leaves from once it stands as high as this.
struct Spout {
  int square = 0;
  double level_m = 0.0;
};

struct FilledDeck {
  std::vector<double> level_m;  // of still water that has filled every hollow; the deck's own where none stands
  std::vector<int> flows_to;    // the next square on the way out; itself where it leaves; -1: no way out, or no square
  std::vector<int> spout;       // index of the spout it leaves by; -1: none
};

/// Fills hollows to their spill level, from the spouts inwards.
/// Equation: w(square) = min over neighbours of max(z(square), sill between, w(neighbour)); at a spout max(z, its level)
/// Shape:    deck and spouts in, struct out; pure. Levels do not hang on the order of spouts.
/// Units:    m.
/// Valid:    squares without a way out keep their own level and -1.
/// Errors:   exact: only comparisons.
/// Source:   [barnes2014] (from memory).   Checked by: FilledDeck tests.
[[nodiscard]] FilledDeck fill_hollows(const DeckShape& deck, std::span<const Spout> spouts);

/// Depth of the water that stays in each square's hollow, m.
[[nodiscard]] std::vector<double> standing_depth_m(const DeckShape& deck, const FilledDeck& filled);

/// Roof area that drains by each spout, m2; `shed_m2` is added to the squares' own.
[[nodiscard]] std::vector<double> catchments_m2(const DeckShape& deck, const FilledDeck& filled,
                                                std::span<const double> shed_m2, std::size_t n_spouts);

}  // namespace houseleek::plan
