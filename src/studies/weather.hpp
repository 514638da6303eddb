// The year of weather a design asks for: made from its normals, or read from its file.
#pragma once
#include <optional>
#include <string>

#include "base/result.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"

namespace houseleek::studies {

/// A file that somebody else has read.
struct NamedText {
  std::string name;
  std::string text;
};

[[nodiscard]] climate::Place place_from(const design::Site& site);

/// The year of weather of a design. `file` is the text of Design::climate.file and must be there exactly where that is.
/// Errors: issues with paths below [climate.normals], or with the places in the file.
[[nodiscard]] Result<climate::WeatherYear> make_weather(const design::ValidDesign& design,
                                                        const std::optional<NamedText>& file, int draw = 0);

/// Where the year comes from, in words.
[[nodiscard]] std::string weather_source(const design::Design& design);

}  // namespace houseleek::studies
