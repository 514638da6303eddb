// What was found out about a weather file, for the person to see: each finding with its evidence.
#pragma once
#include <string>
#include <vector>

#include "base/result.hpp"

namespace houseleek::climate {

/// "decimal mark": "comma", because "312 of 312 fields with a mark".
struct Finding {
  std::string about;
  std::string is;
  std::string evidence;
  bool operator==(const Finding&) const = default;
};

/// A column that is used.
struct UsedColumn {
  std::string name;    // in our own layout
  std::string header;  // as the file has it; empty without a header
  int number = 0;      // from 1
  std::string unit;
  std::string unit_evidence;
  int n_values = 0;
  int n_missing = 0;
  bool operator==(const UsedColumn&) const = default;
};

struct FilledColumn {
  std::string name;  // "time": hours without a row
  int n_hours = 0;
  bool operator==(const FilledColumn&) const = default;
};

struct EstimatedColumn {
  std::string name;
  std::string method;
  bool operator==(const EstimatedColumn&) const = default;
};

struct FileReport {
  std::vector<Finding> findings;
  std::vector<UsedColumn> columns;
  std::vector<std::string> unused_columns;
  std::vector<int> complete_years;  // calendar years that no gap keeps from being used
  std::vector<FilledColumn> filled;
  std::vector<EstimatedColumn> estimated;
  Issues warnings;
};

}  // namespace houseleek::climate
