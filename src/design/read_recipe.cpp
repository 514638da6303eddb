// [[recipe]]: layers, screens, plants, spacers and watering of a module.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "catalogue/properties.hpp"
#include "catalogue/read_figure.hpp"
#include "design/drainage_limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

constexpr std::pair<std::string_view, Edges> edge_words[] = {{"open", Edges::open}, {"closed", Edges::closed}};

std::vector<RecipeLayer> read_layers(DesignReader& reader, const TableView& recipe) {
  std::vector<RecipeLayer> layers;
  if (!has_entries(reader.fields, recipe, "layer", "add a table [[recipe.layer]] for each layer, from the top"))
    return layers;
  constexpr std::string_view known[] = {"role", "material", "thickness_mm"};
  for (const TableView& table : read_counted_tables(reader, recipe, "layer", limits::most_layers)) {
    check_keys(reader.fields, table, known);
    RecipeLayer layer;
    if (has_field(reader.fields, table, "role", "add role = \"medium\", \"core\", \"filter\" or \"sheet\"")) {
      layer.role = read_choice<LayerRole>(reader.fields, table, "role", role_words).value_or(LayerRole::core);
    }
    const bool is_thin = layer.role == LayerRole::filter || layer.role == LayerRole::sheet;
    layer.layer = read_layer(reader, table, is_thin ? limits::sheet_thickness_mm : limits::layer_thickness_mm);
    const bool is_found = !layer.layer.material_name.empty();
    if (is_found && layer.role == LayerRole::medium && !catalogue::holds_water(layer.layer.material)) {
      const std::string path = path_from(table, "material");
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "material"), path,
                "a material that holds water",
                fmt::format("{} is \"{}\", which holds no water; a medium must", path, layer.layer.material_name),
                "give the layer another role, or describe the material with a wet_rule in [[material]]");
    }
    layers.push_back(std::move(layer));
  }
  return layers;
}

/// The upper face meets sun and sky: its figures must be known.
void check_top(DesignReader& reader, const TableView& recipe, const std::vector<RecipeLayer>& layers) {
  if (layers.empty() || layers.front().layer.material_name.empty()) return;
  const catalogue::Material& top = layers.front().layer.material;
  const bool has_wet = !catalogue::holds_water(top) || top.albedo_wet;
  if (top.albedo_dry && top.emissivity && has_wet) return;
  const TomlNode& first = find_member(*recipe.node, "layer")->items.front();
  const TomlNode* node = find_member(first, "material");
  const std::string path = path_from(recipe, "layer", 0) + ".material";
  add_issue(
      reader.fields, IssueCode::inconsistent, node == nullptr ? first : *node, path,
      "a material with albedo_dry, albedo_wet and emissivity",
      fmt::format("{} is \"{}\", whose albedo or emissivity is not known; the top layer needs them", path, top.name),
      "put a medium on top, or give the figures in a table [[material]]");
}

std::optional<Screen> read_screen(DesignReader& reader, const TableView& recipe, std::string_view key, bool is_net) {
  const std::optional<TableView> table = read_table(reader.fields, recipe, key);
  if (!table) return std::nullopt;
  constexpr std::string_view cover_keys[] = {"material", "thickness_mm", "vapour_resistance_s_per_m"};
  constexpr std::string_view net_keys[] = {"material", "thickness_mm", "height_mm", "wind_below_frac"};
  check_keys(reader.fields, *table, is_net ? std::span<const std::string_view>(net_keys) : cover_keys);
  Screen screen;
  if (const catalogue::Material* material = find_material_at(reader, *table, "material")) {
    screen.material_name = material->name;
    screen.material = *material;
    if (!material->solar_transmittance_frac || !material->solar_reflectance_frac || !material->open_area_frac ||
        !material->emissivity) {
      const std::string path = path_from(*table, "material");
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table->node, "material"), path,
                "a material that is known as a screen",
                fmt::format("{} is \"{}\", of which it is not known how much sun and air it lets through", path,
                            material->name),
                "give solar_transmittance_frac, solar_reflectance_frac, open_area_frac and emissivity in [[material]]");
    }
  }
  screen.thickness_mm = number_or_default(reader, *table, limits::sheet_thickness_mm, defaults::sheet_thickness_mm);
  if (is_net) {
    screen.height_mm = read_required_number(reader.fields, *table, limits::net_height_mm);
    screen.wind_below_frac = number_or_default(reader, *table, limits::wind_below_frac, defaults::wind_below_net);
  } else {
    screen.vapour_resistance_s_per_m =
        number_or_default(reader, *table, limits::vapour_resistance_s_per_m, defaults::cover_vapour_resistance);
  }
  return screen;
}

