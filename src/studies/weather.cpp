// The year of weather a design asks for: made from its normals, or read from its file.
#include "studies/weather.hpp"

#include <fmt/format.h>

#include "base/contract.hpp"
#include "base/zone.hpp"
#include "climate/generate.hpp"
#include "climate/read_csv.hpp"

namespace houseleek::studies {
namespace {

climate::MonthlyNormals normals_from(const design::MonthlyNormals& given) {
  climate::MonthlyNormals normals;
  normals.max_c = given.max_c;
  normals.min_c = given.min_c;
  normals.rain_mm = given.rain_mm;
  normals.rain_days = given.rain_days;
  normals.sunshine_h = given.sunshine_h;
  normals.global_mj_per_m2_d = given.global_mj_per_m2_d;
  normals.dew_point_c = given.dew_point_c;
  normals.wind_m_per_s = given.wind_m_per_s;
  if (given.relative_humidity_percent) {
    climate::Months& frac = normals.relative_humidity_frac.emplace();
    for (std::size_t month = 0; month < frac.size(); ++month) {
      frac[month] = 0.01 * (*given.relative_humidity_percent)[month];
    }
  }
  return normals;
}

/// The names that a person wrote.
Issues renamed(Issues issues) {
  constexpr std::string_view inner = "relative_humidity_frac";
  for (Issue& issue : issues) {
    for (std::string* text : {&issue.path, &issue.message}) {
      const std::size_t at = text->find(inner);
      if (at != std::string::npos) text->replace(at, inner.size(), "relative_humidity_percent");
    }
    issue.path = "climate.normals" + (issue.path.empty() ? "" : "." + issue.path);
  }
  return issues;
}

}  // namespace

climate::Place place_from(const design::Site& site) {
  const std::optional<ZoneInfo> zone = find_zone(site.time_zone, climate::GenerateOptions{}.year);
  expects(zone.has_value(), "a time zone that validation has found");
  return {.latitude_deg = site.latitude_deg,
          .longitude_deg = site.longitude_deg,
          .elevation_m = site.elevation_m,
          .utc_offset_h = zone->standard_offset_s / 3600.0};
}

Result<climate::WeatherYear> make_weather(const design::ValidDesign& design, const std::optional<NamedText>& file,
                                          int draw) {
  expects(design->climate.file.has_value() == file.has_value(), "a weather file exactly where the design names one");
  const climate::Place place = place_from(design->site);
  if (file) return climate::read_year_csv(file->text, file->name, place);
  expects(design->climate.normals.has_value(), "normals or a file");
  Result<climate::WeatherYear> year =
      climate::generate_year(place, normals_from(*design->climate.normals), design->climate.seed, draw);
  if (!year) return Unexpected{renamed(year.error())};
  return year;
}

std::string weather_source(const design::Design& design) {
  if (design.climate.file) return fmt::format("the file {}", *design.climate.file);
  return fmt::format("made from twelve monthly normals, seed {}", design.climate.seed);
}

}  // namespace houseleek::studies
