// The one door of a design: text in, a complete and checked design out, or every problem with its place.
#include "design/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/issue_text.hpp"
#include "base/nearest_name.hpp"
#include "catalogue/properties.hpp"
#include "design/limits.hpp"
#include "design/read_tables.hpp"
#include "design/reader.hpp"

namespace houseleek::design {
namespace {

constexpr std::int64_t newest_format = 1;

constexpr std::string_view root_keys[] = {
    "format", "name",   "site",   "climate",  "roof",      "room",  "partition", "recipe",      "patch",
    "prices", "tariff", "rivals", "material", "container", "wind",  "drainage",  "design_rain", "invented",
    "trial",  "money",  "bills",  "stock",    "carbon",    "order", "planting"};

bool is_blank(std::string_view text) { return text.find_first_not_of(" \t\r\n") == std::string_view::npos; }

/// A later format may mean anything: nothing else of the file is judged.
bool is_format_known(FieldReader& fields, const TableView& root) {
  if (!has_field(fields, root, "format", "add format = 1 at the top")) return true;
  const std::optional<std::int64_t> format = read_integer(fields, root, {.key = "format", .least = 1, .most = 1e6});
  if (!format || *format <= newest_format) return true;
  add_issue(fields, IssueCode::out_of_range, *find_member(*root.node, "format"), "format",
            fmt::format("at most {}", newest_format),
            fmt::format("format is {}; this program reads up to {}", *format, newest_format),
            "the file was written for a newer version; nothing else in it was looked at");
  return false;
}

/// The catalogue figures of every material in use, once each, in the order of first use.
void assume_materials(DesignReader& reader, const Design& design) {
  std::vector<const catalogue::Material*> used;
  const auto add = [&used](const catalogue::Material& material) {
    const auto same = [&material](const catalogue::Material* one) { return one->name == material.name; };
    if (std::none_of(used.begin(), used.end(), same)) used.push_back(&material);
  };
  for (const Layer& layer : design.roof.deck) add(layer.material);
  for (const Recipe& recipe : design.recipes) {
    for (const RecipeLayer& layer : recipe.layers) add(layer.layer.material);
    if (recipe.cover) add(recipe.cover->material);
    if (recipe.net) add(recipe.net->material);
  }
  for (const Container& container : design.containers) add(container.fill.material);
  add(design.rivals.net.material);
  add(design.rivals.board.material);
  add(design.rivals.ballast.material);
  for (const catalogue::Material* material : used) {
    for (const catalogue::MaterialProperty& property : catalogue::material_properties()) {
      if (property.is_of_damp) continue;
      const catalogue::Spread* figure = catalogue::find_property(*material, property);
      if (figure == nullptr || catalogue::is_waiting(*reader.catalogue, "material", property.rule.key)) continue;
      assume(reader, fmt::format("material[{}].{}", material->name, property.rule.key),
             fmt::format("{}: {}", material->name, property.words), property.rule.unit, *figure);
    }
  }
}

std::string_view unit_from(catalogue::PricePer per) {
  constexpr std::array<std::string_view, 4> units = {"kg", "m2", "m3", "piece"};
  return units[static_cast<std::size_t>(per)];
}

/// Prices that the design's recipes need, and those of what is no material.
void assume_prices(DesignReader& reader, const Design& design) {
  std::vector<std::string> used = {design.rivals.net.material_name, design.rivals.board.material_name,
                                   design.rivals.ballast.material_name};
  for (const Recipe& recipe : design.recipes) {
    for (const RecipeLayer& layer : recipe.layers) used.push_back(layer.layer.material_name);
    if (recipe.cover) used.push_back(recipe.cover->material_name);
    if (recipe.net) used.push_back(recipe.net->material_name);
  }
  for (const catalogue::PriceItem& item : design.prices.items) {
    const bool is_material = find_material_named(reader, item.name) != nullptr;
    const bool is_part = catalogue::find_part(*reader.catalogue, item.name) != nullptr;
    if ((is_material || is_part) && std::find(used.begin(), used.end(), item.name) == used.end()) continue;
    assume(reader, fmt::format("prices[{}]", item.name), "price of " + item.name,
           fmt::format("{}/{}", design.prices.currency, unit_from(item.per)), item.price);
    if (!item.service_life_years) continue;
    assume(reader, fmt::format("prices[{}].service_life_years", item.name), "service life of " + item.name, "years",
           *item.service_life_years);
  }
}

Issues errors_of(const Issues& issues) {
  Issues errors;
  for (const Issue& issue : issues) {
    if (issue.severity == Severity::error) errors.push_back(issue);
  }
  return errors;
}

}  // namespace

Result<RawDesign> parse_design(std::string_view toml_text, std::string_view file_name) {
  if (is_blank(toml_text)) {
    Issue issue;
    issue.code = IssueCode::missing_field;
    issue.file = std::string(file_name);
    issue.line = 1;
    issue.column = 1;
    issue.message = "the design is empty";
    issue.hint = "begin with a copy of examples/01-terrace-house/roof.toml";
    return Unexpected{{std::move(issue)}};
  }
  Result<TomlNode> root = parse_toml(toml_text, file_name, limits::file);
  if (!root) return Unexpected{root.error()};
  return RawDesign{std::string(toml_text), std::string(file_name), std::move(root).value()};
}

Result<ValidDesign> validate_design(const RawDesign& raw, const catalogue::Catalogue& catalogue) {
  DesignReader reader{
      .fields = {raw.text, raw.file_name, {}}, .catalogue = &catalogue, .own_materials = {}, .assumed = {}};
  const TableView root{&raw.root, ""};
  if (!is_format_known(reader.fields, root)) return Unexpected{std::move(reader.fields.issues)};
  check_keys(reader.fields, root, root_keys);
  Design design;
  design.name = read_text(reader.fields, root, "name").value_or("");
  design.is_invented = read_flag(reader.fields, root, "invented").value_or(false);
  read_own_materials(reader, root);
  design.site = read_site(reader, root);
  design.climate = read_climate(reader, root);
  design.roof = read_roof(reader, root);
  design.drainage = read_drainage(reader, root, design.roof);
  design.design_rain = read_design_rain(reader, root);
  design.rooms = read_rooms(reader, root, design.roof);
  design.partitions = read_partitions(reader, root, design.rooms);
  design.recipes = read_recipes(reader, root);
  design.patches = read_patches(reader, root, design.recipes);
  design.modules = lay_out_modules(reader, root, design.roof, design.recipes, design.patches);
  design.containers = read_containers(reader, root, design.roof, design.modules);
  design.wind = read_wind(reader, root);
  design.planting = read_planting(reader, root);
  warn_invasive_plants(reader, root, design.site.country);
  design.rivals = read_rivals(reader, root);
  design.prices = read_prices(reader, root);
  design.money = read_money(reader, root);
  design.bills = read_bills(reader, root);
  design.stock = read_stock(reader, root, design.prices);
  design.order = read_order(reader, root, design.roof);
  design.trials = read_trials(reader, root, design.recipes, design.rooms);
  design.own_materials = reader.own_materials;
  Issues issues = sorted_by_place(std::move(reader.fields.issues));
  if (!errors_of(issues).empty()) return Unexpected{std::move(issues)};
  assume_materials(reader, design);
  assume_prices(reader, design);
  return ValidDesign(std::move(design), std::move(reader.assumed), std::move(issues));
}

Result<ValidDesign> read_design(std::string_view toml_text, std::string_view file_name,
                                const catalogue::Catalogue& catalogue) {
  const Result<RawDesign> raw = parse_design(toml_text, file_name);
  if (!raw) return Unexpected{raw.error()};
  return validate_design(raw.value(), catalogue);
}

}  // namespace houseleek::design
