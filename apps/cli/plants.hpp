// houseleek plants: what lives on this roof and what could, mixes, invasive plants, what is raised.
#pragma once
#include <CLI/App.hpp>
#include <memory>

#include "exit_code.hpp"

namespace houseleek::cli {

/// The command with its options, and what they were set to.
class PlantsCommand {
 public:
  explicit PlantsCommand(CLI::App& app);
  ~PlantsCommand();
  PlantsCommand(const PlantsCommand&) = delete;
  PlantsCommand& operator=(const PlantsCommand&) = delete;
  [[nodiscard]] bool is_chosen() const;
  /// Errors: WorldFailed, store::StoreError, Cancelled, simulation::NumericalFailure.
  [[nodiscard]] ExitCode run() const;

 private:
  struct Options;
  std::unique_ptr<Options> options_;
};

}  // namespace houseleek::cli
