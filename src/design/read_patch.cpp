// [[patch]]: blocks of modules, and where each module comes to lie.
#include <fmt/format.h>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "design/limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

int find_recipe(DesignReader& reader, const TableView& table, const std::vector<Recipe>& recipes) {
  const std::string name = read_required_text(reader.fields, table, "recipe", "add recipe = \"the name of a recipe\"");
  if (name.empty()) return -1;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    if (folded_name(recipes[i].name) == folded_name(name)) return static_cast<int>(i);
    names.push_back(recipes[i].name);
  }
  add_unknown_name(reader.fields, *find_member(*table.node, "recipe"), path_from(table, "recipe"), "recipe", names);
  return -1;
}

int read_count(DesignReader& reader, const TableView& table, const NumberRule& rule) {
  const std::string hint = fmt::format("add {} = a whole number {}", rule.key, text_from_rule(rule));
  if (!has_field(reader.fields, table, rule.key, hint)) return 0;
  return static_cast<int>(read_integer(reader.fields, table, rule).value_or(0));
}

/// The day on which a patch was laid; absent: with the first one.
std::optional<std::int64_t> read_built(DesignReader& reader, const TableView& table) {
  const TomlNode* node = find_member(*table.node, "built");
  if (node == nullptr) return std::nullopt;
  const std::optional<std::int64_t> day = node->kind == TomlKind::date ? day_from_text(node->text) : std::nullopt;
  if (day) return day;
  add_issue(reader.fields, IssueCode::wrong_type, *node, path_from(table, "built"), "a date",
            fmt::format("{} is {}; it must be a date", path_from(table, "built"), written_text(reader.fields, *node)),
            "write built = 2026-04-01, without quotes");
  return std::nullopt;
}

/// What of a patch went wrong: how many modules, and the first of them.
struct Mishap {
  int n_modules = 0;
  int column = 0;
  int row = 0;
  std::string what;  // of the first
};

void note(Mishap& mishap, const ModulePlace& place, std::string what) {
  if (mishap.n_modules == 0) {
    mishap.column = place.column;
    mishap.row = place.row;
    mishap.what = std::move(what);
  }
  ++mishap.n_modules;
}

void report(DesignReader& reader, const TableView& table, const Mishap& mishap, int n_all, std::string_view limit) {
  if (mishap.n_modules == 0) return;
  if (const TomlNode* places = find_member(*table.node, "at")) {
    const auto first = static_cast<std::size_t>(mishap.column);
    add_issue(reader.fields, IssueCode::inconsistent, places->items[first], path_from(table, "at", first),
              std::string(limit),
              fmt::format("{}: {} of {} modules {}; the first is the one at number {} of at", table.path,
                          mishap.n_modules, n_all, mishap.what, mishap.column + 1),
              "at gives lower left corners, in metres");
    return;
  }
  const TomlNode* origin = find_member(*table.node, "origin");
  add_issue(reader.fields, IssueCode::inconsistent, origin == nullptr ? *table.node : *origin, table.path,
            std::string(limit),
            fmt::format("{}: {} of {} modules {}; the first is in column {}, row {}", table.path, mishap.n_modules,
                        n_all, mishap.what, mishap.column + 1, mishap.row + 1),
            "move the patch by its origin (lower left corner, in metres), or lay fewer columns or rows");
}

geometry::RectangleM rectangle_of(const Patch& patch, const Recipe& recipe, int column, int row) {
  // Modules placed one by one stand in one row.
  const double width_m = 0.001 * (patch.is_turned ? recipe.width_mm : recipe.length_mm);
  const double height_m = 0.001 * (patch.is_turned ? recipe.length_mm : recipe.width_mm);
  if (!patch.places.empty()) {
    const geometry::PointM& corner = patch.places[static_cast<std::size_t>(column)];
    return {corner.x_m, corner.y_m, corner.x_m + width_m, corner.y_m + height_m};
  }
  const double left_m = patch.origin.x_m + column * (width_m + 0.001 * patch.spacing_mm);
  const double bottom_m = patch.origin.y_m + row * (height_m + 0.001 * patch.spacing_mm);
  return {left_m, bottom_m, left_m + width_m, bottom_m + height_m};
}

/// The square around an outlet that nothing may cover.
geometry::RectangleM square_around(const Outlet& outlet) {
  const double reach_m = 0.0005 * outlet.diameter_mm;
  return {outlet.at.x_m - reach_m, outlet.at.y_m - reach_m, outlet.at.x_m + reach_m, outlet.at.y_m + reach_m};
}

std::string named(std::string_view what, std::string_view name) {
  return name.empty() ? std::string(what) : fmt::format("{} \"{}\"", what, name);
}

struct PatchMishaps {
  Mishap off_roof;
  Mishap on_obstacle;
  Mishap on_outlet;
  Mishap on_module;
};

