// Will the roof drain: depth of water against spacers, blocked outlets, hail, and how hard it may rain.
#include "checks/drainage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"
#include "checks/drainage_cases.hpp"
#include "checks/drainage_ends.hpp"
#include "plan/flow_paths.hpp"

namespace houseleek::checks {
namespace {

using results::Interval;

constexpr double mm_per_m = 1000.0;
constexpr double least_puddle_mm = 1.0;
// Hail that lies: grains of 0.9 packed at about six tenths.
constexpr Interval hail_kg_per_m3 = {400.0, 550.0, 700.0};

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
  for (const DrainageEnd end : drainage_ends) decks[at(end)] = make_drainage_deck(design, options.levels, end);
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
  for (const DrainageEnd end : drainage_ends) {
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
