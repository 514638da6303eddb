// What is built into the program so that it works alone: its version and the catalogue. The build writes the .cpp.
#pragma once
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace houseleek::cli {

[[nodiscard]] std::string_view program_version();

/// The files of catalogue/ as they were when the program was built.
[[nodiscard]] std::vector<catalogue::CatalogueFile> embedded_catalogue();

}  // namespace houseleek::cli
