// Moments in a logger's file: what its clock shows, and when that was.
#include "studies/logger_stamp.hpp"

#include <algorithm>
#include <limits>

#include "base/civil_time.hpp"

namespace houseleek::studies {
namespace {

constexpr int first_year = 1970;
constexpr int last_year = 2199;
constexpr std::int64_t endless_s = std::numeric_limits<std::int64_t>::max() / 4;

/// Years of two digits lie from 1970 to 2069.
int full_year(int year, bool is_short) { return !is_short ? year : year >= 70 ? 1900 + year : 2000 + year; }

climate::CivilDate date_of(const climate::StampText& stamp, climate::DateOrder order) {
  const auto& [a, b, c] = stamp.date;
  if (stamp.is_year_first) return {a, b, c};
  if (order == climate::DateOrder::year_first) return {full_year(a, stamp.is_year_short), b, c};
  const int year = full_year(c, stamp.is_year_short);
  return order == climate::DateOrder::day_first ? climate::CivilDate{year, b, a} : climate::CivilDate{year, a, b};
}

}  // namespace

climate::StampText joined_stamp(climate::StampText date, const climate::StampText& clock) {
  date.has_clock = true;
  date.hour = clock.hour;
  date.minute = clock.minute;
  date.second = clock.second;
  if (clock.utc_offset_min) date.utc_offset_min = clock.utc_offset_min;
  return date;
}

std::optional<std::int64_t> shown_second(const climate::StampText& stamp, climate::DateOrder order) {
  if (stamp.epoch_s) return stamp.epoch_s;
  const climate::CivilDate date = date_of(stamp, order);
  if (date.year < first_year || date.year > last_year || !climate::is_on_calendar(date)) return std::nullopt;
  const std::int64_t minute = climate::minute_from_date(date) + 60 * stamp.hour + stamp.minute;
  return 60 * (minute - stamp.utc_offset_min.value_or(0)) + stamp.second;
}

LoggerClock::LoggerClock(climate::FileClock clock, std::string zone, bool is_newest_first)
    : clock_(clock), zone_(std::move(zone)), is_newest_first_(is_newest_first) {
  if (clock_ == climate::FileClock::daylight_saving) spans_ = offsets_of_zone(zone_, first_year - 1, last_year + 1);
}

void LoggerClock::keep_span(std::int64_t shown_s) {
  switch (clock_) {
    case climate::FileClock::utc:
      begin_s_ = -endless_s;
      end_s_ = endless_s;
      offset_s_ = 0;
      return;
    case climate::FileClock::standard: {
      // Standard time is that of the calendar year.
      const int year = std::stoi(text_from_utc(shown_s).substr(0, 4));
      const std::optional<ZoneInfo> zone = find_zone(zone_, year);
      expects(zone.has_value(), "a time zone that is known");
      offset_s_ = zone->standard_offset_s;
      begin_s_ = 60 * climate::minute_from_date({year, 1, 1});
      end_s_ = 60 * climate::minute_from_date({year + 1, 1, 1});
      return;
    }
    case climate::FileClock::daylight_saving:
      break;
  }
  begin_s_ = end_s_ = 0;
  for (std::size_t i = 0; i < spans_.size(); ++i) {
    const int offset_s = spans_[i].offset_s;
    const int before_s = i == 0 ? offset_s : spans_[i - 1].offset_s;
    const int after_s = i + 1 == spans_.size() ? offset_s : spans_[i + 1].offset_s;
    const std::int64_t begin_s = i == 0 ? -endless_s : spans_[i].begin_utc_s + std::max(offset_s, before_s);
    const std::int64_t end_s =
        i + 1 == spans_.size() ? endless_s : spans_[i + 1].begin_utc_s + std::min(offset_s, after_s);
    if (shown_s < begin_s || shown_s >= end_s) continue;
    begin_s_ = begin_s;
    end_s_ = end_s;
    offset_s_ = offset_s;
    return;
  }
}

/// For the hours around a change of the clock.
std::optional<std::int64_t> LoggerClock::chosen_from(std::int64_t shown_s) {
  std::vector<std::int64_t> moments;
  for (std::size_t i = 0; i < spans_.size(); ++i) {
    const std::int64_t utc_s = shown_s - spans_[i].offset_s;
    const bool is_before_end = i + 1 == spans_.size() || utc_s < spans_[i + 1].begin_utc_s;
    if (utc_s >= spans_[i].begin_utc_s && is_before_end) moments.push_back(utc_s);
  }
  if (moments.empty()) return std::nullopt;
  std::sort(moments.begin(), moments.end());
  if (is_newest_first_) std::reverse(moments.begin(), moments.end());
  for (const std::int64_t utc_s : moments) {
    if (!last_utc_s_ || (is_newest_first_ ? utc_s < *last_utc_s_ : utc_s > *last_utc_s_)) return utc_s;
  }
  return moments.front();
}

std::optional<std::int64_t> LoggerClock::utc_from(std::int64_t shown_s) {
  if (shown_s < begin_s_ || shown_s >= end_s_) keep_span(shown_s);
  const bool is_plain = shown_s >= begin_s_ && shown_s < end_s_;
  const std::optional<std::int64_t> utc_s = is_plain ? std::optional(shown_s - offset_s_) : chosen_from(shown_s);
  if (utc_s) last_utc_s_ = utc_s;
  return utc_s;
}

}  // namespace houseleek::studies
