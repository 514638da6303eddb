// A weather year written as a file of our own layout.
#pragma once
#include <string>

#include "climate/year.hpp"

namespace houseleek::climate {

/// The year in our own layout (docs/equations/climate.md), with every column; numbers are the shortest that read back to
/// the same bits. The last mark and the notes are not in a file: a year whose last mark is its first, as all are that
/// come from here, reads back whole but for the notes.
[[nodiscard]] std::string write_year_csv(const WeatherYear& year);

}  // namespace houseleek::climate
