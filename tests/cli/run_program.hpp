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

/// Runs the program in the source's folder and kills it after so long (kill -9), unless it ended before.
[[nodiscard]] ProgramRun run_program_and_kill(const std::vector<std::string>& arguments, double kill_after_s);

/// Runs it to its end with stdout sent to a file (/dev/full).
[[nodiscard]] ProgramRun run_program_into(const std::vector<std::string>& arguments, const std::string& out_path);

}  // namespace houseleek::tests
