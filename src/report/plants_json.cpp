// What lives on a roof and what could, as JSON documents.
#include "report/plants_json.hpp"

#include "base/civil_time.hpp"
#include "report/json_parts.hpp"

namespace houseleek::report {
namespace {

Json json_of_month(const std::optional<int>& month) { return month ? Json(*month) : Json(nullptr); }

Json json_of_rate(const std::optional<planting::OwnRate>& rate) {
  if (!rate) return nullptr;
  Json share = nullptr;
  if (!rate->is_too_few) {
    share = {{"value", rate->share},
             {"low", rate->low},
             {"high", rate->high},
             {"from", "counted in the logbook; holds the truth nine times in ten"}};
  }
  return {{"n_lost", rate->n_events}, {"n_all", rate->n_all}, {"is_too_few", rate->is_too_few}, {"lost_frac", share}};
}

Json json_of_reason(const planting::Reason& reason) {
  return {{"about", reason.about}, {"word", planting::word_of(reason.word)}, {"text", reason.text}};
}

Json json_of_plant(const PlantAtPlace& plant) {
  return {{"name", plant.name},
          {"common_name", text_or_null(plant.common_name)},
          {"group", plant.group},
          {"hazards", plant.hazards},
          {"survival", plant.survival},
          {"sentence", plant.sentence},
          {"reasons", list_of(plant.reasons, json_of_reason)},
          {"first_month", json_of_month(plant.first_month)},
          {"last_month", json_of_month(plant.last_month)},
          {"standing", plant.standing},
          {"standing_text", text_or_null(plant.standing_text)},
          {"origin", plant.origin},
          {"eaten", text_or_null(plant.eaten)},
          {"serves", list_of(plant.serves,
                             [](const PlantService& one) {
                               return Json{{"purpose", one.purpose}, {"worth", one.worth}, {"text", one.text}};
                             })},
          {"lost_here", json_of_rate(plant.lost_here)}};
}

/// Without figures of its own: they stand in the sentence.
Json json_of_plant_in_study(const PlantAtPlace& plant) {
  return {{"name", plant.name},
          {"common_name", text_or_null(plant.common_name)},
          {"hazards", plant.hazards},
          {"survival", plant.survival},
          {"sentence", plant.sentence},
          {"standing", plant.standing},
          {"standing_text", text_or_null(plant.standing_text)}};
}

Json json_of_mix(const MixAnswer& mix) {
  return {{"plants", list_of(mix.plants,
                             [](const MixPlant& one) {
                               return Json{{"name", one.name},
                                           {"common_name", text_or_null(one.common_name)},
                                           {"n_per_module", one.n_per_module}};
                             })},
          {"months_in_bloom", mix.months_in_bloom},
          {"months_never", mix.months_never},
          {"sentence", mix.sentence}};
}

Json json_of_counts(const PlantsOfPlace& place) {
  return {{"likely", place.n_likely}, {"doubtful", place.n_doubtful}, {"no", place.n_no}, {"refused", place.n_refused}};
}

Json json_of_place(const PlantsOfPlace& place) {
  return {{"name", place.name},
          {"kind", place.kind},
          {"modules", place.n_modules},
          {"rooms", place.rooms},
          {"medium_depth_mm", place.medium_depth_mm},
          {"dry_days", json_from(place.dry_days)},
          {"dry_month", text_or_null(place.dry_month)},
          {"sun", place.sun},
          {"edible", {{"word", place.edible}, {"because", place.edible_because}}},
          {"counts", json_of_counts(place)},
          {"fallen_out", list_of(place.fallen_out,
                                 [](const FallenOut& one) {
                                   return Json{{"about", one.about}, {"plants", one.n_plants}};
                                 })},
          {"there", list_of(place.there, json_of_plant)},
          {"choices", list_of(place.choices, json_of_plant)},
          {"mix", json_of_mix(place.mix)},
          {"additions", json_of_mix(place.additions)}};
}

Json json_of_kept(const KeptIn& kept) {
  return {{"plant", kept.plant}, {"where", kept.where}, {"standing", kept.standing},
          {"text", kept.text},   {"steps", kept.steps}, {"from_wild", text_or_null(kept.from_wild)}};
}

Json json_of_leaving(const std::optional<planting::LeaveRoof>& leave) {
  if (!leave) return nullptr;
  return {{"date", text_from_day(leave->day)},
          {"earliest", text_from_day(leave->earliest_day)},
          {"latest", text_from_day(leave->latest_day)},
          {"why", leave->why}};
}

Json json_of_step(const std::optional<planting::BatchStep>& step) {
  if (!step) return nullptr;
  return {{"date", text_from_day(step->day)}, {"count", step->count}};
}

Json json_of_batch(const BatchAnswer& answer) {
  const planting::Batch& batch = answer.batch;
  return {{"batch", batch.name},
          {"plant", text_or_null(batch.plant)},
          {"container", text_or_null(batch.container)},
          {"way", text_or_null(answer.way)},
          {"sown", json_of_step(batch.sown)},
          {"germinated", json_of_step(batch.germinated)},
          {"potted_on", json_of_step(batch.potted_on)},
          {"ready", json_of_step(batch.ready)},
          {"n_lost", batch.n_lost},
          {"n_planted_out", batch.n_planted_out},
          {"n_given_away", batch.n_given_away},
          {"n_standing", batch.n_standing},
          {"losses", json_of_rate(answer.losses)},
          {"leave_roof", json_of_leaving(answer.leave_roof)},
          {"sentence", answer.sentence}};
}

Json json_of_due(const planting::Due& due) {
  return {{"date", text_from_day(due.day)}, {"what", due.what}, {"batch", due.batch}, {"why", due.why}};
}

Json json_of_raise(const std::optional<RaiseAnswer>& raise) {
  if (!raise) return nullptr;
  const planting::RaisePlan& plan = raise->plan;
  return {
      {"plant", raise->plant},
      {"way", raise->way},
      {"n_plants", raise->n_plants},
      {"by", text_from_day(raise->by_day)},
      {"to_begin",
       {{"value", plan.to_begin}, {"low", plan.to_begin_low}, {"high", plan.to_begin_high}, {"from", plan.share_from}}},
      {"to_expect", plan.to_expect},
      {"begin", text_from_day(plan.begin_day)},
      {"begin_earliest", text_from_day(plan.begin_earliest)},
      {"begin_latest", text_from_day(plan.begin_latest)},
      {"count_on", text_from_day(plan.taken_day)},
      {"pot_on", plan.potted_on_day ? Json(text_from_day(*plan.potted_on_day)) : Json(nullptr)},
      {"is_in_season", raise->is_in_season},
      {"sentence", raise->sentence}};
}

Json json_of_calendar(const std::vector<planting::CalendarRow>& rows) {
  return list_of(rows, [](const planting::CalendarRow& row) {
    Json months = Json::array();
    for (const std::string& letters : row.letters) months.push_back(letters);
    return Json{{"plant", row.plant}, {"months", months}};
  });
}

Json json_of_letters() {
  Json letters = Json::array();
  for (const planting::LetterWords& one : planting::letter_words) {
    letters.push_back({{"letter", std::string(1, one.letter)}, {"words", one.words}});
  }
  return letters;
}

}  // namespace

Json json_from(const PlantsAnswer& answer) {
  return {{"answer", "plants"},
          {"design", answer.design_name},
          {"is_invented", answer.is_invented},
          {"engine", {{"version", answer.engine_version}, {"input_hash", answer.input_hash}}},
          {"on", answer.on},
          {"purpose", text_or_null(answer.purpose)},
          {"plant", text_or_null(answer.plant)},
          {"statement", answer.statement},
          {"cautions", json_from_cautions(answer.cautions)},
          {"coldest_night_c", json_from(answer.coldest_night_c)},
          {"coldest_night_mean_c", json_from(answer.coldest_night_mean_c)},
          {"return_years", planting::winter_return_years},
          {"wind_m_per_s", json_from(answer.wind_m_per_s)},
          {"climate", answer.climate},
          {"country", text_or_null(answer.country)},
          {"lists", answer.lists},
          {"wild", answer.wild},
          {"roof_water_edible", {{"word", answer.roof_water_edible}, {"because", answer.roof_water_because}}},
          {"places", list_of(answer.places, json_of_place)},
          {"kept_in", list_of(answer.kept_in, json_of_kept)},
          {"trees", list_of(answer.trees,
                            [](const TreeInContainer& one) {
                              return Json{{"plant", one.plant},
                                          {"container", one.container},
                                          {"leave_roof", json_of_leaving(one.leave_roof)}};
                            })},
          {"calendar", json_of_calendar(answer.calendar)},
          {"letters", json_of_letters()},
          {"batches", list_of(answer.batches, json_of_batch)},
          {"due", list_of(answer.due, json_of_due)},
          {"left_out", list_of(answer.left_out,
                               [](const planting::BatchLeftOut& one) {
                                 return Json{{"event", one.number}, {"why", one.why}};
                               })},
          {"raise", json_of_raise(answer.raise)}};
}

Json json_of_plants_in_study(const PlantsAnswer& answer) {
  return {{"statement", answer.statement},
          {"coldest_night_c", json_from(answer.coldest_night_c)},
          {"climate", answer.climate},
          {"lists", answer.lists},
          {"places", list_of(answer.places,
                             [](const PlantsOfPlace& place) {
                               return Json{{"name", place.name},
                                           {"kind", place.kind},
                                           {"medium_depth_mm", place.medium_depth_mm},
                                           {"dry_days", json_from(place.dry_days)},
                                           {"counts", json_of_counts(place)},
                                           {"there", list_of(place.there, json_of_plant_in_study)},
                                           {"additions", place.additions.sentence}};
                             })},
          {"kept_in", list_of(answer.kept_in, json_of_kept)},
          {"calendar", json_of_calendar(answer.calendar)},
          {"letters", json_of_letters()}};
}

}  // namespace houseleek::report
