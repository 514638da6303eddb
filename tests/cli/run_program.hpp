// The program itself, run as a person runs it.
#pragma once
#include <string>
#include <vector>

#include "support/temporary_folder.hpp"

namespace houseleek::tests {

struct ProgramRun {
  int exit_code = -1;  // 128 + signal if it was killed by one
  std::string out;
  std::string err;
};

/// Runs the program in a folder and waits. `interrupt_after_s` > 0: sends it Ctrl-C after so long.
[[nodiscard]] ProgramRun run_program(const std::vector<std::string>& arguments, const std::string& folder,
                                     double interrupt_after_s = 0.0);

/// The same with stdout sent to a file (/dev/full).
[[nodiscard]] ProgramRun run_program_into(const std::vector<std::string>& arguments, const std::string& out_path);

}  // namespace houseleek::tests
