// Whether two groups would be stepped alike: what a run reads is the same to the last bit.
#pragma once
#include "simulation/group.hpp"

namespace houseleek::studies {

/// Every field but names, and what machines would keep in a room that has none. A field that is added to a struct stops the compiler here, so that none is forgotten.
[[nodiscard]] bool is_same_group(const simulation::Group& a, const simulation::Group& b);

}  // namespace houseleek::studies
