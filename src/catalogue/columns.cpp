// The columns of every table of the catalogue, and which of them no answer reads yet.
#include "catalogue/columns.hpp"

#include <optional>

#include "catalogue/properties.hpp"
#include "catalogue/raising.hpp"

namespace houseleek::catalogue {
namespace {

constexpr std::string_view all_invasive_keys[] = {"country",      "region",    "list",   "new_plant",
                                                  "already_here", "from_wild", "source", "certainty"};
constexpr std::string_view all_finish_keys[] = {"name", "albedo", "emissivity", "membrane", "age"};
constexpr std::string_view all_rivals_keys[] = {
    "white_albedo_new", "white_albedo_aged", "white_emissivity",   "white_life_years", "net_material",
    "net_height_mm",    "board_material",    "board_thickness_mm", "ballast_material", "ballast_thickness_mm"};
constexpr std::string_view all_tariff_keys[] = {"electricity_per_kwh", "heating_per_kwh", "water_per_m3",
                                                "heating_efficiency", "cooling_efficiency"};
constexpr std::string_view all_price_keys[] = {"name",         "price_per_kg", "price_per_m2",
                                               "price_per_m3", "price_each",   "service_life_years"};
constexpr std::string_view all_caution_keys[] = {"id", "when", "beside", "first_page", "text", "source"};

template <class Properties>
void add_property_keys(const Properties& properties, std::vector<std::string_view>& keys) {
  for (const auto& property : properties) keys.push_back(property.rule.key);
}

std::vector<std::string_view> copy_of(std::span<const std::string_view> keys) { return {keys.begin(), keys.end()}; }

}  // namespace

std::vector<std::string_view> material_keys() {
  std::vector<std::string_view> keys = {"name",      "form",        "wet_rule", "family",   "hazards",
                                        "near_food", "preparation", "source",   "certainty"};
  add_property_keys(material_properties(), keys);
  return keys;
}

std::vector<std::string_view> part_keys() {
  std::vector<std::string_view> keys = {"name", "form", "use", "family", "hazards", "near_food", "source", "certainty"};
  add_property_keys(part_properties(), keys);
  return keys;
}

std::vector<std::string_view> group_keys() {
  std::vector<std::string_view> keys = {"name"};
  add_property_keys(foliage_properties(), keys);
  return keys;
}

std::vector<std::string_view> plant_keys() {
  std::vector<std::string_view> keys = {"name",     "common_name", "group",        "lifespan", "sun",
                                        "climates", "carbon_way",  "salt_spray",   "wind",     "raised_from",
                                        "eaten",    "bee_worth",   "bloom_months", "hazards",  "invasive",
                                        "source",   "certainty"};
  add_property_keys(plant_properties(), keys);
  add_property_keys(foliage_properties(), keys);
  return keys;
}

std::span<const std::string_view> invasive_keys() { return all_invasive_keys; }

std::vector<std::string_view> raising_keys() {
  std::vector<std::string_view> keys = {"way", "groups", "begin_months"};
  add_property_keys(raising_properties(), keys);
  return keys;
}

std::span<const std::string_view> finish_keys() { return all_finish_keys; }
std::span<const std::string_view> rivals_keys() { return all_rivals_keys; }
std::span<const std::string_view> tariff_keys() { return all_tariff_keys; }
std::span<const std::string_view> price_keys() { return all_price_keys; }
std::span<const std::string_view> caution_keys() { return all_caution_keys; }

std::vector<CatalogueTable> catalogue_tables() {
  return {{"material", material_keys()},
          {"part", part_keys()},
          {"group", group_keys()},
          {"plant", plant_keys()},
          {"invasive", copy_of(all_invasive_keys)},
          {"raising", raising_keys()},
          {"finish", copy_of(all_finish_keys)},
          {"rivals", copy_of(all_rivals_keys)},
          {"tariff", copy_of(all_tariff_keys)},
          {"price", copy_of(all_price_keys)},
          {"caution", copy_of(all_caution_keys)}};
}

std::vector<WaitingColumn> read_waiting(FieldReader& reader, const TableView& root) {
  const std::optional<TableView> all = read_table(reader, root, "waits_for");
  if (!all) return {};
  const std::vector<CatalogueTable> tables = catalogue_tables();
  std::vector<std::string_view> names;
  for (const CatalogueTable& table : tables) names.push_back(table.name);
  check_keys(reader, *all, names);
  std::vector<WaitingColumn> waiting;
  for (const CatalogueTable& table : tables) {
    const std::optional<TableView> columns = read_table(reader, *all, table.name);
    if (!columns) continue;
    check_keys(reader, *columns, table.keys);
    for (const std::string_view key : table.keys) {
      if (find_member(*columns->node, key) == nullptr) continue;
      const std::string answer = read_required_text(reader, *columns, key, "name the answer that will read it");
      waiting.push_back({std::string(table.name), std::string(key), answer});
    }
  }
  return waiting;
}

}  // namespace houseleek::catalogue
