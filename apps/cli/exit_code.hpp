// Exit codes of the program; the same list stands in ARCHITECTURE.md.
#pragma once

namespace houseleek::cli {

enum class ExitCode {
  done = 0,
  bad_input = 1,     // the description has issues
  usage = 2,         // the command line itself
  world_failed = 3,  // a file that is missing, a disk that is full
  own_bug = 70,      // a broken promise in our own code, or a solver that does not converge
  interrupted = 130  // Ctrl-C
};

}  // namespace houseleek::cli
