// One number a day from hand readings or logger columns.
#include "trials/day_values.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <eigen3/Eigen/Dense>
#include <map>
#include <numbers>
#include <optional>

#include "base/contract.hpp"

namespace houseleek::trials {

namespace {

using logbook::HandReading;
using logbook::LoggerColumn;
using logbook::n_seconds_in_day;

constexpr double n_hours = 24.0;

double usual_hour(std::vector<double> hours) {
  if (hours.empty()) return 0.0;
  std::sort(hours.begin(), hours.end());
  return hours[hours.size() / 2];
}

/// Exact integral over a day of what a cosine between two values has above a base, K h.
double degree_hours_of_cosine(double minimum_c, double maximum_c, double base_c) {
  const double middle = 0.5 * (minimum_c + maximum_c) - base_c;
  const double half = 0.5 * (maximum_c - minimum_c);
  if (middle >= half) return n_hours * middle;
  if (middle <= -half) return 0.0;
  const double angle = std::acos(-middle / half);  // above the base from -angle to angle
  return n_hours / std::numbers::pi * (middle * angle + half * std::sin(angle));
}

/// Integral of what the straight line between two readings has above a base, K h.
double degree_hours_of_line(double from_k, double to_k, double hours) {
  if (from_k <= 0.0 && to_k <= 0.0) return 0.0;
  if (from_k >= 0.0 && to_k >= 0.0) return 0.5 * (from_k + to_k) * hours;
  const double above = std::max(from_k, to_k);
  return 0.5 * above * above / std::fabs(to_k - from_k) * hours;
}

struct HandDay {
  std::optional<HandReading> lowest_before_noon;
  std::optional<HandReading> highest_after_noon;
};

/// A logger's readings of one day.
struct Stretch {
  std::size_t first = 0;
  std::size_t last = 0;  // inclusive
};

std::map<int, Stretch> stretches_of(const LoggerColumn& column) {
  std::map<int, Stretch> days;
  for (std::size_t i = 0; i < column.time_s.size(); ++i) {
    expects(i == 0 || column.time_s[i] >= column.time_s[i - 1], "a column in order of time");
    std::int64_t day = column.time_s[i] / n_seconds_in_day;
    if (column.time_s[i] % n_seconds_in_day < 0) --day;
    const auto [place, is_new] = days.try_emplace(static_cast<int>(day), Stretch{i, i});
    place->second.last = i;
  }
  return days;
}

double hour_in(const LoggerColumn& column, std::size_t i, int day) {
  return static_cast<double>(column.time_s[i] - day * n_seconds_in_day) / 3600.0;
}

/// The longest time without a reading, the day's two ends included.
double longest_gap_h(const LoggerColumn& column, const Stretch& stretch, int day) {
  double before = 0.0;
  double longest = 0.0;
  for (std::size_t i = stretch.first; i <= stretch.last; ++i) {
    const double hour = hour_in(column, i, day);
    longest = std::max(longest, hour - before);
    before = hour;
  }
  return std::max(longest, n_hours - before);
}

struct Wave {
  double phase_h = 0.0;  // hour of the crest
  double amplitude_k = 0.0;
};

/// The wave of one turn a day that lies nearest to the readings, each weighed by the time it stands for.
Wave wave_of(const LoggerColumn& column, const Stretch& stretch, int day) {
  const double turn = 2.0 * std::numbers::pi / n_hours;
  Eigen::Matrix3d matrix = Eigen::Matrix3d::Zero();
  Eigen::Vector3d right = Eigen::Vector3d::Zero();
  for (std::size_t i = stretch.first; i <= stretch.last; ++i) {
    const double hour = hour_in(column, i, day);
    const double before = i > stretch.first ? hour_in(column, i - 1, day) : 0.0;
    const double after = i < stretch.last ? hour_in(column, i + 1, day) : n_hours;
    const double weight = 0.5 * (after - before);
    const Eigen::Vector3d shape(1.0, std::cos(turn * hour), std::sin(turn * hour));
    matrix += weight * shape * shape.transpose();
    right += weight * column.value_c[i] * shape;
  }
  const Eigen::Vector3d wave = matrix.ldlt().solve(right);
  return {std::atan2(wave[2], wave[1]) / turn, std::hypot(wave[1], wave[2])};
}

std::string flag_of(const LoggerDays& source, int day) {
  std::string text;
  for (const LoggerFlag& flag : source.flags) {
    const bool is_own =
        flag.column == source.column.name || (source.reference != nullptr && flag.column == source.reference->name);
    const bool is_then = flag.from_s < (day + 1) * n_seconds_in_day && flag.to_s >= day * n_seconds_in_day;
    if (is_own && is_then) text += (text.empty() ? "" : " ") + flag.sentence;
  }
  return text;
}

}  // namespace

std::string_view words_of(Measure measure) {
  switch (measure) {
    case Measure::maximum:
      return "the day's maximum";
    case Measure::minimum:
      return "the day's minimum";
    case Measure::swing:
      return "the day's swing";
    case Measure::lag:
      return "the lag";
    case Measure::degree_hours:
      return "degree-hours a day";
    case Measure::litres:
      return "litres a day";
  }
  expects(false, "a measure of the list");
  return "";
}

std::string_view unit_of(Measure measure) {
  switch (measure) {
    case Measure::lag:
      return "h";
    case Measure::degree_hours:
      return "K h";
    case Measure::litres:
      return "litres";
    default:
      return "K";
  }
}

DaySeries days_from_hand(std::span<const HandReading> readings, Measure measure, const DayOptions& options) {
  expects(measure != Measure::litres, "a measure of temperature");
  std::map<int, HandDay> days;
  std::vector<double> morning_hours;
  std::vector<double> afternoon_hours;
  for (const HandReading& reading : readings) {
    expects(reading.place == readings.front().place, "the readings of one place");
    HandDay& day = days[reading.day];
    if (reading.hour < 12.0) {
      morning_hours.push_back(reading.hour);
      if (!day.lowest_before_noon || reading.value_c < day.lowest_before_noon->value_c)
        day.lowest_before_noon = reading;
    } else {
      afternoon_hours.push_back(reading.hour);
      if (!day.highest_after_noon || reading.value_c > day.highest_after_noon->value_c)
        day.highest_after_noon = reading;
    }
  }
  const double morning_h = usual_hour(morning_hours);
  const double afternoon_h = usual_hour(afternoon_hours);
  DaySeries series;
  if (measure == Measure::degree_hours) series.note = "degree-hours of a cosine between the two readings of each day";
  for (const auto& [day, read] : days) {
    if (measure == Measure::lag) {
      series.left_out.push_back({day, "two readings a day say nothing of when the crest came"});
      continue;
    }
    const bool needs_morning = measure != Measure::maximum;
    const bool needs_afternoon = measure != Measure::minimum;
    if ((needs_morning && !read.lowest_before_noon) || (needs_afternoon && !read.highest_after_noon)) {
      series.left_out.push_back(
          {day, needs_morning && !read.lowest_before_noon ? "no reading before noon" : "no reading after noon"});
      continue;
    }
    DayValue value{day, 0.0, ""};
    const auto note_hour = [&](const HandReading& reading, double usual) {
      if (std::fabs(reading.hour - usual) > options.hour_shift_allowed) {
        value.flag +=
            fmt::format("{}read at {:.1f} h, usually at {:.1f} h", value.flag.empty() ? "" : "; ", reading.hour, usual);
      }
    };
    if (needs_morning) note_hour(*read.lowest_before_noon, morning_h);
    if (needs_afternoon) note_hour(*read.highest_after_noon, afternoon_h);
    if (measure == Measure::maximum) value.value = read.highest_after_noon->value_c;
    if (measure == Measure::minimum) value.value = read.lowest_before_noon->value_c;
    if (measure == Measure::swing) value.value = read.highest_after_noon->value_c - read.lowest_before_noon->value_c;
    if (measure == Measure::degree_hours) {
      const double low = std::min(read.lowest_before_noon->value_c, read.highest_after_noon->value_c);
      const double high = std::max(read.lowest_before_noon->value_c, read.highest_after_noon->value_c);
      value.value = degree_hours_of_cosine(low, high, options.base_c);
    }
    series.days.push_back(value);
  }
  return series;
}

DaySeries days_from_logger(const LoggerDays& source, Measure measure, const DayOptions& options) {
  expects(measure != Measure::litres, "a measure of temperature");
  expects(measure != Measure::lag || source.reference != nullptr, "a reference that the lag is counted from");
  const LoggerColumn& column = source.column;
  const std::map<int, Stretch> reference_days =
      measure == Measure::lag ? stretches_of(*source.reference) : std::map<int, Stretch>{};
  DaySeries series;
  for (const auto& [day, stretch] : stretches_of(column)) {
    const double gap_h = longest_gap_h(column, stretch, day);
    if (gap_h > options.gap_h) {
      series.left_out.push_back({day, fmt::format("{:.1f} hours without a reading", gap_h)});
      continue;
    }
    const auto first = column.value_c.begin() + static_cast<std::ptrdiff_t>(stretch.first);
    const auto end = column.value_c.begin() + static_cast<std::ptrdiff_t>(stretch.last + 1);
    const auto [least, most] = std::minmax_element(first, end);
    DayValue value{day, 0.0, flag_of(source, day)};
    switch (measure) {
      case Measure::maximum:
        value.value = *most;
        break;
      case Measure::minimum:
        value.value = *least;
        break;
      case Measure::swing:
        value.value = *most - *least;
        break;
      case Measure::degree_hours: {
        for (std::size_t i = stretch.first + 1; i <= stretch.last; ++i) {
          value.value +=
              degree_hours_of_line(column.value_c[i - 1] - options.base_c, column.value_c[i] - options.base_c,
                                   hour_in(column, i, day) - hour_in(column, i - 1, day));
        }
        // Before the day's first and after its last reading the value is held.
        value.value +=
            hour_in(column, stretch.first, day) * std::max(0.0, column.value_c[stretch.first] - options.base_c);
        value.value += (n_hours - hour_in(column, stretch.last, day)) *
                       std::max(0.0, column.value_c[stretch.last] - options.base_c);
        break;
      }
      case Measure::lag: {
        const auto place = reference_days.find(day);
        if (place == reference_days.end() || longest_gap_h(*source.reference, place->second, day) > options.gap_h) {
          series.left_out.push_back({day, "the reference has no whole day"});
          continue;
        }
        const Wave own = wave_of(column, stretch, day);
        const Wave other = wave_of(*source.reference, place->second, day);
        if (2.0 * std::min(own.amplitude_k, other.amplitude_k) < options.least_swing_k) {
          series.left_out.push_back({day, "too small a swing for a lag"});
          continue;
        }
        const double behind = own.phase_h - other.phase_h;
        value.value = behind - n_hours * std::round(behind / n_hours);
        break;
      }
      case Measure::litres:
        break;
    }
    series.days.push_back(value);
  }
  return series;
}

}  // namespace houseleek::trials
