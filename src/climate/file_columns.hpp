// Which field of a row is what: header, line of units, columns a person names, columns told by their words.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "climate/file_rows.hpp"
#include "climate/file_rules.hpp"

namespace houseleek::climate {

/// A column that is read.
struct ColumnUse {
  std::size_t at = 0;  // field of a row
  std::optional<WeatherColumn> quantity = {};
  std::optional<TimePart> time_part = {};
  std::optional<Unit> unit = {};
  std::string unit_evidence = {};
  std::string header = {};
};

struct FileColumns {
  std::size_t first_row = 0;  // of the rows with numbers
  std::size_t n_fields = 0;
  std::vector<ColumnUse> uses;
  bool is_our_layout = false;  // `time` and nothing but names of our own layout
  bool says_utc = false;       // the header of a time column does
  std::optional<StampMarks> says_marks;
  [[nodiscard]] const ColumnUse* find(WeatherColumn quantity) const;
};

/// Finds header and columns. Issues: names that are not there, quantities without a column or with two, misspelt names of
/// our own layout.
[[nodiscard]] Result<FileColumns> find_columns(const FileRows& rows, std::string_view file_name, const FileRules& rules,
                                               FileReport& report);

}  // namespace houseleek::climate
