// Soaked modules against what an engineer wrote down: evenly, along the spans, case by case, and where more may go.
#include "studies/load_answer.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "checks/foot_pressure.hpp"
#include "checks/joist_sag.hpp"
#include "checks/load_cases.hpp"
#include "checks/load_map.hpp"
#include "checks/next_places.hpp"
#include "checks/span_use.hpp"
#include "checks/uniform_load.hpp"
#include "checks/weights.hpp"
#include "studies/roof_squares.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;
using results::figure_missing;
using results::Interval;

constexpr std::string_view no_figure = "no figure to compare with, as `missing` says";

Figure figure_from(const Interval& interval) { return checks::figure_from_weight(interval); }

std::string word_from(checks::LoadVerdict verdict) {
  switch (verdict) {
    case checks::LoadVerdict::none:
      return "none";
    case checks::LoadVerdict::within:
      return "within";
    case checks::LoadVerdict::not_shown:
      return "not_shown";
    case checks::LoadVerdict::above:
      return "above";
  }
  expects(false, "a verdict of the list");
  return "";
}

std::string word_from(checks::SpanModel model) {
  switch (model) {
    case checks::SpanModel::none_given:
      return "none_given";
    case checks::SpanModel::engineer_only:
      return "engineer_only";
    case checks::SpanModel::computed:
      break;
  }
  return "computed";
}

/// Still water behind blocked outlets, as the rain check has it, spread over the roof.
std::optional<Interval> pool_kn_per_m2(const design::Roof& roof, const report::DrainageAnswer& drainage) {
  for (const report::DrainageCaseAnswer& one : drainage.cases) {
    if (one.kind != "blocked") continue;
    const double roof_m2 = geometry::area_m2(roof.outline);
    return (1.0 / roof_m2) * Interval{one.water_kn.range->low, *one.water_kn.value, one.water_kn.range->high};
  }
  return std::nullopt;
}

std::vector<report::LoadCaseAnswer> answer_cases(const design::ValidDesign& design,
                                                 const report::DrainageAnswer& drainage) {
  std::vector<report::LoadCaseAnswer> answers;
  for (const checks::LoadCase& one : checks::compute_load_cases(design, pool_kn_per_m2(design->roof, drainage))) {
    const auto figure = [&one](const Interval& interval) {
      return one.is_computed ? figure_from(interval) : figure_missing(one.because);
    };
    answers.push_back({.name = one.name,
                       .left_out = one.because,
                       .added_kn_per_m2 = one.is_computed && one.added_kn_per_m2.high == 0.0
                                              ? figure_missing("nothing is added to the modules")
                                              : figure(one.added_kn_per_m2),
                       .heaviest_kn_per_m2 = figure(one.heaviest_kn_per_m2),
                       .whole_roof_kn = figure(one.whole_roof_kn),
                       .factored_kn_per_m2 = figure(one.factored_kn_per_m2),
                       .uniform_verdict = word_from(one.uniform),
                       .span_verdict = word_from(one.spans),
                       .statement = one.statement});
  }
  return answers;
}

std::vector<report::FootAnswer> answer_feet(const design::ValidDesign& design) {
  std::vector<report::FootAnswer> answers;
  for (const checks::FootPressure& one : checks::compute_foot_pressures(design)) {
    const std::string name =
        one.patch >= 0
            ? design->recipes[static_cast<std::size_t>(design->patches[static_cast<std::size_t>(one.patch)].recipe)]
                  .name
            : design->containers[static_cast<std::size_t>(one.container)].name;
    const auto figure = [&one](const Interval& interval) {
      return one.because.empty() ? figure_from(interval) : figure_missing(one.because);
    };
    report::FootAnswer answer = {.name = name,
                                 .soaked_kpa = figure(one.soaked_kpa),
                                 .uneven_kpa = figure(one.uneven_kpa),
                                 .limit_kpa = one.limit_kpa,
                                 .who = design->roof.bearing.who,
                                 .verdict = word_from(one.verdict),
                                 .statement = one.statement};
    // Patches of one recipe press alike.
    const auto same = [&answer](const report::FootAnswer& before) { return before.statement == answer.statement; };
    if (std::none_of(answers.begin(), answers.end(), same)) answers.push_back(std::move(answer));
  }
  return answers;
}

