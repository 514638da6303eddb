// houseleek water: today's stores, the next round, seasons, a barrel, salt, feeding, the sheet for a neighbour.
#pragma once
#include <CLI/App.hpp>
#include <memory>

#include "exit_code.hpp"

namespace houseleek::cli {

/// The command with its options, and what they were set to.
class WaterCommand {
 public:
  explicit WaterCommand(CLI::App& app);
  ~WaterCommand();
  WaterCommand(const WaterCommand&) = delete;
  WaterCommand& operator=(const WaterCommand&) = delete;
  [[nodiscard]] bool is_chosen() const;
  /// Errors: WorldFailed, store::StoreError, Cancelled.
  [[nodiscard]] ExitCode run() const;

 private:
  struct Options;
  std::unique_ptr<Options> options_;
};

}  // namespace houseleek::cli
