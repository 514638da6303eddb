// Civil time zones by name, and the offset a place keeps through the year.
#include "base/zone.hpp"

#include <date/tz.h>

#include <algorithm>
#include <map>

namespace houseleek {
namespace {

constexpr std::int64_t shortest_standard_s = std::int64_t{90} * 86400;

// Names of both zones and links: a link (an older name) is as good for a person.
const date::time_zone* find_zone_entry(std::string_view name) {
  const date::tzdb& database = date::get_tzdb();
  for (const date::time_zone& zone : database.zones) {
    if (zone.name() == name) return &zone;
  }
#if !USE_OS_TZDB
  for (const auto& link : database.links) {
    if (link.name() == name) return find_zone_entry(link.target());
  }
#endif
  return nullptr;
}

}  // namespace

bool is_zone_known(std::string_view name) { return find_zone_entry(name) != nullptr; }

std::optional<ZoneInfo> find_zone(std::string_view name, int year) {
  const date::time_zone* zone = find_zone_entry(name);
  if (zone == nullptr) return std::nullopt;
  const date::sys_seconds first_day = date::sys_days{date::year{year} / date::January / 1};
  const date::sys_seconds next_year = date::sys_days{date::year{year + 1} / date::January / 1};
  std::map<int, std::int64_t> kept_s_by_offset_s;
  for (date::sys_seconds at = first_day; at < next_year;) {
    const date::sys_info span = zone->get_info(at);
    const date::sys_seconds end = std::min(next_year, date::sys_seconds{span.end});
    expects(end > at, "a time zone's rules to move on");
    kept_s_by_offset_s[static_cast<int>(span.offset.count())] += (end - at).count();
    at = end;
  }
  // The database's own mark for daylight saving is turned round for Ireland and Morocco; duration is not.
  const auto is_long = [](const auto& entry) { return entry.second >= shortest_standard_s; };
  const auto standard = std::find_if(kept_s_by_offset_s.begin(), kept_s_by_offset_s.end(), is_long);
  expects(standard != kept_s_by_offset_s.end(), "a zone to keep one offset for a quarter of the year");
  ZoneInfo info;
  info.name = std::string(name);
  info.standard_offset_s = standard->first;
  info.daylight_saving_s = kept_s_by_offset_s.rbegin()->first - standard->first;
  info.has_daylight_saving = info.daylight_saving_s > 0;
  return info;
}

std::vector<OffsetSpan> offsets_of_zone(std::string_view name, int first_year, int last_year) {
  std::vector<OffsetSpan> spans;
  const date::time_zone* zone = find_zone_entry(name);
  if (zone == nullptr) return spans;
  const date::sys_seconds end = date::sys_days{date::year{last_year + 1} / date::January / 1};
  for (date::sys_seconds at = date::sys_days{date::year{first_year} / date::January / 1}; at < end;) {
    const date::sys_info span = zone->get_info(at);
    expects(date::sys_seconds{span.end} > at, "a time zone's rules to move on");
    spans.push_back({at.time_since_epoch().count(), static_cast<int>(span.offset.count())});
    at = date::sys_seconds{span.end};
  }
  return spans;
}

std::vector<std::string> zone_names() {
  const date::tzdb& database = date::get_tzdb();
  std::vector<std::string> names;
  for (const date::time_zone& zone : database.zones) names.push_back(zone.name());
#if !USE_OS_TZDB
  for (const auto& link : database.links) names.push_back(link.name());
#endif
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace houseleek
