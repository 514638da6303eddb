// houseleek weather: the year in use on the terminal, as JSON, or as a file of hours.
#pragma once
#include <string>

#include "exit_code.hpp"

namespace houseleek::cli {

struct WeatherArguments {
  std::string file;
  std::string csv_path;  // empty: none is written
  bool is_json = false;
};

/// Errors: WorldFailed.
[[nodiscard]] ExitCode run_weather(const WeatherArguments& arguments);

}  // namespace houseleek::cli