struct PlantShare {
  const catalogue::Plant* plant = nullptr;
  double cover_frac = 0.0;
  PlantOrigin origin = PlantOrigin::unsaid;
};

std::vector<PlantShare> read_plants(DesignReader& reader, const TableView& recipe) {
  constexpr std::string_view known[] = {"name", "cover_frac", "origin"};
  const std::vector<TableView> tables = read_counted_tables(reader, recipe, "plant", limits::most_plants);
  std::vector<PlantShare> shares;
  for (const TableView& table : tables) {
    check_keys(reader.fields, table, known);
    const catalogue::Plant* plant = find_plant_at(reader, table);
    const PlantOrigin origin = read_plant_origin(reader, table);
    const std::optional<double> given = read_number(reader.fields, table, limits::cover_frac);
    if (plant == nullptr) continue;
    PlantShare share{plant, given.value_or(0.0), origin};
    if (find_member(*table.node, "cover_frac") == nullptr) {
      // Kinds without a share of their own divide the module evenly among all kinds.
      catalogue::Spread even = plant->foliage.cover_frac;
      const double n_kinds = static_cast<double>(tables.size());
      even.low /= n_kinds;
      even.likely /= n_kinds;
      even.high /= n_kinds;
      assume(reader, path_from(table, "cover_frac"), "share of the module covered by " + plant->name, "", even);
      share.cover_frac = even.likely;
    }
    shares.push_back(share);
  }
  return shares;
}

/// The canopy's figure: the owner's, or the plants' mean weighted by their cover, noted as assumed with its range.
double canopy_figure(DesignReader& reader, const TableView& canopy, const catalogue::FoliageProperty& property,
                     const std::vector<PlantShare>& shares) {
  if (find_member(*canopy.node, property.rule.key) != nullptr) {
    return figure_from(reader, canopy, property.rule, {property.words, property.rule.least});
  }
  catalogue::Spread mean;
  double cover_sum = 0.0;
  for (const PlantShare& share : shares) {
    const catalogue::Spread& figure = share.plant->foliage.*property.figure;
    if (cover_sum == 0.0) {
      mean = figure;
      mean.low = mean.likely = mean.high = 0.0;
    }
    mean.low += share.cover_frac * figure.low;
    mean.likely += share.cover_frac * figure.likely;
    mean.high += share.cover_frac * figure.high;
    mean.certainty = std::max(mean.certainty, figure.certainty);  // the loosest of them
    cover_sum += share.cover_frac;
  }
  mean.low /= cover_sum;
  mean.likely /= cover_sum;
  mean.high /= cover_sum;
  assume(reader, path_from(canopy, property.rule.key), property.words, property.rule.unit, mean);
  return mean.likely;
}

