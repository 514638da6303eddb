// The page's own files, built into the program.
#pragma once
#include <string>

#include "http.hpp"

namespace houseleek::server {

/// False where the program was built without Node: there is a door then and nothing to open it with.
[[nodiscard]] bool has_page();

/// One of a short list of names, or 404; no path of the disk is ever made of what was asked.
[[nodiscard]] Response page_file(const std::string& target);

}  // namespace houseleek::server
