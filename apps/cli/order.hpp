// houseleek order: what to build next, step by step, on the terminal or as JSON.
#pragma once
#include <string>
#include <vector>

#include "exit_code.hpp"

namespace houseleek::cli {

struct OrderArguments {
  std::string file;
  bool is_json = false;
  double budget = 0.0;  // for each season
  int n_seasons = 1;
  int n_most = 60;
  std::string recipe;             // empty: the one that is laid most
  std::vector<std::string> pins;  // squares or x,y
  std::vector<std::string> bans;
};

/// Errors: WorldFailed, simulation::NumericalFailure, Cancelled.
[[nodiscard]] ExitCode run_order(const OrderArguments& arguments);

}  // namespace houseleek::cli
