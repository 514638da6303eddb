// A moment as files write it, and the hour of the weather year it stands for.
#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace houseleek::climate {

struct CivilDate {
  int year = 0;
  int month = 0;  // 1 to 12
  int day = 0;    // 1 to 31
  bool operator==(const CivilDate&) const = default;
};

/// What a field says of a moment, before it is known which of its numbers is the day.
struct StampText {
  bool has_date = false;
  bool has_clock = false;
  bool is_year_first = false;  // four digits first, or digits only
  bool is_year_short = false;  // two digits for each of the three
  std::array<int, 3> date{};   // in the order written
  int hour = 0;                // 0 to 24; 24 only at 24:00
  int minute = 0;
  int second = 0;
  std::optional<int> utc_offset_min;    // if one is written
  std::optional<std::int64_t> epoch_s;  // seconds since 1970; then nothing else is there
  bool operator==(const StampText&) const = default;
};

/// 2023-01-31T05:00, 31.1.2023 05:00, 1/31/23 5:00 PM, 20230131 0500, 202301310500, 05:00, 1675141200 and what lies
/// between: a date of three numbers parted by one sign of - . /, a clock time with AM or PM, an offset (Z, +01:00, +0100,
/// +01); either may be missing. Nothing for anything else.
[[nodiscard]] std::optional<StampText> stamp_text_from(std::string_view text);

[[nodiscard]] bool is_on_calendar(const CivilDate& date);
/// Minutes since 1970 of a date's midnight.
[[nodiscard]] std::int64_t minute_from_date(const CivilDate& date);
/// The date of a minute since 1970, and the minutes since its midnight.
[[nodiscard]] CivilDate date_from_minute(std::int64_t minute, int& minute_of_day);

/// True on 29 February, which a weather year leaves out.
[[nodiscard]] bool is_leap_day(const CivilDate& date);

/// Day of the 365-day year, from 0. Not for 29 February.
[[nodiscard]] int day_of_year(const CivilDate& date);

/// 2023-01-31T05:00 for an hour of the 365-day year.
[[nodiscard]] std::string text_from_hour_of_year(int year, int hour);

/// 2023-01-31T05:00.
[[nodiscard]] std::string text_from_minute(std::int64_t minute);

}  // namespace houseleek::climate
