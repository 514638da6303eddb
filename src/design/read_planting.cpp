// [planting], the plants of recipes and containers by name, and what the country's lists say of them.
#include <fmt/format.h>

#include <algorithm>

#include "catalogue/catalogue.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

/// A warning at the plant's name where a list of the country is against it.
void warn_invasive(DesignReader& reader, const TableView& table, const catalogue::Plant& plant, PlantOrigin origin,
                   const std::string& country) {
  const std::vector<catalogue::InvasiveListing> listings = catalogue::invasive_listings(plant, country);
  if (listings.empty()) return;
  const catalogue::InvasiveListing& listing = listings.front();
  const TomlNode* name = find_member(*table.node, "name");
  const TomlNode& node = name == nullptr ? *table.node : *name;
  const std::string path = path_from(table, "name");
  const std::string list = catalogue::text_from_listing(listing);
  if (origin == PlantOrigin::from_wild) {
    const bool is_forbidden = listing.from_wild == catalogue::FromWild::forbidden;
    add_warning(reader.fields, IssueCode::inconsistent, node, path, "no listed plant from the wild",
                fmt::format("{}: {} is taken from the wild; {} in {}", path, plant.name,
                            is_forbidden ? "that is refused" : "ask first", list),
                "taking, carrying and planting it may each be forbidden; look your law up");
    return;
  }
  if (origin == PlantOrigin::already_here) {
    if (listing.already_here == catalogue::AlreadyHere::keep_in) return;
    add_warning(reader.fields, IssueCode::inconsistent, node, path, "a plant that may stay",
                fmt::format("{}: {} is already here and is to be removed in {}", path, plant.name, list),
                "houseleek plants says how; ask your authority first");
    return;
  }
  const bool is_refused = listing.new_plant == catalogue::NewPlant::refused;
  add_warning(reader.fields, IssueCode::inconsistent, node, path,
              is_refused ? "a plant that is not refused" : "a plant that is not advised against",
              fmt::format("{}: {} as a new plant is {} in {}", path, plant.name,
                          is_refused ? "refused" : "advised against", list),
              "where it grows on the roof already, say origin = \"already_here\"");
}

template <class Each>
void each_plant(const TableView& owner, std::string_view key, const Each& each) {
  const TomlNode* list = find_member(*owner.node, key);
  if (list == nullptr) return;
  for (std::size_t i = 0; i < list->items.size(); ++i) each(TableView{&list->items[i], path_from(owner, key, i)});
}

std::string name_in(const TableView& table) {
  const TomlNode* name = find_member(*table.node, "name");
  return name != nullptr && name->kind == TomlKind::text ? name->text : "";
}

PlantOrigin origin_in(const TableView& table) {
  const TomlNode* origin = find_member(*table.node, "origin");
  for (const auto& [word, value] : plant_origin_words) {
    if (origin != nullptr && origin->text == word) return value;
  }
  return PlantOrigin::unsaid;
}

}  // namespace

const catalogue::Plant* find_plant_at(DesignReader& reader, const TableView& table) {
  const std::string name = read_required_text(reader.fields, table, "name", "add name = \"Sedum album\"");
  const catalogue::Plant* plant = catalogue::find_plant(*reader.catalogue, name);
  if (plant != nullptr || name.empty()) return plant;
  std::vector<std::string> names;
  for (const catalogue::Plant& one : reader.catalogue->plants) names.push_back(one.name);
  for (const catalogue::Plant& one : reader.catalogue->plants) names.push_back(one.common_name);
  add_unknown_name(reader.fields, *find_member(*table.node, "name"), path_from(table, "name"), "plant", names);
  if (reader.fields.issues.back().hint.empty()) reader.fields.issues.back().hint = "see catalogue/plants.toml";
  return nullptr;
}

PlantOrigin read_plant_origin(DesignReader& reader, const TableView& table) {
  return read_choice<PlantOrigin>(reader.fields, table, "origin", plant_origin_words).value_or(PlantOrigin::unsaid);
}

std::optional<ContainerPlant> read_container_plant(DesignReader& reader, const TableView& container) {
  const std::optional<TableView> table = read_table(reader.fields, container, "plant");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"name", "origin", "since"};
  check_keys(reader.fields, *table, known);
  ContainerPlant plant;
  if (const catalogue::Plant* found = find_plant_at(reader, *table)) plant.name = found->name;
  plant.origin = read_plant_origin(reader, *table);
  plant.since = read_day(reader, *table, "since");
  return plant;
}

Planting read_planting(DesignReader& reader, const TableView& root) {
  Planting planting;
  const std::optional<TableView> table = read_table(reader.fields, root, "planting");
  if (!table) return planting;
  constexpr std::string_view known[] = {"sun", "salt_spray"};
  check_keys(reader.fields, *table, known);
  planting.sun = read_choice<RoofSun>(reader.fields, *table, "sun", roof_sun_words);
  planting.salt_spray = read_choice<SaltSpray>(reader.fields, *table, "salt_spray", salt_spray_words);
  return planting;
}

void warn_invasive_plants(DesignReader& reader, const TableView& root, const std::string& country) {
  const auto warn = [&](const TableView& plant) {
    const catalogue::Plant* found = catalogue::find_plant(*reader.catalogue, name_in(plant));
    if (found != nullptr) warn_invasive(reader, plant, *found, origin_in(plant), country);
  };
  each_plant(root, "recipe", [&](const TableView& recipe) { each_plant(recipe, "plant", warn); });
  each_plant(root, "container", [&](const TableView& container) {
    const TomlNode* plant = find_member(*container.node, "plant");
    if (plant != nullptr && plant->kind == TomlKind::table) warn({plant, path_from(container, "plant")});
  });
}

}  // namespace houseleek::design
