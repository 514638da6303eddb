// A moment as files write it, and the hour of the weather year it stands for.
#include "climate/time_stamp.hpp"

#include <fmt/format.h>

#include <chrono>

#include "base/contract.hpp"
#include "climate/calendar.hpp"

namespace houseleek::climate {
namespace {

constexpr int minutes_per_day = 1440;

/// Takes pieces off the front of a text; once one does not fit, all later ones fail.
class Taker {
 public:
  explicit Taker(std::string_view text) : rest_(text) {}
  /// A number of `least` to `most` digits.
  int number(std::size_t least, std::size_t most) {
    int value = 0;
    std::size_t n = 0;
    while (n < most && n < rest_.size() && rest_[n] >= '0' && rest_[n] <= '9') value = 10 * value + (rest_[n++] - '0');
    if (n < least) is_good_ = false;
    n_digits_ = n;
    rest_.remove_prefix(n);
    return value;
  }
  bool sign_if(std::string_view any_of) {
    if (rest_.empty() || any_of.find(rest_.front()) == std::string_view::npos) return false;
    taken_ = rest_.front();
    rest_.remove_prefix(1);
    return true;
  }
  void sign(std::string_view any_of) {
    if (!sign_if(any_of)) is_good_ = false;
  }
  void blanks() {
    while (sign_if(" \t")) {
    }
  }
  void fail() { is_good_ = false; }
  [[nodiscard]] char taken() const { return taken_; }
  [[nodiscard]] std::size_t n_digits() const { return n_digits_; }
  [[nodiscard]] bool is_good() const { return is_good_; }
  [[nodiscard]] std::string_view rest() const { return rest_; }
  [[nodiscard]] std::size_t n_digits_ahead() const {
    std::size_t n = 0;
    while (n < rest_.size() && rest_[n] >= '0' && rest_[n] <= '9') ++n;
    return n;
  }

