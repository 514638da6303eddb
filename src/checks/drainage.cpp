// Will the roof drain: depth of water against spacers, blocked outlets, hail, and how hard it may rain.
#include "checks/drainage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "base/contract.hpp"
#include "numerics/root.hpp"
#include "physics/design_rain.hpp"
#include "plan/flow_paths.hpp"

namespace houseleek::checks {
namespace {

using results::Interval;

constexpr double mm_per_m = 1000.0;
constexpr double least_rain_mm_per_h = 5.0;
constexpr double rain_growth = 4.0;
constexpr double most_rain_mm_per_h = 1500.0;  // above any minute of a century
constexpr double rain_tolerance_frac = 0.005;
constexpr double least_puddle_mm = 1.0;
constexpr int most_minutes_after = 240;
constexpr double drained_below_m = 1.0e-4;
// Hail that lies: grains of 0.9 packed at about six tenths.
constexpr Interval hail_kg_per_m3 = {400.0, 550.0, 700.0};

std::size_t at(int index) { return static_cast<std::size_t>(index); }
std::size_t at(DrainageEnd end) { return static_cast<std::size_t>(end); }
constexpr std::array ends = {DrainageEnd::easy, DrainageEnd::likely, DrainageEnd::hard};

using Decks = std::array<DrainageDeck, 3>;  // by DrainageEnd

double end_of(const Interval& figure, DrainageEnd end) {
  return end == DrainageEnd::easy ? figure.low : end == DrainageEnd::hard ? figure.high : figure.likely;
}

/// The likely figure with whatever the ends turned out to be on either side of it.
SignedRange hull(const std::array<double, 3>& by_end) {
  return {std::min({by_end[0], by_end[1], by_end[2]}), by_end[at(DrainageEnd::likely)],
          std::max({by_end[0], by_end[1], by_end[2]})};
}
Interval hull_of_sizes(const std::array<double, 3>& by_end) {
  const SignedRange range = hull(by_end);
  return {range.low, range.likely, range.high};
}

/// Steady run-off of every square, m3/s.
std::vector<double> steady_runoff(const DrainageDeck& deck, double rain_mm_per_h) {
  std::vector<double> arriving;
  for (std::size_t k = 0; k < deck.modules.size(); ++k) {
    const double open_m2 = deck.squares.deck.area_m2[k];
    arriving.push_back(open_m2 > 0.0 ? rain_mm_per_h / 3.6e6 * (open_m2 + deck.levels.shed_m2[k]) : 0.0);
  }
  return arriving;
}

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

FlowSquares with_blocked(const DrainageDeck& deck, int only) {
  FlowSquares squares = deck.squares;
  for (std::size_t e = 0; e < deck.n_outlets; ++e) {
    if (only < 0 || only == static_cast<int>(e)) squares.exits[e].clear_frac = 0.0;
  }
  return squares;
}

/// Depths and weights of a case for the three ends.
struct Outcome {
  std::array<std::vector<double>, 3> depth_m;
  std::array<double, 3> minutes_to_drain{};
};

void put_outcome(const design::ValidDesign& design, const Decks& decks, const Outcome& outcome,
                 const Interval& extra_kn_per_m2, DrainageCase& result) {
  std::array<double, 3> deepest{}, weight{}, heaviest{}, freeboard{};
  for (const DrainageEnd end : ends) {
    const DrainageDeck& deck = decks[at(end)];
    const StillPool pool = pool_of(deck.squares, outcome.depth_m[at(end)]);
    double deck_m2 = 0.0;
    for (const double area_m2 : deck.squares.deck.area_m2) deck_m2 += area_m2;
    deepest[at(end)] = mm_per_m * pool.max_depth_m;
    weight[at(end)] = pool.weight_kn + end_of(extra_kn_per_m2, end) * deck_m2;
    heaviest[at(end)] = pool.heaviest_kn_per_m2 + end_of(extra_kn_per_m2, end);
    freeboard[at(end)] = mm_per_m * least_freeboard_m(deck, pool.depth_m, std::vector<bool>(pool.depth_m.size(), true));
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
    for (const DrainageEnd end : ends) {
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

std::string range_words(double low, double likely, double high, const char* unit) {
  if (low == likely && likely == high) return fmt::format("{:.0f} {}", likely, unit);
  return fmt::format("{:.0f} {} ({:.0f} to {:.0f})", likely, unit, low, high);
}
std::string words(const Interval& range, const char* unit) {
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

// --- capacity

struct Capacity {
  double rain_mm_per_h = 0.0;
  bool is_beyond = false;
  std::vector<double> depth_m;
  int n_left_out = 0;  // squares whose modules stand in a puddle after any rain
};

Capacity find_capacity(const DrainageDeck& deck) {
  Capacity capacity;
  const std::vector<double> standing_m = find_still_pool(deck.squares).depth_m;
  std::vector<bool> is_counted(standing_m.size(), true);
  for (std::size_t k = 0; k < standing_m.size(); ++k) {
    is_counted[k] = !is_raised(deck.modules[k]) || standing_m[k] < deck.squares.cover[k].gap_m;
    if (!is_counted[k]) ++capacity.n_left_out;
  }
  const auto room_m = [&](double rain_mm_per_h) {
    capacity.depth_m = steady_depths_m(deck.squares, steady_runoff(deck, rain_mm_per_h), capacity.depth_m);
    return std::min(least_freeboard_m(deck, capacity.depth_m, is_counted), least_edge_m(deck, capacity.depth_m));
  };
  // Upwards until the room is used up: a roof seldom takes the hardest rain looked at.
  double low_mm_per_h = 0.0;
  double high_mm_per_h = least_rain_mm_per_h;
  while (room_m(high_mm_per_h) >= 0.0) {
    capacity.rain_mm_per_h = high_mm_per_h;
    capacity.is_beyond = high_mm_per_h == most_rain_mm_per_h;
    if (capacity.is_beyond) return capacity;
    low_mm_per_h = high_mm_per_h;
    high_mm_per_h = std::min(most_rain_mm_per_h, rain_growth * high_mm_per_h);
  }
  if (low_mm_per_h == 0.0) return capacity;
  const std::optional<numerics::Root> root = numerics::find_root(
      room_m, {.low = low_mm_per_h, .high = high_mm_per_h, .tolerance = rain_tolerance_frac * low_mm_per_h});
  expects(root.has_value(), "a rain at which the room is used up");
  capacity.rain_mm_per_h = root->x;
  (void)room_m(root->x);
  return capacity;
}

DrainageCase make_capacity(const design::ValidDesign& design, const Decks& decks) {
  std::array<Capacity, 3> by_end;
  Outcome outcome;
  std::array<double, 3> rain{};
  for (const DrainageEnd end : ends) {
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
    one.statement = fmt::format("Takes up to {} {}.", words(*one.rain_mm_per_h, "mm/h"), what);
  }
  const int n_left_out = by_end[at(DrainageEnd::hard)].n_left_out;
  if (n_left_out > 0) {
    one.statement +=
        fmt::format(" {} square{} left out: a puddle as high as the spacers may stay there after any rain.", n_left_out,
                    n_left_out == 1 ? " is" : "s are");
  }
  return one;
}

// --- storms

struct Storm {
  double return_years = 0.0;
  double duration_min = 0.0;
  Interval rain_mm_per_h;
};

/// Storms by return period, each with all its durations.
std::vector<std::vector<Storm>> storms_of(const design::DesignRain& rain) {
  std::vector<std::vector<Storm>> groups;
  if (rain.maxima) {
    const physics::QuantileRange depth_mm =
        physics::gumbel_quantile_range(rain.maxima->depths_mm, rain.maxima->return_years);
    const double per_h = 60.0 / rain.maxima->duration_min;
    groups.push_back({{.return_years = rain.maxima->return_years,
                       .duration_min = rain.maxima->duration_min,
                       .rain_mm_per_h = {per_h * depth_mm.low, per_h * depth_mm.likely, per_h * depth_mm.high}}});
  }
  for (const design::RainIntensity& row : rain.intensities) {
    if (groups.empty() || groups.back().front().return_years != row.return_years) groups.emplace_back();
    groups.back().push_back({.return_years = row.return_years,
                             .duration_min = row.duration_min,
                             .rain_mm_per_h = results::exactly(row.intensity_mm_per_h)});
  }
  return groups;
}

/// A design's roof with one end of its ranges, perhaps an outlet blocked, and how it is to be followed.
struct StormRun {
  const design::Design& design;
  const DrainageOptions& options;
  const DrainageDeck& deck;
  const FlowSquares& squares;
  DrainageEnd end;
};

/// Run-off by the minute: a recipe takes the first of the storm. Column 0 is bare deck, then one for each recipe.
Routed route_storm(const StormRun& run, const Storm& storm) {
  const DrainageDeck& deck = run.deck;
  const double rain_mm_per_h = end_of(storm.rain_mm_per_h, run.end);
  const double duration_min = storm.duration_min;
  const int n_minutes = static_cast<int>(std::ceil(duration_min));
  RunOff runoff;
  const auto shed = [&](double takes_mm) {
    std::vector<double> column;
    for (int minute = 0; minute < n_minutes; ++minute) {
      const double rain_mm = rain_mm_per_h / 60.0 * std::min(1.0, duration_min - minute);
      const double taken_mm = std::min(takes_mm, rain_mm);
      takes_mm -= taken_mm;
      column.push_back(rain_mm - taken_mm);
    }
    return column;
  };
  runoff.columns_mm_per_min.push_back(shed(0.0));
  for (std::size_t r = 0; r < run.design.recipes.size(); ++r) {
    const std::vector<Interval>& takes = run.options.still_takes_mm;
    const Interval takes_mm = takes.empty() ? results::exactly(0.0) : takes[r];
    // What is still taken keeps water low: the hard end takes least.
    runoff.columns_mm_per_min.push_back(shed(run.end == DrainageEnd::easy   ? takes_mm.high
                                             : run.end == DrainageEnd::hard ? takes_mm.low
                                                                            : takes_mm.likely));
  }
  for (std::size_t k = 0; k < deck.modules.size(); ++k) {
    // The rain of an obstacle comes with that of the square it runs onto, bare or not.
    const double own_m2 = run.squares.deck.area_m2[k];
    const double shed_m2 = deck.levels.shed_m2[k];
    if (own_m2 <= 0.0) {
      runoff.column_of_square.push_back(-1);
      continue;
    }
    const int column = deck.modules[k].recipe + 1;
    if (shed_m2 <= 0.0) {
      runoff.column_of_square.push_back(column);
      continue;
    }
    std::vector<double> mixed;
    for (std::size_t minute = 0; minute < runoff.columns_mm_per_min.front().size(); ++minute) {
      mixed.push_back(runoff.columns_mm_per_min[at(column)][minute] +
                      runoff.columns_mm_per_min.front()[minute] * shed_m2 / own_m2);
    }
    runoff.column_of_square.push_back(static_cast<int>(runoff.columns_mm_per_min.size()));
    runoff.columns_mm_per_min.push_back(std::move(mixed));
  }
  return route_runoff(run.squares, runoff,
                      {.step_s = duration_min > 60.0 ? 60.0 : run.options.step_s,
                       .minutes_after = most_minutes_after,
                       .drained_below_m = drained_below_m});
}

/// The duration that leaves least room: under raised modules, or else the deepest water.
const Storm& critical_storm(const StormRun& run, const std::vector<Storm>& storms) {
  const Storm* worst = &storms.front();
  if (storms.size() == 1) return *worst;
  double least_m = std::numeric_limits<double>::infinity();
  for (const Storm& storm : storms) {
    const Routed routed = route_storm(run, storm);
    double room_m = least_freeboard_m(run.deck, routed.max_depth_m, std::vector<bool>(run.deck.modules.size(), true));
    if (!std::isfinite(room_m)) room_m = -*std::max_element(routed.max_depth_m.begin(), routed.max_depth_m.end());
    if (room_m < least_m) {
      least_m = room_m;
      worst = &storm;
    }
  }
  return *worst;
}

/// The critical storm of a return period; with this outlet blocked, or none (-1).
DrainageCase make_storm(const design::ValidDesign& design, const Decks& decks, const DrainageOptions& options,
                        const std::vector<Storm>& storms, int blocked_outlet) {
  std::array<FlowSquares, 3> squares;
  for (const DrainageEnd end : ends) {
    const DrainageDeck& deck = decks[at(end)];
    squares[at(end)] = blocked_outlet < 0 ? deck.squares : with_blocked(deck, blocked_outlet);
  }
  const auto run = [&](DrainageEnd end) { return StormRun{*design, options, decks[at(end)], squares[at(end)], end}; };
  const Storm storm = critical_storm(run(DrainageEnd::likely), storms);
  DrainageCase one;
  one.kind = blocked_outlet < 0 ? DrainageKind::storm : DrainageKind::one_blocked;
  one.rain_mm_per_h = storm.rain_mm_per_h;
  one.duration_min = storm.duration_min;
  one.return_years = storm.return_years;
  Outcome outcome;
  for (const DrainageEnd end : ends) {
    const Routed routed = route_storm(run(end), storm);
    outcome.depth_m[at(end)] = routed.max_depth_m;
    outcome.minutes_to_drain[at(end)] = std::max(0.0, routed.minutes - std::ceil(storm.duration_min));
  }
  put_outcome(design, decks, outcome, results::exactly(0.0), one);
  one.name = fmt::format("once in {:.6g} years, {:.6g} min", storm.return_years, storm.duration_min);
  std::string with;
  if (blocked_outlet >= 0) {
    const std::string& outlet = decks[at(DrainageEnd::likely)].squares.exits[at(blocked_outlet)].name;
    one.name = fmt::format("{} blocked, {}", outlet, one.name);
    with = fmt::format("With {} blocked, ", outlet);
  }
  one.statement = fmt::format("{}{} for {:.6g} minutes, once in {:.6g} years, stand up to {} deep. {}{}", with,
                              words(storm.rain_mm_per_h, "mm/h"), storm.duration_min, storm.return_years,
                              words(one.max_depth_mm, "mm"), freeboard_words(one), floating_words(one));
  return one;
}

// --- blocked outlets

DrainageCase make_blocked(const design::ValidDesign& design, const Decks& decks,
                          const std::optional<Interval>& rain_mm_per_h, const Interval& hail_kn_per_m2) {
  DrainageCase one;
  one.kind = hail_kn_per_m2.high > 0.0 ? DrainageKind::hail
             : rain_mm_per_h           ? DrainageKind::blocked_in_rain
                                       : DrainageKind::blocked;
  one.rain_mm_per_h = rain_mm_per_h;
  Outcome outcome;
  for (const DrainageEnd end : ends) {
    const FlowSquares squares = with_blocked(decks[at(end)], -1);
    outcome.depth_m[at(end)] =
        rain_mm_per_h ? steady_depths_m(squares, steady_runoff(decks[at(end)], end_of(*rain_mm_per_h, end)))
                      : find_still_pool(squares).depth_m;
  }
  put_outcome(design, decks, outcome, hail_kn_per_m2, one);
  const bool is_hail = one.kind == DrainageKind::hail;
  one.name = is_hail ? "hail on blocked outlets" : rain_mm_per_h ? "all outlets blocked, rain" : "all outlets blocked";
  const std::string water = rain_mm_per_h
                                ? fmt::format("{} of rain that does not end stand", words(*rain_mm_per_h, "mm/h"))
                                : std::string("still water up to the lowest lip stands");
  one.statement = fmt::format(
      "With all outlets blocked{}, {} up to {} deep and weigh{} {:.1f} kN ({:.1f} to {:.1f}), {:.2f} kN/m2 ({:.2f} to "
      "{:.2f}) at the deepest. {}{}",
      is_hail ? " by hail" : "", water, words(one.max_depth_mm, "mm"), rain_mm_per_h ? "" : "s", one.water_kn.likely,
      one.water_kn.low, one.water_kn.high, one.heaviest_kn_per_m2.likely, one.heaviest_kn_per_m2.low,
      one.heaviest_kn_per_m2.high, freeboard_words(one), floating_words(one));
  return one;
}

// --- what to change

/// Raised modules that water may reach in a storm; flat ones that a puddle soaks from below or that may float.
std::vector<SquareAdvice> make_advice(const design::Design& design, const DrainageCheck& check,
                                      const std::vector<double>& standing_m, const DrainageOptions& options) {
  const bool has_storm = std::any_of(check.cases.begin(), check.cases.end(),
                                     [](const DrainageCase& one) { return one.kind == DrainageKind::storm; });
  std::vector<SquareAdvice> advice;
  for (const DrainageCase& one : check.cases) {
    // Without a storm nobody knows how deep it will be; the capacity is where the first module is reached.
    if (one.kind != DrainageKind::storm && (has_storm || one.kind != DrainageKind::capacity)) continue;
    for (const SquareDepth& square : one.squares) {
      const bool is_raised_there = design.patches[at(square.patch)].placed == design::Placed::raised;
      const bool stands_in_puddle = mm_per_m * standing_m[at(square.square)] > least_puddle_mm;
      const bool is_reached = has_storm ? square.freeboard_mm.low <= 0.0
                                        : stands_in_puddle && mm_per_m * standing_m[at(square.square)] >=
                                                                  design.recipes[at(square.recipe)].spacer.height_mm;
      if (is_raised_there ? !is_reached : !stands_in_puddle && square.buoyancy == Buoyancy::stays) continue;
      const double needs_mm = std::ceil(square.above_deck_mm.high);
      const auto same = std::find_if(advice.begin(), advice.end(),
                                     [&](const SquareAdvice& before) { return before.square == square.square; });
      SquareAdvice& one_square = same != advice.end() ? *same : advice.emplace_back();
      one_square.square = square.square;
      one_square.patch = square.patch;
      one_square.spacer_mm = is_raised_there ? design.recipes[at(square.recipe)].spacer.height_mm : 0.0;
      one_square.needs_spacer_mm = std::max(one_square.needs_spacer_mm, needs_mm);
      one_square.is_better_empty = one_square.needs_spacer_mm > options.highest_spacer_mm;
    }
  }
  return advice;
}

std::string rain_note_of(const design::DesignRain& rain) {
  if (rain.maxima) {
    return fmt::format("Gumbel's distribution through {} years of {:.6g}-minute rain ({}); the range is 95 %",
                       rain.maxima->depths_mm.size(), rain.maxima->duration_min, rain.source);
  }
  if (!rain.intensities.empty()) return fmt::format("a table of intensities ({})", rain.source);
  return "no table of rain intensities is given: the roof's capacity is worked out, no depth in a storm";
}

}  // namespace

DrainageCheck check_drainage(const design::ValidDesign& design, const DrainageOptions& options) {
  expects(options.still_takes_mm.empty() || options.still_takes_mm.size() == design->recipes.size(),
          "what is still taken for each recipe");
  Decks decks;
  for (const DrainageEnd end : ends) decks[at(end)] = make_drainage_deck(design, options.levels, end);
  const DrainageDeck& likely = decks[at(DrainageEnd::likely)];
  DrainageCheck check;
  check.shape = likely.levels.shape;
  check.levels = likely.levels;
  check.walled_in_m2 = likely.walled_in_m2;
  check.assumed = assumed_drainage(design);
  check.rain_note = rain_note_of(design->design_rain);
  std::vector<plan::Spout> spouts;
  for (const Exit& exit : likely.squares.exits) spouts.push_back({exit.square, exit.lip_m});
  const plan::FilledDeck filled = plan::fill_hollows(likely.squares.deck, spouts);
  check.outlet_catchments_m2 = plan::catchments_m2(likely.squares.deck, filled, likely.levels.shed_m2, spouts.size());
  check.outlet_catchments_m2.resize(likely.n_outlets);
  std::array<double, 3> standing_mm{};
  for (const DrainageEnd end : ends) {
    standing_mm[at(end)] = mm_per_m * find_still_pool(decks[at(end)].squares).max_depth_m;
  }
  check.standing_mm = hull_of_sizes(standing_mm);
  check.days_to_dry = {days_to_dry(check.standing_mm.low, options.evaporation_mm_per_day).low,
                       days_to_dry(check.standing_mm.likely, options.evaporation_mm_per_day).likely,
                       days_to_dry(check.standing_mm.high, options.evaporation_mm_per_day).high};
  check.cases.push_back(make_capacity(design, decks));
  std::optional<Interval> hardest_mm_per_h;
  const std::vector<std::vector<Storm>> groups = storms_of(design->design_rain);
  for (const std::vector<Storm>& storms : groups) {
    check.cases.push_back(make_storm(design, decks, options, storms, -1));
    hardest_mm_per_h = check.cases.back().rain_mm_per_h;  // the rarest comes last
  }
  const Interval no_hail = results::exactly(0.0);
  if (likely.n_outlets > 1 && !groups.empty()) {
    for (std::size_t e = 0; e < likely.n_outlets; ++e) {
      check.cases.push_back(make_storm(design, decks, options, groups.back(), static_cast<int>(e)));
    }
  }
  if (likely.n_outlets > 0) {
    check.cases.push_back(make_blocked(design, decks, std::nullopt, no_hail));
    if (hardest_mm_per_h) check.cases.push_back(make_blocked(design, decks, hardest_mm_per_h, no_hail));
    if (const std::optional<double>& hail_mm = design->roof.actions.hail_mm; hail_mm && *hail_mm > 0.0) {
      const Interval hail_kn_per_m2 = (9.80665e-6 * *hail_mm) * hail_kg_per_m3;
      check.cases.push_back(make_blocked(design, decks, std::nullopt, hail_kn_per_m2));
    }
  }
  check.advice = make_advice(*design, check, find_still_pool(decks[at(DrainageEnd::hard)].squares).depth_m, options);
  return check;
}

}  // namespace houseleek::checks
