// [drainage] and [design_rain]: levels, edges, overflows, and how hard it can rain.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "design/drainage_limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

void add_off_roof(DesignReader& reader, const TableView& table, std::string_view key) {
  const std::string path = path_from(table, key);
  add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, key), path, "inside roof.outline",
            fmt::format("{} lies outside the roof", path), "coordinates are those of roof.outline, in metres");
}

/// A point on the roof or on its edge; nothing after an issue.
std::optional<geometry::PointM> read_point_on_roof(DesignReader& reader, const TableView& table, std::string_view key,
                                                   const Roof& roof) {
  const std::optional<geometry::PointM> at = read_point(reader, table, key);
  if (!at || roof.outline.empty()) return at;
  if (geometry::contains(roof.outline, *at)) return at;
  add_off_roof(reader, table, key);
  return std::nullopt;
}

double distance_to_side_m(const geometry::PointM& a, const geometry::PointM& b, const geometry::PointM& p) {
  const double dx = b.x_m - a.x_m;
  const double dy = b.y_m - a.y_m;
  const double along = std::clamp(((p.x_m - a.x_m) * dx + (p.y_m - a.y_m) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
  return std::hypot(p.x_m - a.x_m - along * dx, p.y_m - a.y_m - along * dy);
}

bool is_on_one_side(const geometry::Outline& outline, const geometry::PointM& from, const geometry::PointM& to) {
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const geometry::PointM& a = outline[i];
    const geometry::PointM& b = outline[(i + 1) % outline.size()];
    if (distance_to_side_m(a, b, from) <= limits::edge_reach_m &&
        distance_to_side_m(a, b, to) <= limits::edge_reach_m) {
      return true;
    }
  }
  return false;
}

std::vector<SpotLevel> read_levels(DesignReader& reader, const TableView& drainage, const Roof& roof) {
  constexpr std::string_view known[] = {"at", "level_mm"};
  std::vector<SpotLevel> levels;
  for (const TableView& table : read_counted_tables(reader, drainage, "level", limits::most_levels)) {
    check_keys(reader.fields, table, known);
    const std::optional<geometry::PointM> at = read_point_on_roof(reader, table, "at", roof);
    const double level_mm = read_required_number(reader.fields, table, limits::level_mm);
    if (!at) continue;
    const auto is_here = [&at](const SpotLevel& before) { return before.at == *at; };
    if (std::any_of(levels.begin(), levels.end(), is_here)) {
      const std::string path = path_from(table, "at");
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "at"), path, "a place of its own",
                fmt::format("{} is there twice: ({}, {})", path, at->x_m, at->y_m),
                "one place has one level; keep the better reading");
    }
    levels.push_back({*at, level_mm});
  }
  return levels;
}

std::vector<Overflow> read_overflows(DesignReader& reader, const TableView& drainage, const Roof& roof) {
  constexpr std::string_view known[] = {"name", "at", "width_mm", "sill_mm", "height_mm"};
  std::vector<Overflow> overflows;
  for (const TableView& table : read_counted_tables(reader, drainage, "overflow", limits::most_obstacles)) {
    check_keys(reader.fields, table, known);
    Overflow overflow;
    overflow.name = read_text(reader.fields, table, "name").value_or("");
    const std::optional<geometry::PointM> at = read_point_on_roof(reader, table, "at", roof);
    overflow.width_mm = read_required_number(reader.fields, table, limits::overflow_width_mm);
    overflow.sill_mm = read_required_number(reader.fields, table, limits::sill_mm);
    overflow.height_mm = read_number(reader.fields, table, limits::overflow_height_mm);
    if (!at) continue;
    overflow.at = *at;
    overflows.push_back(std::move(overflow));
  }
  return overflows;
}

