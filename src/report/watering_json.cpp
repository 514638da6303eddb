// The answer of `houseleek water` as a JSON document.
#include "report/watering_json.hpp"

#include "report/json_parts.hpp"

namespace houseleek::report {
namespace {

Json json_of_store(const StoreNow& store) {
  return {{"name", store.name},
          {"what", store.what},
          {"form", text_or_null(store.form)},
          {"plant", text_or_null(store.plant)},
          {"count", store.count},
          {"labels", store.labels},
          {"state", store.state},
          {"store_frac", json_from(store.store_frac)},
          {"wants_below_frac", json_from(store.wants_below_frac)},
          {"can_wait_days", json_from(store.can_wait_days)},
          {"litres_each", json_from(store.litres_each)},
          {"litres_each_when_due", json_from(store.litres_each_when_due)},
          {"litres_usual", json_from(store.litres_usual)},
          {"litres_all", json_from(store.litres_all)},
          {"cans", json_from(store.cans)},
          {"driven_by", store.driven_by},
          {"statement", store.statement},
          {"notes", store.notes},
          {"evenings", list_of(store.evenings, [](const StoreEvening& one) {
             return Json{{"day", one.day},           {"is_ahead", one.is_ahead},   {"likely_frac", one.likely_frac},
                         {"low_frac", one.low_frac}, {"high_frac", one.high_frac}, {"given_mm", one.given_mm}};
           })}};
}

Json json_of_season(const SeasonRule& rule) {
  Json months = Json::array();
  for (const Figure& month : rule.every_days) months.push_back(json_from(month));
  return {{"name", rule.name},
          {"form", text_or_null(rule.form)},
          {"count", rule.count},
          {"every_days_by_month", months},
          {"litres_each", json_from(rule.litres_each)},
          {"statement", rule.statement}};
}

Json json_of_barrel(const BarrelAnswer& barrel) {
  return {{"catchment", barrel.catchment},
          {"wanted_l_per_year", json_from(barrel.wanted_l_per_year)},
          {"caught_l_per_year", json_from(barrel.caught_l_per_year)},
          {"sizes", list_of(barrel.sizes,
                            [](const BarrelSize& one) {
                              return Json{{"size_l", one.size_l}, {"covered_frac", json_from(one.covered_frac)}};
                            })},
          {"statement", barrel.statement}};
}

Json json_of_rinse(const RinseAnswer& rinse) {
  return {{"material", rinse.material},
          {"first_ms_per_cm", rinse.first_ms_per_cm},
          {"target_ms_per_cm", rinse.target_ms_per_cm},
          {"water_ms_per_cm", rinse.water_ms_per_cm},
          {"held_l_per_kg", json_from(rinse.held_l_per_kg)},
          {"bucket_l_per_kg", rinse.bucket_l_per_kg},
          {"bucket_rinses", json_from(rinse.bucket_rinses)},
          {"through_l_per_kg", json_from(rinse.through_l_per_kg)},
          {"statement", rinse.statement}};
}

Json json_of_salt(const SaltAnswer& salt) {
  return {{"water_ds_per_m", json_from(salt.water_ds_per_m)},
          {"water_from", text_or_null(salt.water_from)},
          {"plants", list_of(salt.plants,
                             [](const SaltyPlant& one) {
                               return Json{{"plant", one.plant},
                                           {"where", one.where},
                                           {"threshold_ds_per_m", json_from(one.threshold_ds_per_m)},
                                           {"leaching_frac", json_from(one.leaching_frac)},
                                           {"water_factor", json_from(one.water_factor)},
                                           {"statement", one.statement}};
                             })},
          {"statements", salt.statements},
          {"rinse", salt.rinse ? json_of_rinse(*salt.rinse) : Json(nullptr)}};
}

Json json_of_feeding(const FeedingAnswer& feeding) {
  return {{"layers", list_of(feeding.layers,
                             [](const SettlingLayerAnswer& one) {
                               return Json{{"recipe", one.recipe},
                                           {"material", one.material},
                                           {"bought_mm", one.bought_mm},
                                           {"age_years", json_from(one.age_years)},
                                           {"depth_now_mm", json_from(one.depth_now_mm)},
                                           {"depth_in_three_years_mm", json_from(one.depth_in_three_years_mm)},
                                           {"store_now_frac", json_from(one.store_now_frac)},
                                           {"mass_now_frac", json_from(one.mass_now_frac)},
                                           {"top_up_l_per_module", json_from(one.top_up_l_per_module)},
                                           {"statement", one.statement}};
                             })},
          {"nitrogen", list_of(feeding.nitrogen,
                               [](const NitrogenAnswer& one) {
                                 return Json{{"recipe", one.recipe},
                                             {"material", one.material},
                                             {"placed", one.placed},
                                             {"tied_g_per_module", json_from(one.tied_g_per_module)},
                                             {"statement", one.statement}};
                               })},
          {"last_fed", text_or_null(feeding.last_fed)},
          {"statement", feeding.statement}};
}

Json json_of_changes(const ChangesAnswer& changes) {
  return {{"recipes", list_of(changes.recipes,
                              [](const FormMonths& one) {
                                return Json{{"recipe", one.recipe},
                                            {"flat_heat_kwh_per_m2_by_month", one.flat_kwh_per_m2},
                                            {"raised_heat_kwh_per_m2_by_month", one.raised_kwh_per_m2},
                                            {"flat_watering_mm", json_from(one.flat_watering_mm)},
                                            {"raised_watering_mm", json_from(one.raised_watering_mm)},
                                            {"statement", one.statement}};
                              })},
          {"not_computed", changes.not_computed}};
}

Json json_of_holiday(const HolidayAnswer& holiday) {
  return {{"first_day", holiday.first_day},
          {"last_day", holiday.last_day},
          {"visits",
           list_of(holiday.visits,
                   [](const HolidayVisit& one) {
                     return Json{{"day", one.day}, {"what", one.what}, {"litres", one.litres}, {"cans", one.cans}};
                   })},
          {"least_rain_mm", holiday.least_rain_mm},
          {"statement", holiday.statement}};
}

}  // namespace

Json json_from(const WateringAnswer& answer) {
  return {{"answer", "water"},
          {"file", answer.file},
          {"design", answer.design_name},
          {"is_invented", answer.is_invented},
          {"engine",
           {{"version", answer.engine_version},
            {"seed", answer.seed},
            {"input_hash", answer.input_hash},
            {"n_draws", answer.n_draws},
            {"n_years", answer.n_years}}},
          {"on", answer.on},
          {"has_logbook", answer.has_logbook},
          {"can_l", answer.can_l},
          {"known", answer.known},
          {"missing", answer.missing},
          {"cautions", json_from_cautions(answer.cautions)},
          {"round",
           {{"litres", json_from(answer.round.litres)},
            {"cans", json_from(answer.round.cans)},
            {"minutes", json_from(answer.round.minutes)},
            {"statement", answer.round.statement}}},
          {"stores", list_of(answer.stores, json_of_store)},
          {"seasons", list_of(answer.seasons, json_of_season)},
          {"seasons_note", answer.seasons_note},
          {"barrel", answer.barrel ? json_of_barrel(*answer.barrel) : Json(nullptr)},
          {"salt", json_of_salt(answer.salt)},
          {"feeding", json_of_feeding(answer.feeding)},
          {"changes", json_of_changes(answer.changes)},
          {"holiday", answer.holiday ? json_of_holiday(*answer.holiday) : Json(nullptr)}};
}

}  // namespace houseleek::report
