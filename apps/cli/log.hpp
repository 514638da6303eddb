// houseleek log: an event into the logbook of a project, or the events that are in it.
#pragma once
#include <CLI/App.hpp>
#include <memory>

#include "exit_code.hpp"

namespace houseleek::cli {

/// The command with its options, and what they were set to.
class LogCommand {
 public:
  explicit LogCommand(CLI::App& app);
  ~LogCommand();
  LogCommand(const LogCommand&) = delete;
  LogCommand& operator=(const LogCommand&) = delete;
  [[nodiscard]] bool is_chosen() const;
  /// Errors: WorldFailed, store::StoreError.
  [[nodiscard]] ExitCode run() const;

 private:
  struct Options;
  std::unique_ptr<Options> options_;
};

}  // namespace houseleek::cli
