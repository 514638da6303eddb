// Hours in which a room is too warm or too cold, against limits that follow the weather of the days before.
#pragma once
#include <array>
#include <optional>
#include <span>
#include <vector>

#include "climate/year.hpp"
#include "physics/comfort.hpp"

namespace houseleek::studies {

/// Limits of each day of the year; none where the running mean lies outside the range of the method.
using LimitsByDay = std::vector<std::optional<physics::AdaptiveLimits>>;

/// Running mean of the outside air for each day, from the days before it; the year is a ring.
/// Equation: r_d = 0.2 t_(d-1) + 0.8 r_(d-1)
/// Symbols: t: mean of a day's 24 marks; r: running mean; three turns round the year from its mean, after which the
///           start counts by 0.8^730
/// Shape:    year in, 365 values out; pure.
/// Units:    degC.
/// Source:   [en16798] annex B.2 (from memory).   Checked by: tests/studies/comfort_hours_test.cpp.
[[nodiscard]] std::vector<double> running_means_c(const climate::WeatherYear& weather);

/// Category II.
[[nodiscard]] LimitsByDay adaptive_limits_by_day(const climate::WeatherYear& weather);

struct HoursOfRoom {
  int first_hour = 0;                                      // of the year; hours wrap at its end
  std::span<const double> operative_c;                     // means of hours
  std::optional<double> fan_speed_m_per_s = std::nullopt;  // absent: no fan
  bool nights_only = false;                                // 22 to 7 h
};

/// What the hours add up to. "Above" counts hours with a limit alone; hours without one are counted apart.
struct ComfortSums {
  int n_above = 0;
  int n_above_with_fan = 0;  // as n_above where there is no fan
  int n_below = 0;
  int n_without_limit = 0;
  double degree_hours_above_k_h = 0.0;
};
[[nodiscard]] ComfortSums sum_comfort(const LimitsByDay& limits, const HoursOfRoom& hours);

}  // namespace houseleek::studies
