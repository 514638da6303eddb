// What commands read before they answer: the catalogue inside the program, a design file, its weather file; how they
// refuse.
#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "exit_code.hpp"
#include "studies/weather.hpp"

namespace houseleek::cli {

/// Errors: ContractViolation where the program was built with a broken catalogue.
[[nodiscard]] catalogue::Catalogue read_embedded_catalogue();

/// A description, or the newest revision of a project. Errors: WorldFailed, store::StoreError.
[[nodiscard]] studies::NamedText read_design_file(const std::string& path);

/// A weather file's path in a design counts from the design file, or the project. Errors: WorldFailed.
[[nodiscard]] std::optional<studies::NamedText> read_weather_file(const design::ValidDesign& design,
                                                                  const std::string& design_path);

/// The answer of wrong input: a document on stdout where one is wanted, and sentences with `source_text`'s lines on stderr.
[[nodiscard]] ExitCode refuse_input(std::string_view command, const Issues& issues, std::string_view source_text,
                                    bool is_json);

}  // namespace houseleek::cli
