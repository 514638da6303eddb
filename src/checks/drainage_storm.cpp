// Hard rain of a return period on the roof: which duration leaves least room, how deep, and how long it takes to drain.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "checks/drainage_cases.hpp"
#include "checks/drainage_outcome.hpp"
#include "physics/design_rain.hpp"

namespace houseleek::checks {
namespace {

using results::Interval;

constexpr int most_minutes_after = 240;
constexpr double drained_below_m = 1.0e-4;
constexpr double growth_error_m = 1.0e-5;

/// A design's roof with one end of its ranges, perhaps an outlet blocked, and how it is to be followed.
struct StormRun {
  const design::Design& design;
  const DrainageOptions& options;
  const DrainageDeck& deck;
  const FlowSquares& squares;
  DrainageEnd end;
};

/// Run-off by the minute: a recipe takes the first of the storm. Column 0 is bare deck, then one for each recipe.
RunOff runoff_of(const StormRun& run, const Storm& storm) {
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
  return runoff;
}

/// `until_now`: of a run that ended at its peak.
Routed route_storm(const StormRun& run, const Storm& storm, bool ends_at_peak, const Routed& until_now = {}) {
  return continue_runoff(run.squares, runoff_of(run, storm),
                         {.step_s = storm.duration_min > 60.0 ? 60.0 : run.options.step_s,
                          .minutes_after = most_minutes_after,
                          .drained_below_m = drained_below_m,
                          .ends_at_peak = ends_at_peak,
                          .growth_error_m = growth_error_m},
                         until_now);
}

/// A storm followed to its peak; nothing followed where it is the only one.
struct Peak {
  const Storm* storm = nullptr;
  Routed routed;
};

/// The duration that leaves least room: under raised modules, or else the deepest water.
Peak critical_storm(const StormRun& run, const std::vector<Storm>& storms) {
  Peak worst{&storms.front(), {}};
  if (storms.size() == 1) return worst;
  double least_m = std::numeric_limits<double>::infinity();
  for (const Storm& storm : storms) {
    Routed routed = route_storm(run, storm, true);
    double room_m = least_freeboard_m(run.deck, routed.max_depth_m);
    if (!std::isfinite(room_m)) room_m = -*std::max_element(routed.max_depth_m.begin(), routed.max_depth_m.end());
    if (room_m < least_m) {
      least_m = room_m;
      worst = {&storm, std::move(routed)};
    }
  }
  return worst;
}

}  // namespace

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

DrainageCase make_storm(const design::ValidDesign& design, const Decks& decks, const DrainageOptions& options,
                        const std::vector<Storm>& storms, int blocked_outlet) {
  std::array<FlowSquares, 3> squares;
  for (const DrainageEnd end : drainage_ends) {
    const DrainageDeck& deck = decks[at(end)];
    squares[at(end)] = blocked_outlet < 0 ? deck.squares : with_blocked(deck, blocked_outlet);
  }
  const auto run = [&](DrainageEnd end) { return StormRun{*design, options, decks[at(end)], squares[at(end)], end}; };
  const Peak peak = critical_storm(run(DrainageEnd::likely), storms);
  const Storm& storm = *peak.storm;
  DrainageCase one;
  one.kind = blocked_outlet < 0 ? DrainageKind::storm : DrainageKind::one_blocked;
  one.rain_mm_per_h = storm.rain_mm_per_h;
  one.duration_min = storm.duration_min;
  one.return_years = storm.return_years;
  Outcome outcome;
  for (const DrainageEnd end : drainage_ends) {
    const Routed routed = end == DrainageEnd::likely ? route_storm(run(end), storm, false, peak.routed)
                                                     : route_storm(run(end), storm, false);
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
                              range_words(storm.rain_mm_per_h, "mm/h"), storm.duration_min, storm.return_years,
                              range_words(one.max_depth_mm, "mm"), freeboard_words(one), floating_words(one));
  return one;
}

}  // namespace houseleek::checks
