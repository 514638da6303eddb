// A weather year built from an hour table: short gaps filled in, missing columns estimated, small faults mended.
#pragma once
#include "climate/file_report.hpp"
#include "climate/hour_table.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// The year of a table without issues. `sun`: the year's sun columns and pressure. What is filled in, estimated or mended
/// goes to the year's notes, and to the report.
[[nodiscard]] WeatherYear build_year(const HourTable& table, WeatherYear sun, FileReport& report);

}  // namespace houseleek::climate
