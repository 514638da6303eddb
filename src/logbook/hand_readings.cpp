// The logbook's temperatures as trials take them.
#include "logbook/hand_readings.hpp"

#include <algorithm>

#include "base/zone.hpp"

namespace houseleek::logbook {
namespace {

std::string place_of(const Event& event) {
  for (const std::string* name : {&event.module, &event.square, &event.room, &event.container}) {
    if (!name->empty()) return *name;
  }
  return {};
}

HandReading reading_from(const Event& event) {
  const std::string shown = text_from_moment({event.at.utc_s, event.at.offset_s, false});
  const std::optional<ZoneInfo> zone = find_zone(event.zone, std::stoi(shown.substr(0, 4)));
  expects(zone.has_value(), "events in a time zone that is known");
  const std::int64_t standard_s = event.at.utc_s + zone->standard_offset_s;
  const std::int64_t second = ((standard_s % n_seconds_in_day) + n_seconds_in_day) % n_seconds_in_day;
  HandReading reading;
  reading.place = place_of(event);
  reading.day = static_cast<int>((standard_s - second) / n_seconds_in_day);
  reading.hour = static_cast<double>(second) / 3600.0;
  reading.value_c = *event.temperature_c;
  return reading;
}

}  // namespace

std::vector<HandReading> hand_readings_from(std::span<const EventRecord> records) {
  std::vector<HandReading> readings;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (event.kind != EventKind::read_off || record.superseded_by || !event.at.is_time_known) continue;
    readings.push_back(reading_from(event));
  }
  std::stable_sort(readings.begin(), readings.end(), [](const HandReading& a, const HandReading& b) {
    return a.day != b.day ? a.day < b.day : a.hour < b.hour;
  });
  return readings;
}

}  // namespace houseleek::logbook
