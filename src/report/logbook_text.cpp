// Events of a logbook as a person reads them, as JSON, and as tables for other programs.
#include "report/logbook_text.hpp"

#include <fmt/format.h>

#include "logbook/event_fields.hpp"
#include "logbook/read_event.hpp"

namespace houseleek::report {
namespace {

/// 6 l; 4 (vigour).
std::string words_of_number(const logbook::NumberField& field, const logbook::Event& event) {
  const double value = *(event.*field.member);
  if (field.key == "cost") return fmt::format("{} {}", value, event.currency);
  if (field.unit.empty()) return fmt::format("{} {}", field.key, value);
  // Two numbers of one unit: depth and height, rain and hail, watering and volume.
  const std::string_view what = field.key.substr(0, field.key.find('_'));
  return fmt::format("{} {} {}", what, value,
                     field.unit == "degC"      ? "\u00B0C"
                     : field.unit == "percent" ? "%"
                                               : field.unit);
}

std::string words_of_fields(const logbook::Event& event) {
  std::string words;
  for (const logbook::TextField& field : logbook::text_fields()) {
    if ((event.*field.member).empty() || field.key == "currency") continue;
    words += fmt::format(", {} {}", field.key, event.*field.member);
  }
  for (const logbook::NumberField& field : logbook::number_fields()) {
    if (event.*field.member) words += ", " + words_of_number(field, event);
  }
  if (event.first_day) words += fmt::format(", from {}", text_from_day(*event.first_day));
  if (event.last_day) words += fmt::format(" to {}", text_from_day(*event.last_day));
  return words;
}

Json json_from_optional(const std::optional<std::int64_t>& number) { return number ? Json(*number) : Json(nullptr); }

}  // namespace

std::string line_from(const logbook::EventRecord& record) {
  std::string line = fmt::format("{:>5}: {} {}{}", record.number, logbook::rule_of(record.event.kind).word,
                                 text_from_moment(record.event.at), words_of_fields(record.event));
  if (record.supersedes) line += fmt::format(" (instead of {})", *record.supersedes);
  if (record.superseded_by) line += fmt::format(" (no longer: see {})", *record.superseded_by);
  return line + "\n";
}

std::string text_from(std::span<const logbook::EventRecord> records) {
  std::string text;
  for (const logbook::EventRecord& record : records) text += line_from(record);
  return text + fmt::format("{} event{}\n", records.size(), records.size() == 1 ? "" : "s");
}

Json json_from(const logbook::EventRecord& record) {
  const logbook::Event& event = record.event;
  Json json = {{"number", record.number},
               {"noted_at", text_from_utc(record.noted_utc_s)},
               {"supersedes", json_from_optional(record.supersedes)},
               {"superseded_by", json_from_optional(record.superseded_by)},
               {"kind", logbook::rule_of(event.kind).word},
               {"at", text_from_moment(event.at)},
               {"is_time_known", event.at.is_time_known},
               {"zone", event.zone}};
  for (const logbook::TextField& field : logbook::text_fields()) {
    if (!(event.*field.member).empty()) json[std::string(field.key)] = event.*field.member;
  }
  for (const logbook::NumberField& field : logbook::number_fields()) {
    if (event.*field.member) json[std::string(field.key)] = *(event.*field.member);
  }
  for (const logbook::DayField& field : logbook::day_fields()) {
    if (event.*field.member) json[std::string(field.key)] = text_from_day(*(event.*field.member));
  }
  return json;
}

Json json_of_log(const std::string& project, std::optional<std::int64_t> added,
                 std::span<const logbook::EventRecord> records) {
  Json events = Json::array();
  for (const logbook::EventRecord& record : records) events.push_back(json_from(record));
  return {{"answer", "log"},
          {"project", project},
          {"added", json_from_optional(added)},
          {"n_events", records.size()},
          {"events", std::move(events)}};
}

std::string csv_field(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string field = "\"";
  for (const char c : text) field += c == '"' ? std::string("\"\"") : std::string(1, c);
  return field + "\"";
}

std::string csv_from(std::span<const logbook::EventRecord> records) {
  std::string text = "number,noted_at,supersedes,superseded_by,kind,at,is_time_known,zone";
  for (const logbook::TextField& field : logbook::text_fields()) text += fmt::format(",{}", field.key);
  for (const logbook::NumberField& field : logbook::number_fields()) text += fmt::format(",{}", field.key);
  for (const logbook::DayField& field : logbook::day_fields()) text += fmt::format(",{}", field.key);
  text += "\n";
  const auto number = [](const std::optional<std::int64_t>& value) { return value ? fmt::format("{}", *value) : ""; };
  for (const logbook::EventRecord& record : records) {
    const logbook::Event& event = record.event;
    text += fmt::format("{},{},{},{},{},{},{},{}", record.number, text_from_utc(record.noted_utc_s),
                        number(record.supersedes), number(record.superseded_by), logbook::rule_of(event.kind).word,
                        text_from_moment(event.at), event.at.is_time_known ? "yes" : "no", event.zone);
    for (const logbook::TextField& field : logbook::text_fields())
      text += fmt::format(",{}", csv_field(event.*field.member));
    for (const logbook::NumberField& field : logbook::number_fields()) {
      text += event.*field.member ? fmt::format(",{}", *(event.*field.member)) : ",";
    }
    for (const logbook::DayField& field : logbook::day_fields()) {
      text += event.*field.member ? fmt::format(",{}", text_from_day(*(event.*field.member))) : ",";
    }
    text += "\n";
  }
  return text;
}

}  // namespace houseleek::report
