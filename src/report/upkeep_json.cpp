// The answer of `houseleek upkeep` as a JSON document.
#include "report/upkeep_json.hpp"

#include "base/civil_time.hpp"
#include "report/json_parts.hpp"

namespace houseleek::report {
namespace {

Json json_of_forecast(const std::vector<std::string>& months, const std::vector<Figure>& forecast) {
  Json list = Json::array();
  for (std::size_t i = 0; i < forecast.size(); ++i) {
    list.push_back({{"month", months.at(i)}, {"replacements", json_from(forecast[i])}});
  }
  return list;
}

Json json_of_curve(const std::vector<upkeep::ShareInUse>& curve) {
  return list_of(curve, [](const upkeep::ShareInUse& point) {
    return Json{{"age_years", point.age_years},
                {"in_use_frac", point.here.middle},
                {"in_use_low_frac", point.here.low},
                {"in_use_high_frac", point.here.high},
                {"prior_frac", point.prior}};
  });
}

Json json_of_part(const PartUpkeep& part, const std::vector<std::string>& months) {
  return {{"part", part.part},
          {"material", part.material.empty() ? Json(nullptr) : Json(part.material)},
          {"recipes", part.recipes},
          {"n_in_use", part.n_in_use},
          {"n_failures", part.n_failures},
          {"n_taken_out", part.n_taken_out},
          {"oldest_in_use_years", json_from(part.oldest_in_use_years)},
          {"is_too_few", part.is_too_few},
          {"is_prior_known", part.is_prior_known},
          {"life_years", json_from(part.life_years)},
          {"prior_life_years", json_from(part.prior_life_years)},
          {"shape", json_from(part.shape)},
          {"sentence", part.sentence},
          {"forecast_sentence", part.forecast_sentence},
          {"forecast", json_of_forecast(months, part.forecast)},
          {"forecast_total", json_from(part.forecast_total)},
          {"curve", json_of_curve(part.curve)}};
}

Json json_of_storm(const upkeep::Storm& storm) {
  return {{"event", storm.number},
          {"day", storm.day},
          {"gust_km_per_h", json_from(storm.gust_km_per_h)},
          {"rain_mm", json_from(storm.rain_mm)},
          {"hail_mm", json_from(storm.hail_mm)},
          {"note", storm.note},
          {"found_failed", list_of(storm.failed, [](const upkeep::FailedParts& one) {
             return Json{{"part", one.part},
                         {"material", one.material.empty() ? Json(nullptr) : Json(one.material)},
                         {"n_parts", one.n_parts}};
           })}};
}

Json json_of_look(const upkeep::LookDue& look) {
  return {{"what", look.what},
          {"how", look.how},
          {"every_days", look.every_days},
          {"from", upkeep::looks_from},
          {"last", look.last_day ? Json(text_from_day(*look.last_day)) : Json(nullptr)},
          {"due", text_from_day(look.due_day)},
          {"is_due", look.is_due}};
}

Json json_of_steps(const std::vector<upkeep::Step>& steps) {
  return list_of(steps, [](const upkeep::Step& step) {
    return Json{{"text", step.text}, {"caution", step.caution.empty() ? Json(nullptr) : Json(step.caution)}};
  });
}

Json json_of_round(const Round& round) {
  return {{"is_shown", round.is_shown}, {"because", round.because}, {"steps", json_of_steps(round.steps)}};
}

}  // namespace

Json json_from(const UpkeepAnswer& answer) {
  return {{"answer", "upkeep"},
          {"project", answer.project},
          {"design", answer.design_name},
          {"is_invented", answer.is_invented},
          {"engine",
           {{"version", answer.engine_version},
            {"revision", answer.revision},
            {"seed", answer.seed},
            {"input_hash", answer.input_hash}}},
          {"on", answer.on},
          {"cautions", json_from_cautions(answer.cautions)},
          {"logbook",
           {{"n_events", answer.n_events},
            {"first_day", text_or_null(answer.first_day)},
            {"last_day", text_or_null(answer.last_day)},
            {"n_modules", answer.n_modules},
            {"left_out", list_of(answer.left_out,
                                 [](const upkeep::LeftOut& one) {
                                   return Json{{"event", one.number}, {"why", one.why}};
                                 })}}},
          {"parts", list_of(answer.parts, [&](const PartUpkeep& part) { return json_of_part(part, answer.months); })},
          {"forecast", json_of_forecast(answer.months, answer.forecast)},
          {"forecast_statement", answer.forecast_statement},
          {"storms",
           {{"n_storms", answer.storms.storms.size()},
            {"within_days", upkeep::days_after_storm},
            {"n_failures", answer.storms.n_failures},
            {"n_failures_after_storms", answer.storms.n_after_storms},
            {"days_after_storms_frac", answer.storms.days_after_storms_frac},
            {"statement", answer.storms.statement},
            {"list", list_of(answer.storms.storms, json_of_storm)}}},
          {"looks", list_of(answer.looks, json_of_look)},
          {"bills", json_from_bills(answer.bills)},
          {"before_storm", json_of_round(answer.before_storm)},
          {"after_storm", json_of_round(answer.after_storm)},
          {"taking_off",
           {{"is_shown", answer.is_taking_off_shown},
            {"order", json_of_steps(answer.taking_off.order)},
            {"re_roofing", json_of_steps(answer.taking_off.re_roofing)},
            {"disposal", json_of_steps(answer.taking_off.disposal)}}}};
}

}  // namespace houseleek::report