report::SagAnswer answer_sag(const design::ValidDesign& design, const checks::SpanLoad& spans) {
  const checks::JoistSags sags = checks::compute_joist_sags(design, spans);
  report::SagAnswer answer;
  answer.statement = sags.because.empty() ? sags.statement : fmt::format("No sag is worked out: {}.", sags.because);
  const auto deepest = std::max_element(
      sags.spans.begin(), sags.spans.end(),
      [](const checks::JoistSag& a, const checks::JoistSag& b) { return a.final_mm.high < b.final_mm.high; });
  if (deepest == sags.spans.end()) {
    const Figure none = figure_missing(sags.because.empty() ? "no joist carries a module" : sags.because);
    answer.first_mm = answer.final_mm = answer.with_water_mm = none;
    return answer;
  }
  // Weight on one span lifts the next: its ends need not come in the order of the weights.
  const auto hull = [](const Interval& sag) {
    return figure_from(
        {std::min({sag.low, sag.likely, sag.high}), sag.likely, std::max({sag.low, sag.likely, sag.high})});
  };
  answer.first_mm = hull(deepest->first_mm);
  answer.final_mm = hull(deepest->final_mm);
  answer.with_water_mm = deepest->ponding_frac < 1.0
                             ? hull(deepest->with_water_mm)
                             : figure_missing("water that gathers in the sag is not shown to come to an end");
  return answer;
}

std::vector<report::NextPlacesAnswer> answer_next(const design::ValidDesign& design) {
  std::vector<report::NextPlacesAnswer> answers;
  for (std::size_t i = 0; i < design->recipes.size(); ++i) {
    const design::Recipe& recipe = design->recipes[i];
    const checks::NextPlaces next = checks::find_next_places(design, static_cast<int>(i), recipe.placed);
    report::NextPlacesAnswer answer;
    answer.name = recipe.name;
    answer.statement = next.statement;
    if (!next.places.empty()) answer.statement += " Load and clear strips alone are looked at, no puddles and no wind.";
    for (const geometry::RectangleM& place : next.places) answer.places.push_back({place.left_m, place.bottom_m});
    answers.push_back(std::move(answer));
  }
  return answers;
}

/// Use of the heaviest thing that reaches into each square, or of the averaging area where there is one.
std::vector<report::LoadSquareAnswer> answer_squares(const design::ValidDesign& design,
                                                     const checks::UniformLoad& uniform) {
  const report::SquareGrid grid = make_square_grid(design->roof);
  const checks::LoadMap map = checks::make_load_map(design, grid.side_m);
  const std::vector<checks::Footprint> footprints = checks::find_footprints(design);
  std::vector<report::LoadSquareAnswer> answers;
  for (std::size_t i = 0; i < map.squares.left_m.size(); ++i) {
    if (map.covered_m2[i] <= geometry::least_area_m2) continue;
    const geometry::RectangleM square = {map.squares.left_m[i], map.squares.bottom_m[i],
                                         map.squares.left_m[i] + grid.side_m, map.squares.bottom_m[i] + grid.side_m};
    Interval heaviest;
    for (const checks::Footprint& one : footprints) {
      if (!geometry::is_overlapping(one.rectangle, square)) continue;
      const Interval pressed = (1.0 / checks::area_m2(one)) * one.soaked_kn;
      if (pressed.high > heaviest.high) heaviest = pressed;
    }
    report::LoadSquareAnswer answer;
    answer.name = square_name_at(grid, {square.left_m + 0.5 * grid.side_m, square.bottom_m + 0.5 * grid.side_m});
    answer.soaked_kn_per_m2 =
        figure_from({map.soaked_low_kn_per_m2[i], map.soaked_kn_per_m2[i], map.soaked_high_kn_per_m2[i]});
    answer.use_frac = uniform.utilisation_frac
                          ? figure_from((1.0 / *design->roof.allowable_load->load_kn_per_m2) * heaviest)
                          : figure_missing(std::string(no_figure));
    answers.push_back(std::move(answer));
  }
  return answers;
}

