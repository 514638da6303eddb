// A weather file as columns by the hour of the year, each value with its place; not yet judged by physics, gaps still
// open.
#pragma once
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "climate/csv_layout.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

inline constexpr int longest_gap_h = 3;  // that is filled in

struct CsvCell {
  double value = 0.0;
  bool is_known = false;
  int line = 0;    // 0: there is no row for this hour
  int column = 0;  // from 1, in characters
};

using CsvCells = std::vector<CsvCell>;  // 8760, or none if the column is missing

struct CsvTable {
  int year = 0;
  std::array<CsvCells, n_csv_columns> columns;
  std::string file_name;
  int n_missing_rows = 0;   // hours without a row
  int n_leap_day_rows = 0;  // rows of 29 February, left out
  Issues issues;            // all that was found on the way
  [[nodiscard]] const CsvCells& cells(CsvColumn column) const { return columns[index_of(column)]; }
  [[nodiscard]] bool has(CsvColumn column) const { return !cells(column).empty(); }
};

/// Reads header and rows. A failed result means that the rows could not be told apart at all (no text, no usable
/// header, no stamp); every other problem is in the table's `issues`.
[[nodiscard]] Result<CsvTable> read_csv_table(std::string_view text, std::string_view file_name, const Place& place);

/// Adds an issue for each run of hours without a value that is longer than `longest_gap_h`, and for columns without any
/// value.
void add_issues_of_gaps(CsvTable& table);

/// An issue about a cell: "name is value; it must be ...".
[[nodiscard]] Issue issue_of_cell(const CsvTable& table, CsvColumn column, const CsvCell& cell, IssueCode code,
                                  std::string message, std::string hint);

}  // namespace houseleek::climate
