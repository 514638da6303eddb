// [roof]: outline, deck, finish, outlets, obstacles, hollows, and what it may carry.
#include <fmt/format.h>

#include <cmath>

#include "base/nearest_name.hpp"
#include "design/drainage_limits.hpp"
#include "design/limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

constexpr std::pair<std::string_view, ObstacleKind> obstacle_words[] = {
    {"other", ObstacleKind::other}, {"hatch", ObstacleKind::hatch}, {"rooflight", ObstacleKind::rooflight},
    {"flue", ObstacleKind::flue},   {"tank", ObstacleKind::tank},   {"equipment", ObstacleKind::equipment},
    {"wall", ObstacleKind::wall}};
constexpr std::pair<std::string_view, LoadDuration> duration_words[] = {{"permanent", LoadDuration::permanent},
                                                                        {"long_term", LoadDuration::long_term},
                                                                        {"medium_term", LoadDuration::medium_term},
                                                                        {"short_term", LoadDuration::short_term}};

Finish finish_from_catalogue(DesignReader& reader, const std::string& path, const catalogue::Finish& known) {
  assume(reader, path + ".albedo", "sun thrown back by the bare roof", "", known.albedo);
  assume(reader, path + ".emissivity", "emissivity of the bare roof", "", known.emissivity);
  return {known.name, known.albedo.likely, known.emissivity.likely};
}

const catalogue::Finish& default_finish(const DesignReader& reader) {
  const catalogue::Finish* finish = catalogue::find_finish(*reader.catalogue, defaults::finish_name);
  expects(finish != nullptr, "the catalogue to hold the default finish");
  return *finish;
}

/// finish = "name", or finish = { albedo = , emissivity = }, or nothing.
Finish read_finish(DesignReader& reader, const TableView& roof) {
  const std::string path = path_from(roof, "finish");
  const TomlNode* node = find_member(*roof.node, "finish");
  if (node == nullptr) return finish_from_catalogue(reader, path, default_finish(reader));
  if (node->kind == TomlKind::text) {
    if (const catalogue::Finish* known = catalogue::find_finish(*reader.catalogue, node->text)) {
      return finish_from_catalogue(reader, path, *known);
    }
    std::vector<std::string> names;
    for (const catalogue::Finish& finish : reader.catalogue->finishes) names.push_back(finish.name);
    add_unknown_name(reader.fields, *node, path, "finish", names);
    return {};
  }
  const std::optional<TableView> table = read_table(reader.fields, roof, "finish");
  if (!table) return {};
  constexpr std::string_view known[] = {"albedo", "emissivity"};
  check_keys(reader.fields, *table, known);
  Finish finish;
  if (has_field(reader.fields, *table, limits::albedo.key, "add albedo = 0.2: the share of sun that is thrown back")) {
    finish.albedo = figure_from(reader, *table, limits::albedo, {"sun thrown back by the bare roof", 0.0});
  }
  if (find_member(*table->node, "emissivity") == nullptr) {
    const catalogue::Spread& emissivity = default_finish(reader).emissivity;
    assume(reader, path_from(*table, "emissivity"), "emissivity of the bare roof", "", emissivity);
    finish.emissivity = emissivity.likely;
  } else {
    finish.emissivity = read_required_number(reader.fields, *table, limits::emissivity);
  }
  return finish;
}

void read_fall(DesignReader& reader, const TableView& table, Roof& roof) {
  roof.fall_mm_per_m = read_number(reader.fields, table, limits::fall_mm_per_m);
  roof.fall_towards_deg = read_number(reader.fields, table, limits::with_key(limits::bearing_deg, "fall_towards_deg"));
  const bool has_fall = find_member(*table.node, "fall_mm_per_m") != nullptr;
  const bool has_bearing = find_member(*table.node, "fall_towards_deg") != nullptr;
  if (has_fall && !has_bearing) (void)has_field(reader.fields, table, "fall_towards_deg", "which way is downhill?");
  if (has_bearing && !has_fall) (void)has_field(reader.fields, table, "fall_mm_per_m", "how steep is it?");
}

