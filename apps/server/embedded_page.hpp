// The bytes of the page's files. The build writes the .cpp.
#pragma once
#include <string_view>

namespace houseleek::server {

/// Empty where there is no such file, or no page at all.
[[nodiscard]] std::string_view embedded_page(std::string_view name);

}  // namespace houseleek::server
