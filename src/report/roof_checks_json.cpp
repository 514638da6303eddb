// Load, drainage, wind and fire as parts of the JSON document of schema/study.schema.json.
#include "report/roof_checks_json.hpp"

namespace houseleek::report {
namespace {

using report::json_from;  // those of the headers, beside those below

Json json_from(const PatchLoadAnswer& patch) {
  return {{"patch", patch.patch}, {"recipe", patch.recipe}, {"soaked_kn_per_m2", json_from(patch.soaked_kn_per_m2)}};
}

Json json_from(const LoadTestAnswer& test) { return {{"verdict", test.verdict}, {"statement", test.statement}}; }

Json json_from(const LoadCaseAnswer& one) {
  return {{"name", one.name},
          {"left_out", one.left_out},
          {"added_kn_per_m2", json_from(one.added_kn_per_m2)},
          {"heaviest_kn_per_m2", json_from(one.heaviest_kn_per_m2)},
          {"whole_roof_kn", json_from(one.whole_roof_kn)},
          {"factored_kn_per_m2", json_from(one.factored_kn_per_m2)},
          {"uniform_verdict", one.uniform_verdict},
          {"span_verdict", one.span_verdict},
          {"statement", one.statement}};
}

Json json_from(const FootAnswer& foot) {
  return {{"name", foot.name},
          {"soaked_kpa", json_from(foot.soaked_kpa)},
          {"uneven_kpa", json_from(foot.uneven_kpa)},
          {"limit_kpa", json_from(foot.limit_kpa)},
          {"who", foot.who},
          {"verdict", foot.verdict},
          {"statement", foot.statement}};
}

Json json_from(const SagAnswer& sag) {
  return {{"first_mm", json_from(sag.first_mm)},
          {"final_mm", json_from(sag.final_mm)},
          {"with_water_mm", json_from(sag.with_water_mm)},
          {"statement", sag.statement}};
}

Json json_from(const NextPlaceAnswer& place) { return {{"left_m", place.left_m}, {"bottom_m", place.bottom_m}}; }

Json json_from(const LoadSquareAnswer& square) {
  return {{"name", square.name},
          {"soaked_kn_per_m2", json_from(square.soaked_kn_per_m2)},
          {"use_frac", json_from(square.use_frac)}};
}

Json json_from(const OutletAnswer& outlet) { return {{"name", outlet.name}, {"catchment_m2", outlet.catchment_m2}}; }

Json json_from(const DrainageCaseAnswer& one) {
  return {{"case", one.name},
          {"kind", one.kind},
          {"rain_mm_per_h", json_from(one.rain_mm_per_h)},
          {"duration_min", json_from(one.duration_min)},
          {"return_years", json_from(one.return_years)},
          {"max_depth_mm", json_from(one.max_depth_mm)},
          {"freeboard_mm", json_from(one.freeboard_mm)},
          {"water_kn", json_from(one.water_kn)},
          {"heaviest_kn_per_m2", json_from(one.heaviest_kn_per_m2)},
          {"minutes_to_drain", json_from(one.minutes_to_drain)},
          {"dry_modules", one.dry_modules},
          {"statement", one.statement}};
}

Json json_from(const SpacerAdviceAnswer& advice) {
  return {{"patch", advice.patch},
          {"recipe", advice.recipe},
          {"spacer_mm", advice.spacer_mm},
          {"needs_spacer_mm", advice.needs_spacer_mm},
          {"is_better_empty", advice.is_better_empty},
          {"statement", advice.statement}};
}

Json json_from(const WaterSquareAnswer& square) {
  return {{"name", square.name},
          {"depth_mm", json_from(square.depth_mm)},
          {"freeboard_mm", json_from(square.freeboard_mm)}};
}

Json json_from(const PatchWindAnswer& patch) {
  return {{"patch", patch.patch},
          {"recipe", patch.recipe},
          {"suction_coefficient", patch.suction_coefficient},
          {"dry_kn_per_m2", json_from(patch.dry_kn_per_m2)},
          {"not_shown_above_km_per_h", json_from(patch.not_shown_above_km_per_h)},
          {"linked_4_km_per_h", json_from(patch.linked_4_km_per_h)},
          {"linked_9_km_per_h", json_from(patch.linked_9_km_per_h)},
          {"ballast_kg_per_m2", json_from(patch.ballast_kg_per_m2)}};
}

Json json_from(const WindSquareAnswer& square) {
  return {{"name", square.name},
          {"suction_coefficient", square.suction_coefficient},
          {"not_shown_above_km_per_h", json_from(square.not_shown_above_km_per_h)}};
}

Json json_from(const RecipeFireAnswer& recipe) {
  return {{"name", recipe.name},
          {"fuel_mj_per_m2", json_from(recipe.fuel_mj_per_m2)},
          {"plants_mj_per_m2", json_from(recipe.plants_mj_per_m2)},
          {"burning_frac", json_from(recipe.burning_frac)},
          {"mineral_mm", recipe.mineral_mm},
          {"against", recipe.against},
          {"not_counted", recipe.not_counted},
          {"statement", recipe.statement}};
}

Json json_from(const StripAnswer& strip) {
  return {{"beside", strip.beside},
          {"width_mm", strip.width_mm},
          {"source", strip.source},
          {"reached_into", strip.n_reached_into},
          {"nearest_mm", json_from(strip.nearest_mm)}};
}

Json json_from(const NextPlacesAnswer& next);

template <class T>
Json list_from(const std::vector<T>& items) {
  Json list = Json::array();
  for (const T& item : items) list.push_back(json_from(item));
  return list;
}

Json json_from(const NextPlacesAnswer& next) {
  return {{"name", next.name}, {"places", list_from(next.places)}, {"statement", next.statement}};
}

}  // namespace

Json json_from(const SquareGrid& grid) {
  return {{"left_m", grid.left_m},
          {"bottom_m", grid.bottom_m},
          {"side_m", grid.side_m},
          {"columns", grid.columns},
          {"rows", grid.rows}};
}

Json json_from(const LoadAnswer& load) {
  return {{"allowable_kn_per_m2", json_from(load.allowable_kn_per_m2)},
          {"who", load.who},
          {"when", load.when},
          {"includes", load.includes},
          {"averaging_area_m2", json_from(load.averaging_area_m2)},
          {"missing", load.missing},
          {"soaked_max_kn_per_m2", json_from(load.soaked_max_kn_per_m2)},
          {"utilisation_local_max_frac", json_from(load.utilisation_local_max_frac)},
          {"utilisation_span_max_frac", json_from(load.utilisation_span_max_frac)},
          {"span_model", load.span_model},
          {"uniform", json_from(load.uniform)},
          {"spans", json_from(load.spans)},
          {"patches", list_from(load.patches)},
          {"cases", list_from(load.cases)},
          {"feet", list_from(load.feet)},
          {"sag", json_from(load.sag)},
          {"next", list_from(load.next)},
          {"squares", list_from(load.squares)},
          {"verdict", load.verdict},
          {"statement", load.statement}};
}

Json json_from(const DrainageAnswer& drainage) {
  return {{"rain_note", drainage.rain_note},
          {"levels_from", drainage.levels_from},
          {"outlets", list_from(drainage.outlets)},
          {"walled_in_m2", drainage.walled_in_m2},
          {"standing_mm", json_from(drainage.standing_mm)},
          {"days_to_dry", json_from(drainage.days_to_dry)},
          {"cases", list_from(drainage.cases)},
          {"advice", list_from(drainage.advice)},
          {"squares_case", drainage.squares_case},
          {"squares", list_from(drainage.squares)}};
}

Json json_from(const WindAnswer& wind) {
  return {{"gust_of_place_km_per_h", json_from(wind.gust_of_place_km_per_h)},
          {"peak_pressure_kn_per_m2", json_from(wind.peak_pressure_kn_per_m2)},
          {"not_shown_above_km_per_h", json_from(wind.not_shown_above_km_per_h)},
          {"edge_m", wind.edge_m},
          {"taken_severest", wind.taken_severest},
          {"not_counted", wind.not_counted},
          {"patches", list_from(wind.patches)},
          {"squares", list_from(wind.squares)},
          {"statement", wind.statement}};
}

Json json_from(const FireAnswer& fire) {
  return {{"recipes", list_from(fire.recipes)},
          {"strips", list_from(fire.strips)},
          {"left_m2", fire.left_m2},
          {"statement", fire.statement}};
}

}  // namespace houseleek::report