Canopy read_canopy(DesignReader& reader, const TableView& recipe, const std::vector<PlantShare>& shares) {
  const TomlNode nothing;
  std::optional<TableView> table = read_table(reader.fields, recipe, "canopy");
  Canopy canopy;
  for (const PlantShare& share : shares) canopy.cover_frac += share.cover_frac;
  if (canopy.cover_frac == 0.0) {
    if (table && find_member(*recipe.node, "plant") == nullptr) {
      add_issue(reader.fields, IssueCode::inconsistent, *table->node, table->path, "plants",
                fmt::format("{} describes a canopy, but the recipe has no plants", table->path),
                "add a table [[recipe.plant]]");
    }
    return canopy;
  }
  constexpr double rounding = 1e-9;  // ten tenths
  if (canopy.cover_frac > 1.0 + rounding) {
    const std::string path = path_from(recipe, "plant");
    add_issue(
        reader.fields, IssueCode::inconsistent, *find_member(*recipe.node, "plant"), path, "at most 1 together",
        fmt::format("{}: cover_frac of all plants is {:.4g} together; it must be at most 1", path, canopy.cover_frac),
        "");
  }
  canopy.cover_frac = std::min(canopy.cover_frac, 1.0);
  if (!table) table = TableView{&nothing, path_from(recipe, "canopy")};
  struct Target {
    catalogue::Spread catalogue::Foliage::*from = nullptr;
    double Canopy::*to = nullptr;
  };
  const Target targets[] = {
      {&catalogue::Foliage::height_mm, &Canopy::height_mm},
      {&catalogue::Foliage::root_depth_mm, &Canopy::root_depth_mm},
      {&catalogue::Foliage::leaf_area_index, &Canopy::leaf_area_index},
      {&catalogue::Foliage::leaf_albedo, &Canopy::leaf_albedo},
      {&catalogue::Foliage::longwave_emissivity, &Canopy::longwave_emissivity},
      {&catalogue::Foliage::leaf_water_kg_per_m2, &Canopy::leaf_water_kg_per_m2},
      {&catalogue::Foliage::fresh_mass_kg_per_m2, &Canopy::fresh_mass_kg_per_m2},
      {&catalogue::Foliage::least_stomatal_resistance_s_per_m, &Canopy::least_stomatal_resistance_s_per_m}};
  std::vector<std::string_view> known = {"ground_resistance_s_per_m", "extinction_short", "extinction_long"};
  for (const catalogue::FoliageProperty& property : catalogue::foliage_properties()) {
    for (const Target& target : targets) {
      if (target.from != property.figure) continue;
      canopy.*target.to = canopy_figure(reader, *table, property, shares);
      known.push_back(property.rule.key);
    }
  }
  canopy.ground_resistance_s_per_m =
      number_or_default(reader, *table, limits::ground_resistance_s_per_m, defaults::ground_resistance);
  canopy.extinction_short = number_or_default(reader, *table, limits::extinction_short, defaults::extinction_short);
  canopy.extinction_long = number_or_default(reader, *table, limits::extinction_long, defaults::extinction_long);
  check_keys(reader.fields, *table, known);
  return canopy;
}

/// Height and direction of slats that lie on the deck: both or neither.
void read_slats(DesignReader& reader, const TableView& table, Spacer& spacer) {
  constexpr std::pair<std::string_view, SlatsAlong> words[] = {{"length", SlatsAlong::length},
                                                               {"width", SlatsAlong::width}};
  const bool has_height = find_member(*table.node, "slat_height_mm") != nullptr;
  const bool has_direction = find_member(*table.node, "slats_along") != nullptr;
  if (has_height && !has_direction) {
    (void)has_field(reader.fields, table, "slats_along", "\"length\" or \"width\" of the module");
  }
  if (has_direction && !has_height) {
    (void)has_field(reader.fields, table, "slat_height_mm", "how high are the slats or canes that lie on the deck?");
  }
  spacer.slat_height_mm = read_number(reader.fields, table, limits::slat_height_mm).value_or(0.0);
  spacer.slats_along = read_choice<SlatsAlong>(reader.fields, table, "slats_along", words).value_or(SlatsAlong::length);
  if (spacer.slat_height_mm <= spacer.height_mm) return;
  const std::string path = path_from(table, "slat_height_mm");
  add_issue(
      reader.fields, IssueCode::inconsistent, *find_member(*table.node, "slat_height_mm"), path,
      fmt::format("at most height_mm, {:.6g} mm", spacer.height_mm),
      fmt::format("{} is {:.6g}; the spacers are {:.6g} mm high in all", path, spacer.slat_height_mm, spacer.height_mm),
      "height_mm is from the deck to the module, slats included");
}

