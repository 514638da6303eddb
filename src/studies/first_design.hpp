// `houseleek new`: a first description from ten plain questions, to be made better by its owner.
#pragma once
#include <string>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "report/json_parts.hpp"

namespace houseleek::studies {

/// The questions with their fields, limits and choices: the document of which a page makes its forms.
[[nodiscard]] report::Json first_questions();

/// The TOML text made of the answers, a flat table of the fields' keys. Months between the warmest and the coldest follow
/// a cosine; walls, windows and habits are left to the program's assumptions, which it lists with their ranges.
/// Errors: issues whose path is a field's key; all of them at once.
[[nodiscard]] Result<std::string> first_design(const report::Json& answers, const catalogue::Catalogue& catalogue);

}  // namespace houseleek::studies
