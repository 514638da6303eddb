// Plants and their groups, as the catalogue writes them.
#pragma once
#include <span>

#include "catalogue/plant.hpp"
#include "catalogue/read_figure.hpp"

namespace houseleek::catalogue {

/// One [[group]]: all figures of a canopy.
[[nodiscard]] PlantGroup read_plant_group(FieldReader& reader, const TableView& table, const FigureContext& context);

/// One [[plant]] with its [[plant.invasive]]; what it does not say of its canopy is its group's.
[[nodiscard]] Plant read_plant(FieldReader& reader, const TableView& table, const FigureContext& context,
                               std::span<const PlantGroup> groups);

}  // namespace houseleek::catalogue
