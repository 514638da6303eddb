// One function for each table of the design file.
#pragma once
#include <vector>

#include "design/design.hpp"
#include "design/reader.hpp"

namespace houseleek::design {

[[nodiscard]] Site read_site(DesignReader& reader, const TableView& root);
[[nodiscard]] Climate read_climate(DesignReader& reader, const TableView& root);
[[nodiscard]] Roof read_roof(DesignReader& reader, const TableView& root);
[[nodiscard]] Drainage read_drainage(DesignReader& reader, const TableView& root, const Roof& roof);
[[nodiscard]] DesignRain read_design_rain(DesignReader& reader, const TableView& root);
[[nodiscard]] std::vector<Room> read_rooms(DesignReader& reader, const TableView& root, const Roof& roof);
[[nodiscard]] std::vector<Partition> read_partitions(DesignReader& reader, const TableView& root,
                                                     const std::vector<Room>& rooms);
[[nodiscard]] std::vector<Recipe> read_recipes(DesignReader& reader, const TableView& root);
[[nodiscard]] std::vector<Patch> read_patches(DesignReader& reader, const TableView& root,
                                              const std::vector<Recipe>& recipes);
[[nodiscard]] std::optional<Structure> read_structure(DesignReader& reader, const TableView& roof);
[[nodiscard]] Bearing read_bearing(DesignReader& reader, const TableView& roof);
[[nodiscard]] Actions read_actions(DesignReader& reader, const TableView& roof);
[[nodiscard]] ClearStrips read_clear_strips(DesignReader& reader, const TableView& roof);
[[nodiscard]] std::optional<Wind> read_wind(DesignReader& reader, const TableView& root);
/// feet = { count, area_mm2 } of spacers or of a container.
[[nodiscard]] std::optional<Feet> read_feet(DesignReader& reader, const TableView& owner);
[[nodiscard]] Planting read_planting(DesignReader& reader, const TableView& root);
/// `name` of a plant's table, botanical or common; an issue where there is none of that name.
[[nodiscard]] const catalogue::Plant* find_plant_at(DesignReader& reader, const TableView& table);
[[nodiscard]] PlantOrigin read_plant_origin(DesignReader& reader, const TableView& table);
[[nodiscard]] std::optional<ContainerPlant> read_container_plant(DesignReader& reader, const TableView& container);
/// Warnings at the names of plants that a list of the country is against, as they are said to come.
void warn_invasive_plants(DesignReader& reader, const TableView& root, const std::string& country);
/// Where each stands is judged against roof, obstacles, outlets, modules and the containers before it.
[[nodiscard]] std::vector<Container> read_containers(DesignReader& reader, const TableView& root, const Roof& roof,
                                                     const std::vector<ModulePlace>& modules);
[[nodiscard]] Prices read_prices(DesignReader& reader, const TableView& root);
/// [money] and [carbon].
[[nodiscard]] Money read_money(DesignReader& reader, const TableView& root);
[[nodiscard]] Bills read_bills(DesignReader& reader, const TableView& root);
[[nodiscard]] std::vector<StockItem> read_stock(DesignReader& reader, const TableView& root, const Prices& prices);
[[nodiscard]] OrderWishes read_order(DesignReader& reader, const TableView& root, const Roof& roof);
[[nodiscard]] Rivals read_rivals(DesignReader& reader, const TableView& root);
[[nodiscard]] std::vector<Trial> read_trials(DesignReader& reader, const TableView& root,
                                             const std::vector<Recipe>& recipes, const std::vector<Room>& rooms);
/// The design's own [[material]] entries; they go into `reader.own_materials`.
void read_own_materials(DesignReader& reader, const TableView& root);

/// A layer's material and thickness; figures of the catalogue are not yet noted as assumed.
[[nodiscard]] Layer read_layer(DesignReader& reader, const TableView& table, const NumberRule& thickness_mm);

/// The modules of all patches where they lie: on the roof, off outlets and obstacles, off each other.
[[nodiscard]] std::vector<ModulePlace> lay_out_modules(DesignReader& reader, const TableView& root, const Roof& roof,
                                                       const std::vector<Recipe>& recipes,
                                                       const std::vector<Patch>& patches);

}  // namespace houseleek::design
