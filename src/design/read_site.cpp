// [site] and [climate]: where the house stands and what its weather is like.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/zone.hpp"
#include "design/limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

constexpr std::pair<std::string_view, Surroundings> surroundings_words[] = {
    {"open", Surroundings::open}, {"suburb", Surroundings::suburb}, {"town", Surroundings::town}};

const Default& wind_default(Surroundings surroundings) {
  switch (surroundings) {
    case Surroundings::open:
      return defaults::wind_open;
    case Surroundings::suburb:
      return defaults::wind_suburb;
    case Surroundings::town:
      return defaults::wind_town;
  }
  expects(false, "surroundings of the list");
  return defaults::wind_suburb;
}

void check_zone(DesignReader& reader, const TableView& table, const Site& site) {
  if (site.time_zone.empty()) return;
  const TomlNode& node = *find_member(*table.node, "time_zone");
  const std::string path = path_from(table, "time_zone");
  // Any recent year serves: only its standard offset is compared.
  const std::optional<ZoneInfo> zone = find_zone(site.time_zone, 2023);
  if (!zone) {
    add_unknown_name(reader.fields, node, path, "time zone", zone_names());
    Issue& issue = reader.fields.issues.back();
    if (issue.hint.empty()) issue.hint = "names look like \"Europe/Athens\": continent and a large town";
    return;
  }
  const double from_longitude_h = site.longitude_deg / 15.0;
  double mismatch_h = std::fabs(zone->standard_offset_s / 3600.0 - from_longitude_h);
  mismatch_h = std::min(mismatch_h, 24.0 - mismatch_h);  // either side of the date line
  if (mismatch_h > limits::most_zone_mismatch_h) {
    add_warning(
        reader.fields, IssueCode::inconsistent, node, path, "near the longitude's own time",
        fmt::format("{} is {:.1f} h away from the sun's time at longitude {}", path, mismatch_h, site.longitude_deg),
        "east is positive: has the longitude the right sign?");
  }
}

std::optional<Months> read_months(DesignReader& reader, const TableView& table, const NumberRule& rule) {
  const std::optional<std::vector<double>> values = read_numbers(reader.fields, table, rule, 12);
  if (!values) return std::nullopt;
  Months months{};
  std::copy(values->begin(), values->end(), months.begin());
  return months;
}

Months read_required_months(DesignReader& reader, const TableView& table, const NumberRule& rule) {
  if (!has_field(reader.fields, table, rule.key, fmt::format("add {} = [twelve numbers, January first]", rule.key))) {
    return {};
  }
  return read_months(reader, table, rule).value_or(Months{});
}

void check_month_pair(DesignReader& reader, const TableView& table, std::string_view lower_key, const Months& lower,
                      std::string_view upper_key, const Months& upper) {
  for (std::size_t month = 0; month < 12; ++month) {
    if (lower[month] <= upper[month]) continue;
    const std::string path = path_from(table, lower_key, month);
    add_issue(reader.fields, IssueCode::inconsistent, find_member(*table.node, lower_key)->items[month], path,
              fmt::format("at most {}", upper[month]),
              fmt::format("{} is {}, above {} of the same month ({})", path, lower[month], upper_key, upper[month]),
              "");
  }
}

/// Two ways to say one thing: the first is used.
void warn_unused(DesignReader& reader, const TableView& table, std::string_view used, std::string_view unused) {
  const TomlNode* node = find_member(*table.node, unused);
  if (node == nullptr || find_member(*table.node, used) == nullptr) return;
  const std::string path = path_from(table, unused);
  add_warning(reader.fields, IssueCode::inconsistent, *node, path, fmt::format("one of {} and {}", used, unused),
              fmt::format("{} is not used, because {} is there too", path, used), "");
}

