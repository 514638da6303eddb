// A weather year as a CSV file of one documented layout: read with every problem located, and written so that it reads
// back.
#pragma once
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// Reads a year of hours. The layout (docs/equations/climate.md has it as a table):
///
/// - RFC 4180, commas, decimal points, a header line with the names below in any order, one row an hour.
/// - `time`: ISO 8601, 2023-01-01T00:00, in local standard time the whole year round (no daylight saving); an offset at
///   the end (+01:00, Z) may be there and must then be the place's. From 1 January 00:00 to 31 December 23:00 of one
///   year; 29 February may be there and is left out.
/// - At the moment of the stamp: `air_temperature_c`; one of `vapour_pressure_pa`, `dew_point_c`,
///   `relative_humidity_percent`; `wind_m_per_s` (10 m above open ground); `sky_longwave_w_per_m2`.
/// - In the hour that begins at the stamp: `global_w_per_m2`, `diffuse_w_per_m2` (means); `rain_mm` (sum), or six
///   columns `rain_0_10_mm`, `rain_10_20_mm` ... `rain_50_60_mm` (sums of ten minutes).
///
/// Required: time, air_temperature_c, global_w_per_m2, rain. The others are estimated where the column is missing, and
///           `notes` says so.
/// Gaps (missing rows or empty fields) of up to 3 h are filled in and counted in `notes`; the year is taken as a ring,
/// so that its end has a neighbour: the last mark is the first. Longer gaps, doubled or backward stamps, and values
/// that cannot be are issues, all of them in one pass, with file:line:column and the column's name as `path`. Small
/// faults of sensors are mended and counted: up to 10 W/m2 in the dark, down to -20 W/m2, diffuse above global by up to
/// 10 W/m2 or 5 %, vapour up to 1 % above saturation.
[[nodiscard]] Result<WeatherYear> read_year_csv(std::string_view text, std::string_view file_name, const Place& place);

/// The year in that layout, with every column; numbers are the shortest that read back to the same bits. The last mark
/// and the notes are not in a file: a year whose last mark is its first, as all are that come from here, reads back
/// whole but for the notes.
[[nodiscard]] std::string write_year_csv(const WeatherYear& year);

}  // namespace houseleek::climate
