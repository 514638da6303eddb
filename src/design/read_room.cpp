// [[room]] and [[partition]]: the rooms right under the roof.
#include <fmt/format.h>

#include <cmath>

#include "base/nearest_name.hpp"
#include "design/limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

constexpr std::pair<std::string_view, ThermalMass> mass_words[] = {{"very_light", ThermalMass::very_light},
                                                                   {"light", ThermalMass::light},
                                                                   {"medium", ThermalMass::medium},
                                                                   {"heavy", ThermalMass::heavy},
                                                                   {"very_heavy", ThermalMass::very_heavy}};

constexpr NumberRule facing_deg = limits::with_key(limits::bearing_deg, "facing_deg");

Window read_window(DesignReader& reader, const TableView& table) {
  constexpr std::string_view known[] = {"area_m2", "u_value_w_per_m2_k", "g_value", "facing_deg", "shading_frac"};
  check_keys(reader.fields, table, known);
  Window window;
  window.area_m2 = read_required_number(reader.fields, table, limits::area_m2);
  window.u_value_w_per_m2_k = number_or_default(reader, table, limits::u_value_w_per_m2_k, defaults::window_u_value);
  window.g_value = number_or_default(reader, table, limits::g_value, defaults::window_g_value);
  window.facing_deg = read_required_number(reader.fields, table, facing_deg);
  window.shading_frac = number_or_default(reader, table, limits::shading_frac, defaults::window_shading);
  return window;
}

double glazed_m2(const std::vector<Window>& windows, double facing) {
  double sum_m2 = 0.0;
  for (const Window& window : windows) {
    // 0 and 360 are the same way.
    if (std::fmod(window.facing_deg, 360.0) == std::fmod(facing, 360.0)) sum_m2 += window.area_m2;
  }
  return sum_m2;
}

/// Either the area without windows, or a length: then the room's height makes the area, less the windows on that side.
Wall read_wall(DesignReader& reader, const TableView& table, const Room& room) {
  constexpr std::string_view known[] = {"length_m", "area_m2", "u_value_w_per_m2_k", "facing_deg", "solar_absorptance"};
  check_keys(reader.fields, table, known);
  Wall wall;
  wall.facing_deg = read_required_number(reader.fields, table, facing_deg);
  wall.u_value_w_per_m2_k = number_or_default(reader, table, limits::u_value_w_per_m2_k, defaults::wall_u_value);
  wall.solar_absorptance = number_or_default(reader, table, limits::solar_absorptance, defaults::wall_absorptance);
  const std::optional<double> length_m = read_number(reader.fields, table, limits::length_m);
  const std::optional<double> area_m2 = read_number(reader.fields, table, limits::area_m2);
  const bool has_length = find_member(*table.node, "length_m") != nullptr;
  const bool has_area = find_member(*table.node, "area_m2") != nullptr;
  if (has_length == has_area) {
    add_issue(reader.fields, has_length ? IssueCode::inconsistent : IssueCode::missing_field, *table.node, table.path,
              "length_m or area_m2",
              fmt::format("{} has {}; it must have one of them", table.path,
                          has_length ? "both length_m and area_m2" : "neither length_m nor area_m2"),
              "area_m2 is without windows; from length_m the windows on that side are taken off");
    return wall;
  }
  if (area_m2) wall.area_m2 = *area_m2;
  if (length_m) {
    const double windows_m2 = glazed_m2(room.windows, wall.facing_deg);
    wall.area_m2 = *length_m * room.height_m - windows_m2;
    if (wall.area_m2 < 0.0) {
      const std::string path = path_from(table, "length_m");
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "length_m"), path,
                fmt::format("at least {:.4g} m", windows_m2 / room.height_m),
                fmt::format("{} gives {:.4g} m2 of wall, but the windows on that side have {:.4g} m2", path,
                            *length_m * room.height_m, windows_m2),
                "");
    }
  }
  return wall;
}

