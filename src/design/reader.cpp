// The state of one reading of a design: fields, catalogue, own materials, and what had to be assumed.
#include "design/reader.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "catalogue/read_figure.hpp"
#include "design/limits.hpp"

namespace houseleek::design {

double number_or_default(DesignReader& reader, const TableView& table, const NumberRule& rule,
                         const Default& fallback) {
  if (find_member(*table.node, rule.key) != nullptr) {
    // Wrong: the issue stands, and the default only carries the reading on.
    return read_number(reader.fields, table, rule).value_or(fallback.likely);
  }
  assume(reader, path_from(table, rule.key), rule.unit, fallback);
  return fallback.likely;
}

double figure_from(DesignReader& reader, const TableView& table, const NumberRule& rule, const FigureWords& words) {
  const std::optional<catalogue::Spread> figure =
      catalogue::read_spread(reader.fields, table, rule, catalogue::FigureContext{});
  if (!figure) return words.otherwise;
  assume(reader, path_from(table, rule.key), words.words, rule.unit, *figure);
  return figure->likely;
}

double figure_or_default(DesignReader& reader, const TableView& table, const NumberRule& rule,
                         const Default& fallback) {
  const TomlNode* node = find_member(*table.node, rule.key);
  if (node == nullptr || node->kind != TomlKind::table) return number_or_default(reader, table, rule, fallback);
  return figure_from(reader, table, rule, {fallback.words, fallback.likely});
}

void assume(DesignReader& reader, std::string path, std::string_view unit, const Default& fallback) {
  reader.assumed.push_back({.path = std::move(path),
                            .name = std::string(fallback.words),
                            .unit = std::string(unit == "share" ? "" : unit),
                            .low = fallback.low,
                            .likely = fallback.likely,
                            .high = fallback.high,
                            .source = std::string(fallback.source),
                            .certainty = fallback.certainty,
                            .from = AssumedFrom::default_value});
}

void assume(DesignReader& reader, std::string path, std::string_view words, std::string_view unit,
            const catalogue::Spread& figure) {
  if (figure.certainty == catalogue::Certainty::own_figure) return;
  const bool is_measured = figure.certainty == catalogue::Certainty::measured;
  reader.assumed.push_back({.path = std::move(path),
                            .name = std::string(words),
                            .unit = std::string(unit == "share" ? "" : unit),
                            .low = figure.low,
                            .likely = figure.likely,
                            .high = figure.high,
                            .source = figure.source,
                            .certainty = figure.certainty,
                            .from = is_measured ? AssumedFrom::measured : AssumedFrom::catalogue});
}

const catalogue::Material* find_material_named(const DesignReader& reader, std::string_view name) {
  const std::string folded = folded_name(name);
  for (const catalogue::Material& material : reader.own_materials) {
    if (folded_name(material.name) == folded) return &material;
  }
  return catalogue::find_material(*reader.catalogue, name);
}

const catalogue::Material* find_material_at(DesignReader& reader, const TableView& table, std::string_view key) {
  const std::string name = read_required_text(reader.fields, table, key,
                                              fmt::format("add {} = \"a material of the catalogue or your own\"", key));
  if (folded_name(name).empty()) return nullptr;
  if (const catalogue::Material* material = find_material_named(reader, name)) return material;
  std::vector<std::string> known;
  for (const catalogue::Material& material : reader.own_materials) known.push_back(material.name);
  for (const catalogue::Material& material : reader.catalogue->materials) known.push_back(material.name);
  add_unknown_name(reader.fields, *find_member(*table.node, key), path_from(table, key), "material", known);
  Issue& issue = reader.fields.issues.back();
  if (issue.hint.empty()) issue.hint = "see catalogue/materials.toml, or describe your own in a table [[material]]";
  return nullptr;
}

namespace {

std::optional<geometry::PointM> point_from(DesignReader& reader, const TomlNode& node, const std::string& path) {
  if (node.kind != TomlKind::array || node.items.size() != 2) {
    add_issue(reader.fields, IssueCode::wrong_type, node, path, "[x, y]",
              fmt::format("{} is {}; it must be a point [x, y]", path, written_text(reader.fields, node)),
              "two numbers in metres, x to the right and y upwards on the plan");
    return std::nullopt;
  }
  const std::optional<double> x_m = checked_number(reader.fields, node.items[0], path + "[0]", limits::coordinate_m);
  const std::optional<double> y_m = checked_number(reader.fields, node.items[1], path + "[1]", limits::coordinate_m);
  if (!x_m || !y_m) return std::nullopt;
  return geometry::PointM{*x_m, *y_m};
}

std::string text_from_side(const geometry::Outline& outline, int side) {
  const geometry::PointM& a = outline[static_cast<std::size_t>(side)];
  const geometry::PointM& b = outline[(static_cast<std::size_t>(side) + 1) % outline.size()];
  return fmt::format("({}, {}) to ({}, {})", a.x_m, a.y_m, b.x_m, b.y_m);
}

}  // namespace

geometry::Outline read_outline(DesignReader& reader, const TableView& table, std::string_view key, double least_m2) {
  const std::string path = path_from(table, key);
  if (!has_field(reader.fields, table, key,
                 fmt::format("add {} = [[0, 0], [8, 0], [8, 8], [0, 8]]: corners in metres, in order", key))) {
    return {};
  }
  const TomlNode& node = *find_member(*table.node, key);
  if (node.kind != TomlKind::array || node.items.size() < 3) {
    add_issue(reader.fields, IssueCode::wrong_type, node, path, "a list of at least 3 points",
              fmt::format("{} must be a list of at least 3 points", path), "[[0, 0], [8, 0], [8, 8], [0, 8]]");
    return {};
  }
  if (node.items.size() > limits::most_corners) {
    add_issue(reader.fields, IssueCode::out_of_range, node, path, fmt::format("{} points", limits::most_corners),
              fmt::format("{} has {} points; at most {} are read", path, node.items.size(), limits::most_corners), "");
    return {};
  }
  geometry::Outline outline;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    if (const auto point = point_from(reader, node.items[i], path_from(table, key, i))) outline.push_back(*point);
  }
  if (outline.size() != node.items.size()) return {};
  if (const auto crossing = geometry::find_crossing(outline)) {
    const TomlNode& at = node.items[static_cast<std::size_t>(crossing->second)];
    add_issue(reader.fields, IssueCode::inconsistent, at, path, "sides that do not cross or touch",
              fmt::format("{} crosses or touches itself: side {} meets side {}", path,
                          text_from_side(outline, crossing->first), text_from_side(outline, crossing->second)),
              "give the corners in the order you would walk round them, the first one not repeated");
    return {};
  }
  const double area_m2 = geometry::area_m2(outline);
  if (area_m2 < least_m2) {
    add_issue(reader.fields, IssueCode::out_of_range, node, path, fmt::format("at least {} m2", least_m2),
              fmt::format("{} encloses {:.4g} m2; it must be at least {} m2", path, area_m2, least_m2),
              "coordinates are in metres");
    return {};
  }
  return outline;
}

