// [[container]]: bags, pots and tubs, each where it stands.
#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "catalogue/properties.hpp"
#include "design/load_limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

/// Either a diameter or two sides.
void read_size(DesignReader& reader, const TableView& table, Container& container) {
  const bool is_round = find_member(*table.node, "diameter_mm") != nullptr;
  const bool has_sides =
      find_member(*table.node, "length_mm") != nullptr || find_member(*table.node, "width_mm") != nullptr;
  if (is_round == has_sides) {
    add_issue(reader.fields, is_round ? IssueCode::inconsistent : IssueCode::missing_field, *table.node, table.path,
              "diameter_mm, or length_mm and width_mm",
              fmt::format("{} has {}", table.path, is_round ? "both a diameter and sides" : "no size"),
              "give diameter_mm, or length_mm and width_mm");
    return;
  }
  if (is_round) {
    container.diameter_mm = read_number(reader.fields, table, limits::diameter_mm);
    // The square of the same area, so that weight and middle stay what they are.
    container.length_mm = 0.5 * std::sqrt(std::numbers::pi) * container.diameter_mm.value_or(0.0);
    container.width_mm = container.length_mm;
    return;
  }
  container.length_mm = read_required_number(reader.fields, table, limits::container_length_mm);
  container.width_mm = read_required_number(reader.fields, table, limits::container_width_mm);
}

geometry::RectangleM around(geometry::PointM middle, double length_m, double width_m) {
  return {middle.x_m - 0.5 * length_m, middle.y_m - 0.5 * width_m, middle.x_m + 0.5 * length_m,
          middle.y_m + 0.5 * width_m};
}

void refuse_place(DesignReader& reader, const TableView& table, std::string_view limit, std::string_view what) {
  add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "at"), path_from(table, "at"),
            std::string(limit), fmt::format("{} {}", table.path, what), "move it by at = [x, y], its middle in metres");
}

/// The whole extent of a round one is judged as the square around it: the corners are wide of it, never short.
void check_place(DesignReader& reader, const TableView& table, const Container& container, const Roof& roof,
                 const std::vector<ModulePlace>& modules, const std::vector<Container>& before) {
  const double extent_mm = container.diameter_mm.value_or(0.0);
  const geometry::RectangleM extent =
      container.diameter_mm ? around(container.at, 0.001 * extent_mm, 0.001 * extent_mm) : container.rectangle;
  if (!roof.outline.empty() && !geometry::is_inside(roof.outline, extent)) {
    refuse_place(reader, table, "inside roof.outline", "reaches outside the roof");
  }
  for (const Obstacle& obstacle : roof.obstacles) {
    if (!geometry::is_overlapping(obstacle.outline, extent)) continue;
    refuse_place(reader, table, "off obstacles", fmt::format("stands on the obstacle \"{}\"", obstacle.name));
    break;
  }
  for (const Outlet& outlet : roof.outlets) {
    const double side_m = 0.001 * outlet.diameter_mm;
    if (!geometry::is_overlapping(around(outlet.at, side_m, side_m), extent)) continue;
    refuse_place(reader, table, "off outlets", "stands on an outlet");
    break;
  }
  for (const ModulePlace& module : modules) {
    if (!geometry::is_overlapping(module.rectangle, extent)) continue;
    refuse_place(reader, table, "apart from modules", fmt::format("overlaps modules of patch[{}]", module.patch));
    break;
  }
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (!geometry::is_overlapping(before[i].rectangle, container.rectangle)) continue;
    refuse_place(reader, table, "apart from other containers", fmt::format("overlaps container[{}]", i));
    break;
  }
}

}  // namespace

std::optional<Feet> read_feet(DesignReader& reader, const TableView& owner) {
  const std::optional<TableView> table = read_table(reader.fields, owner, "feet");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"count", "area_mm2"};
  check_keys(reader.fields, *table, known);
  Feet feet;
  if (has_field(reader.fields, *table, "count", "add count = 4: how many feet")) {
    feet.count = static_cast<int>(read_integer(reader.fields, *table, limits::feet_count).value_or(1));
  }
  feet.area_mm2 = read_required_number(reader.fields, *table, limits::foot_area_mm2);
  return feet;
}

std::vector<Container> read_containers(DesignReader& reader, const TableView& root, const Roof& roof,
                                       const std::vector<ModulePlace>& modules) {
  constexpr std::string_view known[] = {"name",    "at",       "diameter_mm", "length_mm", "width_mm", "medium",
                                        "fill_mm", "empty_kg", "plant_kg",    "feet",      "plant"};
  std::vector<Container> containers;
  for (const TableView& table : read_counted_tables(reader, root, "container", limits::most_containers)) {
    check_keys(reader.fields, table, known);
    Container container;
    container.name = read_required_text(reader.fields, table, "name", "add name = \"lemon tree\"");
    const std::optional<geometry::PointM> at = read_point(reader, table, "at");
    read_size(reader, table, container);
    if (const catalogue::Material* medium = find_material_at(reader, table, "medium")) {
      container.fill.material_name = medium->name;
      container.fill.material = *medium;
      if (!catalogue::holds_water(*medium)) {
        const std::string path = path_from(table, "medium");
        add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "medium"), path,
                  "a material that holds water",
                  fmt::format("{} is \"{}\", which holds no water; a medium must", path, medium->name), "");
      }
    }
    container.fill.thickness_mm = read_required_number(reader.fields, table, limits::fill_mm);
    container.empty_kg = read_required_number(reader.fields, table, limits::empty_kg);
    container.plant_kg = read_required_number(reader.fields, table, limits::plant_kg);
    container.feet = read_feet(reader, table);
    container.plant = read_container_plant(reader, table);
    if (at) {
      container.at = *at;
      container.rectangle = around(*at, 0.001 * container.length_mm, 0.001 * container.width_mm);
      if (container.length_mm > 0.0) check_place(reader, table, container, roof, modules, containers);
    }
    containers.push_back(std::move(container));
  }
  return containers;
}

}  // namespace houseleek::design