std::vector<EdgeHeight> read_edges(DesignReader& reader, const TableView& drainage, const Roof& roof) {
  constexpr std::string_view known[] = {"from", "to", "height_mm"};
  std::vector<EdgeHeight> edges;
  for (const TableView& table : read_counted_tables(reader, drainage, "edge", limits::most_obstacles)) {
    check_keys(reader.fields, table, known);
    const std::optional<geometry::PointM> from = read_point(reader, table, "from");
    const std::optional<geometry::PointM> to = read_point(reader, table, "to");
    const double height_mm = read_required_number(reader.fields, table, limits::edge_height_mm);
    if (!from || !to) continue;
    if (!roof.outline.empty() && (*from == *to || !is_on_one_side(roof.outline, *from, *to))) {
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "from"), table.path,
                "two ends on one side of roof.outline",
                fmt::format("{} does not run along one side of the roof", table.path),
                fmt::format("both ends lie within {} mm of the same side; give one table for each side",
                            1000.0 * limits::edge_reach_m));
      continue;
    }
    edges.push_back({*from, *to, height_mm});
  }
  return edges;
}

/// Longer rain is thinner but not less; rarer rain is harder.
void check_table(DesignReader& reader, const TableView& rain, const std::vector<RainIntensity>& rows) {
  const auto report = [&](const std::string& why, std::string_view hint) {
    const std::string path = path_from(rain, "intensity");
    add_issue(reader.fields, IssueCode::inconsistent, *find_member(*rain.node, "intensity"), path,
              "a table that agrees with itself", fmt::format("{}: {}", path, why), std::string(hint));
  };
  const auto words = [](const RainIntensity& row) {
    return fmt::format("{:.6g} mm/h over {:.6g} min once in {:.6g} years", row.intensity_mm_per_h, row.duration_min,
                       row.return_years);
  };
  for (const RainIntensity& a : rows) {
    for (const RainIntensity& b : rows) {
      if (&a == &b) continue;
      const bool is_same_rarity = a.return_years == b.return_years;
      if (is_same_rarity && a.duration_min == b.duration_min) {
        if (&a < &b) report(words(a) + " is there twice", "one row for each return period and duration");
      } else if (is_same_rarity && a.duration_min < b.duration_min) {
        const bool is_harder_for_longer = b.intensity_mm_per_h > a.intensity_mm_per_h;
        const bool is_less_in_all = b.intensity_mm_per_h * b.duration_min < a.intensity_mm_per_h * a.duration_min;
        if (is_harder_for_longer) report(words(b) + " is harder than the shorter rain", "are the rows mixed up?");
        if (is_less_in_all) report(words(b) + " brings less than the shorter rain", "are these mm rather than mm/h?");
      } else if (a.duration_min == b.duration_min && a.return_years < b.return_years &&
                 b.intensity_mm_per_h < a.intensity_mm_per_h) {
        report(words(b) + " is thinner than the more frequent rain", "are the return periods mixed up?");
      }
    }
  }
}

std::vector<RainIntensity> read_intensities(DesignReader& reader, const TableView& rain) {
  constexpr std::string_view known[] = {"return_years", "duration_min", "intensity_mm_per_h"};
  std::vector<RainIntensity> rows;
  for (const TableView& table : read_counted_tables(reader, rain, "intensity", limits::most_intensities)) {
    check_keys(reader.fields, table, known);
    RainIntensity row;
    row.return_years = read_required_number(reader.fields, table, limits::return_years);
    row.duration_min = read_required_number(reader.fields, table, limits::duration_min);
    row.intensity_mm_per_h = read_required_number(reader.fields, table, limits::intensity_mm_per_h);
    rows.push_back(row);
  }
  if (reader.fields.issues.empty() && !rows.empty()) check_table(reader, rain, rows);
  std::sort(rows.begin(), rows.end(), [](const RainIntensity& a, const RainIntensity& b) {
    return a.return_years != b.return_years ? a.return_years < b.return_years : a.duration_min < b.duration_min;
  });
  return rows;
}

