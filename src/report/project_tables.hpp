// What a project holds as tables and documents for other programs; the logbook has its own (report/logbook_text.hpp).
#pragma once
#include <span>
#include <string>
#include <vector>

#include "climate/file_report.hpp"
#include "report/issue_json.hpp"
#include "trials/logger_checks.hpp"

namespace houseleek::report {

/// A revision of the design as a table lists it.
struct RevisionRow {
  std::int64_t number = 0;
  std::string saved_at;  // in UTC
  std::string note;
  std::size_t n_bytes = 0;
  std::string sha256;  // of the text
};

/// A stored answer as a table lists it.
struct ResultRow {
  std::int64_t number = 0;
  std::int64_t revision = 0;
  std::string made_at;  // in UTC
  std::string command;
  std::string engine_version;
  std::string options_json;
  std::string seed;
  std::string input_hash;
  std::string answer_json;
};

[[nodiscard]] std::string csv_from(std::span<const RevisionRow> rows);
[[nodiscard]] std::string csv_from(std::span<const ResultRow> rows);

/// A table that was written.
struct TableFile {
  std::string name;
  std::string file;
  std::size_t n_rows = 0;
};

/// The document of `export`.
[[nodiscard]] Json json_of_export(const std::string& project, const RevisionRow& revision, const std::string& toml_text,
                                  std::span<const TableFile> tables);

/// What came of a logger's file.
struct LoggerFileAnswer {
  std::string project;
  std::string file;
  std::int64_t n_rows = 0;
  std::int64_t n_added = 0;
  std::int64_t n_known_before = 0;
  std::int64_t n_missing = 0;
  std::vector<climate::Finding> findings;
  std::vector<trials::LoggerFlag> flags;  // what of these sensors looks wrong in the file's time
};

/// The document of `import` of readings.
[[nodiscard]] Json json_of_logger_import(const LoggerFileAnswer& answer);

}  // namespace houseleek::report
