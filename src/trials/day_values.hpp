// One number a day from hand readings or logger columns: maximum, minimum, swing, lag, degree-hours.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/reading.hpp"
#include "trials/logger_checks.hpp"

namespace houseleek::trials {

enum class Measure { maximum, minimum, swing, lag, degree_hours, litres };

/// "the day's maximum", "K", ...
[[nodiscard]] std::string_view words_of(Measure measure);
[[nodiscard]] std::string_view unit_of(Measure measure);

struct DayValue {
  int day = 0;  // since 1970-01-01
  double value = 0.0;
  std::string flag;  // what makes it doubtful; empty: nothing seen
  bool operator==(const DayValue&) const = default;
};

struct LeftOutDay {
  int day = 0;
  std::string why;
  bool operator==(const LeftOutDay&) const = default;
};

/// Days that have the number, in order, and days that have none, with the reason.
struct DaySeries {
  std::vector<DayValue> days;
  std::vector<LeftOutDay> left_out;
  std::string note;  // where the numbers are a model's rather than read off; empty else
  bool operator==(const DaySeries&) const = default;
};

struct DayOptions {
  double base_c = 26.0;             // degree-hours count what lies above
  double hour_shift_allowed = 1.5;  // a hand reading farther from the usual hour is flagged
  double gap_h = 2.0;               // a logger's day with a longer gap has no number
  double least_swing_k = 0.5;       // below, a day's wave has no time of its own
};

/// From one place's hand readings: the minimum is the lowest reading before noon, the maximum the highest after.
/// Degree-hours are those of a cosine between the two (a model; `note` says so). A lag cannot be had from two readings
/// a day: every day is left out with that reason.
/// Equation: degree-hours = integral over 24 h of max(0, middle + swing/2 cos(2 pi t / 24 h) - base)
/// Source:   the cosine day is ours; its integral is exact. Checked by: DayValues.DegreeHoursOfACosine.
[[nodiscard]] DaySeries days_from_hand(std::span<const logbook::HandReading> readings, Measure measure,
                                       const DayOptions& options = {});

struct LoggerDays {
  const logbook::LoggerColumn& column;
  const logbook::LoggerColumn* reference = nullptr;  // what a lag is counted from (air, roof skin); needed for a lag
  std::span<const LoggerFlag> flags;                 // days that a flag of this column touches are marked with it
};

/// From a logger's column. Lag: difference in phase of the daily wave, hours behind the reference, -12 to 12.
/// Equation: phase of the wave m + a cos(2 pi t / 24 h) + b sin(2 pi t / 24 h) of least squares
[[nodiscard]] DaySeries days_from_logger(const LoggerDays& source, Measure measure, const DayOptions& options = {});

}  // namespace houseleek::trials