std::optional<AnnualMaxima> read_maxima(DesignReader& reader, const TableView& rain) {
  const std::optional<TableView> table = read_table(reader.fields, rain, "annual_maxima");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"duration_min", "return_years", "depths_mm"};
  check_keys(reader.fields, *table, known);
  AnnualMaxima maxima;
  maxima.duration_min = read_required_number(reader.fields, *table, limits::duration_min);
  maxima.return_years = read_required_number(reader.fields, *table, limits::return_years);
  if (!has_entries(reader.fields, *table, "depths_mm", "one number for each year")) return maxima;
  const TomlNode& node = *find_member(*table->node, "depths_mm");
  const std::string path = path_from(*table, "depths_mm");
  if (node.items.size() < limits::least_maxima || node.items.size() > limits::most_maxima) {
    add_issue(reader.fields, IssueCode::out_of_range, node, path,
              fmt::format("from {} to {} years", limits::least_maxima, limits::most_maxima),
              fmt::format("{} has {} years; from {} to {} are read", path, node.items.size(), limits::least_maxima,
                          limits::most_maxima),
              "one number for each year; with fewer the range would say nothing");
    return maxima;
  }
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const std::string item = path_from(*table, "depths_mm", i);
    if (const auto depth = checked_number(reader.fields, node.items[i], item, limits::maximum_mm)) {
      maxima.depths_mm.push_back(*depth);
    }
  }
  const auto is_same = [&maxima](double depth) { return depth == maxima.depths_mm.front(); };
  if (!maxima.depths_mm.empty() && std::all_of(maxima.depths_mm.begin(), maxima.depths_mm.end(), is_same)) {
    add_issue(reader.fields, IssueCode::inconsistent, node, path, "years that differ",
              fmt::format("{}: all years are alike", path), "the deepest rain of each year, as measured");
  }
  return maxima;
}

}  // namespace

Drainage read_drainage(DesignReader& reader, const TableView& root, const Roof& roof) {
  Drainage drainage;
  const std::optional<TableView> table = read_table(reader.fields, root, "drainage");
  if (!table) return drainage;
  constexpr std::string_view known[] = {"fall_to_outlets_mm_per_m",
                                        "level_error_mm",
                                        "months_since_cleaning",
                                        "silt_mm_per_year",
                                        "level",
                                        "overflow",
                                        "edge"};
  check_keys(reader.fields, *table, known);
  drainage.fall_to_outlets_mm_per_m = read_number(reader.fields, *table, limits::fall_to_outlets_mm_per_m);
  drainage.level_error_mm = read_number(reader.fields, *table, limits::level_error_mm);
  drainage.months_since_cleaning = read_number(reader.fields, *table, limits::months_since_cleaning);
  drainage.silt_mm_per_year = read_number(reader.fields, *table, limits::silt_mm_per_year);
  drainage.levels = read_levels(reader, *table, roof);
  drainage.overflows = read_overflows(reader, *table, roof);
  drainage.edges = read_edges(reader, *table, roof);
  if (drainage.fall_to_outlets_mm_per_m) {
    const TomlNode& node = *find_member(*table->node, "fall_to_outlets_mm_per_m");
    const std::string path = path_from(*table, "fall_to_outlets_mm_per_m");
    if (roof.fall_mm_per_m) {
      add_issue(reader.fields, IssueCode::inconsistent, node, path, "one fall",
                fmt::format("{} and roof.fall_mm_per_m are both there", path),
                "give the fall of the whole roof, or the fall to the outlets");
    } else if (roof.outlets.empty()) {
      add_issue(reader.fields, IssueCode::inconsistent, node, path, "an outlet", fmt::format("{}: no outlet", path),
                "add a table [[roof.outlet]]");
    }
  }
  return drainage;
}

DesignRain read_design_rain(DesignReader& reader, const TableView& root) {
  DesignRain rain;
  const std::optional<TableView> table = read_table(reader.fields, root, "design_rain");
  if (!table) return rain;
  constexpr std::string_view known[] = {"source", "intensity", "annual_maxima"};
  check_keys(reader.fields, *table, known);
  rain.source = read_required_text(reader.fields, *table, "source", "add source = \"who measured it, and when\"");
  rain.intensities = read_intensities(reader, *table);
  rain.maxima = read_maxima(reader, *table);
  const bool has_table = find_member(*table->node, "intensity") != nullptr;
  const bool has_maxima = find_member(*table->node, "annual_maxima") != nullptr;
  if (has_table == has_maxima) {
    add_issue(reader.fields, has_table ? IssueCode::inconsistent : IssueCode::missing_field, *table->node, table->path,
              "table or maxima", fmt::format("{} says {} how hard it rains", table->path, has_table ? "twice" : "not"),
              "give [[design_rain.intensity]] or [design_rain.annual_maxima]");
  }
  return rain;
}

}  // namespace houseleek::design
