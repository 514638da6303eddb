// A study's answer as the JSON document of schema/study.schema.json.
#include "report/study_json.hpp"

#include "base/contract.hpp"
#include "report/damp_json.hpp"
#include "report/money_json.hpp"
#include "report/order_json.hpp"
#include "report/plants_json.hpp"
#include "report/roof_checks_json.hpp"

namespace houseleek::report {
namespace {

using report::json_from;  // those of the header, beside those below

Json months_from(const std::array<Figure, 12>& months) {
  Json list = Json::array();
  for (const Figure& month : months) list.push_back(json_from(month));
  return list;
}

Json json_from(const EngineAnswer& engine) {
  return {{"version", engine.version},
          {"seed", engine.seed},
          {"input_hash", engine.input_hash},
          {"first_hour", engine.first_hour},
          {"n_hours", engine.n_hours},
          {"spin_up_hours", engine.spin_up_hours},
          {"n_runs", engine.n_runs},
          {"n_stacks", engine.n_stacks},
          {"n_slices", engine.n_slices},
          {"n_steps", engine.n_steps},
          {"n_newton_iterations", engine.n_newton_iterations},
          {"n_hours_redone", engine.n_hours_redone},
          {"largest_split", engine.largest_split},
          {"largest_error_k", engine.largest_error_k},
          {"n_years", engine.n_years},
          {"n_years_failed", engine.n_years_failed},
          {"n_draws", engine.n_draws},
          {"heat_residual_frac", engine.heat_residual_frac},
          {"water_residual_m", engine.water_residual_m}};
}

Json json_from(const WeatherAnswer& weather) {
  return {{"source", weather.source},
          {"notes", weather.notes},
          {"summer_months", weather.summer_months},
          {"winter_months", weather.winter_months},
          {"air_max_c", json_from(weather.air_max_c)},
          {"air_min_c", json_from(weather.air_min_c)}};
}

Json json_from(const PlacedAnswer& placed) {
  return {{"u_value_dry_w_per_m2_k", json_from(placed.u_value_dry_w_per_m2_k)},
          {"u_value_wet_w_per_m2_k", json_from(placed.u_value_wet_w_per_m2_k)},
          {"decrement_factor", json_from(placed.decrement_factor)},
          {"time_lag_h", json_from(placed.time_lag_h)},
          {"note", placed.note}};
}

Json json_from(const NightAnswer& night) {
  return {{"hours_above_limit", json_from(night.hours_above_limit)},
          {"hours_above_limit_with_fan", json_from(night.hours_above_limit_with_fan)},
          {"degree_hours_above_k_h", json_from(night.degree_hours_above_k_h)}};
}

Json json_from(const RoomDifference& difference) {
  Json json = {{"operative_max_k", json_from(difference.operative_max_k)},
               {"operative_min_k", json_from(difference.operative_min_k)},
               {"hours_above_limit", json_from(difference.hours_above_limit)},
               {"hours_above_limit_with_fan", json_from(difference.hours_above_limit_with_fan)},
               {"hours_below_limit", json_from(difference.hours_below_limit)},
               {"degree_hours_above_k_h", json_from(difference.degree_hours_above_k_h)},
               {"heat_to_add_kwh", json_from(difference.heat_to_add_kwh)},
               {"heat_to_remove_kwh", json_from(difference.heat_to_remove_kwh)},
               {"fan_energy_kwh", json_from(difference.fan_energy_kwh)},
               {"heat_gain_summer_kwh", json_from(difference.heat_gain_summer_kwh)}};
  if (difference.night) json["night"] = json_from(*difference.night);
  return json;
}

Json json_from(const RoomFigures& figures) {
  Json json = {{"operative_max_c", json_from(figures.operative_max_c)},
               {"operative_min_c", json_from(figures.operative_min_c)},
               {"hours_above_limit", json_from(figures.hours_above_limit)},
               {"hours_above_limit_with_fan", json_from(figures.hours_above_limit_with_fan)},
               {"hours_below_limit", json_from(figures.hours_below_limit)},
               {"hours_without_limit", json_from(figures.hours_without_limit)},
               {"degree_hours_above_k_h", json_from(figures.degree_hours_above_k_h)},
               {"heat_to_add_kwh", json_from(figures.heat_to_add_kwh)},
               {"heat_to_remove_kwh", json_from(figures.heat_to_remove_kwh)},
               {"fan_energy_kwh", json_from(figures.fan_energy_kwh)},
               {"heat_gain_summer_kwh", json_from(figures.heat_gain_summer_kwh)}};
  if (figures.night) json["night"] = json_from(*figures.night);
  return json;
}

Json json_from(const RoomAnswer& room) {
  const auto under = [&room](CoverKind cover) { return json_from(room.covers[index_of(cover)]); };
  const auto rival = [&under](CoverKind same, CoverKind whole) {
    return Json{{"same_squares", under(same)}, {"whole_roof", under(whole)}};
  };
  return {{"name", room.name},
          {"is_bedroom", room.is_bedroom},
          {"has_fan", room.has_fan},
          {"bare", under(CoverKind::bare)},
          {"planted", under(CoverKind::planted)},
          {"planted_minus_bare", json_from(room.planted_minus_bare)},
          {"white", rival(CoverKind::white_same, CoverKind::white_whole)},
          {"net", rival(CoverKind::net_same, CoverKind::net_whole)},
          {"board", rival(CoverKind::board_same, CoverKind::board_whole)}};
}

Json json_from(const WaterByRecipe& recipe) {
  return {{"name", recipe.name},
          {"retained_frac", json_from(recipe.retained_frac)},
          {"watering_l_per_module", json_from(recipe.watering_l_per_module)},
          {"can_wait_days_by_month", months_from(recipe.can_wait_days_by_month)}};
}

Json json_from(const WaterAnswer& water) {
  Json recipes = Json::array();
  for (const WaterByRecipe& recipe : water.recipes) recipes.push_back(json_from(recipe));
  return {{"rain_mm", json_from(water.rain_mm)},
          {"retained_frac", json_from(water.retained_frac)},
          {"watering_l_per_module", json_from(water.watering_l_per_module)},
          {"can_wait_days_by_month", months_from(water.can_wait_days_by_month)},
          {"can_wait_means", water.can_wait_means},
          {"recipes", recipes}};
}

Json json_from(const EffectFigure& figure) {
  return {{"on", figure.on},
          {"low_gives", json_from(figure.low_gives)},
          {"likely_gives", figure.likely_gives},
          {"high_gives", json_from(figure.high_gives)}};
}

/// What is assumed, each with what hangs on it.
Json assumed_from(const StudyAnswer& answer) {
  expects(answer.assumed.size() == answer.assumed_effects.size(), "an effect for every assumption");
  Json list = json_from_assumptions(answer.assumed);
  for (std::size_t i = 0; i < answer.assumed.size(); ++i) {
    const AssumedEffect& effect = answer.assumed_effects[i];
    Json figures = Json::array();
    for (const EffectFigure& figure : effect.figures) {
      figures.push_back(json_from(figure));
      figures.back()["from"] = effect.from;
    }
    list[i]["effects"] = std::move(figures);
    list[i]["effects_of_days"] = effect.n_days;
    list[i]["moved_together_with"] = effect.together;
    list[i]["no_effect_because"] = effect.figures.empty() ? Json(effect.none_because) : Json(nullptr);
  }
  return list;
}

Json json_from(const RankedAnswer& ranked) {
  Json most = Json::array();
  for (const RankedAssumption& one : ranked.most) {
    most.push_back({{"paths", one.paths},
                    {"name", one.name},
                    {"low_gives", json_from(one.effect.low_gives)},
                    {"likely_gives", one.effect.likely_gives},
                    {"high_gives", json_from(one.effect.high_gives)}});
  }
  return {{"on", ranked.on}, {"from", ranked.from}, {"most", std::move(most)}};
}

Json json_from(const QuestionAnswer& answer) { return {{"question", answer.question}, {"text", answer.text}}; }

template <class T>
Json list_from(const std::vector<T>& items) {
  Json list = Json::array();
  for (const T& item : items) list.push_back(json_from(item));
  return list;
}

}  // namespace

Json json_from(const RoofAnswer& roof) {
  return {{"area_m2", roof.area_m2},
          {"covered_m2", roof.covered_m2},
          {"modules", roof.n_modules},
          {"deck", roof.deck},
          {"bare",
           {{"u_value_w_per_m2_k", json_from(roof.bare.u_value_w_per_m2_k)},
            {"decrement_factor", json_from(roof.bare.decrement_factor)},
            {"time_lag_h", json_from(roof.bare.time_lag_h)}}},
          {"squares", json_from(roof.squares)}};
}

Json json_from(const RecipeAnswer& recipe) {
  return {{"name", recipe.name},
          {"modules", recipe.n_modules},
          {"mass_dry_kg_per_m2", json_from(recipe.mass_dry_kg_per_m2)},
          {"mass_drained_kg_per_m2", json_from(recipe.mass_drained_kg_per_m2)},
          {"mass_soaked_kg_per_m2", json_from(recipe.mass_soaked_kg_per_m2)},
          {"mass_not_counted", recipe.mass_not_counted},
          {"deck", recipe.deck},
          {"flat", json_from(recipe.flat)},
          {"raised", recipe.raised ? json_from(*recipe.raised) : Json(nullptr)},
          {"floats_at_mm", json_from(recipe.floats_at_mm)},
          {"edible",
           {{"word", recipe.edible},
            {"because", recipe.edible_because},
            {"with_roof_water", recipe.edible_with_roof_water},
            {"roof_water_because", recipe.roof_water_because}}}};
}

Json json_from(const StackAnswer& stack) {
  return {{"name", stack.name},
          {"room", stack.room},
          {"form", stack.form},
          {"membrane_max_c", json_from(stack.membrane_max_c)},
          {"membrane_min_c", json_from(stack.membrane_min_c)},
          {"ceiling_max_c", json_from(stack.ceiling_max_c)},
          {"heat_gain_summer_kwh_per_m2", json_from(stack.heat_gain_summer_kwh_per_m2)},
          {"heat_loss_winter_kwh_per_m2", json_from(stack.heat_loss_winter_kwh_per_m2)},
          {"evapotranspiration_mm", json_from(stack.evapotranspiration_mm)},
          {"fire_dry_days", json_from(stack.fire_dry_days)},
          {"heat_residual_frac", stack.heat_residual_frac},
          {"water_residual_m", json_from(stack.water_residual_m)}};
}

Json json_from(const StudyAnswer& answer) {
  return {{"answer", "study"},
          {"is_valid", true},
          {"design", answer.design_name},
          {"is_invented", answer.is_invented},
          {"engine", json_from(answer.engine)},
          {"answers", list_from(answer.answers)},
          {"cautions", json_from_cautions(answer.cautions)},
          {"roof", json_from(answer.roof)},
          {"load", json_from(answer.load)},
          {"recipes", list_from(answer.recipes)},
          {"weather", json_from(answer.weather)},
          {"stacks", list_from(answer.stacks)},
          {"rooms", list_from(answer.rooms)},
          {"house", json_from(answer.house)},
          {"water", json_from(answer.water)},
          {"money", json_from(answer.money)},
          {"planted_degree_hours_less_per_outlay_k_h", json_from(answer.planted_degree_hours_less_per_outlay_k_h)},
          {"rivals", list_from(answer.rivals)},
          {"assumed", assumed_from(answer)},
          {"assumed_ranked", json_from(answer.assumed_ranked)},
          {"drainage", json_from(answer.drainage)},
          {"wind", json_from(answer.wind)},
          {"fire", json_from(answer.fire)},
          {"carbon", json_from(answer.carbon)},
          {"order", json_from_steps(answer.order)},
          {"order_about", json_from(answer.order.about)},
          {"plants", json_of_plants_in_study(answer.plants)},
          {"damp", json_from(answer.damp)},
          {"worksheet", not_yet()}};
}

}  // namespace houseleek::report
