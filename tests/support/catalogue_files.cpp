// The shipped catalogue, for tests that need materials.
#include "support/catalogue_files.hpp"

#include <fstream>
#include <sstream>
#include <stdexcept>

#include "base/issue_text.hpp"

namespace houseleek::tests {

std::string source_file_text(const std::string& path_in_tree) {
  std::ifstream stream(std::string(HOUSELEEK_SOURCE_DIR) + "/" + path_in_tree, std::ios::binary);
  if (!stream) throw std::runtime_error("cannot read " + path_in_tree);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

std::vector<catalogue::CatalogueFile> shipped_catalogue_files() {
  std::vector<catalogue::CatalogueFile> files;
  for (const std::string_view name : catalogue::catalogue_file_names) {
    files.push_back({std::string(name), source_file_text("catalogue/" + std::string(name))});
  }
  return files;
}

catalogue::Catalogue shipped_catalogue() {
  Result<catalogue::Catalogue> read = catalogue::read_catalogue(shipped_catalogue_files());
  if (!read) throw std::runtime_error(text_from_issues(read.error(), ""));
  return std::move(read).value();
}

}  // namespace houseleek::tests
