// Everything that stands behind an answer without having been said: by the design, and by the answers themselves.
#pragma once
#include <vector>

#include "design/parse.hpp"

namespace houseleek::studies {

/// What reading the design assumed, then what water and money assume on top.
[[nodiscard]] std::vector<design::Assumption> all_assumptions(const design::ValidDesign& design);

}  // namespace houseleek::studies
