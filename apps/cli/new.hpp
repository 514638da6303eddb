// houseleek new: a first description from ten plain questions, asked on the terminal or answered by a file.
#pragma once
#include <CLI/App.hpp>
#include <memory>

#include "exit_code.hpp"

namespace houseleek::cli {

class NewCommand {
 public:
  explicit NewCommand(CLI::App& app);
  ~NewCommand();
  NewCommand(const NewCommand&) = delete;
  NewCommand& operator=(const NewCommand&) = delete;
  [[nodiscard]] bool is_chosen() const;
  /// Errors: WorldFailed, store::StoreError.
  [[nodiscard]] ExitCode run() const;

 private:
  struct Options;
  std::unique_ptr<Options> options_;
};

}  // namespace houseleek::cli
