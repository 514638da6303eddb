// What is asked before anything runs: texts in; a design with its weather out, or every problem with its place.
#pragma once
#include <optional>
#include <span>
#include <string>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "climate/year.hpp"
#include "design/parse.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// A design's weather; problems with its normals get the places of their values in the design file.
[[nodiscard]] Result<WeatherInUse> open_weather_in_use(const design::ValidDesign& design, const NamedText& design_file,
                                                       const std::optional<NamedText>& weather_file);

/// The same without what was found out about a file.
[[nodiscard]] Result<climate::WeatherYear> open_weather(const design::ValidDesign& design, const NamedText& design_file,
                                                        const std::optional<NamedText>& weather_file);

/// Fingerprint of all that an answer depends on, versions of the engine apart.
[[nodiscard]] std::string input_hash(std::span<const catalogue::CatalogueFile> catalogue_files,
                                     const NamedText& design_file, const std::optional<NamedText>& weather_file);

}  // namespace houseleek::studies
