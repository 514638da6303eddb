// houseleek open: the page on this machine, for a person who does not use a terminal.
#pragma once
#include <string>

#include "exit_code.hpp"

namespace houseleek::cli {

struct OpenArguments {
  std::string file;
  int port = 0;  // 0: one that belongs to this file
  bool opens_browser = true;
};

/// Serves until it is interrupted. Errors: WorldFailed where the port cannot be had.
[[nodiscard]] ExitCode run_open(const OpenArguments& arguments);

}  // namespace houseleek::cli