std::optional<geometry::PointM> read_point(DesignReader& reader, const TableView& table, std::string_view key) {
  if (!has_field(reader.fields, table, key, fmt::format("add {} = [x, y] in metres on the plan", key))) {
    return std::nullopt;
  }
  return point_from(reader, *find_member(*table.node, key), path_from(table, key));
}

std::vector<geometry::PointM> read_points(DesignReader& reader, const TableView& table, std::string_view key,
                                          std::size_t most) {
  const std::string path = path_from(table, key);
  const TomlNode* node = find_member(*table.node, key);
  if (node == nullptr) return {};
  if (node->kind != TomlKind::array || node->items.empty()) {
    add_issue(reader.fields, IssueCode::wrong_type, *node, path, "a list of at least 1 point",
              fmt::format("{} must be a list of points", path), "[[0.6, 0.6], [1.7, 0.6]]");
    return {};
  }
  if (node->items.size() > most) {
    add_issue(reader.fields, IssueCode::out_of_range, *node, path, fmt::format("{} points", most),
              fmt::format("{} has {} points; at most {} are read", path, node->items.size(), most), "");
    return {};
  }
  std::vector<geometry::PointM> points;
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    if (const auto point = point_from(reader, node->items[i], path_from(table, key, i))) points.push_back(*point);
  }
  if (points.size() != node->items.size()) return {};
  return points;
}

std::vector<TableView> read_counted_tables(DesignReader& reader, const TableView& table, std::string_view key,
                                           std::size_t most) {
  std::vector<TableView> tables = read_tables(reader.fields, table, key);
  if (tables.size() <= most) return tables;
  const std::string path = path_from(table, key);
  add_issue(reader.fields, IssueCode::out_of_range, *tables[most].node, path, fmt::format("{} entries", most),
            fmt::format("{} has {} entries; at most {} are read", path, tables.size(), most), "");
  return {};
}

void check_unique_name(DesignReader& reader, const TableView& table, const std::vector<std::string>& names_before,
                       const std::string& name) {
  for (const std::string& before : names_before) {
    if (name.empty() || folded_name(before) != folded_name(name)) continue;
    const std::string path = path_from(table, "name");
    add_issue(
        reader.fields, IssueCode::inconsistent, *find_member(*table.node, "name"), path, "a name of its own",
        fmt::format("{} is there twice: {}", path, written_text(reader.fields, *find_member(*table.node, "name"))),
        "names tell parts apart in answers; change one");
    return;
  }
}

std::optional<std::int64_t> read_day(DesignReader& reader, const TableView& table, std::string_view key) {
  const TomlNode* node = find_member(*table.node, key);
  if (node == nullptr) return std::nullopt;
  const bool has_text = node->kind == TomlKind::date || node->kind == TomlKind::text;
  const std::optional<std::int64_t> day = has_text ? day_from_text(node->text) : std::nullopt;
  if (!day) {
    const std::string path = path_from(table, key);
    add_issue(reader.fields, has_text ? IssueCode::out_of_range : IssueCode::wrong_type, *node, path,
              "a date of the years 1900 to 2199",
              fmt::format("{} is {}; it must be a date", path, written_text(reader.fields, *node)),
              fmt::format("write {} = 2026-06-01", key));
  }
  return day;
}

}  // namespace houseleek::design
