// What rain, wind and fire ask of the roof: the checks' findings as plain answers.
#include "studies/roof_answers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/contract.hpp"
#include "checks/clear_strips.hpp"
#include "checks/drainage.hpp"
#include "checks/fire_load.hpp"
#include "checks/own_estimate.hpp"
#include "checks/wind_uplift.hpp"
#include "studies/roof_squares.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;
using results::figure_missing;
using results::figure_with_range;
using results::figure_without_range;
using results::Interval;

constexpr std::string_view water_from =
    "levels, silt, blocked width, roughness and rain all at the end that keeps water low, and all at the other";
constexpr std::string_view wind_from =
    "dry weight and pressure from below, both at the end that lifts and at the other";
constexpr std::string_view fire_from = "low and high ends of density, heat and what burns of it";

std::size_t at(int index) { return static_cast<std::size_t>(index); }

template <class Range>
Figure ranged(const Range& range, std::string_view from) {
  return figure_with_range(range.likely, range.low, range.high, std::string(from));
}
template <class Range>
Figure water_figure(const Range& range) {
  return ranged(range, water_from);
}

const std::string& recipe_of_patch(const design::Design& design, int patch) {
  return design.recipes[at(design.patches[at(patch)].recipe)].name;
}

// --- drainage

std::string word_from(checks::DrainageKind kind) {
  switch (kind) {
    case checks::DrainageKind::capacity:
      return "capacity";
    case checks::DrainageKind::storm:
      return "storm";
    case checks::DrainageKind::one_blocked:
      return "one_blocked";
    case checks::DrainageKind::blocked:
      return "blocked";
    case checks::DrainageKind::blocked_in_rain:
      return "blocked_in_rain";
    case checks::DrainageKind::hail:
      break;
  }
  return "hail";
}

Figure rain_of(const checks::DrainageCase& one) {
  if (!one.rain_mm_per_h) {
    return figure_missing(one.kind == checks::DrainageKind::capacity ? "no outlet is described"
                                                                     : "no rain falls in it");
  }
  if (one.is_rain_beyond_search) {
    return figure_without_range(one.rain_mm_per_h->likely, "the hardest rain that is looked at: it takes more");
  }
  return water_figure(*one.rain_mm_per_h);
}

/// The worst of the dry modules in a case.
std::string buoyancy_word(const checks::DrainageCase& one) {
  const auto has = [&one](checks::Buoyancy which) {
    return std::any_of(one.squares.begin(), one.squares.end(),
                       [which](const checks::SquareDepth& square) { return square.buoyancy == which; });
  };
  if (one.squares.empty()) return "none_laid";
  if (has(checks::Buoyancy::floats)) return "float";
  return has(checks::Buoyancy::not_shown) ? "not_shown_to_stay" : "stay";
}

report::DrainageCaseAnswer answer_case(const checks::DrainageCase& one) {
  const bool is_storm = one.kind == checks::DrainageKind::storm || one.kind == checks::DrainageKind::one_blocked;
  return {.name = one.name,
          .kind = word_from(one.kind),
          .rain_mm_per_h = rain_of(one),
          .duration_min = one.duration_min,
          .return_years = one.return_years,
          .max_depth_mm = water_figure(one.max_depth_mm),
          .freeboard_mm =
              one.freeboard_mm ? water_figure(*one.freeboard_mm) : figure_missing("no raised module lies on the roof"),
          .water_kn = water_figure(one.water_kn),
          .heaviest_kn_per_m2 = water_figure(one.heaviest_kn_per_m2),
          .minutes_to_drain = is_storm ? water_figure(one.minutes_to_drain) : figure_missing("no storm that ends"),
          .dry_modules = buoyancy_word(one),
          .statement = one.statement};
}

/// The rarest storm; without one the steady rain that the roof just takes.
const checks::DrainageCase& case_of_map(const checks::DrainageCheck& check) {
  const checks::DrainageCase* shown = &check.cases.front();
  for (const checks::DrainageCase& one : check.cases) {
    if (one.kind == checks::DrainageKind::storm) shown = &one;
  }
  return *shown;
}

struct WaterOnSquare {
  Interval depth_mm;
  checks::SignedRange freeboard_mm;
};

std::vector<report::WaterSquareAnswer> answer_squares(const report::SquareGrid& grid, const plan::DeckShape& shape,
                                                      const checks::DrainageCase& one) {
  std::map<std::string, WaterOnSquare> worst;
  for (const checks::SquareDepth& square : one.squares) {
    const std::string name = square_name_at(grid, plan::middle_of(shape, square.square));
    const auto [place, is_new] = worst.try_emplace(name, WaterOnSquare{square.depth_mm, square.freeboard_mm});
    if (is_new) continue;
    WaterOnSquare& before = place->second;
    before.depth_mm = {std::max(before.depth_mm.low, square.depth_mm.low),
                       std::max(before.depth_mm.likely, square.depth_mm.likely),
                       std::max(before.depth_mm.high, square.depth_mm.high)};
    before.freeboard_mm = {std::min(before.freeboard_mm.low, square.freeboard_mm.low),
                           std::min(before.freeboard_mm.likely, square.freeboard_mm.likely),
                           std::min(before.freeboard_mm.high, square.freeboard_mm.high)};
  }
  std::vector<report::WaterSquareAnswer> answers;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const auto found = worst.find(square_name(column, row));
      if (found == worst.end()) continue;
      answers.push_back({.name = found->first,
                         .depth_mm = water_figure(found->second.depth_mm),
                         .freeboard_mm = water_figure(found->second.freeboard_mm)});
    }
  }
  return answers;
}