/// A whole room's default, or hours within which the windows may be open.
WindowRule read_window_rule(DesignReader& reader, const TableView& room) {
  const TomlNode nothing;
  const bool is_given = find_member(*room.node, "window_rule") != nullptr;
  std::optional<TableView> table = read_table(reader.fields, room, "window_rule");
  if (is_given && !table) return {};
  if (!table) table = TableView{&nothing, path_from(room, "window_rule")};
  constexpr std::string_view known[] = {"open_above_c", "opening_per_h", "from_hour", "to_hour",
                                        "only_when_outside_cooler"};
  check_keys(reader.fields, *table, known);
  WindowRule rule;
  rule.open_above_c = number_or_default(reader, *table, limits::open_above_c, defaults::open_above_c);
  rule.opening_per_h = number_or_default(reader, *table, limits::opening_per_h, defaults::opening_per_h);
  rule.from_hour = read_number(reader.fields, *table, limits::with_key(limits::hour, "from_hour")).value_or(0.0);
  rule.to_hour = read_number(reader.fields, *table, limits::with_key(limits::hour, "to_hour")).value_or(24.0);
  rule.only_when_outside_cooler = read_flag(reader.fields, *table, "only_when_outside_cooler").value_or(true);
  return rule;
}

/// Watts for the whole room, or watts a square metre.
double read_gains(DesignReader& reader, const TableView& table, std::string_view watts_key,
                  std::string_view density_key, double floor_m2, const Default& fallback) {
  const bool has_watts = find_member(*table.node, watts_key) != nullptr;
  if (has_watts && find_member(*table.node, density_key) != nullptr) {
    const std::string path = path_from(table, watts_key);
    add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, watts_key), path,
              fmt::format("one of {} and {}", watts_key, density_key),
              fmt::format("{} and {} are both there; give one", path, density_key), "");
    return 0.0;
  }
  if (has_watts) {
    return read_number(reader.fields, table, limits::with_key(limits::gains_w, watts_key)).value_or(0.0);
  }
  return floor_m2 * number_or_default(reader, table, limits::with_key(limits::gains_w_per_m2, density_key), fallback);
}

std::optional<Fan> read_fan(DesignReader& reader, const TableView& room) {
  const std::optional<TableView> table = read_table(reader.fields, room, "fan");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"air_speed_m_per_s", "power_w"};
  check_keys(reader.fields, *table, known);
  Fan fan;
  fan.air_speed_m_per_s = read_required_number(reader.fields, *table, limits::fan_speed_m_per_s);
  fan.power_w = number_or_default(reader, *table, limits::fan_power_w, defaults::fan_power);
  return fan;
}

ThermalMass read_mass(DesignReader& reader, const TableView& table) {
  if (find_member(*table.node, "thermal_mass") == nullptr) {
    assume(reader, path_from(table, "thermal_mass"), "kJ/(m2 K)", defaults::thermal_mass_kj_per_m2_k);
    return ThermalMass::medium;
  }
  return read_choice<ThermalMass>(reader.fields, table, "thermal_mass", mass_words).value_or(ThermalMass::medium);
}

void check_set_points(DesignReader& reader, const TableView& table, const Room& room) {
  if (room.heat_to_c < room.cool_to_c) return;
  const TomlNode* node = find_member(*table.node, "heat_to_c");
  if (node == nullptr) node = find_member(*table.node, "cool_to_c");
  if (node == nullptr) return;
  add_issue(
      reader.fields, IssueCode::inconsistent, *node, path_from(table, "heat_to_c"),
      fmt::format("below cool_to_c ({})", room.cool_to_c),
      fmt::format("{} ({}) is not below cool_to_c ({})", path_from(table, "heat_to_c"), room.heat_to_c, room.cool_to_c),
      "");
}

