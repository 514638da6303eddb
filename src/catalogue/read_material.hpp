// Materials, as both the catalogue and a design's own entries write them.
#pragma once
#include "catalogue/material.hpp"
#include "catalogue/read_figure.hpp"

namespace houseleek::catalogue {

/// One [[material]]: every figure in its limits, and the figures in order with each other.
/// With a `base` what is left out stays as it is there (a weighed bucket changes the density alone).
[[nodiscard]] Material read_material(FieldReader& reader, const TableView& table, const FigureContext& context,
                                     const Material* base = nullptr);

}  // namespace houseleek::catalogue
