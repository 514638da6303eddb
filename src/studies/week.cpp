// `houseleek week`: what to do this week, the most urgent first, each with the line that ticks it off.
#include "studies/week.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/number_words.hpp"
#include "studies/logbook_day.hpp"
#include "studies/upkeep.hpp"
#include "studies/water_parts.hpp"
#include "studies/week_parts.hpp"

namespace houseleek::studies {

std::string log_line(const WeekInputs& inputs, const std::string& event) {
  const std::string file = inputs.roof.has_logbook ? inputs.request.file : "my-roof.houseleek";
  const std::string quoted = file.find(' ') == std::string::npos ? file : "'" + file + "'";
  return fmt::format("houseleek log {} {}", quoted, event);
}

Result<report::WeekAnswer> answer_week(const WaterSource& source, const WeekRequest& request, const Executor& executor,
                                       const Context& context) {
  WaterRequest water;
  water.on = request.on;
  water.yesterday = request.yesterday;
  water.can_l = request.can_l;
  water.now_utc_s = request.now_utc_s;
  Result<WaterDays> days = read_water_request(source, water);
  Issues issues;
  if (!days) issues = days.error();
  if (request.gust_km_per_h && !(*request.gust_km_per_h >= 1.0 && *request.gust_km_per_h <= 500.0)) {
    Issue issue;
    issue.code = IssueCode::out_of_range;
    issue.path = "gust";
    issue.value = fmt::format("{:g}", *request.gust_km_per_h);
    issue.limit = "1 to 500 km/h";
    issue.message = fmt::format("gust is {:g}; it must be 1 to 500 km/h", *request.gust_km_per_h);
    issue.hint = "the strongest gust that is announced";
    issues.push_back(std::move(issue));
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  const std::vector<logbook::EventRecord> records = events_until(source.records, days.value().end_utc_s);
  const StoreInputs roof = store_inputs_of(source, records, days.value(), request.yesterday);
  const Result<DrawnWeather> weather = draw_weather(roof);
  if (!weather) return Unexpected{weather.error()};
  const std::vector<report::StoreNow> stores = answer_stores(roof, weather.value(), request.can_l, executor, context);
  const report::WateringRound round = answer_round(stores, records, request.can_l, "today");
  const WeekInputs inputs{.roof = roof,
                          .request = request,
                          .facts = round_facts(source.design, source.catalogue),
                          .end_utc_s = days.value().end_utc_s,
                          .month = std::stoi(days.value().on.substr(5, 2)),
                          .is_southern = source.design->site.latitude_deg < 0.0};
  report::WeekAnswer answer;
  answer.file = request.file;
  answer.design_name = source.design->name;
  answer.is_invented = source.design->is_invented;
  answer.engine_version = request.engine_version;
  answer.seed = source.design->climate.seed;
  answer.input_hash = request.input_hash;
  answer.first_day = days.value().on;
  answer.last_day = text_from_day(days.value().today + days_in_week - 1);
  answer.has_logbook = source.has_logbook;
  answer.can_l = request.can_l;
  answer.water_minutes = round.minutes;
  answer.water_cans = round.cans;
  answer.missing = weather.value().missing;
  if (!source.has_logbook) {
    answer.missing.push_back(
        "a logbook: houseleek import roof.toml --to my-roof.houseleek; then this list knows what was done");
  }
  add_watering(inputs, stores, answer);
  add_storm(inputs, answer);
  add_looks(inputs, answer);
  add_readings(inputs, answer);
  add_parts(inputs, answer);
  add_feeding(inputs, answer);
  add_more(inputs, answer);
  std::stable_sort(answer.items.begin(), answer.items.end(), [](const report::WeekItem& a, const report::WeekItem& b) {
    if (a.urgency != b.urgency) return a.urgency < b.urgency;
    return a.due < b.due;
  });
  const auto n_now = std::count_if(answer.items.begin(), answer.items.end(),
                                   [](const report::WeekItem& one) { return one.urgency == 0; });
  const double n = static_cast<double>(answer.items.size());
  answer.statement =
      answer.items.empty()
          ? "Nothing is due this week."
          : fmt::format("{} this week, {} of them today{}.", counted(n, "thing", "things"), n_now,
                        *round.minutes.value > 0.0
                            ? fmt::format("; about {:.0f} minutes ({:.0f} to {:.0f}) with the cans",
                                          *round.minutes.value, round.minutes.range->low, round.minutes.range->high)
                            : "");
  return answer;
}

}  // namespace houseleek::studies
