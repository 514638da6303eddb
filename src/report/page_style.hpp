// How a report looks: one style sheet for phone, desk, dark screens and paper.
#pragma once
#include <string>

namespace houseleek::report {

/// The whole style sheet, colours of both palettes included. It names no address.
[[nodiscard]] std::string page_style();

}  // namespace houseleek::report
