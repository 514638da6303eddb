// Civil time zones by name, and the offset a place keeps through the year.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

namespace houseleek {

/// What the program needs of a time zone: all its hours run in standard time, daylight saving is for showing only.
struct ZoneInfo {
  std::string name;
  // The least offset kept for at least 90 days of the year.
  int standard_offset_s = 0;         // east of Greenwich positive; without daylight saving
  bool has_daylight_saving = false;  // in the year asked for
  int daylight_saving_s = 0;         // how far clocks are put forward, 0 if never
};

/// True if the name is one of the tz database (Area/City, or a link to one).
[[nodiscard]] bool is_zone_known(std::string_view name);

/// The rules of a zone in a calendar year; nullopt if the name is not known.
[[nodiscard]] std::optional<ZoneInfo> find_zone(std::string_view name, int year);

/// From this moment on clocks keep this offset, until the next span begins.
struct OffsetSpan {
  std::int64_t begin_utc_s = 0;  // since 1970
  int offset_s = 0;              // east of Greenwich positive
  bool operator==(const OffsetSpan&) const = default;
};

/// The offsets that clocks of a zone keep through calendar years, oldest first; empty if the name is not known.
[[nodiscard]] std::vector<OffsetSpan> offsets_of_zone(std::string_view name, int first_year, int last_year);

/// Names of all zones, sorted; for hints.
[[nodiscard]] std::vector<std::string> zone_names();

}  // namespace houseleek
