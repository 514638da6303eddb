// houseleek export: a design out of a project, byte for byte, and what else is in it as tables.
#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "exit_code.hpp"

namespace houseleek::cli {

struct ExportArguments {
  std::string file;
  std::optional<std::int64_t> revision;  // absent: the newest
  std::string tables_path;               // a folder; empty: no tables
  bool is_json = false;
};

/// Errors: WorldFailed, store::StoreError.
[[nodiscard]] ExitCode run_export(const ExportArguments& arguments);

}  // namespace houseleek::cli
