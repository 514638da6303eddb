// How hard it may rain for good before water reaches a module or runs over the roof's edge.
#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "base/contract.hpp"
#include "checks/drainage_cases.hpp"
#include "checks/drainage_outcome.hpp"
#include "numerics/root.hpp"

namespace houseleek::checks {
namespace {

constexpr double least_rain_mm_per_h = 5.0;
constexpr double rain_growth = 4.0;
constexpr double least_rain_growth = 1.25;
constexpr double most_rain_mm_per_h = 1500.0;  // above any minute of a century
constexpr double rain_tolerance_frac = 0.005;

/// Least distance from water to the roof's edge, where the edge has an upstand: without one it is where water should go.
double least_edge_m(const DrainageDeck& deck, const std::vector<double>& depth_m) {
  double least_m = std::numeric_limits<double>::infinity();
  for (std::size_t e = deck.n_outlets + deck.n_overflows; e < deck.squares.exits.size(); ++e) {
    const Exit& exit = deck.squares.exits[e];
    if (exit.lip_m <= deck.squares.deck.level_m[at(exit.square)]) continue;
    least_m = std::min(least_m, exit.lip_m - deck.squares.deck.level_m[at(exit.square)] - depth_m[at(exit.square)]);
  }
  return least_m;
}

struct Capacity {
  double rain_mm_per_h = 0.0;
  bool is_beyond = false;
  std::vector<double> depth_m;
  int n_left_out = 0;  // squares whose modules stand in a puddle after any rain
};

/// A steady rain looked at, the room it leaves and its water.
struct Looked {
  double rain_mm_per_h = 0.0;
  double room_m = 0.0;
  std::vector<double> depth_m;
};

/// Depths to begin with: between the nearest rains looked at on either side; else those of the one below, or none.
std::vector<double> depths_between(const std::vector<Looked>& looked, double rain_mm_per_h) {
  const Looked* below = nullptr;
  const Looked* above = nullptr;
  for (const Looked& one : looked) {
    if (one.rain_mm_per_h <= rain_mm_per_h && (!below || one.rain_mm_per_h > below->rain_mm_per_h)) below = &one;
    if (one.rain_mm_per_h > rain_mm_per_h && (!above || one.rain_mm_per_h < above->rain_mm_per_h)) above = &one;
  }
  if (!below) return {};
  std::vector<double> depth_m = below->depth_m;
  if (!above) return depth_m;
  const double share = (rain_mm_per_h - below->rain_mm_per_h) / (above->rain_mm_per_h - below->rain_mm_per_h);
  for (std::size_t k = 0; k < depth_m.size(); ++k) depth_m[k] += share * (above->depth_m[k] - depth_m[k]);
  return depth_m;
}

/// A little beyond where the room would be used up if it went on to shrink as between the last two rains looked at: rains
/// far beyond it flood the modules, and take longest to come to rest.
double next_rain_mm_per_h(const std::vector<Looked>& looked) {
  const Looked& last = looked.back();
  const double most = rain_growth * last.rain_mm_per_h;
  if (looked.size() < 2) return most;
  const Looked& before = looked[looked.size() - 2];
  const double shrinks = (before.room_m - last.room_m) / (last.rain_mm_per_h - before.rain_mm_per_h);
  if (!(shrinks > 0.0)) return most;
  constexpr double beyond = 1.1;
  return std::clamp(beyond * (last.rain_mm_per_h + last.room_m / shrinks), least_rain_growth * last.rain_mm_per_h,
                    most);
}

Capacity find_capacity(const DrainageDeck& deck) {
  Capacity capacity;
  const std::vector<double> standing_m = find_still_pool(deck.squares).depth_m;
  std::vector<bool> is_counted(standing_m.size(), true);
  for (std::size_t k = 0; k < standing_m.size(); ++k) {
    is_counted[k] = !is_raised(deck.modules[k]) || standing_m[k] < deck.squares.cover[k].gap_m;
    if (!is_counted[k]) ++capacity.n_left_out;
  }
  std::vector<Looked> looked;
  const auto room_m = [&](double rain_mm_per_h) {
    const auto same = std::find_if(looked.begin(), looked.end(),
                                   [&](const Looked& one) { return one.rain_mm_per_h == rain_mm_per_h; });
    if (same != looked.end()) return same->room_m;
    std::vector<double> depth_m =
        steady_depths_m(deck.squares, steady_runoff(deck, rain_mm_per_h), depths_between(looked, rain_mm_per_h));
    const double left_m = std::min(least_freeboard_m(deck, depth_m, is_counted), least_edge_m(deck, depth_m));
    looked.push_back({.rain_mm_per_h = rain_mm_per_h, .room_m = left_m, .depth_m = std::move(depth_m)});
    return left_m;
  };
  // Upwards until the room is used up: a roof seldom takes the hardest rain looked at.
  double low_mm_per_h = 0.0;
  double high_mm_per_h = least_rain_mm_per_h;
  while (room_m(high_mm_per_h) >= 0.0 && !capacity.is_beyond) {
    capacity.rain_mm_per_h = high_mm_per_h;
    capacity.is_beyond = high_mm_per_h == most_rain_mm_per_h;
    low_mm_per_h = high_mm_per_h;
    high_mm_per_h = std::min(most_rain_mm_per_h, next_rain_mm_per_h(looked));
  }
  if (low_mm_per_h > 0.0 && !capacity.is_beyond) {
    const std::optional<numerics::Root> root = numerics::find_root(
        room_m, {.low = low_mm_per_h, .high = high_mm_per_h, .tolerance = rain_tolerance_frac * low_mm_per_h});
    expects(root.has_value(), "a rain at which the room is used up");
    capacity.rain_mm_per_h = root->x;
    (void)room_m(root->x);
  }
  const double shown_mm_per_h = capacity.rain_mm_per_h > 0.0 ? capacity.rain_mm_per_h : least_rain_mm_per_h;
  capacity.depth_m = std::find_if(looked.begin(), looked.end(), [&](const Looked& one) {
                       return one.rain_mm_per_h == shown_mm_per_h;
                     })->depth_m;
  return capacity;
}

}  // namespace

DrainageCase make_capacity(const design::ValidDesign& design, const Decks& decks) {
  std::array<Capacity, 3> by_end;
  Outcome outcome;
  std::array<double, 3> rain{};
  for (const DrainageEnd end : drainage_ends) {
    by_end[at(end)] = find_capacity(decks[at(end)]);
    outcome.depth_m[at(end)] = by_end[at(end)].depth_m;
    rain[at(end)] = by_end[at(end)].rain_mm_per_h;
  }
  DrainageCase one;
  one.kind = DrainageKind::capacity;
  one.name = "steady rain";
  one.rain_mm_per_h = hull_of_sizes(rain);
  const Capacity& likely = by_end[at(DrainageEnd::likely)];
  one.is_rain_beyond_search = likely.is_beyond;
  put_outcome(design, decks, outcome, results::exactly(0.0), one);
  const DrainageDeck& deck = decks[at(DrainageEnd::likely)];
  const bool has_eaves = std::any_of(deck.squares.exits.begin(), deck.squares.exits.end(), [&](const Exit& exit) {
    return exit.opening && exit.lip_m <= deck.squares.deck.level_m[at(exit.square)];
  });
  if (deck.n_outlets + deck.n_overflows == 0 && !has_eaves) {
    one.rain_mm_per_h = std::nullopt;
    one.statement = "No outlet is described: all rain would leave over the upstand at the roof's edge.";
    return one;
  }
  const std::string what = one.freeboard_mm ? "before water reaches a raised module or runs over the roof's edge"
                                            : "before water runs over the roof's edge";
  if (likely.rain_mm_per_h == 0.0) {
    one.statement = fmt::format("Takes less than {:.0f} mm/h {}.", least_rain_mm_per_h, what);
  } else if (likely.is_beyond) {
    one.statement = fmt::format("Takes more than {:.0f} mm/h {}.", most_rain_mm_per_h, what);
  } else {
    one.statement = fmt::format("Takes up to {} {}.", range_words(*one.rain_mm_per_h, "mm/h"), what);
  }
  const int n_left_out = by_end[at(DrainageEnd::hard)].n_left_out;
  if (n_left_out > 0) {
    one.statement +=
        fmt::format(" {} square{} left out: a puddle as high as the spacers may stay there after any rain.", n_left_out,
                    n_left_out == 1 ? " is" : "s are");
  }
  return one;
}

}  // namespace houseleek::checks
