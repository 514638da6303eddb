// houseleek week: what to do this week, each with the line that ticks it off.
#pragma once
#include <CLI/App.hpp>
#include <memory>

#include "exit_code.hpp"

namespace houseleek::cli {

/// The command with its options, and what they were set to.
class WeekCommand {
 public:
  explicit WeekCommand(CLI::App& app);
  ~WeekCommand();
  WeekCommand(const WeekCommand&) = delete;
  WeekCommand& operator=(const WeekCommand&) = delete;
  [[nodiscard]] bool is_chosen() const;
  /// Errors: WorldFailed, store::StoreError, Cancelled.
  [[nodiscard]] ExitCode run() const;

 private:
  struct Options;
  std::unique_ptr<Options> options_;
};

}  // namespace houseleek::cli
