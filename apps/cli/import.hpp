// houseleek import: a description into a project, as its newest revision.
#pragma once
#include <string>

#include "exit_code.hpp"

namespace houseleek::cli {

struct ImportArguments {
  std::string file;
  std::string project_path;
  std::string note;
  bool is_json = false;
};

/// Makes the project where there is none. Errors: WorldFailed, store::StoreError.
[[nodiscard]] ExitCode run_import(const ImportArguments& arguments);

}  // namespace houseleek::cli
