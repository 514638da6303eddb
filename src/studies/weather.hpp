// The year of weather a design asks for: made from its normals, or read from its file.
#pragma once
#include <optional>
#include <string>

#include "base/result.hpp"
#include "climate/file_report.hpp"
#include "climate/file_rules.hpp"
#include "climate/normals.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"

namespace houseleek::studies {

/// A file that somebody else has read.
struct NamedText {
  std::string name;
  std::string text;
};

/// A year, and what was found out about the file it comes from.
struct WeatherInUse {
  climate::WeatherYear year;
  std::optional<climate::FileReport> file;  // nothing for a year made from normals
};

[[nodiscard]] climate::Place place_from(const design::Site& site);
[[nodiscard]] climate::MonthlyNormals normals_from(const design::MonthlyNormals& given);
[[nodiscard]] climate::FileRules rules_from(const design::Climate& climate);

/// The year of weather of a design. `file` is the text of Design::climate.file and must be there exactly where that is.
/// Draw 0 is the year in use, and its months are the normals; others are more years of the same climate: made from the
/// normals with other random numbers and months that depart from them, or the file's other complete calendar years, the latest first.
/// Errors: issues with paths below [climate.normals], or with the places in the file; a draw that a file has no year for.
[[nodiscard]] Result<WeatherInUse> find_weather(const design::ValidDesign& design, const std::optional<NamedText>& file,
                                                int draw = 0);

/// The same without what was found out.
[[nodiscard]] Result<climate::WeatherYear> make_weather(const design::ValidDesign& design,
                                                        const std::optional<NamedText>& file, int draw = 0);

/// Where the year comes from, in words.
[[nodiscard]] std::string weather_source(const design::Design& design);

}  // namespace houseleek::studies
