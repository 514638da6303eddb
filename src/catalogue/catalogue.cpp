// The catalogue: materials, plants, decks, prices and cautions, read from data files that anyone may edit.
#include "catalogue/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest_name.hpp"
#include "base/toml_fields.hpp"
#include "catalogue/properties.hpp"
#include "catalogue/read_material.hpp"
#include "catalogue/read_prices.hpp"

namespace houseleek::catalogue {
namespace {

// The whole catalogue is about 150 kB; a person may double it many times before it is surely another file.
constexpr TomlLimits catalogue_limits{.max_bytes = 4'000'000, .max_line_bytes = 16384, .max_depth = 16};

template <class T>
const T* find_by_name(const std::vector<T>& entries, std::string_view name) {
  const std::string folded = folded_name(name);
  for (const T& entry : entries) {
    if (folded_name(entry.name) == folded) return &entry;
  }
  return nullptr;
}

/// Keeps the entry unless its name is taken.
template <class T>
void add_unique(FieldReader& reader, const TableView& table, std::vector<T>& entries, T entry) {
  if (!entry.name.empty() && find_by_name(entries, entry.name) != nullptr) {
    add_issue(reader, IssueCode::inconsistent, *table.node, path_from(table, "name"), "a name of its own",
              fmt::format("{} is there twice: {}", path_from(table, "name"), entry.name), "");
    return;
  }
  entries.push_back(std::move(entry));
}

Foliage read_group_foliage(FieldReader& reader, const TableView& table, const FigureContext& context) {
  Foliage foliage;
  for (const FoliageProperty& property : foliage_properties()) {
    foliage.*property.figure = read_required_spread(reader, table, property.rule, context);
  }
  return foliage;
}

void read_plants(FieldReader& reader, const TableView& root, const FigureContext& context, Catalogue& catalogue) {
  std::vector<std::string_view> group_keys = {"name"};
  std::vector<std::string_view> plant_keys = {"name", "common_name", "group", "least_depth_mm"};
  for (const FoliageProperty& property : foliage_properties()) {
    group_keys.push_back(property.rule.key);
    plant_keys.push_back(property.rule.key);
  }
  std::vector<std::string> group_names;
  for (const TableView& table : read_tables(reader, root, "group")) {
    check_keys(reader, table, group_keys);
    PlantGroup group;
    group.name = read_required_text(reader, table, "name", "add name = \"succulent\"");
    group.foliage = read_group_foliage(reader, table, context);
    group_names.push_back(group.name);
    add_unique(reader, table, catalogue.plant_groups, std::move(group));
  }
  for (const TableView& table : read_tables(reader, root, "plant")) {
    check_keys(reader, table, plant_keys);
    Plant plant;
    plant.name = read_required_text(reader, table, "name", "add name = \"Sedum album\"");
    plant.common_name = read_text(reader, table, "common_name").value_or("");
    plant.group = read_required_text(reader, table, "group", "add group = one of " + joined_names(group_names));
    plant.least_depth_mm =
        read_number(reader, table, {.key = "least_depth_mm", .least = 5, .most = 2000, .unit = "mm"}).value_or(0.0);
    if (const PlantGroup* group = find_by_name(catalogue.plant_groups, plant.group)) {
      plant.foliage = group->foliage;
    } else if (!plant.group.empty()) {
      add_unknown_name(reader, *find_member(*table.node, "group"), path_from(table, "group"), "group of plants",
                       group_names);
    }
    for (const FoliageProperty& property : foliage_properties()) {
      if (const std::optional<Spread> own = read_spread(reader, table, property.rule, context)) {
        plant.foliage.*property.figure = *own;
      }
    }
    add_unique(reader, table, catalogue.plants, std::move(plant));
  }
}

void read_finishes(FieldReader& reader, const TableView& root, const FigureContext& context, Catalogue& catalogue) {
  constexpr std::string_view known[] = {"name", "albedo", "emissivity"};
  for (const TableView& table : read_tables(reader, root, "finish")) {
    check_keys(reader, table, known);
    Finish finish;
    finish.name = read_required_text(reader, table, "name", "add name = \"bitumen, weathered\"");
    finish.albedo =
        read_required_spread(reader, table, {.key = "albedo", .least = 0, .most = 1, .unit = "share"}, context);
    finish.emissivity =
        read_required_spread(reader, table, {.key = "emissivity", .least = 0.02, .most = 1, .unit = "share"}, context);
    add_unique(reader, table, catalogue.finishes, std::move(finish));
  }
}

void read_rivals(FieldReader& reader, const TableView& root, const FigureContext& context, RivalDefaults& rivals) {
  const std::optional<TableView> table = read_table(reader, root, "rivals");
  if (!table) return;
  constexpr std::string_view known[] = {
      "white_albedo_new", "white_albedo_aged", "white_emissivity",   "white_life_years", "net_material",
      "net_height_mm",    "board_material",    "board_thickness_mm", "ballast_material", "ballast_thickness_mm"};
  check_keys(reader, *table, known);
  const auto share = [&](std::string_view key) {
    return read_required_spread(reader, *table, {.key = key, .least = 0, .most = 1, .unit = "share"}, context);
  };
  const auto length = [&](std::string_view key) {
    return read_required_spread(reader, *table, {.key = key, .least = 1, .most = 3000, .unit = "mm"}, context);
  };
  rivals.white_albedo_new = share("white_albedo_new");
  rivals.white_albedo_aged = share("white_albedo_aged");
  rivals.white_emissivity = share("white_emissivity");
  rivals.white_life_years = read_required_spread(
      reader, *table, {.key = "white_life_years", .least = 0, .most = 200, .unit = "years", .is_least_open = true},
      context);
  rivals.net_material = read_required_text(reader, *table, "net_material", "name a material");
  rivals.net_height_mm = length("net_height_mm");
  rivals.board_material = read_required_text(reader, *table, "board_material", "name a material");
  rivals.board_thickness_mm = length("board_thickness_mm");
  rivals.ballast_material = read_required_text(reader, *table, "ballast_material", "name a material");
  rivals.ballast_thickness_mm = length("ballast_thickness_mm");
}

void read_prices(FieldReader& reader, const TableView& root, const FigureContext& context, Catalogue& catalogue) {
  if (find_member(*root.node, "currency") != nullptr) catalogue.currency = read_currency(reader, root);
  for (const TableView& table : read_tables(reader, root, "price")) {
    add_unique(reader, table, catalogue.prices, read_price_item(reader, table, context));
  }
  if (const std::optional<TableView> table = read_table(reader, root, "tariff")) {
    catalogue.tariff = read_tariff(reader, *table, context, catalogue.tariff);
  }
}

void read_cautions(FieldReader& reader, const TableView& root, Catalogue& catalogue) {
  constexpr std::string_view known[] = {"id", "when", "text", "source"};
  const std::vector<std::string> conditions(std::begin(caution_conditions), std::end(caution_conditions));
  for (const TableView& table : read_tables(reader, root, "caution")) {
    check_keys(reader, table, known);
    Caution caution;
    caution.id = read_required_text(reader, table, "id", "add id = \"a-word-of-its-own\"");
    caution.when = read_required_text(reader, table, "when", "add when = one of " + joined_names(conditions));
    caution.text = read_required_text(reader, table, "text", "add text = \"a sentence\"");
    caution.source = read_required_text(reader, table, "source", "add source = where it comes from");
    if (!caution.when.empty() && std::find(conditions.begin(), conditions.end(), caution.when) == conditions.end()) {
      add_unknown_name(reader, *find_member(*table.node, "when"), path_from(table, "when"), "condition", conditions);
    }
    catalogue.cautions.push_back(std::move(caution));
  }
}

void read_one_file(const CatalogueFile& file, Catalogue& catalogue, Issues& issues) {
  const Result<TomlNode> parsed = parse_toml(file.text, file.name, catalogue_limits);
  if (!parsed) {
    issues.insert(issues.end(), parsed.error().begin(), parsed.error().end());
    return;
  }
  FieldReader reader{file.text, file.name, {}};
  const TableView root{&parsed.value(), ""};
  constexpr std::string_view known[] = {"source", "material", "group",  "plant", "finish",
                                        "rivals", "currency", "tariff", "price", "caution"};
  check_keys(reader, root, known);
  const bool has_figures = find_member(parsed.value(), "caution") == nullptr;
  const FigureContext context = has_figures ? read_figure_context(reader, root) : FigureContext{};
  for (const TableView& table : read_tables(reader, root, "material")) {
    add_unique(reader, table, catalogue.materials, read_material(reader, table, context));
  }
  read_plants(reader, root, context, catalogue);
  read_finishes(reader, root, context, catalogue);
  read_rivals(reader, root, context, catalogue.rivals);
  read_prices(reader, root, context, catalogue);
  read_cautions(reader, root, catalogue);
  issues.insert(issues.end(), reader.issues.begin(), reader.issues.end());
}

/// What must be there over all files together; its issues have no place.
void check_whole(const Catalogue& catalogue, Issues& issues) {
  const auto add = [&issues](IssueCode code, std::string message) {
    Issue issue;
    issue.code = code;
    issue.message = std::move(message);
    issues.push_back(std::move(issue));
  };
  if (catalogue.materials.empty()) add(IssueCode::missing_field, "the catalogue has no materials");
  if (catalogue.finishes.empty()) add(IssueCode::missing_field, "the catalogue has no finishes");
  if (catalogue.currency.empty()) add(IssueCode::missing_field, "the catalogue has no currency");
  if (catalogue.tariff.electricity_per_kwh.source.empty()) add(IssueCode::missing_field, "the catalogue has no tariff");
  const RivalDefaults& rivals = catalogue.rivals;
  for (const std::string& name : {rivals.net_material, rivals.board_material, rivals.ballast_material}) {
    if (find_material(catalogue, name) == nullptr) {
      add(IssueCode::unknown_name, fmt::format("the catalogue's rivals need the material \"{}\"", name));
    }
  }
}

}  // namespace

Result<Catalogue> read_catalogue(std::span<const CatalogueFile> files) {
  Catalogue catalogue;
  Issues issues;
  for (const CatalogueFile& file : files) read_one_file(file, catalogue, issues);
  if (issues.empty()) check_whole(catalogue, issues);
  if (!issues.empty()) return Unexpected{std::move(issues)};
  const auto by_name = [](const auto& a, const auto& b) { return a.name < b.name; };
  std::sort(catalogue.materials.begin(), catalogue.materials.end(), by_name);
  std::sort(catalogue.prices.begin(), catalogue.prices.end(), by_name);
  return catalogue;
}

const Material* find_material(const Catalogue& catalogue, std::string_view name) {
  return find_by_name(catalogue.materials, name);
}

const Plant* find_plant(const Catalogue& catalogue, std::string_view botanical_or_common_name) {
  if (const Plant* plant = find_by_name(catalogue.plants, botanical_or_common_name)) return plant;
  const std::string folded = folded_name(botanical_or_common_name);
  for (const Plant& plant : catalogue.plants) {
    if (!plant.common_name.empty() && folded_name(plant.common_name) == folded) return &plant;
  }
  return nullptr;
}

const Finish* find_finish(const Catalogue& catalogue, std::string_view name) {
  return find_by_name(catalogue.finishes, name);
}

const PriceItem* find_price(const Catalogue& catalogue, std::string_view name) {
  return find_by_name(catalogue.prices, name);
}

std::string_view text_from_certainty(Certainty certainty) {
  switch (certainty) {
    case Certainty::by_definition:
      return "by_definition";
    case Certainty::text_seen:
      return "text_seen";
    case Certainty::recomputed:
      return "recomputed";
    case Certainty::from_memory:
      return "from_memory";
    case Certainty::estimate:
      return "estimate";
    case Certainty::invented:
      return "invented";
    case Certainty::own_figure:
      return "own_figure";
  }
  expects(false, "a certainty of the list");
  return {};
}

}  // namespace houseleek::catalogue
