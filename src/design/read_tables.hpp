// One function for each table of the design file.
#pragma once
#include <vector>

#include "design/design.hpp"
#include "design/reader.hpp"

namespace houseleek::design {

[[nodiscard]] Site read_site(DesignReader& reader, const TableView& root);
[[nodiscard]] Climate read_climate(DesignReader& reader, const TableView& root);
[[nodiscard]] Roof read_roof(DesignReader& reader, const TableView& root);
[[nodiscard]] std::vector<Room> read_rooms(DesignReader& reader, const TableView& root, const Roof& roof);
[[nodiscard]] std::vector<Partition> read_partitions(DesignReader& reader, const TableView& root,
                                                     const std::vector<Room>& rooms);
[[nodiscard]] std::vector<Recipe> read_recipes(DesignReader& reader, const TableView& root);
[[nodiscard]] std::vector<Patch> read_patches(DesignReader& reader, const TableView& root,
                                              const std::vector<Recipe>& recipes);
[[nodiscard]] Prices read_prices(DesignReader& reader, const TableView& root);
[[nodiscard]] Rivals read_rivals(DesignReader& reader, const TableView& root);
/// The design's own [[material]] entries; they go into `reader.own_materials`.
void read_own_materials(DesignReader& reader, const TableView& root);

/// A layer's material and thickness; figures of the catalogue are not yet noted as assumed.
[[nodiscard]] Layer read_layer(DesignReader& reader, const TableView& table, const NumberRule& thickness_mm);

/// The modules of all patches where they lie: on the roof, off outlets and obstacles, off each other.
[[nodiscard]] std::vector<ModulePlace> lay_out_modules(DesignReader& reader, const TableView& root, const Roof& roof,
                                                       const std::vector<Recipe>& recipes,
                                                       const std::vector<Patch>& patches);

}  // namespace houseleek::design
