// A moment as a person writes it, in the civil time of a place, and back again.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"

namespace houseleek {

inline constexpr std::int64_t n_seconds_in_civil_day = 86400;

/// A moment, with what clocks of the place showed.
struct CivilMoment {
  std::int64_t utc_s = 0;     // since 1970
  int offset_s = 0;           // of the clocks there and then, east of Greenwich positive
  bool is_time_known = true;  // false: only the day was written; the moment is its noon
  bool operator==(const CivilMoment&) const = default;
};

/// 2026-07-03, 2026-07-03T08:15, 2026-07-03 08:15:30, each with Z or +03:00 behind it where somebody wants to say the
/// offset. Years 1900 to 2199. The zone must be known.
/// Errors: one issue under `path`: no such date or time; a time that clocks leapt over; a time that clocks showed twice,
/// with both ways to write it; an offset that the place did not keep.
[[nodiscard]] Result<CivilMoment> moment_from_text(std::string_view text, std::string_view zone, std::string_view path);

/// 2026-07-03T08:15+03:00, with seconds where there are any; the day alone where only that is known. Reading it again in
/// the same zone gives the same moment.
[[nodiscard]] std::string text_from_moment(const CivilMoment& moment);

/// 2026-07-03T05:15Z
[[nodiscard]] std::string text_from_utc(std::int64_t utc_s);

/// What clocks of a zone show at a moment of the years 1900 to 2199.
[[nodiscard]] CivilMoment moment_at(std::int64_t utc_s, std::string_view zone);

/// Days since 1970-01-01 of a date of the years 1900 to 2199 written 2026-07-03; nullopt where it is none.
[[nodiscard]] std::optional<std::int64_t> day_from_text(std::string_view text);
[[nodiscard]] std::string text_from_day(std::int64_t day);

}  // namespace houseleek
