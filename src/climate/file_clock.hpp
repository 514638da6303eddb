// What the clock behind a file's stamps shows, and which end of a row's interval they mark.
#pragma once
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "base/zone.hpp"
#include "climate/file_body.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// The rows in local standard time: where each begins, and the moment its stamp marks.
struct RowTimes {
  std::vector<std::int64_t> begin_min;  // since 1970
  std::vector<bool> is_known;
  StampMarks stamps = StampMarks::start;
  FileClock clock = FileClock::standard;
  [[nodiscard]] std::int64_t stamp_min(std::size_t row, int step_min) const {
    return begin_min[row] + (stamps == StampMarks::end ? step_min : 0);
  }
};

/// Clock and marks of a file: as fixed, as the file says itself (offsets, words of the header, hours from 1 to 24, our
/// own layout), by hours that are missing or doubled where clocks are put forward and back, and by the sun.
/// Equation: of the readings left, the one under which global radiation hangs together best with the sun's height in the
///           middle of each row: r = cov(G, s) / sqrt(var G var s), s = max(0, a + b cos w)
/// Symbols:  a, b, w: the sun's columns of a weather year
/// Shape:    rows in, rows out.
/// Units:    minutes since 1970; r is a number.
/// Valid:    an hour's shift lowers r by 0.01 to 0.05; readings whose r differ by less than 0.004 are not told apart.
/// Errors:   an issue that lists the readings left, with what to write. Steps of up to 15 minutes: which end the stamps
///           mark is then a warning, and the beginning is taken.
/// Source:   our own, docs/equations/climate.md.   Checked by: Dialect.EndsOfHoursAreToldByTheSun, Dialect.DaylightSavingIsToldByItsMissingAndDoubledHour.
[[nodiscard]] Result<RowTimes> find_clock(const FileBody& body, const FileColumns& columns, const Place& place,
                                          std::span<const OffsetSpan> offsets, std::string_view file_name,
                                          const FileRules& rules, FileReport& report);

/// Sine of the sun's elevation at a moment, from a year's columns; 0 at night and on 29 February.
[[nodiscard]] double sun_sine_at(const WeatherYear& sun, std::int64_t minute);

}  // namespace houseleek::climate