void check_on_roof(DesignReader& reader, const TableView& table, std::string_view key, const Roof& roof,
                   const geometry::Outline& outline) {
  if (outline.empty() || roof.outline.empty() || geometry::is_inside(roof.outline, outline)) return;
  const std::string path = path_from(table, key);
  add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, key), path, "inside roof.outline",
            fmt::format("{} reaches outside the roof", path), "coordinates are those of roof.outline, in metres");
}

std::vector<Layer> read_deck(DesignReader& reader, const TableView& roof) {
  std::vector<Layer> deck;
  if (!has_entries(reader.fields, roof, "deck",
                   "add a table [[roof.deck]] for each layer, from the membrane down to the ceiling")) {
    return deck;
  }
  constexpr std::string_view known[] = {"material", "thickness_mm"};
  for (const TableView& table : read_counted_tables(reader, roof, "deck", limits::most_layers)) {
    check_keys(reader.fields, table, known);
    deck.push_back(read_layer(reader, table, limits::deck_thickness_mm));
  }
  return deck;
}

std::vector<Outlet> read_outlets(DesignReader& reader, const TableView& roof_table, const Roof& roof) {
  constexpr std::string_view known[] = {"name", "at", "diameter_mm", "has_grate", "pipe_diameter_mm", "rim_mm"};
  std::vector<Outlet> outlets;
  for (const TableView& table : read_counted_tables(reader, roof_table, "outlet", limits::most_obstacles)) {
    check_keys(reader.fields, table, known);
    Outlet outlet;
    outlet.name = read_text(reader.fields, table, "name").value_or("");
    const std::optional<geometry::PointM> at = read_point(reader, table, "at");
    outlet.diameter_mm = number_or_default(reader, table, limits::outlet_diameter_mm, defaults::outlet_diameter_mm);
    outlet.has_grate = read_flag(reader.fields, table, "has_grate").value_or(true);
    outlet.pipe_diameter_mm = read_number(reader.fields, table, limits::pipe_diameter_mm);
    outlet.rim_mm = read_number(reader.fields, table, limits::rim_mm).value_or(0.0);
    if (!at) continue;
    outlet.at = *at;
    if (!roof.outline.empty() && !geometry::contains(roof.outline, outlet.at)) {
      const std::string path = path_from(table, "at");
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "at"), path, "inside roof.outline",
                fmt::format("{} lies outside the roof", path), "coordinates are those of roof.outline, in metres");
    }
    outlets.push_back(std::move(outlet));
  }
  return outlets;
}

std::vector<Obstacle> read_obstacles(DesignReader& reader, const TableView& roof_table, const Roof& roof) {
  constexpr std::string_view known[] = {"name", "outline", "height_mm", "kind"};
  std::vector<Obstacle> obstacles;
  for (const TableView& table : read_counted_tables(reader, roof_table, "obstacle", limits::most_obstacles)) {
    check_keys(reader.fields, table, known);
    Obstacle obstacle;
    obstacle.name = read_required_text(reader.fields, table, "name", "add name = \"water tank\"");
    obstacle.outline = read_outline(reader, table, "outline", geometry::least_area_m2);
    obstacle.height_mm = read_number(reader.fields, table, limits::obstacle_height_mm).value_or(0.0);
    obstacle.kind =
        read_choice<ObstacleKind>(reader.fields, table, "kind", obstacle_words).value_or(ObstacleKind::other);
    check_on_roof(reader, table, "outline", roof, obstacle.outline);
    obstacles.push_back(std::move(obstacle));
  }
  return obstacles;
}

std::vector<Hollow> read_hollows(DesignReader& reader, const TableView& roof_table, const Roof& roof) {
  constexpr std::string_view known[] = {"name", "outline", "depth_mm"};
  std::vector<Hollow> hollows;
  for (const TableView& table : read_counted_tables(reader, roof_table, "hollow", limits::most_obstacles)) {
    check_keys(reader.fields, table, known);
    Hollow hollow;
    hollow.name = read_text(reader.fields, table, "name").value_or("");
    hollow.outline = read_outline(reader, table, "outline", geometry::least_area_m2);
    hollow.depth_mm = read_required_number(reader.fields, table, limits::hollow_depth_mm);
    check_on_roof(reader, table, "outline", roof, hollow.outline);
    hollows.push_back(std::move(hollow));
  }
  return hollows;
}

