// A weather file of any layout turned into a year of hours, with what was found out about it.
#pragma once
#include <span>
#include <string_view>

#include "base/result.hpp"
#include "base/zone.hpp"
#include "climate/file_report.hpp"
#include "climate/file_rules.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

struct WeatherFile {
  WeatherYear year;
  FileReport report;
};

struct FileRequest {
  std::string_view text;
  std::string_view file_name;
  Place place;
  std::span<const OffsetSpan> offsets = {};  // that clocks of the place keep, oldest first; empty: no daylight saving
  FileRules rules = {};
  int nth_year = 0;  // of the complete calendar years: the year in use first, then the others, the latest first
};

/// Reads a year of hours from any delimited text; docs/equations/climate.md says how each property is told, and has our
/// own layout as a table.
///
/// Told by the file itself, or fixed by `rules`: characters, comment lines, delimiter, decimal mark, header, line of
/// units, columns, units, form of the time, order of day and month, step, clock, which end of the row the stamp marks,
/// year. Each is a finding with its evidence. What cannot be told is an issue that says what to write; nothing is
/// guessed.
/// Required: a time, air temperature, rain. Other columns are estimated where they are missing, and the report says so.
/// Gaps of up to 3 h are filled in and counted; longer ones, doubled or backward stamps, and values that cannot be are
/// issues, all of them in one pass, with file:line:column. Small faults of sensors are mended and counted.
/// Of several years the latest complete one is used, or the one that `rules` names; hours that a file lacks at the ends
/// of its only year are taken from the years beside it.
[[nodiscard]] Result<WeatherFile> read_weather_file(const FileRequest& request);

}  // namespace houseleek::climate
