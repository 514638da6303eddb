// `houseleek water`: today's stores, the round, seasons, a barrel, salt, feeding, the sheet for a neighbour.
#include "studies/water.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "checks/cautions.hpp"
#include "studies/logbook_day.hpp"
#include "studies/water_parts.hpp"

namespace houseleek::studies {

StoreInputs store_inputs_of(const WaterSource& source, const std::vector<logbook::EventRecord>& records,
                            const WaterDays& days, const TypedDay& yesterday) {
  return {.design = source.design,
          .catalogue = source.catalogue,
          .records = records,
          .loggers = source.loggers,
          .weather_file = source.weather_file,
          .has_logbook = source.has_logbook,
          .today = days.today,
          .yesterday = yesterday,
          .filled_day = days.filled};
}

Result<report::WateringAnswer> answer_watering(const WaterSource& source, const WaterRequest& request,
                                               const Executor& executor, const Context& context) {
  const Result<WaterDays> days = read_water_request(source, request);
  if (!days) return Unexpected{days.error()};
  const std::vector<logbook::EventRecord> records = events_until(source.records, days.value().end_utc_s);
  const StoreInputs inputs = store_inputs_of(source, records, days.value(), request.yesterday);
  const Result<DrawnWeather> weather = draw_weather(inputs);
  if (!weather) return Unexpected{weather.error()};
  report::WateringAnswer answer;
  answer.file = request.file;
  answer.design_name = source.design->name;
  answer.is_invented = source.design->is_invented;
  answer.engine_version = request.engine_version;
  answer.seed = source.design->climate.seed;
  answer.input_hash = request.input_hash;
  answer.on = days.value().on;
  answer.has_logbook = source.has_logbook;
  answer.can_l = request.can_l;
  answer.n_draws = static_cast<int>(weather.value().years.size());
  answer.known = weather.value().known;
  answer.missing = weather.value().missing;
  if (!source.has_logbook && !days.value().filled) {
    answer.missing.push_back(
        "what was watered: --filled DAY where all was watered until it dripped; better a project (houseleek import)");
  }
  for (const catalogue::Caution& one : checks::find_cautions(source.design, source.catalogue)) {
    if (one.beside == "water" || one.beside == "work") answer.cautions.push_back(one);
  }
  answer.stores = answer_stores(inputs, weather.value(), request.can_l, executor, context);
  answer.round = answer_round(answer.stores, records, request.can_l, "today");
  if (request.has_seasons) {
    SeasonAnswers seasons = answer_seasons(inputs, request, executor, context);
    answer.n_years = request.n_years;
    answer.seasons = std::move(seasons.seasons);
    answer.seasons_note = std::move(seasons.note);
    if (!answer.seasons.empty()) answer.barrel = std::move(seasons.barrel);
    answer.changes = std::move(seasons.changes);
  } else {
    answer.seasons_note = "not asked for";
    answer.changes.not_computed = "not asked for";
  }
  answer.salt = answer_salt(inputs, request);
  answer.feeding = answer_feeding(inputs);
  if (days.value().away_from) {
    StoreInputs full = inputs;
    full.filled_day = days.value().today;
    answer.holiday = answer_holiday(answer_stores(full, weather.value(), request.can_l, executor, context),
                                    days.value(), request.can_l);
  }
  return answer;
}

}  // namespace houseleek::studies
