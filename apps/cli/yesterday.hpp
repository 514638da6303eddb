// Yesterday's weather as a person types it behind a command.
#pragma once
#include <CLI/CLI.hpp>

#include "studies/water.hpp"

namespace houseleek::cli {

/// --max, --min and --rain. `yesterday` has to outlive the command.
inline void add_yesterday_options(CLI::App& command, studies::TypedDay& yesterday) {
  command.add_option("--max", yesterday.max_c, "yesterday's highest air temperature, degC")->type_name("");
  command.add_option("--min", yesterday.min_c, "yesterday's lowest air temperature, degC")->type_name("");
  command.add_option("--rain", yesterday.rain_mm, "yesterday's rain, mm")->type_name("");
}

}  // namespace houseleek::cli