std::string advice_words(const report::SpacerAdviceAnswer& advice) {
  if (advice.is_better_empty) {
    return fmt::format("Patch {} (\"{}\") stands where water may come higher than spacers reach: leave it empty there.",
                       advice.patch + 1, advice.recipe);
  }
  const std::string now =
      advice.spacer_mm > 0.0 ? fmt::format("now {:.6g} mm", advice.spacer_mm) : std::string("now flat");
  return fmt::format("Patch {} (\"{}\") stands clear of the water on spacers of {:.6g} mm; {}.", advice.patch + 1,
                     advice.recipe, advice.needs_spacer_mm, now);
}

/// By patch: the greatest need of its squares.
std::vector<report::SpacerAdviceAnswer> answer_advice(const design::Design& design,
                                                      const std::vector<checks::SquareAdvice>& squares) {
  std::vector<report::SpacerAdviceAnswer> answers;
  for (const checks::SquareAdvice& square : squares) {
    const auto same = std::find_if(answers.begin(), answers.end(), [&square](const report::SpacerAdviceAnswer& one) {
      return one.patch == square.patch;
    });
    report::SpacerAdviceAnswer& advice = same != answers.end() ? *same : answers.emplace_back();
    advice.patch = square.patch;
    advice.recipe = recipe_of_patch(design, square.patch);
    advice.spacer_mm = square.spacer_mm;
    advice.needs_spacer_mm = std::max(advice.needs_spacer_mm, square.needs_spacer_mm);
    advice.is_better_empty = advice.is_better_empty || square.is_better_empty;
  }
  for (report::SpacerAdviceAnswer& advice : answers) advice.statement = advice_words(advice);
  return answers;
}

// --- wind

/// The one that is lifted first.
template <class Member>
const checks::ModuleWind* weakest_of(const checks::WindUplift& wind, const Member& is_member) {
  const checks::ModuleWind* weakest = nullptr;
  for (const checks::ModuleWind& one : wind.modules) {
    if (!is_member(one)) continue;
    if (weakest == nullptr || one.gust_km_per_h.low < weakest->gust_km_per_h.low) weakest = &one;
  }
  return weakest;
}

Figure wind_figure(const Interval& interval) { return ranged(interval, wind_from); }

report::PatchWindAnswer answer_patch(const design::Design& design, const checks::WindUplift& wind, int patch) {
  const checks::ModuleWind* weakest =
      weakest_of(wind, [&](const checks::ModuleWind& one) { return design.modules[at(one.module)].patch == patch; });
  expects(weakest != nullptr, "a module in every patch");
  const std::string low_end = "the end to go by: lightest, most pressure from below";
  report::PatchWindAnswer answer;
  answer.patch = patch;
  answer.recipe = recipe_of_patch(design, patch);
  answer.suction_coefficient = weakest->suction;
  answer.dry_kn_per_m2 = wind_figure(weakest->dry_kn_per_m2);
  answer.not_shown_above_km_per_h = wind_figure(weakest->gust_km_per_h);
  answer.linked_4_km_per_h = figure_without_range(weakest->linked_gust_km_per_h[0], low_end);
  answer.linked_9_km_per_h = figure_without_range(weakest->linked_gust_km_per_h[1], low_end);
  answer.ballast_kg_per_m2 = weakest->ballast_kg_per_m2
                                 ? wind_figure(*weakest->ballast_kg_per_m2)
                                 : figure_missing("the gust of the place is not known (wind.basic_wind_m_per_s)");
  return answer;
}

// --- fire

report::RecipeFireAnswer answer_recipe(const design::Design& design, const checks::RecipeFuel& fuel) {
  return {.name = design.recipes[at(fuel.recipe)].name,
          .fuel_mj_per_m2 = ranged(fuel.fuel_mj_per_m2, fire_from),
          .plants_mj_per_m2 = ranged(fuel.plants_mj_per_m2, fire_from),
          .burning_frac = ranged(fuel.burning_frac, fire_from),
          .mineral_mm = fuel.mineral_mm,
          .against = fuel.against,
          .not_counted = fuel.not_counted,
          .statement = fuel.statement};
}

}  // namespace

