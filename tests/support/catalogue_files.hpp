// The shipped catalogue, for tests that need materials.
#pragma once
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace houseleek::tests {

/// A file of the source tree, whole; a missing one stops the test program.
[[nodiscard]] std::string source_file_text(const std::string& path_in_tree);

[[nodiscard]] std::vector<catalogue::CatalogueFile> shipped_catalogue_files();

/// Read anew at each call; issues are printed and stop the test program.
[[nodiscard]] catalogue::Catalogue shipped_catalogue();

}  // namespace houseleek::tests
