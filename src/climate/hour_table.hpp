// A weather file as columns by the hour of the year, each value with its place; not yet judged by physics, gaps still
// open.
#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "climate/file_body.hpp"
#include "climate/file_clock.hpp"
#include "climate/weather_columns.hpp"

namespace houseleek::climate {

inline constexpr int longest_gap_h = 3;  // that is filled in

struct HourCell {
  double value = 0.0;
  bool is_known = false;
  int line = 0;    // of its first row; 0: there is no row for this hour
  int column = 0;  // from 1, in characters
};

using HourCells = std::vector<HourCell>;  // 8760, or none if the column is missing

struct HourTable {
  int year = 0;
  std::array<HourCells, n_weather_columns> columns;
  std::string file_name;
  int n_missing_rows = 0;    // hours without a row
  int n_leap_day_rows = 0;   // rows of 29 February, left out
  int n_part_hours = 0;      // hours that lack some of their rows
  int n_borrowed_hours = 0;  // taken from the years beside
  Issues issues;             // all that was found on the way
  [[nodiscard]] const HourCells& cells(WeatherColumn column) const { return columns[index_of(column)]; }
  [[nodiscard]] bool has(WeatherColumn column) const { return !cells(column).empty(); }
};

/// The hours of one calendar year, in our own units. Rows of several a hour become hours: sums and means by what of the
/// hour they cover, values at stamps by the mean of half an hour before and behind the mark (an end of that window counts
/// half). An hour with less than half of its rows has no value. With `has_neighbours` hours that the year lacks are taken
/// from the years before and behind.
/// Equation: v = sum w_i v_i / sum w_i
/// Symbols:  w: minutes of the row inside the hour; at stamps 1, at the window's ends 1/2; where rows an hour apart stand
///           off the full hour, 1 - |t_i - t| / 60 min
/// Shape:    rows in, 8760 cells a column out.
/// Units:    ours.
/// Valid:    steps that divide an hour; the year is a ring: a stamp at its very end is its first mark.
/// Errors:   issues of the table: doubled and backward stamps, values outside their limits, faults of the rows used.
/// Source:   our own, docs/equations/climate.md.   Checked by: Hours.TenMinutesBecomeHours and what stands beside it.
[[nodiscard]] HourTable hours_of_year(const FileBody& body, const RowTimes& times, std::string_view file_name, int year,
                                      bool has_neighbours);

/// Adds an issue for each run of hours without a value that is longer than `longest_gap_h`, and for columns without any
/// value.
void add_issues_of_gaps(HourTable& table);

/// True if no column has a longer gap.
[[nodiscard]] bool is_complete(const HourTable& table);

/// An issue about a cell: "name is value; it must be ...".
[[nodiscard]] Issue issue_of_cell(const HourTable& table, WeatherColumn column, const HourCell& cell, IssueCode code,
                                  std::string message, std::string hint);

}  // namespace houseleek::climate
