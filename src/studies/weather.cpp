// The year of weather a design asks for: made from its normals, or read from its file.
#include "studies/weather.hpp"

#include <fmt/format.h>

#include "base/contract.hpp"
#include "base/zone.hpp"
#include "climate/generate.hpp"
#include "climate/read_file.hpp"

namespace houseleek::studies {
namespace {

constexpr int first_year_of_offsets = 1900;
constexpr int last_year_of_offsets = 2100;

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

char delimiter_from(design::WeatherDelimiter delimiter) {
  switch (delimiter) {
    case design::WeatherDelimiter::comma:
      return ',';
    case design::WeatherDelimiter::semicolon:
      return ';';
    case design::WeatherDelimiter::tab:
      return '\t';
    case design::WeatherDelimiter::bar:
      return '|';
    case design::WeatherDelimiter::blank:
      break;
  }
  return ' ';
}

climate::DateOrder date_order_from(design::WeatherDateOrder order) {
  switch (order) {
    case design::WeatherDateOrder::year_first:
      return climate::DateOrder::year_first;
    case design::WeatherDateOrder::day_first:
      return climate::DateOrder::day_first;
    case design::WeatherDateOrder::month_first:
      break;
  }
  return climate::DateOrder::month_first;
}

climate::FileClock clock_from(design::WeatherClock clock) {
  switch (clock) {
    case design::WeatherClock::standard:
      return climate::FileClock::standard;
    case design::WeatherClock::daylight_saving:
      return climate::FileClock::daylight_saving;
    case design::WeatherClock::utc:
      break;
  }
  return climate::FileClock::utc;
}

climate::TimePart time_part_from(std::string_view key) {
  if (key == "year") return climate::TimePart::year;
  if (key == "month") return climate::TimePart::month;
  if (key == "day") return climate::TimePart::day;
  if (key == "hour") return climate::TimePart::hour;
  if (key == "minute") return climate::TimePart::minute;
  expects(key == "time" || key == "date" || key == "clock_time", "a key of [climate.columns]");
  return climate::TimePart::stamp;
}

climate::ColumnRule column_rule_from(const design::WeatherFileColumn& column) {
  climate::ColumnRule rule;
  rule.word = column.key;
  rule.name = column.name;
  rule.number = column.number;
  for (std::size_t i = 0; i < climate::n_weather_columns; ++i) {
    if (climate::weather_columns[i].word == column.key) rule.quantity = static_cast<climate::WeatherColumn>(i);
  }
  if (!rule.quantity) rule.time_part = time_part_from(column.key);
  if (!column.unit.empty()) {
    rule.unit = climate::unit_from_text(column.unit);
    expects(rule.unit.has_value(), "a unit that validation has found");
  }
  return rule;
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
  normals.month_mean_sd_k = given.month_mean_sd_k;
  normals.month_rain_sd_mm = given.month_rain_sd_mm;
  if (given.relative_humidity_percent) {
    climate::Months& frac = normals.relative_humidity_frac.emplace();
    for (std::size_t month = 0; month < frac.size(); ++month) {
      frac[month] = 0.01 * (*given.relative_humidity_percent)[month];
    }
  }
  return normals;
}

climate::FileRules rules_from(const design::Climate& climate) {
  const design::WeatherLayout& layout = climate.layout;
  climate::FileRules rules;
  if (layout.delimiter) rules.delimiter = delimiter_from(*layout.delimiter);
  if (layout.decimal_mark) {
    rules.decimal_mark = *layout.decimal_mark == design::WeatherDecimalMark::comma ? climate::DecimalMark::comma
                                                                                   : climate::DecimalMark::point;
  }
  rules.header_line = layout.header_line;
  if (layout.date_order) rules.date_order = date_order_from(*layout.date_order);
  if (layout.stamps) {
    rules.stamps =
        *layout.stamps == design::WeatherStamps::start ? climate::StampMarks::start : climate::StampMarks::end;
  }
  if (layout.clock) rules.clock = clock_from(*layout.clock);
  rules.year = climate.year;
  rules.missing = layout.missing;
  for (const design::WeatherFileColumn& column : layout.columns) rules.columns.push_back(column_rule_from(column));
  return rules;
}

Result<WeatherInUse> find_weather(const design::ValidDesign& design, const std::optional<NamedText>& file, int draw) {
  expects(design->climate.file.has_value() == file.has_value(), "a weather file exactly where the design names one");
  const climate::Place place = place_from(design->site);
  if (file) {
    const std::vector<OffsetSpan> offsets =
        offsets_of_zone(design->site.time_zone, first_year_of_offsets, last_year_of_offsets);
    Result<climate::WeatherFile> read = climate::read_weather_file({.text = file->text,
                                                                    .file_name = file->name,
                                                                    .place = place,
                                                                    .offsets = offsets,
                                                                    .rules = rules_from(design->climate),
                                                                    .nth_year = draw});
    if (!read) return Unexpected{read.error()};
    climate::WeatherFile found = std::move(read).value();
    return WeatherInUse{std::move(found.year), std::move(found.report)};
  }
  expects(design->climate.normals.has_value(), "normals or a file");
  Result<climate::WeatherYear> year =
      climate::generate_year(place, normals_from(*design->climate.normals), design->climate.seed, draw);
  if (!year) return Unexpected{renamed(year.error())};
  return WeatherInUse{std::move(year).value(), std::nullopt};
}

Result<climate::WeatherYear> make_weather(const design::ValidDesign& design, const std::optional<NamedText>& file,
                                          int draw) {
  Result<WeatherInUse> found = find_weather(design, file, draw);
  if (!found) return Unexpected{found.error()};
  return std::move(found).value().year;
}

std::string weather_source(const design::Design& design) {
  if (design.climate.file && design.climate.year) {
    return fmt::format("the file {}, year {}", *design.climate.file, *design.climate.year);
  }
  if (design.climate.file) return fmt::format("the file {}", *design.climate.file);
  return fmt::format("made from twelve monthly normals, seed {}", design.climate.seed);
}

}  // namespace houseleek::studies
