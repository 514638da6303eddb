// What the depths of a case mean: figures for the roof and each square, and their words.
#include "checks/drainage_outcome.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace houseleek::checks {
namespace {

using results::Interval;

constexpr double mm_per_m = 1000.0;

std::string range_words(double low, double likely, double high, const char* unit) {
  if (low == likely && likely == high) return fmt::format("{:.0f} {}", likely, unit);
  return fmt::format("{:.0f} {} ({:.0f} to {:.0f})", likely, unit, low, high);
}
}  // namespace

bool is_raised(const SquareModule& module) { return module.recipe >= 0 && module.placed == design::Placed::raised; }

/// Least distance from water to the undersides of raised modules, leaving out squares that `is_counted` leaves out.
double least_freeboard_m(const DrainageDeck& deck, const std::vector<double>& depth_m,
                         const std::vector<bool>& is_counted) {
  double least_m = std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < depth_m.size(); ++k) {
    if (!is_raised(deck.modules[k]) || !is_counted[k]) continue;
    least_m = std::min(least_m, deck.squares.cover[k].gap_m - depth_m[k]);
  }
  return least_m;
}

double least_freeboard_m(const DrainageDeck& deck, const std::vector<double>& depth_m) {
  return least_freeboard_m(deck, depth_m, std::vector<bool>(depth_m.size(), true));
}

std::vector<double> steady_runoff(const DrainageDeck& deck, double rain_mm_per_h) {
  std::vector<double> arriving;
  for (std::size_t k = 0; k < deck.modules.size(); ++k) {
    const double open_m2 = deck.squares.deck.area_m2[k];
    arriving.push_back(open_m2 > 0.0 ? rain_mm_per_h / 3.6e6 * (open_m2 + deck.levels.shed_m2[k]) : 0.0);
  }
  return arriving;
}

FlowSquares with_blocked(const DrainageDeck& deck, int only) {
  FlowSquares squares = deck.squares;
  for (std::size_t e = 0; e < deck.n_outlets; ++e) {
    if (only < 0 || only == static_cast<int>(e)) squares.exits[e].clear_frac = 0.0;
  }
  return squares;
}

void put_outcome(const design::ValidDesign& design, const Decks& decks, const Outcome& outcome,
                 const Interval& extra_kn_per_m2, DrainageCase& result) {
  std::array<double, 3> deepest{}, weight{}, heaviest{}, freeboard{};
  for (const DrainageEnd end : drainage_ends) {
    const DrainageDeck& deck = decks[at(end)];
    const StillPool pool = pool_of(deck.squares, outcome.depth_m[at(end)]);
    double deck_m2 = 0.0;
    for (const double area_m2 : deck.squares.deck.area_m2) deck_m2 += area_m2;
    deepest[at(end)] = mm_per_m * pool.max_depth_m;
    weight[at(end)] = pool.weight_kn + end_of(extra_kn_per_m2, end) * deck_m2;
    heaviest[at(end)] = pool.heaviest_kn_per_m2 + end_of(extra_kn_per_m2, end);
    freeboard[at(end)] = mm_per_m * least_freeboard_m(deck, pool.depth_m);
  }
  result.max_depth_mm = hull_of_sizes(deepest);
  result.water_kn = hull_of_sizes(weight);
  result.heaviest_kn_per_m2 = hull_of_sizes(heaviest);
  result.minutes_to_drain = hull_of_sizes(outcome.minutes_to_drain);
  if (std::isfinite(freeboard[0])) result.freeboard_mm = hull(freeboard);
  const DrainageDeck& likely = decks[at(DrainageEnd::likely)];
  std::vector<std::optional<FloatingDepth>> floating(design->patches.size());
  for (std::size_t k = 0; k < likely.modules.size(); ++k) {
    const SquareModule& module = likely.modules[k];
    if (module.recipe < 0) continue;
    const double spacer_mm = is_raised(module) ? design->recipes[at(module.recipe)].spacer.height_mm : 0.0;
    std::array<double, 3> depth_mm{}, free_mm{}, above_deck_mm{};
    for (const DrainageEnd end : drainage_ends) {
      const double gap_mm = mm_per_m * decks[at(end)].squares.cover[k].gap_m;
      depth_mm[at(end)] = mm_per_m * outcome.depth_m[at(end)][k];
      free_mm[at(end)] = gap_mm - depth_mm[at(end)];
      above_deck_mm[at(end)] = depth_mm[at(end)] + (spacer_mm - gap_mm);
    }
    std::optional<FloatingDepth>& floats = floating[at(module.patch)];
    if (!floats) floats = find_floating_depth(design, module.recipe, module.placed);
    SquareDepth square;
    square.square = static_cast<int>(k);
    square.patch = module.patch;
    square.recipe = module.recipe;
    square.depth_mm = hull_of_sizes(depth_mm);
    square.freeboard_mm = hull(free_mm);
    square.above_deck_mm = hull_of_sizes(above_deck_mm);
    square.buoyancy = judge_floating(*floats, square.above_deck_mm);
    result.squares.push_back(square);
  }
}

std::string range_words(const Interval& range, const char* unit) {
  return range_words(range.low, range.likely, range.high, unit);
}

std::string freeboard_words(const DrainageCase& one) {
  if (!one.freeboard_mm) return "No raised module lies on the roof.";
  const SignedRange& free = *one.freeboard_mm;
  if (free.low > 0.0) {
    return fmt::format("Below raised modules at least {} stay free.",
                       range_words(free.low, free.likely, free.high, "mm"));
  }
  if (free.likely > 0.0) {
    return fmt::format("Raised modules are not shown to stay clear of it: {} are left under the lowest.",
                       range_words(free.low, free.likely, free.high, "mm"));
  }
  return fmt::format("It reaches raised modules: {:.0f} mm above the underside of the lowest ({:.0f} to {:.0f}).",
                     -free.likely, -free.high, -free.low);
}

std::string floating_words(const DrainageCase& one) {
  const auto count = [&](Buoyancy which) {
    return std::count_if(one.squares.begin(), one.squares.end(),
                         [which](const SquareDepth& square) { return square.buoyancy == which; });
  };
  if (count(Buoyancy::floats) > 0) return " Dry modules float there.";
  if (count(Buoyancy::not_shown) > 0) return " Dry modules are not shown to stay down.";
  return "";
}

}  // namespace houseleek::checks
