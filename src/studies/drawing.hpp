// What a page draws and edits of a description: the plan with everything on it, recipes by their layers, and what there is
// to choose from.
#pragma once
#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "report/json_parts.hpp"

namespace houseleek::studies {

/// The document of schema/drawing.schema.json. Modules are numbered over all patches, as edit_description() has them.
[[nodiscard]] report::Json draw_description(const design::ValidDesign& design);

/// Names that a description may use: materials by family, plants, finishes, and the design's own materials first.
[[nodiscard]] report::Json list_choices(const catalogue::Catalogue& catalogue, const design::ValidDesign* design);

}  // namespace houseleek::studies