/// Nothing in here is required: what is missing keeps the verdict away, and the answer says so.
std::optional<AllowableLoad> read_allowable_load(DesignReader& reader, const TableView& roof) {
  const std::optional<TableView> table = read_table(reader.fields, roof, "allowable_load");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"load_kn_per_m2", "who",      "when",       "includes",     "averaging_area_m2",
                                        "spans_by_turns", "duration", "snow_apart", "people_apart", "rain_apart"};
  check_keys(reader.fields, *table, known);
  AllowableLoad load;
  load.load_kn_per_m2 = read_number(reader.fields, *table, limits::load_kn_per_m2);
  load.who = read_text(reader.fields, *table, "who").value_or("");
  const TomlNode* when = find_member(*table->node, "when");
  if (when != nullptr) {
    load.when = when->kind == TomlKind::date ? when->text : read_text(reader.fields, *table, "when").value_or("");
  }
  load.includes = read_text(reader.fields, *table, "includes").value_or("");
  load.averaging_area_m2 = read_number(reader.fields, *table, limits::averaging_area_m2);
  load.is_by_turns = read_flag(reader.fields, *table, "spans_by_turns");
  load.duration = read_choice<LoadDuration>(reader.fields, *table, "duration", duration_words);
  load.is_snow_apart = read_flag(reader.fields, *table, "snow_apart").value_or(false);
  load.are_people_apart = read_flag(reader.fields, *table, "people_apart").value_or(false);
  load.is_rain_apart = read_flag(reader.fields, *table, "rain_apart").value_or(false);
  return load;
}

}  // namespace

Layer read_layer(DesignReader& reader, const TableView& table, const NumberRule& thickness_mm) {
  Layer layer;
  if (const catalogue::Material* material = find_material_at(reader, table, "material")) {
    layer.material_name = material->name;
    layer.material = *material;
  }
  layer.thickness_mm = read_required_number(reader.fields, table, thickness_mm);
  return layer;
}

Roof read_roof(DesignReader& reader, const TableView& root) {
  Roof roof;
  if (!has_field(reader.fields, root, "roof", "add a table [roof] with an outline, and [[roof.deck]] for its layers")) {
    return roof;
  }
  const std::optional<TableView> table = read_table(reader.fields, root, "roof");
  if (!table) return roof;
  constexpr std::string_view known[] = {"outline",           "north_deg", "fall_mm_per_m",  "fall_towards_deg",
                                        "parapet_height_mm", "finish",    "deck",           "outlet",
                                        "obstacle",          "hollow",    "allowable_load", "structure",
                                        "bearing",           "actions",   "clear_strips"};
  check_keys(reader.fields, *table, known);
  roof.outline = read_outline(reader, *table, "outline", limits::least_roof_m2);
  const double area_m2 = geometry::area_m2(roof.outline);
  if (area_m2 > limits::most_roof_m2) {
    const std::string path = path_from(*table, "outline");
    add_issue(reader.fields, IssueCode::out_of_range, *find_member(*table->node, "outline"), path,
              fmt::format("at most {} m2", limits::most_roof_m2),
              fmt::format("{} encloses {:.6g} m2; at most {} m2 are read", path, area_m2, limits::most_roof_m2),
              "coordinates are in metres");
  }
  roof.north_deg = read_number(reader.fields, *table, limits::with_key(limits::bearing_deg, "north_deg")).value_or(0.0);
  read_fall(reader, *table, roof);
  roof.parapet_height_mm = read_number(reader.fields, *table, limits::parapet_height_mm);
  roof.finish = read_finish(reader, *table);
  roof.deck = read_deck(reader, *table);
  roof.outlets = read_outlets(reader, *table, roof);
  roof.obstacles = read_obstacles(reader, *table, roof);
  roof.hollows = read_hollows(reader, *table, roof);
  roof.allowable_load = read_allowable_load(reader, *table);
  roof.structure = read_structure(reader, *table);
  roof.bearing = read_bearing(reader, *table);
  roof.actions = read_actions(reader, *table);
  roof.clear_strips = read_clear_strips(reader, *table);
  return roof;
}

}  // namespace houseleek::design
