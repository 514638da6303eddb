// Parts that are counted, as the catalogue writes them.
#pragma once
#include "catalogue/part.hpp"
#include "catalogue/read_figure.hpp"

namespace houseleek::catalogue {

/// One [[part]]: every figure in its limits, the lives in order.
[[nodiscard]] Part read_part(FieldReader& reader, const TableView& table, const FigureContext& context);

}  // namespace houseleek::catalogue
