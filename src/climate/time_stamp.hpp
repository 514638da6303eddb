// A moment as ISO 8601 writes it, and the hour of the weather year it stands for.
#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace houseleek::climate {

struct TimeStamp {
  int year = 0;
  int month = 0;  // 1 to 12
  int day = 0;    // 1 to 31, there in this month of this year
  int hour = 0;   // 0 to 23
  int minute = 0;
  int second = 0;
  std::optional<int> utc_offset_min;  // if one is written
  bool operator==(const TimeStamp&) const = default;
};

/// 2023-01-31T05:00, with a blank for the T, with seconds, with Z or +hh:mm at the end; nullopt for anything else.
[[nodiscard]] std::optional<TimeStamp> time_stamp_from_text(std::string_view text);

/// True on 29 February, which a weather year leaves out.
[[nodiscard]] bool is_leap_day(const TimeStamp& stamp);

/// Hour of the 365-day year, from 0. Not for 29 February.
[[nodiscard]] int hour_of_year(const TimeStamp& stamp);

/// 2023-01-31T05:00 for an hour of the 365-day year.
[[nodiscard]] std::string text_from_hour_of_year(int year, int hour);

}  // namespace houseleek::climate