MonthlyNormals read_normals(DesignReader& reader, const TableView& table) {
  constexpr std::string_view known[] = {"max_c",        "min_c",
                                        "rain_mm",      "rain_days",
                                        "sunshine_h",   "global_mj_per_m2_d",
                                        "wind_m_per_s", "relative_humidity_percent",
                                        "dew_point_c"};
  check_keys(reader.fields, table, known);
  const std::size_t n_issues_before = reader.fields.issues.size();
  MonthlyNormals normals;
  normals.max_c = read_required_months(reader, table, limits::with_key(limits::temperature_c, "max_c"));
  normals.min_c = read_required_months(reader, table, limits::with_key(limits::temperature_c, "min_c"));
  normals.rain_mm = read_required_months(reader, table, limits::rain_mm);
  normals.rain_days = read_months(reader, table, limits::rain_days);
  normals.sunshine_h = read_months(reader, table, limits::sunshine_h);
  normals.global_mj_per_m2_d = read_months(reader, table, limits::global_mj_per_m2_d);
  normals.relative_humidity_percent = read_months(reader, table, limits::relative_humidity_percent);
  normals.dew_point_c = read_months(reader, table, limits::with_key(limits::temperature_c, "dew_point_c"));
  normals.wind_m_per_s = read_months(reader, table, limits::wind_m_per_s);
  if (reader.fields.issues.size() != n_issues_before) return normals;
  check_month_pair(reader, table, "min_c", normals.min_c, "max_c", normals.max_c);
  if (normals.dew_point_c) check_month_pair(reader, table, "dew_point_c", *normals.dew_point_c, "max_c", normals.max_c);
  if (normals.sunshine_h &&
      *std::max_element(normals.sunshine_h->begin(), normals.sunshine_h->end()) <= limits::longest_day_mean_h) {
    const std::string path = path_from(table, "sunshine_h");
    add_issue(reader.fields, IssueCode::out_of_range, *find_member(*table.node, "sunshine_h"), path, "sums of months",
              fmt::format("{} has no month above {} h; these look like hours a day", path, limits::longest_day_mean_h),
              "give the sum of each month: 8 h a day in June are 240");
  }
  warn_unused(reader, table, "global_mj_per_m2_d", "sunshine_h");
  warn_unused(reader, table, "dew_point_c", "relative_humidity_percent");
  return normals;
}

}  // namespace

Site read_site(DesignReader& reader, const TableView& root) {
  Site site;
  if (!has_field(reader.fields, root, "site",
                 "add a table [site] with latitude_deg, longitude_deg, elevation_m, time_zone")) {
    return site;
  }
  const std::optional<TableView> table = read_table(reader.fields, root, "site");
  if (!table) return site;
  constexpr std::string_view known[] = {"latitude_deg", "longitude_deg", "elevation_m", "time_zone",
                                        "country",      "surroundings",  "wind_factor"};
  check_keys(reader.fields, *table, known);
  site.latitude_deg = read_required_number(reader.fields, *table, limits::latitude_deg);
  site.longitude_deg = read_required_number(reader.fields, *table, limits::longitude_deg);
  site.elevation_m = read_required_number(reader.fields, *table, limits::elevation_m);
  site.time_zone = read_required_text(reader.fields, *table, "time_zone",
                                      "add time_zone = \"Europe/Athens\" or another name of that kind");
  check_zone(reader, *table, site);
  site.country = read_text(reader.fields, *table, "country").value_or("");
  const bool is_code = site.country.size() == 2 && std::all_of(site.country.begin(), site.country.end(),
                                                               [](char c) { return c >= 'A' && c <= 'Z'; });
  if (find_member(*table->node, "country") != nullptr && !is_code) {
    const TomlNode& node = *find_member(*table->node, "country");
    if (node.kind == TomlKind::text) {
      add_issue(reader.fields, IssueCode::out_of_range, node, path_from(*table, "country"), "two capital letters",
                fmt::format("{} is {}; it must be two capital letters", path_from(*table, "country"),
                            written_text(reader.fields, node)),
                "the code of ISO 3166: GR, IN, ZA");
    }
  }
  site.surroundings = read_choice<Surroundings>(reader.fields, *table, "surroundings", surroundings_words)
                          .value_or(Surroundings::suburb);
  site.wind_factor = number_or_default(reader, *table, limits::wind_factor, wind_default(site.surroundings));
  return site;
}

Climate read_climate(DesignReader& reader, const TableView& root) {
  Climate climate;
  if (!has_field(reader.fields, root, "climate",
                 "add a table [climate.normals] with max_c, min_c and rain_mm of twelve months")) {
    return climate;
  }
  const std::optional<TableView> table = read_table(reader.fields, root, "climate");
  if (!table) return climate;
  constexpr std::string_view known[] = {"normals", "file", "seed"};
  check_keys(reader.fields, *table, known);
  if (const std::optional<std::int64_t> seed = read_integer(reader.fields, *table, limits::seed)) {
    climate.seed = static_cast<std::uint64_t>(*seed);
  }
  const TomlNode* normals_node = find_member(*table->node, "normals");
  const TomlNode* file_node = find_member(*table->node, "file");
  if ((normals_node == nullptr) == (file_node == nullptr)) {
    const TomlNode& at = file_node == nullptr ? *table->node : *file_node;
    add_issue(reader.fields, file_node == nullptr ? IssueCode::missing_field : IssueCode::inconsistent, at, table->path,
              "normals or file",
              file_node == nullptr ? "climate has neither normals nor file" : "climate has both normals and file",
              "give either [climate.normals] or file = \"weather.csv\"");
    return climate;
  }
  if (normals_node != nullptr) {
    if (const auto normals = read_table(reader.fields, *table, "normals"))
      climate.normals = read_normals(reader, *normals);
  } else {
    climate.file =
        read_required_text(reader.fields, *table, "file", "the path of a CSV file, from this design's folder");
  }
  return climate;
}

}  // namespace houseleek::design
