// Modules changed one by one: moved, laid flat or raised, of another recipe, taken away.
#pragma once
#include <vector>

#include "base/result.hpp"
#include "design/edit_text.hpp"
#include "report/json_parts.hpp"

namespace houseleek::studies {

/// The change of one request (see edit.hpp). A block of columns and rows of which some modules change is written as a
/// list of places; modules of another recipe or form get a [[patch]] of their own.
/// Errors: issues whose path is the field of the change.
[[nodiscard]] Result<std::vector<design::TextChange>> edit_modules(const design::RawDesign& description,
                                                                   const design::Design& design,
                                                                   const report::Json& change);

}  // namespace houseleek::studies
