// A moment as a person writes it, in the civil time of a place, and back again.
#include "base/civil_time.hpp"

#include <date/date.h>
#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/zone.hpp"

namespace houseleek {
namespace {

constexpr int first_year = 1900;
constexpr int last_year = 2199;
constexpr std::string_view how_to_write = "write a day (2026-07-03) or a day and a time (2026-07-03T08:15)";

/// Exactly so many digits at the front of the text, taken off it.
std::optional<int> take_digits(std::string_view& text, std::size_t n_digits) {
  if (text.size() < n_digits) return std::nullopt;
  int number = 0;
  for (const char c : text.substr(0, n_digits)) {
    if (c < '0' || c > '9') return std::nullopt;
    number = 10 * number + (c - '0');
  }
  text.remove_prefix(n_digits);
  return number;
}

bool take(std::string_view& text, char wanted) {
  if (text.empty() || text.front() != wanted) return false;
  text.remove_prefix(1);
  return true;
}

std::optional<std::int64_t> take_day(std::string_view& text) {
  const std::optional<int> year = take_digits(text, 4);
  if (!year || !take(text, '-')) return std::nullopt;
  const std::optional<int> month = take_digits(text, 2);
  if (!month || !take(text, '-')) return std::nullopt;
  const std::optional<int> day = take_digits(text, 2);
  if (!day || *year < first_year || *year > last_year) return std::nullopt;
  const date::year_month_day date{date::year{*year}, date::month{static_cast<unsigned>(*month)},
                                  date::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return std::nullopt;
  return date::sys_days{date}.time_since_epoch().count();
}

/// 08:15 or 08:15:30, from midnight.
std::optional<int> take_time_of_day(std::string_view& text) {
  const std::optional<int> hour = take_digits(text, 2);
  if (!hour || !take(text, ':')) return std::nullopt;
  const std::optional<int> minute = take_digits(text, 2);
  if (!minute) return std::nullopt;
  int second = 0;
  if (take(text, ':')) {
    const std::optional<int> read = take_digits(text, 2);
    if (!read) return std::nullopt;
    second = *read;
  }
  if (*hour > 23 || *minute > 59 || second > 59) return std::nullopt;
  return *hour * 3600 + *minute * 60 + second;
}

/// Z, +03:00, -03:30.
std::optional<int> take_offset(std::string_view& text) {
  if (take(text, 'Z')) return 0;
  const bool is_west = take(text, '-');
  if (!is_west && !take(text, '+')) return std::nullopt;
  const std::optional<int> hours = take_digits(text, 2);
  if (!hours || !take(text, ':')) return std::nullopt;
  const std::optional<int> minutes = take_digits(text, 2);
  if (!minutes || *hours > 15 || *minutes > 59) return std::nullopt;
  return (is_west ? -1 : 1) * (*hours * 3600 + *minutes * 60);
}

struct Written {
  std::int64_t local_s = 0;  // as if the clock showed UTC
  bool is_time_known = false;
  std::optional<int> offset_s;
};

std::optional<Written> parsed(std::string_view text) {
  const std::optional<std::int64_t> day = take_day(text);
  if (!day) return std::nullopt;
  Written written;
  written.local_s = *day * n_seconds_in_civil_day + n_seconds_in_civil_day / 2;
  if (text.empty()) return written;
  if (!take(text, 'T') && !take(text, ' ')) return std::nullopt;
  const std::optional<int> time_s = take_time_of_day(text);
  if (!time_s) return std::nullopt;
  written.local_s = *day * n_seconds_in_civil_day + *time_s;
  written.is_time_known = true;
  if (text.empty()) return written;
  written.offset_s = take_offset(text);
  if (!written.offset_s || !text.empty()) return std::nullopt;
  return written;
}

int year_of(std::int64_t seconds) {
  const auto day = date::floor<date::days>(date::sys_seconds{std::chrono::seconds{seconds}});
  return static_cast<int>(date::year_month_day{day}.year());
}

/// The offsets kept around a moment, oldest first.
std::vector<OffsetSpan> spans_around(std::int64_t seconds, std::string_view zone) {
  const int year = year_of(seconds);
  std::vector<OffsetSpan> spans = offsets_of_zone(zone, year - 1, year + 1);
  expects(!spans.empty(), "a time zone that is known");
  return spans;
}

int offset_at(const std::vector<OffsetSpan>& spans, std::int64_t utc_s) {
  int offset_s = spans.front().offset_s;
  for (const OffsetSpan& span : spans) {
    if (span.begin_utc_s <= utc_s) offset_s = span.offset_s;
  }
  return offset_s;
}

/// The offsets under which clocks showed this time, the greater one (the earlier moment) first.
std::vector<int> offsets_showing(std::int64_t local_s, std::string_view zone) {
  const std::vector<OffsetSpan> spans = spans_around(local_s, zone);
  std::vector<int> offsets;
  for (const OffsetSpan& span : spans) {
    const bool is_kept_then = offset_at(spans, local_s - span.offset_s) == span.offset_s;
    if (is_kept_then && std::find(offsets.begin(), offsets.end(), span.offset_s) == offsets.end()) {
      offsets.push_back(span.offset_s);
    }
  }
  std::sort(offsets.rbegin(), offsets.rend());
  return offsets;
}

}  // namespace

Result<CivilMoment> moment_from_text(std::string_view text, std::string_view zone, std::string_view path) {
  Issue issue;
  issue.code = IssueCode::wrong_type;
  issue.path = path;
  issue.value = text;
  const auto refused = [&issue](std::string message, std::string hint) {
    issue.message = std::move(message);
    issue.hint = std::move(hint);
    return Unexpected{{issue}};
  };
  const std::optional<Written> written = parsed(text);
  if (!written) {
    issue.limit = fmt::format("a date from {} to {}, or a date and a time of day", first_year, last_year);
    return refused(fmt::format("{} is \"{}\"; that is no date and no time", path, text), std::string(how_to_write));
  }
  const std::vector<int> offsets = offsets_showing(written->local_s, zone);
  const auto moment_with = [&written](int offset_s) {
    return CivilMoment{written->local_s - offset_s, offset_s, written->is_time_known};
  };
  issue.code = IssueCode::inconsistent;
  if (written->offset_s) {
    const int kept_s = offset_at(spans_around(written->local_s, zone), written->local_s - *written->offset_s);
    // Z is a way to say the moment, not what the clocks showed.
    if (*written->offset_s == 0) {
      return CivilMoment{written->local_s, offset_at(spans_around(written->local_s, zone), written->local_s), true};
    }
    if (kept_s == *written->offset_s) return moment_with(kept_s);
    return refused(fmt::format("{} is \"{}\"; clocks of {} did not keep that offset then", path, text, zone),
                   fmt::format("leave the offset away, or write {}",
                               text_from_moment(CivilMoment{written->local_s - *written->offset_s, kept_s, true})));
  }
  if (offsets.size() == 1) return moment_with(offsets.front());
  if (offsets.empty()) {
    return refused(
        fmt::format("{} is \"{}\"; clocks of {} were put forward over that time and never showed it", path, text, zone),
        "write the time that the clock showed");
  }
  return refused(
      fmt::format("{} is \"{}\"; clocks of {} showed that time twice", path, text, zone),
      fmt::format("write {} for the first time, {} for the second", text_from_moment(moment_with(offsets.front())),
                  text_from_moment(moment_with(offsets.back()))));
}

std::string text_from_moment(const CivilMoment& moment) {
  const std::int64_t local_s = moment.utc_s + moment.offset_s;
  const std::int64_t second = ((local_s % n_seconds_in_civil_day) + n_seconds_in_civil_day) % n_seconds_in_civil_day;
  std::string text = text_from_day((local_s - second) / n_seconds_in_civil_day);
  if (!moment.is_time_known) return text;
  text += fmt::format("T{:02}:{:02}", second / 3600, second / 60 % 60);
  if (second % 60 != 0) text += fmt::format(":{:02}", second % 60);
  const int minutes = std::abs(moment.offset_s) / 60;
  return text + fmt::format("{}{:02}:{:02}", moment.offset_s < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

std::string text_from_utc(std::int64_t utc_s) {
  const std::string text = text_from_moment({utc_s, 0, true});
  return text.substr(0, text.find('+')) + "Z";
}

CivilMoment moment_at(std::int64_t utc_s, std::string_view zone) {
  return {utc_s, offset_at(spans_around(utc_s, zone), utc_s), true};
}

std::optional<std::int64_t> day_from_text(std::string_view text) {
  const std::optional<std::int64_t> day = take_day(text);
  return text.empty() ? day : std::nullopt;
}

std::string text_from_day(std::int64_t day) {
  const date::year_month_day date{date::sys_days{date::days{day}}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

}  // namespace houseleek
