// houseleek trial: plan one, type readings in, judge them, fit the model to them.
#pragma once
#include <CLI/App.hpp>
#include <memory>
#include <string>

#include "exit_code.hpp"

namespace houseleek::cli {

/// The command with its four commands below it, and what their options were set to.
class TrialCommand {
 public:
  explicit TrialCommand(CLI::App& app);
  ~TrialCommand();
  TrialCommand(const TrialCommand&) = delete;
  TrialCommand& operator=(const TrialCommand&) = delete;
  [[nodiscard]] bool is_chosen() const;
  /// Errors: WorldFailed, store::StoreError, simulation::NumericalFailure, Cancelled.
  [[nodiscard]] ExitCode run() const;

 private:
  struct Options;
  std::unique_ptr<Options> options_;
};

}  // namespace houseleek::cli
