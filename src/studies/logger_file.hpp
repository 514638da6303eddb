// A logger's file into a project: its dialect told from its first lines, its rows streamed.
#pragma once
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "climate/file_report.hpp"
#include "climate/file_rules.hpp"
#include "store/readings.hpp"

namespace houseleek::studies {

/// What a person may say about a logger's file; whatever is left open is told by the file, or asked.
struct LoggerRules {
  std::string logger = {};                            // its name: "south", a part of every sensor's name
  std::optional<climate::FileClock> clock = {};       // where stamps carry no offset
  std::optional<climate::DateOrder> date_order = {};  // where the year does not stand first
  std::optional<climate::Unit> unit = {};             // of columns whose header says none
};

/// A column that is kept.
struct LoggerColumnUse {
  std::size_t at = 0;
  std::string sensor;    // the logger's name, and the header's where there are several columns
  std::string quantity;  // temperature_c or humidity_percent
  climate::Unit unit = climate::Unit::deg_c;
};

/// How a file is to be read.
struct LoggerDialect {
  char delimiter = ',';
  bool has_decimal_comma = false;
  int n_lines_before_rows = 0;  // header and what stands above it
  std::size_t n_fields = 0;
  std::vector<std::size_t> time_fields;  // a stamp, or a date and a clock time
  bool has_offsets = false;              // stamps say their offset, or count seconds since 1970
  climate::DateOrder date_order = climate::DateOrder::year_first;
  climate::FileClock clock = climate::FileClock::standard;
  bool is_newest_first = false;
  std::vector<LoggerColumnUse> columns;
  std::vector<climate::Finding> findings;
};

/// Tells a dialect from the first lines of a file (a few hundred rows serve; a cut last line is left out). `zone`: of
/// the place.
/// Errors: issues with the places in the file, and what to say where the file leaves it open.
[[nodiscard]] Result<LoggerDialect> find_logger_dialect(std::string_view first_lines, std::string_view file_name,
                                                        const std::string& zone, const LoggerRules& rules);

struct LoggerCounts {
  std::int64_t n_rows = 0;
  std::int64_t n_added = 0;
  std::int64_t n_known_before = 0;
  std::int64_t n_missing = 0;    // fields without a value
  std::int64_t first_utc_s = 0;  // of the rows; where there are any
  std::int64_t last_utc_s = 0;
};

/// Takes a file in pieces, from its beginning; nothing is kept unless finish() returns counts.
/// Units: times as seconds since 1970; temperature in degC.
/// Errors: issues with line and column (rows of another length, times or numbers that are none, an hour that clocks leapt
/// over, a value that differs from the one that is there); after the first fifty the rest is not looked at. StoreError.
class LoggerImport {
 public:
  struct Source {
    std::string file_name;
    std::string zone;
    std::int64_t now_utc_s = 0;
  };
  LoggerImport(const store::Project& project, const LoggerDialect& dialect, const Source& source);
  ~LoggerImport();
  LoggerImport(const LoggerImport&) = delete;
  LoggerImport& operator=(const LoggerImport&) = delete;
  void take(std::string_view piece);
  [[nodiscard]] Result<LoggerCounts> finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace houseleek::studies