 private:
  std::string_view rest_;
  char taken_ = ' ';
  std::size_t n_digits_ = 0;
  bool is_good_ = true;
};

void take_parted_date(Taker& taker, StampText& stamp) {
  stamp.has_date = true;
  stamp.date[0] = taker.number(1, 4);
  const std::size_t n_first = taker.n_digits();
  taker.sign("-./");
  const char parting[] = {taker.taken(), '\0'};
  stamp.date[1] = taker.number(1, 2);
  taker.sign(parting);
  stamp.date[2] = taker.number(1, 4);
  const std::size_t n_last = taker.n_digits();
  stamp.is_year_first = n_first == 4;
  stamp.is_year_short = n_first <= 2 && n_last <= 2;
  const bool has_one_year = (n_first == 4 && n_last <= 2) || (n_first <= 2 && n_last == 4);
  if (!has_one_year && !(stamp.is_year_short && n_last == 2)) taker.fail();
}

/// 20230131, 2023013105, 202301310500, 20230131050000.
void take_compact(Taker& taker, std::size_t n_digits, StampText& stamp) {
  stamp.has_date = true;
  stamp.is_year_first = true;
  stamp.date = {taker.number(4, 4), taker.number(2, 2), taker.number(2, 2)};
  if (n_digits == 8) return;
  stamp.has_clock = true;
  stamp.hour = taker.number(2, 2);
  if (n_digits >= 12) stamp.minute = taker.number(2, 2);
  if (n_digits >= 14) stamp.second = taker.number(2, 2);
}

void take_clock(Taker& taker, StampText& stamp) {
  stamp.has_clock = true;
  const std::size_t n_digits = taker.n_digits_ahead();
  if (n_digits == 4 || n_digits == 6) {  // 0500
    stamp.hour = taker.number(2, 2);
    stamp.minute = taker.number(2, 2);
    if (n_digits == 6) stamp.second = taker.number(2, 2);
  } else {
    stamp.hour = taker.number(1, 2);
    taker.sign(":");
    stamp.minute = taker.number(2, 2);
    if (taker.sign_if(":")) {
      stamp.second = taker.number(2, 2);
      if (taker.sign_if(".")) taker.number(1, 9);  // parts of a second
    }
  }
  taker.blanks();
  if (taker.sign_if("AaPp")) {
    const bool is_afternoon = taker.taken() == 'P' || taker.taken() == 'p';
    taker.sign("Mm");
    if (stamp.hour < 1 || stamp.hour > 12) taker.fail();
    stamp.hour = stamp.hour % 12 + (is_afternoon ? 12 : 0);
    taker.blanks();
  }
}

void take_offset(Taker& taker, StampText& stamp) {
  if (taker.sign_if("Zz")) {
    stamp.utc_offset_min = 0;
  } else if (taker.sign_if("+-")) {
    const int sign = taker.taken() == '-' ? -1 : 1;
    const int hours = taker.number(2, 2);
    int minutes = 0;
    if (taker.sign_if(":") || taker.n_digits_ahead() > 0) minutes = taker.number(2, 2);
    if (hours > 14 || minutes > 59) taker.fail();
    stamp.utc_offset_min = sign * (60 * hours + minutes);
  }
}

bool is_plausible_compact(const StampText& stamp) {
  constexpr int first_year = 1800;
  constexpr int last_year = 2200;
  return stamp.date[0] >= first_year && stamp.date[0] <= last_year && stamp.date[1] >= 1 && stamp.date[1] <= n_months &&
         stamp.date[2] >= 1 && stamp.date[2] <= 31;
}

std::optional<StampText> epoch_from(std::string_view digits) {
  std::int64_t value = 0;
  for (const char c : digits) value = 10 * value + (c - '0');
  StampText stamp;
  stamp.epoch_s = digits.size() >= 12 ? value / 1000 : value;
  return stamp;
}

}  // namespace

std::optional<StampText> stamp_text_from(std::string_view text) {
  Taker taker(text);
  StampText stamp;
  const std::size_t n_digits = taker.n_digits_ahead();
  if (n_digits >= 8) {
    if (n_digits == 8 || n_digits == 10 || n_digits == 12 || n_digits == 14) take_compact(taker, n_digits, stamp);
    if (!stamp.has_date || !is_plausible_compact(stamp)) {
      const bool is_epoch = n_digits == text.size() && n_digits >= 9 && n_digits <= 13;
      return is_epoch ? epoch_from(text) : std::nullopt;
    }
  } else if (text.find_first_of("-./") < 5 && text.find_first_of("-./") < text.find(':')) {
    take_parted_date(taker, stamp);
  }
  if (stamp.has_date && !stamp.has_clock && !taker.rest().empty()) {
    if (!taker.sign_if("T")) taker.blanks();
    if (!taker.rest().empty()) take_clock(taker, stamp);
  } else if (!stamp.has_date) {
    take_clock(taker, stamp);
  } else {
    taker.blanks();
  }
  if (stamp.has_clock) take_offset(taker, stamp);
  const bool is_day_end = stamp.hour == 24 && stamp.minute == 0 && stamp.second == 0;
  if (!taker.is_good() || !taker.rest().empty() || (stamp.hour > 23 && !is_day_end) || stamp.minute > 59 ||
      stamp.second > 59) {
    return std::nullopt;
  }
  return stamp;
}

bool is_on_calendar(const CivilDate& date) {
  if (date.year < 1 || date.month < 1 || date.month > n_months || date.day < 1) return false;
  const bool has_leap_day = date.month == 2 && is_leap_year(date.year);
  return date.day <= n_days_in_month[static_cast<std::size_t>(date.month - 1)] + (has_leap_day ? 1 : 0);
}

std::int64_t minute_from_date(const CivilDate& date) {
  const std::chrono::sys_days days = std::chrono::year{date.year} /
                                     std::chrono::month{static_cast<unsigned>(date.month)} /
                                     std::chrono::day{static_cast<unsigned>(date.day)};
  return static_cast<std::int64_t>(days.time_since_epoch().count()) * minutes_per_day;
}

CivilDate date_from_minute(std::int64_t minute, int& minute_of_day) {
  std::int64_t day = minute / minutes_per_day;
  if (minute % minutes_per_day < 0) --day;
  minute_of_day = static_cast<int>(minute - day * minutes_per_day);
  const std::chrono::year_month_day date{std::chrono::sys_days{std::chrono::days{day}}};
  return {static_cast<int>(date.year()), static_cast<int>(static_cast<unsigned>(date.month())),
          static_cast<int>(static_cast<unsigned>(date.day()))};
}

bool is_leap_day(const CivilDate& date) { return date.month == 2 && date.day == 29; }

int day_of_year(const CivilDate& date) {
  expects(!is_leap_day(date), "a day that every year has");
  return first_day_of_month[static_cast<std::size_t>(date.month - 1)] + date.day - 1;
}

std::string text_from_hour_of_year(int year, int hour) {
  expects(hour >= 0 && hour < n_hours_in_year, "an hour of the year");
  const int day = hour / n_hours_in_day;
  const int month = month_of_day[static_cast<std::size_t>(day)];
  const int day_of_month = day - first_day_of_month[static_cast<std::size_t>(month)] + 1;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:00", year, month + 1, day_of_month, hour % n_hours_in_day);
}

std::string text_from_minute(std::int64_t minute) {
  int minute_of_day = 0;
  const CivilDate date = date_from_minute(minute, minute_of_day);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}", date.year, date.month, date.day, minute_of_day / 60,
                     minute_of_day % 60);
}

}  // namespace houseleek::climate
