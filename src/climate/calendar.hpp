// The calendar of a weather year: 365 days, 29 February left out.
#pragma once
#include <array>

namespace houseleek::climate {

inline constexpr int n_months = 12;
inline constexpr int n_days_in_year = 365;
inline constexpr int n_hours_in_day = 24;
inline constexpr int n_hours_in_year = n_days_in_year * n_hours_in_day;

inline constexpr std::array<int, n_months> n_days_in_month = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// Day of the year, from 0, on which each month begins; the thirteenth value ends the year.
inline constexpr std::array<int, n_months + 1> first_day_of_month = [] {
  std::array<int, n_months + 1> first{};
  for (std::size_t month = 0; month < n_months; ++month) first[month + 1] = first[month] + n_days_in_month[month];
  return first;
}();

/// Month, from 0, of each day of the year.
inline constexpr std::array<int, n_days_in_year> month_of_day = [] {
  std::array<int, n_days_in_year> months{};
  std::size_t day = 0;
  for (int month = 0; month < n_months; ++month) {
    for (int i = 0; i < n_days_in_month[static_cast<std::size_t>(month)]; ++i) months[day++] = month;
  }
  return months;
}();

/// Years of the Gregorian calendar that have a 29 February.
[[nodiscard]] constexpr bool is_leap_year(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

}  // namespace houseleek::climate