Room read_room(DesignReader& reader, const TableView& table) {
  constexpr std::string_view known[] = {"name",        "outline",       "height_m",           "thermal_mass",
                                        "wall",        "window",        "infiltration_per_h", "window_rule",
                                        "gains_day_w", "gains_night_w", "gains_day_w_per_m2", "gains_night_w_per_m2",
                                        "fan",         "heat_to_c",     "cool_to_c",          "is_bedroom"};
  check_keys(reader.fields, table, known);
  Room room;
  room.name = read_required_text(reader.fields, table, "name", "add name = \"kitchen\"");
  room.outline = read_outline(reader, table, "outline", limits::least_room_m2);
  room.height_m = number_or_default(reader, table, limits::room_height_m, defaults::room_height_m);
  room.thermal_mass = read_mass(reader, table);
  for (const TableView& window : read_counted_tables(reader, table, "window", limits::most_walls)) {
    room.windows.push_back(read_window(reader, window));
  }
  for (const TableView& wall : read_counted_tables(reader, table, "wall", limits::most_walls)) {
    room.walls.push_back(read_wall(reader, wall, room));
  }
  room.infiltration_per_h = number_or_default(reader, table, limits::infiltration_per_h, defaults::infiltration);
  room.window_rule = read_window_rule(reader, table);
  const double floor_m2 = geometry::area_m2(room.outline);
  room.gains_day_w = read_gains(reader, table, "gains_day_w", "gains_day_w_per_m2", floor_m2, defaults::gains_day);
  room.gains_night_w =
      read_gains(reader, table, "gains_night_w", "gains_night_w_per_m2", floor_m2, defaults::gains_night);
  room.fan = read_fan(reader, table);
  room.heat_to_c = number_or_default(reader, table, limits::heat_to_c, defaults::heat_to);
  room.cool_to_c = number_or_default(reader, table, limits::cool_to_c, defaults::cool_to);
  check_set_points(reader, table, room);
  room.is_bedroom = read_flag(reader.fields, table, "is_bedroom").value_or(false);
  return room;
}

int find_room(DesignReader& reader, const TomlNode& node, const std::string& path, const std::vector<Room>& rooms) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < rooms.size(); ++i) {
    if (node.kind == TomlKind::text && folded_name(rooms[i].name) == folded_name(node.text)) return static_cast<int>(i);
    names.push_back(rooms[i].name);
  }
  add_unknown_name(reader.fields, node, path, "room", names);
  return -1;
}

}  // namespace

std::vector<Room> read_rooms(DesignReader& reader, const TableView& root, const Roof& roof) {
  std::vector<Room> rooms;
  if (!has_entries(reader.fields, root, "room", "add a table [[room]] for each room under the roof")) return rooms;
  std::vector<std::string> names;
  for (const TableView& table : read_counted_tables(reader, root, "room", limits::most_rooms)) {
    Room room = read_room(reader, table);
    check_unique_name(reader, table, names, room.name);
    names.push_back(room.name);
    const std::string path = path_from(table, "outline");
    if (!room.outline.empty() && !roof.outline.empty() && !geometry::is_inside(roof.outline, room.outline)) {
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "outline"), path,
                "inside roof.outline", fmt::format("{} reaches outside the roof", path),
                "give the part of the room under the roof, in the coordinates of roof.outline");
    }
    for (const Room& before : rooms) {
      if (room.outline.empty() || before.outline.empty() || !geometry::is_overlapping(before.outline, room.outline)) {
        continue;
      }
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "outline"), path,
                "apart from other rooms", fmt::format("{} overlaps the room \"{}\"", path, before.name), "");
    }
    rooms.push_back(std::move(room));
  }
  return rooms;
}

std::vector<Partition> read_partitions(DesignReader& reader, const TableView& root, const std::vector<Room>& rooms) {
  constexpr std::string_view known[] = {"between", "area_m2", "u_value_w_per_m2_k"};
  std::vector<Partition> partitions;
  for (const TableView& table : read_counted_tables(reader, root, "partition", limits::most_partitions)) {
    check_keys(reader.fields, table, known);
    Partition partition;
    partition.area_m2 = read_required_number(reader.fields, table, limits::area_m2);
    partition.u_value_w_per_m2_k =
        number_or_default(reader, table, limits::u_value_w_per_m2_k, defaults::partition_u_value);
    if (!has_field(reader.fields, table, "between", "add between = [\"one room\", \"the other\"]")) continue;
    const TomlNode& between = *find_member(*table.node, "between");
    const std::string path = path_from(table, "between");
    if (between.kind != TomlKind::array || between.items.size() != 2) {
      add_issue(reader.fields, IssueCode::wrong_type, between, path, "two names of rooms",
                fmt::format("{} must be a list of two names of rooms", path), "between = [\"kitchen\", \"hall\"]");
      continue;
    }
    partition.room_a = find_room(reader, between.items[0], path + "[0]", rooms);
    partition.room_b = find_room(reader, between.items[1], path + "[1]", rooms);
    if (partition.room_a >= 0 && partition.room_a == partition.room_b) {
      add_issue(reader.fields, IssueCode::inconsistent, between.items[1], path + "[1]", "another room",
                fmt::format("{} names the same room twice", path), "");
    }
    partitions.push_back(partition);
  }
  return partitions;
}

}  // namespace houseleek::design
