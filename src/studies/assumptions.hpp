// Everything that stands behind an answer without having been said: by the design, and by the answers themselves.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "design/parse.hpp"

namespace houseleek::studies {

/// The path with every index left out: what rooms or recipes have in common.
[[nodiscard]] std::string without_indices(std::string_view path);

/// What reading the design assumed, then what water and money assume on top.
[[nodiscard]] std::vector<design::Assumption> all_assumptions(const design::ValidDesign& design);

}  // namespace houseleek::studies
