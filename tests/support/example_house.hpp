// The shipped terrace house with changes in its text, and a year of weather made from its normals.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "climate/year.hpp"
#include "design/parse.hpp"

namespace houseleek::tests {

/// The example's design file, whole.
[[nodiscard]] std::string terrace_house_text();

/// The text with every `from` replaced; a `from` that is not there stops the test program.
[[nodiscard]] std::string with_text(std::string text, std::string_view from, std::string_view to);

/// The text without its patches, and other lines in their place.
[[nodiscard]] std::string with_patches(const std::string& text, std::string_view patches);

/// The patches of the text, each with its heading.
[[nodiscard]] std::vector<std::string> patches_of(const std::string& text);

/// Reads a design with the shipped catalogue; issues are printed and stop the test program.
[[nodiscard]] design::ValidDesign read_valid(const std::string& text);

/// One year from the design's normals with its seed.
[[nodiscard]] climate::WeatherYear year_of(const design::ValidDesign& design);

}  // namespace houseleek::tests