Spacer read_spacer(DesignReader& reader, const TableView& table) {
  constexpr std::string_view known[] = {"height_mm",          "edges", "blocked_frac",   "gap_wind_frac",
                                        "mass_kg_per_module", "feet",  "slat_height_mm", "slats_along"};
  check_keys(reader.fields, table, known);
  Spacer spacer;
  spacer.height_mm = read_required_number(reader.fields, table, limits::spacer_height_mm);
  spacer.edges = read_choice<Edges>(reader.fields, table, "edges", edge_words).value_or(Edges::open);
  spacer.mass_kg_per_module = number_or_default(reader, table, limits::spacer_mass_kg, defaults::spacer_mass);
  spacer.blocked_frac = number_or_default(reader, table, limits::blocked_frac, defaults::blocked);
  spacer.gap_wind_frac = figure_or_default(reader, table, limits::gap_wind_frac, defaults::gap_wind);
  spacer.feet = read_feet(reader, table);
  read_slats(reader, table, spacer);
  return spacer;
}

std::optional<Watering> read_watering(DesignReader& reader, const TableView& recipe) {
  const std::optional<TableView> table = read_table(reader.fields, recipe, "watering");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"summer_every_days",     "between_every_days", "winter_every_days",
                                        "when_store_below_frac", "litres_per_module",  "hour"};
  check_keys(reader.fields, *table, known);
  Watering watering;
  const auto days = [&](std::string_view key) {
    const std::optional<double> every = read_number(reader.fields, *table, limits::with_key(limits::every_days, key));
    if (every && *every > 0.0 && *every < 1.0) {
      add_issue(reader.fields, IssueCode::out_of_range, *find_member(*table->node, key), path_from(*table, key),
                "0 (never), or 1 to 365 days", fmt::format("{} is more often than once a day", path_from(*table, key)),
                "water once a day, with the litres of the whole day in litres_per_module");
    }
    return every;
  };
  watering.summer_every_days = days("summer_every_days");
  watering.between_every_days = days("between_every_days");
  watering.winter_every_days = days("winter_every_days");
  watering.when_store_below_frac = read_number(reader.fields, *table, limits::store_frac);
  watering.litres_per_module = read_required_number(reader.fields, *table, limits::litres_per_module);
  watering.hour = number_or_default(reader, *table, limits::with_key(limits::hour, "hour"), defaults::watering_hour);
  bool has_days = false;
  for (const std::string_view key : std::span(known).first(3)) {
    has_days = has_days || find_member(*table->node, key) != nullptr;
  }
  const bool has_store = find_member(*table->node, "when_store_below_frac") != nullptr;
  if (has_days == has_store) {
    add_issue(reader.fields, has_days ? IssueCode::inconsistent : IssueCode::missing_field, *table->node, table->path,
              "days or store", fmt::format("{} says {} when to water", table->path, has_days ? "twice" : "not"),
              "give summer_every_days, between_every_days and winter_every_days, or when_store_below_frac alone");
  }
  return watering;
}

/// Weights in the order dry, drained, soaked; of those that are given each is at least the one before.
std::optional<Weighed> read_weighed(DesignReader& reader, const TableView& recipe) {
  const std::optional<TableView> table = read_table(reader.fields, recipe, "weighed");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"dry_kg_per_m2", "drained_kg_per_m2", "soaked_kg_per_m2"};
  check_keys(reader.fields, *table, known);
  Weighed weighed;
  std::optional<catalogue::Spread>* const places[] = {&weighed.dry_kg_per_m2, &weighed.drained_kg_per_m2,
                                                      &weighed.soaked_kg_per_m2};
  std::optional<double> before;
  for (std::size_t i = 0; i < std::size(known); ++i) {
    *places[i] = catalogue::read_spread(reader.fields, *table, limits::with_key(limits::weighed_kg_per_m2, known[i]),
                                        catalogue::FigureContext{catalogue::Entry::own, {}});
    if (!*places[i]) continue;
    if (before && (*places[i])->likely < *before) {
      const std::string path = path_from(*table, known[i]);
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table->node, known[i]), path,
                fmt::format("at least {} kg/m2", *before), fmt::format("{} is less than with less water in it", path),
                "dry, drained and soaked mixed up?");
    }
    before = (*places[i])->likely;
  }
  return weighed;
}

