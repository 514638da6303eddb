// houseleek upkeep: lives of parts, what to replace and look at when, storms, taking it off.
#pragma once
#include <CLI/App.hpp>
#include <memory>

#include "exit_code.hpp"

namespace houseleek::cli {

/// The command with its options, and what they were set to.
class UpkeepCommand {
 public:
  explicit UpkeepCommand(CLI::App& app);
  ~UpkeepCommand();
  UpkeepCommand(const UpkeepCommand&) = delete;
  UpkeepCommand& operator=(const UpkeepCommand&) = delete;
  [[nodiscard]] bool is_chosen() const;
  /// Errors: WorldFailed, store::StoreError.
  [[nodiscard]] ExitCode run() const;

 private:
  struct Options;
  std::unique_ptr<Options> options_;
};

}  // namespace houseleek::cli
