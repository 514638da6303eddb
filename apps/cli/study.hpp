// houseleek study: the answer on the terminal or as JSON, and as a report that needs nothing else.
#pragma once
#include <optional>
#include <string>

#include "exit_code.hpp"
#include "studies/study.hpp"

namespace houseleek::cli {

struct StudyArguments {
  std::string file;
  // Pages to write, where the path is not empty.
  std::string report_path;
  std::string engineer_path;
  std::string roofer_path;
  bool is_json = false;
  std::optional<int> n_years;  // absent: the usual number for a report, one without
  int n_draws = studies::usual_draws;
  bool keeps_answer = false;  // in the project
  std::string on;             // of a project: the day as of which its logbook is read
};

/// Errors: WorldFailed, simulation::NumericalFailure, Cancelled; a report is written whole or not at all.
[[nodiscard]] ExitCode run_study(const StudyArguments& arguments);

}  // namespace houseleek::cli