void check_place(const ModulePlace& place, const Roof& roof, const std::vector<ModulePlace>& before,
                 PatchMishaps& mishaps) {
  if (!roof.outline.empty() && !geometry::is_inside(roof.outline, place.rectangle)) {
    note(mishaps.off_roof, place, "reach outside the roof");
  }
  for (const Obstacle& obstacle : roof.obstacles) {
    if (geometry::is_overlapping(obstacle.outline, place.rectangle)) {
      note(mishaps.on_obstacle, place, "lie on the " + named("obstacle", obstacle.name));
      break;
    }
  }
  for (const Outlet& outlet : roof.outlets) {
    if (geometry::is_overlapping(square_around(outlet), place.rectangle)) {
      note(mishaps.on_outlet, place, "lie on the " + named("outlet", outlet.name));
      break;
    }
  }
  for (const ModulePlace& other : before) {
    if (geometry::is_overlapping(other.rectangle, place.rectangle)) {
      note(mishaps.on_module, place, fmt::format("overlap modules of patch[{}]", other.patch));
      break;
    }
  }
}

/// A block of columns and rows, or places one by one; never both.
void read_where(DesignReader& reader, const TableView& table, Patch& patch) {
  if (find_member(*table.node, "at") == nullptr) {
    patch.columns = read_count(reader, table, limits::columns);
    patch.rows = read_count(reader, table, limits::rows);
    patch.origin = read_point(reader, table, "origin").value_or(geometry::PointM{});
    patch.spacing_mm = read_number(reader.fields, table, limits::spacing_mm).value_or(0.0);
    return;
  }
  patch.places = read_points(reader, table, "at", limits::most_modules);
  for (const std::string_view key : {"columns", "rows", "origin", "spacing_mm"}) {
    const TomlNode* node = find_member(*table.node, key);
    if (node == nullptr) continue;
    add_issue(reader.fields, IssueCode::inconsistent, *node, path_from(table, key), "at alone",
              fmt::format("{} stands beside at, which already says where every module lies", path_from(table, key)),
              "keep at, or columns, rows and origin; a second [[patch]] takes the other modules");
  }
}

}  // namespace

std::vector<Patch> read_patches(DesignReader& reader, const TableView& root, const std::vector<Recipe>& recipes) {
  constexpr std::string_view known[] = {"recipe", "columns", "rows",   "origin", "spacing_mm",
                                        "at",     "placed",  "turned", "built"};
  std::vector<Patch> patches;
  for (const TableView& table : read_counted_tables(reader, root, "patch", limits::most_patches)) {
    check_keys(reader.fields, table, known);
    Patch patch;
    patch.recipe = find_recipe(reader, table, recipes);
    read_where(reader, table, patch);
    const Placed usual = patch.recipe < 0 ? Placed::flat : recipes[static_cast<std::size_t>(patch.recipe)].placed;
    patch.placed = read_choice<Placed>(reader.fields, table, "placed", placed_words).value_or(usual);
    patch.built_day = read_built(reader, table);
    patch.is_turned = read_flag(reader.fields, table, "turned").value_or(false);
    if (patch.recipe >= 0 && patch.placed == Placed::raised &&
        recipes[static_cast<std::size_t>(patch.recipe)].spacer.height_mm == 0.0) {
      const TomlNode* node = find_member(*table.node, "placed");
      add_issue(reader.fields, IssueCode::inconsistent, node == nullptr ? *table.node : *node,
                path_from(table, "placed"), "a recipe with spacers",
                fmt::format("{} is \"raised\", but the recipe has no spacer", path_from(table, "placed")),
                "add spacer = { height_mm = 20 } to the recipe");
    }
    patches.push_back(patch);
  }
  return patches;
}

std::vector<ModulePlace> lay_out_modules(DesignReader& reader, const TableView& root, const Roof& roof,
                                         const std::vector<Recipe>& recipes, const std::vector<Patch>& patches) {
  std::vector<ModulePlace> modules;
  if (patches.empty()) return modules;
  const TomlNode& list = *find_member(*root.node, "patch");
  for (std::size_t i = 0; i < patches.size(); ++i) {
    const Patch& patch = patches[i];
    const TableView table{&list.items[i], path_from(root, "patch", i)};
    const std::size_t n_all = module_count(patch);
    if (patch.recipe < 0 || n_all == 0) continue;
    if (modules.size() + n_all > limits::most_modules) {
      add_issue(reader.fields, IssueCode::out_of_range, *table.node, table.path,
                fmt::format("{} modules", limits::most_modules),
                fmt::format("{} brings the roof to {} modules; at most {} are read", table.path, modules.size() + n_all,
                            limits::most_modules),
                "");
      return modules;
    }
    PatchMishaps mishaps;
    const bool is_one_by_one = !patch.places.empty();
    const int n_columns = is_one_by_one ? static_cast<int>(n_all) : patch.columns;
    for (int row = 0; row < (is_one_by_one ? 1 : patch.rows); ++row) {
      for (int column = 0; column < n_columns; ++column) {
        const Recipe& recipe = recipes[static_cast<std::size_t>(patch.recipe)];
        const ModulePlace place{static_cast<int>(i), column, row, rectangle_of(patch, recipe, column, row)};
        check_place(place, roof, modules, mishaps);
        modules.push_back(place);
      }
    }
    report(reader, table, mishaps.off_roof, static_cast<int>(n_all), "inside roof.outline");
    report(reader, table, mishaps.on_obstacle, static_cast<int>(n_all), "off obstacles");
    report(reader, table, mishaps.on_outlet, static_cast<int>(n_all), "off outlets");
    report(reader, table, mishaps.on_module, static_cast<int>(n_all), "apart from other modules");
  }
  return modules;
}

}  // namespace houseleek::design
