// A moment as ISO 8601 writes it, and the hour of the weather year it stands for.
#include "climate/time_stamp.hpp"

#include <fmt/format.h>

#include "base/contract.hpp"
#include "climate/calendar.hpp"

namespace houseleek::climate {
namespace {

/// Takes pieces off the front of a text; once one does not fit, all later ones fail.
class Taker {
 public:
  explicit Taker(std::string_view text) : rest_(text) {}
  int digits(std::size_t n_digits) {
    int value = 0;
    for (std::size_t i = 0; i < n_digits; ++i) {
      const char c = i < rest_.size() ? rest_[i] : ' ';
      if (c < '0' || c > '9') {
        is_good_ = false;
        return 0;
      }
      value = 10 * value + (c - '0');
    }
    rest_.remove_prefix(n_digits);
    return value;
  }
  bool letter_if(std::string_view any_of) {
    if (rest_.empty() || any_of.find(rest_.front()) == std::string_view::npos) return false;
    taken_ = rest_.front();
    rest_.remove_prefix(1);
    return true;
  }
  void letter(std::string_view any_of) {
    if (!letter_if(any_of)) is_good_ = false;
  }
  [[nodiscard]] char taken() const { return taken_; }
  [[nodiscard]] bool is_good() const { return is_good_; }
  [[nodiscard]] bool is_empty() const { return rest_.empty(); }

 private:
  std::string_view rest_;
  char taken_ = ' ';
  bool is_good_ = true;
};

bool is_on_calendar(const TimeStamp& stamp) {
  if (stamp.year < 1 || stamp.month < 1 || stamp.month > n_months || stamp.day < 1) return false;
  const bool has_leap_day = stamp.month == 2 && is_leap_year(stamp.year);
  const int n_days = n_days_in_month[static_cast<std::size_t>(stamp.month - 1)] + (has_leap_day ? 1 : 0);
  return stamp.day <= n_days && stamp.hour <= 23 && stamp.minute <= 59 && stamp.second <= 59;
}

}  // namespace

std::optional<TimeStamp> time_stamp_from_text(std::string_view text) {
  Taker taker(text);
  TimeStamp stamp;
  stamp.year = taker.digits(4);
  taker.letter("-");
  stamp.month = taker.digits(2);
  taker.letter("-");
  stamp.day = taker.digits(2);
  taker.letter("T ");
  stamp.hour = taker.digits(2);
  taker.letter(":");
  stamp.minute = taker.digits(2);
  if (taker.letter_if(":")) stamp.second = taker.digits(2);
  if (taker.letter_if("Z")) {
    stamp.utc_offset_min = 0;
  } else if (taker.letter_if("+-")) {
    const int sign = taker.taken() == '-' ? -1 : 1;
    const int hours = taker.digits(2);
    taker.letter(":");
    const int minutes = taker.digits(2);
    if (hours > 23 || minutes > 59) return std::nullopt;
    stamp.utc_offset_min = sign * (60 * hours + minutes);
  }
  if (!taker.is_good() || !taker.is_empty() || !is_on_calendar(stamp)) return std::nullopt;
  return stamp;
}

bool is_leap_day(const TimeStamp& stamp) { return stamp.month == 2 && stamp.day == 29; }

int hour_of_year(const TimeStamp& stamp) {
  expects(!is_leap_day(stamp), "a day that every year has");
  const int day = first_day_of_month[static_cast<std::size_t>(stamp.month - 1)] + stamp.day - 1;
  return day * n_hours_in_day + stamp.hour;
}

std::string text_from_hour_of_year(int year, int hour) {
  expects(hour >= 0 && hour < n_hours_in_year, "an hour of the year");
  const int day = hour / n_hours_in_day;
  const int month = month_of_day[static_cast<std::size_t>(day)];
  const int day_of_month = day - first_day_of_month[static_cast<std::size_t>(month)] + 1;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:00", year, month + 1, day_of_month, hour % n_hours_in_day);
}

}  // namespace houseleek::climate
