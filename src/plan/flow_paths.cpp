// Hollows filled to where they spill, and which way every square drains.
#include "plan/flow_paths.hpp"

#include <algorithm>
#include <array>
#include <limits>
#include <queue>
#include <tuple>

#include "base/contract.hpp"

namespace houseleek::plan {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

struct Neighbour {
  int square = -1;
  double sill_m = std::numeric_limits<double>::infinity();
};

std::array<Neighbour, 4> neighbours_of(const DeckShape& deck, int square) {
  const int i = square % deck.columns;
  const int j = square / deck.columns;
  std::array<Neighbour, 4> found;
  if (i > 0) found[0] = {square - 1, deck.sill_x_m[at(i - 1 + j * (deck.columns - 1))]};
  if (i + 1 < deck.columns) found[1] = {square + 1, deck.sill_x_m[at(i + j * (deck.columns - 1))]};
  if (j > 0) found[2] = {square - deck.columns, deck.sill_y_m[at(square - deck.columns)]};
  if (j + 1 < deck.rows) found[3] = {square + deck.columns, deck.sill_y_m[at(square)]};
  return found;
}

/// A way in from outside: how high water must stand, and through what.
struct Way {
  double level_m = 0.0;
  int square = 0;
  int from = 0;
  int spout = 0;
  int steps = 0;  // from the spout: of two ways of one level the shorter is taken
};

struct IsHigher {
  bool operator()(const Way& a, const Way& b) const {
    return std::tie(a.level_m, a.steps, a.spout, a.square) > std::tie(b.level_m, b.steps, b.spout, b.square);
  }
};

}  // namespace

FilledDeck fill_hollows(const DeckShape& deck, std::span<const Spout> spouts) {
  const std::size_t n = deck.level_m.size();
  FilledDeck filled{.level_m = deck.level_m, .flows_to = std::vector<int>(n, -1), .spout = std::vector<int>(n, -1)};
  std::priority_queue<Way, std::vector<Way>, IsHigher> ways;
  for (std::size_t s = 0; s < spouts.size(); ++s) {
    const int square = spouts[s].square;
    expects(square >= 0 && at(square) < n, "a spout on a square");
    if (deck.area_m2[at(square)] <= 0.0) continue;
    ways.push({std::max(deck.level_m[at(square)], spouts[s].level_m), square, square, static_cast<int>(s), 0});
  }
  while (!ways.empty()) {
    const Way way = ways.top();
    ways.pop();
    if (filled.spout[at(way.square)] >= 0) continue;
    filled.level_m[at(way.square)] = way.level_m;
    filled.flows_to[at(way.square)] = way.from;
    filled.spout[at(way.square)] = way.spout;
    for (const Neighbour& next : neighbours_of(deck, way.square)) {
      if (next.square < 0 || next.sill_m == std::numeric_limits<double>::infinity()) continue;
      if (deck.area_m2[at(next.square)] <= 0.0 || filled.spout[at(next.square)] >= 0) continue;
      const double level_m = std::max({deck.level_m[at(next.square)], next.sill_m, way.level_m});
      ways.push({level_m, next.square, way.square, way.spout, way.steps + 1});
    }
  }
  return filled;
}

std::vector<double> standing_depth_m(const DeckShape& deck, const FilledDeck& filled) {
  std::vector<double> depth_m(deck.level_m.size(), 0.0);
  for (std::size_t k = 0; k < depth_m.size(); ++k) {
    if (filled.spout[k] >= 0) depth_m[k] = filled.level_m[k] - deck.level_m[k];
  }
  return depth_m;
}

std::vector<double> catchments_m2(const DeckShape& deck, const FilledDeck& filled, std::span<const double> shed_m2,
                                  std::size_t n_spouts) {
  expects(shed_m2.size() == deck.level_m.size(), "an area for each square");
  std::vector<double> sums_m2(n_spouts, 0.0);
  for (std::size_t k = 0; k < deck.level_m.size(); ++k) {
    if (filled.spout[k] >= 0) sums_m2[at(filled.spout[k])] += deck.area_m2[k] + shed_m2[k];
  }
  return sums_m2;
}

}  // namespace houseleek::plan