std::string statement_of(const checks::UniformLoad& uniform, const checks::SpanLoad& spans, const checks::SpanUse& use,
                         checks::LoadVerdict verdict) {
  std::string text = uniform.statement;
  if (!uniform.missing.empty()) return text;
  text += " " + spans.statement;
  if (use.use_frac) {
    text +=
        fmt::format(" Of the figure's own bending, shear and reactions at most {:.0f} % ({:.0f} to {:.0f}) is used.",
                    100.0 * use.use_frac->likely, 100.0 * use.use_frac->low, 100.0 * use.use_frac->high);
  }
  if (verdict == checks::LoadVerdict::none) {
    text += " Both tests must hold, so there is no verdict of both.";
  } else if (verdict != checks::LoadVerdict::within) {
    text += " Both tests must hold: one that does not is enough to refuse.";
  }
  return text;
}

/// The cases in which it does not hold, by name.
std::string cases_words(const std::vector<report::LoadCaseAnswer>& cases) {
  std::vector<std::string> names;
  for (const report::LoadCaseAnswer& one : cases) {
    const auto refuses = [](const std::string& verdict) { return verdict == "not_shown" || verdict == "above"; };
    if (refuses(one.uniform_verdict) || refuses(one.span_verdict)) names.push_back(one.name);
  }
  if (names.empty()) return "";
  return fmt::format(" It is exceeded, or may be, in these cases: {}.", checks::joined_words(names));
}

}  // namespace

report::LoadAnswer answer_load(const design::ValidDesign& design, const report::DrainageAnswer& drainage) {
  const checks::UniformLoad uniform = checks::check_uniform_load(design);
  const checks::SpanLoad spans = checks::check_span_load(design);
  report::LoadAnswer answer;
  if (const std::optional<design::AllowableLoad>& given = design->roof.allowable_load) {
    answer.allowable_kn_per_m2 = given->load_kn_per_m2;
    answer.who = given->who;
    answer.when = given->when;
    answer.includes = given->includes;
  }
  if (uniform.averaging_area_m2 > 0.0) answer.averaging_area_m2 = uniform.averaging_area_m2;
  answer.missing = uniform.missing;
  answer.soaked_max_kn_per_m2 = figure_from(uniform.heaviest_kn_per_m2);
  answer.utilisation_local_max_frac =
      uniform.utilisation_frac ? figure_from(*uniform.utilisation_frac) : figure_missing(std::string(no_figure));
  const checks::SpanUse use = checks::find_span_use(design, checks::find_footprints(design));
  answer.utilisation_span_max_frac = use.use_frac ? figure_from(*use.use_frac) : figure_missing(use.because);
  answer.span_model = word_from(spans.model);
  answer.uniform = {word_from(uniform.verdict), uniform.statement};
  answer.spans = {word_from(spans.verdict), spans.statement};
  for (const checks::PatchLoad& patch : uniform.patches) {
    const int recipe = design->patches[static_cast<std::size_t>(patch.patch)].recipe;
    answer.patches.push_back({.patch = patch.patch,
                              .recipe = design->recipes[static_cast<std::size_t>(recipe)].name,
                              .soaked_kn_per_m2 = figure_from(patch.soaked_kn_per_m2)});
  }
  answer.cases = answer_cases(design, drainage);
  answer.feet = answer_feet(design);
  answer.sag = answer_sag(design, spans);
  answer.next = answer_next(design);
  answer.squares = answer_squares(design, uniform);
  const checks::LoadVerdict verdict = checks::both_tests(uniform.verdict, spans.verdict);
  answer.verdict = word_from(verdict);
  answer.statement = statement_of(uniform, spans, use, verdict) + cases_words(answer.cases);
  return answer;
}

}  // namespace houseleek::studies