/// Roots in less medium than the plant is known to need: allowed, and said.
void warn_shallow(DesignReader& reader, const TableView& recipe, const Recipe& read,
                  const std::vector<PlantShare>& shares) {
  double medium_mm = 0.0;
  for (const RecipeLayer& layer : read.layers) {
    if (layer.role == LayerRole::medium) medium_mm += layer.layer.thickness_mm;
  }
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const catalogue::Plant& plant = *shares[i].plant;
    if (plant.least_depth_mm <= medium_mm) continue;
    const std::string path = path_from(recipe, "plant");
    add_warning(
        reader.fields, IssueCode::inconsistent, *find_member(*recipe.node, "plant"), path,
        fmt::format("{} mm of medium", plant.least_depth_mm),
        fmt::format("{} wants {} mm of medium; this recipe has {}", plant.name, plant.least_depth_mm, medium_mm),
        "it may not live there");
  }
}

Recipe read_recipe(DesignReader& reader, const TableView& table) {
  const std::size_t n_issues_before = reader.fields.issues.size();
  constexpr std::string_view known[] = {"name",   "length_mm", "width_mm", "layer",  "cover",    "net",
                                        "plant",  "canopy",    "spacer",   "placed", "watering", "contact_m2_k_per_w",
                                        "weighed"};
  check_keys(reader.fields, table, known);
  Recipe recipe;
  recipe.name = read_required_text(reader.fields, table, "name", "add name = \"thin stonecrop\"");
  recipe.length_mm = read_required_number(reader.fields, table, limits::module_length_mm);
  recipe.width_mm = read_required_number(reader.fields, table, limits::module_width_mm);
  recipe.layers = read_layers(reader, table);
  check_top(reader, table, recipe.layers);
  recipe.cover = read_screen(reader, table, "cover", false);
  recipe.net = read_screen(reader, table, "net", true);
  const std::vector<PlantShare> shares = read_plants(reader, table);
  for (const PlantShare& share : shares) {
    recipe.plants.push_back({share.plant->name, share.cover_frac, share.origin});
  }
  recipe.canopy = read_canopy(reader, table, shares);
  const bool has_medium = std::any_of(recipe.layers.begin(), recipe.layers.end(),
                                      [](const RecipeLayer& layer) { return layer.role == LayerRole::medium; });
  if (!shares.empty() && !recipe.layers.empty() && !has_medium) {
    const std::string path = path_from(table, "plant");
    add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "plant"), path, "a medium",
              fmt::format("{}: the recipe has plants but no layer with role \"medium\"", path), "");
  }
  // A wrong thickness has its own issue.
  const bool is_clean = reader.fields.issues.size() == n_issues_before;
  if (has_medium && is_clean) warn_shallow(reader, table, recipe, shares);
  const bool has_spacer = find_member(*table.node, "spacer") != nullptr;
  recipe.placed = read_choice<Placed>(reader.fields, table, "placed", placed_words)
                      .value_or(has_spacer ? Placed::raised : Placed::flat);
  if (recipe.placed == Placed::raised && !has_spacer) {
    (void)has_field(reader.fields, table, "spacer",
                    "a raised module stands on spacers: add spacer = { height_mm = 20 }");
  }
  if (const std::optional<TableView> spacer = read_table(reader.fields, table, "spacer")) {
    recipe.spacer = read_spacer(reader, *spacer);
  }
  recipe.contact_m2_k_per_w = number_or_default(reader, table, limits::contact_m2_k_per_w, defaults::contact);
  recipe.watering = read_watering(reader, table);
  recipe.weighed = read_weighed(reader, table);
  return recipe;
}

}  // namespace

std::vector<Recipe> read_recipes(DesignReader& reader, const TableView& root) {
  std::vector<Recipe> recipes;
  std::vector<std::string> names;
  for (const TableView& table : read_counted_tables(reader, root, "recipe", limits::most_recipes)) {
    recipes.push_back(read_recipe(reader, table));
    check_unique_name(reader, table, names, recipes.back().name);
    names.push_back(recipes.back().name);
  }
  return recipes;
}

}  // namespace houseleek::design
