// The program itself, run as a person runs it.
#pragma once
#include <string>
#include <vector>

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

/// A new empty folder, gone at the end of its life.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  [[nodiscard]] const std::string& path() const noexcept { return path_; }
  /// Writes a file in it and returns its path.
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const;

 private:
  std::string path_;
};

}  // namespace houseleek::tests
