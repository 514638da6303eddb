// houseleek import: a description into a project, as its newest revision; a table of events, or a logger's readings.
#pragma once
#include <string>

#include "exit_code.hpp"

namespace houseleek::cli {

struct ImportArguments {
  std::string file;
  std::string project_path;
  std::string note;
  bool is_json = false;
  bool is_events = false;  // the file is a table of events
  // A logger's file; its name is then not empty.
  std::string logger;
  std::string clock;       // standard, daylight_saving, utc; empty: told by the file
  std::string date_order;  // day_first, month_first; empty: told by the file
  std::string unit;        // degC, degF; empty: told by the file
};

/// Makes the project where there is none. Errors: WorldFailed, store::StoreError.
[[nodiscard]] ExitCode run_import(const ImportArguments& arguments);

}  // namespace houseleek::cli