report::DrainageAnswer answer_drainage(const design::ValidDesign& design) {
  const checks::DrainageCheck check = checks::check_drainage(design, {});
  report::DrainageAnswer answer;
  answer.rain_note = check.rain_note;
  answer.levels_from = check.levels.from;
  for (std::size_t i = 0; i < design->roof.outlets.size(); ++i) {
    const std::string& name = design->roof.outlets[i].name;
    answer.outlets.push_back(
        {.name = name.empty() ? fmt::format("outlet {}", i + 1) : name, .catchment_m2 = check.outlet_catchments_m2[i]});
  }
  answer.walled_in_m2 = check.walled_in_m2;
  answer.standing_mm = water_figure(check.standing_mm);
  answer.days_to_dry = ranged(check.days_to_dry, "the puddle's depth and what the air takes in a day, both at one end");
  for (const checks::DrainageCase& one : check.cases) answer.cases.push_back(answer_case(one));
  answer.advice = answer_advice(*design, check.advice);
  const checks::DrainageCase& shown = case_of_map(check);
  answer.squares_case = shown.name;
  answer.squares = answer_squares(make_square_grid(design->roof), check.shape, shown);
  return answer;
}

report::WindAnswer answer_wind(const design::ValidDesign& design) {
  const checks::WindUplift wind = checks::check_wind_uplift(design);
  report::WindAnswer answer;
  const std::string of_place = "one figure of a map, once in 50 years";
  answer.gust_of_place_km_per_h = wind.gust_of_place_km_per_h
                                      ? figure_without_range(*wind.gust_of_place_km_per_h, of_place)
                                      : figure_missing("wind.basic_wind_m_per_s and roof_height_m are not both given");
  answer.peak_pressure_kn_per_m2 = wind.peak_pressure_kn_per_m2
                                       ? figure_without_range(*wind.peak_pressure_kn_per_m2, of_place)
                                       : figure_missing("wind.basic_wind_m_per_s and roof_height_m are not both given");
  answer.edge_m = wind.edge_m;
  answer.taken_severest = wind.assumed;
  answer.not_counted = wind.not_counted;
  answer.statement = wind.statement;
  const checks::ModuleWind* weakest = weakest_of(wind, [](const checks::ModuleWind&) { return true; });
  answer.not_shown_above_km_per_h =
      weakest == nullptr ? figure_missing("no modules are laid yet") : wind_figure(weakest->gust_km_per_h);
  for (std::size_t i = 0; i < design->patches.size(); ++i) {
    answer.patches.push_back(answer_patch(*design, wind, static_cast<int>(i)));
  }
  const report::SquareGrid grid = make_square_grid(design->roof);
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const geometry::RectangleM square = square_rectangle(grid, column, row);
      const checks::ModuleWind* here = weakest_of(wind, [&](const checks::ModuleWind& one) {
        return geometry::is_overlapping(design->modules[at(one.module)].rectangle, square);
      });
      if (here == nullptr) continue;
      answer.squares.push_back({.name = square_name(column, row),
                                .suction_coefficient = here->suction,
                                .not_shown_above_km_per_h = wind_figure(here->gust_km_per_h)});
    }
  }
  return answer;
}

report::FireAnswer answer_fire(const design::ValidDesign& design) {
  report::FireAnswer answer;
  for (const checks::RecipeFuel& fuel : checks::compute_recipe_fuels(design)) {
    answer.recipes.push_back(answer_recipe(*design, fuel));
  }
  const checks::ClearStripCheck check = checks::check_clear_strips(design);
  for (std::size_t r = 0; r < check.rules.size(); ++r) {
    report::StripAnswer strip;
    strip.beside = check.rules[r].beside;
    strip.width_mm = check.rules[r].width_mm;
    strip.source = check.rules[r].source;
    double nearest_mm = strip.width_mm;
    for (const checks::StripBreach& breach : check.breaches) {
      if (breach.rule != static_cast<int>(r)) continue;
      ++strip.n_reached_into;
      nearest_mm = std::min(nearest_mm, breach.distance_mm);
    }
    strip.nearest_mm = strip.n_reached_into > 0 ? figure_without_range(nearest_mm, "exact, on the plan as described")
                                                : figure_missing("nothing reaches into it");
    answer.strips.push_back(std::move(strip));
  }
  answer.left_m2 = check.left_m2;
  answer.statement = check.statement;
  return answer;
}

std::vector<design::Assumption> assumed_roof_checks(const design::ValidDesign& design) {
  std::vector<design::Assumption> assumed = checks::assumed_drainage(design);
  const Interval evaporation = checks::DrainageOptions{}.evaporation_mm_per_day;
  assumed.push_back(
      checks::own_estimate("drainage.evaporation_mm_per_day", "what the air takes of a puddle", "mm/day", evaporation));
  for (const std::vector<design::Assumption>& more : {checks::assumed_wind(design), checks::assumed_fire(design)}) {
    assumed.insert(assumed.end(), more.begin(), more.end());
  }
  return assumed;
}

}  // namespace houseleek::studies
