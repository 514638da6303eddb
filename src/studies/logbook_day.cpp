// The day as of which a logbook is read: later events are left out.
#include "studies/logbook_day.hpp"

#include <fmt/format.h>

#include "base/civil_time.hpp"
#include "logbook/event_fields.hpp"
#include "logbook/read_event.hpp"

namespace houseleek::studies {

Result<LogbookDay> logbook_day(const std::string& given, const std::string& zone, std::int64_t now_utc_s) {
  std::string on = given;
  if (on.empty()) {
    CivilMoment now = moment_at(now_utc_s, zone);
    now.is_time_known = false;
    on = text_from_moment(now);
  }
  const std::optional<std::int64_t> today = day_from_text(on);
  if (!today) {
    Issue issue;
    issue.code = IssueCode::wrong_type;
    issue.path = "on";
    issue.value = on;
    issue.limit = "a date";
    issue.message = fmt::format("on is \"{}\"; it must be a date", on);
    issue.hint = "2026-07-03, for example";
    return Unexpected{{issue}};
  }
  const Result<CivilMoment> noon = moment_from_text(on, zone, "on");
  if (!noon) return Unexpected{noon.error()};
  return LogbookDay{on, *today, noon.value().utc_s + n_seconds_in_civil_day / 2};
}

std::vector<logbook::EventRecord> events_until(const std::vector<logbook::EventRecord>& records, std::int64_t utc_s) {
  std::vector<logbook::EventRecord> kept;
  for (const logbook::EventRecord& record : records) {
    if (record.event.at.utc_s <= utc_s) kept.push_back(record);
  }
  return kept;
}

std::string text_of_standing(const std::vector<logbook::EventRecord>& records) {
  std::string all;
  for (const logbook::EventRecord& record : records) {
    if (record.superseded_by) continue;
    all += fmt::format("{} {}\n", record.number, logbook::rule_of(record.event.kind).word);
    for (const auto& [key, text] : logbook::fields_of(record.event)) {
      all += fmt::format("{}:{}={}:{}", key.size(), key, text.size(), text);
    }
  }
  return all;
}

}  // namespace houseleek::studies
