// The rows with numbers of a weather file: what each says, still in the file's own units and clock.
#pragma once
#include <cstdint>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "climate/file_columns.hpp"
#include "climate/file_report.hpp"
#include "climate/file_rows.hpp"
#include "climate/file_rules.hpp"

namespace houseleek::climate {

struct FileNumber {
  double value = 0.0;
  bool is_known = false;
  int column = 0;  // in characters, from 1
};

/// The numbers of one column that is used, a value a row.
struct NumberColumn {
  ColumnUse use;
  std::vector<FileNumber> numbers;
};

/// One value a row, oldest row first. A row whose stamp cannot be read has no time, and its issue.
struct FileBody {
  std::vector<std::int64_t> minute;  // since 1970, as the file's clock shows it, or in UTC
  std::vector<bool> has_minute;
  std::vector<int> line;
  std::vector<int> column_of_time;  // in characters, from 1
  std::vector<NumberColumn> columns;
  std::vector<Issues> faults;  // of a row's numbers
  Issues issues;               // of stamps and of rows that cannot be taken apart
  int step_min = 60;
  bool is_utc = false;                 // stamps carry an offset or count seconds
  bool counts_hours_from_one = false;  // 1 to 24, or 24:00
  [[nodiscard]] std::size_t n_rows() const { return minute.size(); }
  [[nodiscard]] const NumberColumn* find(WeatherColumn quantity) const;
};

/// Reads stamps and numbers. Fails where no row has a time, or where the order of dates, the decimal mark or the step
/// between rows cannot be told.
[[nodiscard]] Result<FileBody> read_body(const FileRows& rows, const FileColumns& columns, std::string_view file_name,
                                         const FileRules& rules, FileReport& report);

/// The columns of numbers and the decimal mark (part of read_body).
void read_numbers(const FileRows& rows, const FileColumns& columns, std::string_view file_name, const FileRules& rules,
                  FileReport& report, FileBody& body);

/// The stamps (part of read_body).
void read_stamps(const FileRows& rows, const FileColumns& columns, std::string_view file_name, const FileRules& rules,
                 FileReport& report, FileBody& body);

/// The name a column of numbers has in messages: its header, else what it holds.
[[nodiscard]] std::string name_of(const ColumnUse& use);

}  // namespace houseleek::climate
