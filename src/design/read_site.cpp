// [site]: where the house stands.
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

}  // namespace houseleek::design
