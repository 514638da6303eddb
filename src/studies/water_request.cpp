// What somebody asked about water, read and judged in one pass.
#include <fmt/format.h>

#include <cmath>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "studies/logbook_day.hpp"
#include "studies/water_parts.hpp"

namespace houseleek::studies {
namespace {

struct Limits {
  std::string path;
  double least;
  double most;
  std::string unit;
  std::string hint;
};

class RequestReader {
 public:
  void number(const std::optional<double>& value, const Limits& limits) {
    if (!value || (std::isfinite(*value) && *value >= limits.least && *value <= limits.most)) return;
    add(IssueCode::out_of_range, limits.path, fmt::format("{:g}", *value),
        fmt::format("{:g} to {:g} {}", limits.least, limits.most, limits.unit),
        fmt::format("{} is {:g}; it must be {:g} to {:g} {}", limits.path, *value, limits.least, limits.most,
                    limits.unit),
        limits.hint);
  }
  std::optional<std::int64_t> day(const std::string& text, const std::string& path) {
    if (text.empty()) return std::nullopt;
    const std::optional<std::int64_t> read = day_from_text(text);
    if (!read) {
      add(IssueCode::wrong_type, path, text, "a date", fmt::format("{} is \"{}\"; it must be a date", path, text),
          "2026-07-03, for example");
    }
    return read;
  }
  void add(IssueCode code, const std::string& path, const std::string& value, const std::string& limit,
           const std::string& message, const std::string& hint) {
    Issue issue;
    issue.code = code;
    issue.path = path;
    issue.value = value;
    issue.limit = limit;
    issue.message = message;
    issue.hint = hint;
    issues.push_back(std::move(issue));
  }
  Issues issues;
};

void judge_rinse(RequestReader& reader, const WaterSource& source, const WaterRequest& request) {
  const bool is_asked = !request.rinse_material.empty();
  if (!is_asked) {
    if (request.rinse_first_ms_per_cm || request.rinse_target_ms_per_cm) {
      reader.add(IssueCode::missing_field, "rinse", "", "a material",
                 "conductivities were given, but not of which material", "add --rinse \"posidonia fibre\"");
    }
    return;
  }
  std::vector<std::string> names;
  const catalogue::Material* found = nullptr;
  for (const catalogue::Material& one : source.design->own_materials) {
    names.push_back(one.name);
    if (folded_name(one.name) == folded_name(request.rinse_material)) found = &one;
  }
  for (const catalogue::Material& one : source.catalogue.materials) {
    names.push_back(one.name);
    if (found == nullptr && folded_name(one.name) == folded_name(request.rinse_material)) found = &one;
  }
  if (found == nullptr) {
    const std::optional<std::string> nearest = find_nearest_name(request.rinse_material, names);
    reader.add(
        IssueCode::unknown_name, "rinse", request.rinse_material, "a material",
        fmt::format("rinse is \"{}\", which is no material of the design or the catalogue", request.rinse_material),
        nearest ? fmt::format("did you mean \"{}\"?", *nearest) : "see catalogue/materials.toml");
  } else if (!found->field_capacity_frac || found->field_capacity_frac->likely <= 0.0) {
    reader.add(IssueCode::inconsistent, "rinse", request.rinse_material, "a material that holds water",
               fmt::format("rinse is \"{}\", which holds no water", found->name), "hose it down");
  }
  const Limits conductivity{"", 0.0, 200.0, "mS/cm", "what a cheap conductivity meter shows"};
  Limits first = conductivity;
  first.path = "rinse_from";
  Limits target = conductivity;
  target.path = "rinse_to";
  Limits water = conductivity;
  water.path = "rinse_water";
  reader.number(request.rinse_first_ms_per_cm, first);
  reader.number(request.rinse_target_ms_per_cm, target);
  reader.number(request.rinse_water_ms_per_cm, water);
  if (!request.rinse_target_ms_per_cm) {
    reader.add(IssueCode::missing_field, "rinse_to", "", "mS/cm", "the conductivity to come down to is missing",
               "add --rinse-to 1.5");
  } else if (*request.rinse_target_ms_per_cm <= request.rinse_water_ms_per_cm) {
    reader.add(IssueCode::inconsistent, "rinse_to", fmt::format("{:g}", *request.rinse_target_ms_per_cm),
               fmt::format("above rinse_water, {:g} mS/cm", request.rinse_water_ms_per_cm),
               fmt::format("rinse_to is {:g} mS/cm; no amount of water of {:g} mS/cm brings it there",
                           *request.rinse_target_ms_per_cm, request.rinse_water_ms_per_cm),
               "a higher target, or water with less salt");
  }
  if (request.rinse_first_ms_per_cm && request.rinse_target_ms_per_cm &&
      *request.rinse_first_ms_per_cm <= *request.rinse_target_ms_per_cm) {
    reader.add(IssueCode::inconsistent, "rinse_from", fmt::format("{:g}", *request.rinse_first_ms_per_cm),
               "above rinse_to", "rinse_from is not above rinse_to: nothing has to be rinsed",
               "are the two numbers swapped?");
  }
}

}  // namespace

Result<WaterDays> read_water_request(const WaterSource& source, const WaterRequest& request) {
  RequestReader reader;
  WaterDays days;
  const Result<LogbookDay> day = logbook_day(request.on, source.design->site.time_zone, request.now_utc_s);
  if (!day) {
    reader.issues = day.error();
  } else {
    days.today = day.value().today;
    days.end_utc_s = day.value().end_utc_s;
    days.on = day.value().on;
  }
  reader.number(request.yesterday.max_c, {"max", -50, 60, "degC", "degrees Celsius, in the shade"});
  reader.number(request.yesterday.min_c, {"min", -60, 50, "degC", "degrees Celsius, in the shade"});
  reader.number(request.yesterday.rain_mm, {"rain", 0, 1000, "mm", "0 where none fell"});
  if (request.yesterday.max_c && request.yesterday.min_c && *request.yesterday.max_c < *request.yesterday.min_c) {
    reader.add(IssueCode::inconsistent, "max", fmt::format("{:g}", *request.yesterday.max_c), "not below min",
               fmt::format("max is {:g} and min is {:g} degC", *request.yesterday.max_c, *request.yesterday.min_c),
               "are the two numbers swapped?");
  }
  reader.number(request.can_l, {"can", 0.5, 1000, "l", "how much one can holds"});
  reader.number(request.catchment_m2, {"catchment", 0.5, 1e5, "m2", "the roof that the barrel's pipe comes from"});
  reader.number(request.water_ds_per_m, {"salt", 0, 60, "mS/cm", "tap water has 0.3 to 1, the sea 50"});
  days.filled = reader.day(request.filled_on, "filled");
  if (day && days.filled && (*days.filled > days.today || *days.filled < days.today - days_looked_back)) {
    reader.add(IssueCode::out_of_range, "filled", request.filled_on,
               fmt::format("{} to {}", text_from_day(days.today - days_looked_back), days.on),
               fmt::format("filled is {}; it must be one of the last {} days", request.filled_on, days_looked_back),
               "longer ago it says nothing of today's store");
  }
  days.away_from = reader.day(request.away_from, "away_from");
  days.away_to = reader.day(request.away_to, "away_to");
  if (request.away_from.empty() != request.away_to.empty()) {
    reader.add(IssueCode::missing_field, request.away_from.empty() ? "away_from" : "away_to", "", "a date",
               "of the days away only one end was given", "give --away-from and --away-to");
  }
  if (day && days.away_from && days.away_to) {
    if (*days.away_from < days.today) {
      reader.add(IssueCode::out_of_range, "away_from", request.away_from, "not before " + days.on,
                 fmt::format("away_from is {}, which is before {}", request.away_from, days.on), "");
    }
    if (*days.away_to < *days.away_from) {
      reader.add(IssueCode::inconsistent, "away_to", request.away_to, "not before away_from",
                 fmt::format("away_to is {}, which is before away_from", request.away_to), "are the two days swapped?");
    }
    if (*days.away_to > days.today + days_looked_ahead) {
      reader.add(
          IssueCode::out_of_range, "away_to", request.away_to,
          fmt::format("not after {}", text_from_day(days.today + days_looked_ahead)),
          fmt::format("away_to is {}; no more than {} days are looked ahead", request.away_to, days_looked_ahead),
          "make a second sheet later, or ask somebody who can write the first one on");
    }
  }
  judge_rinse(reader, source, request);
  if (!reader.issues.empty()) return Unexpected{std::move(reader.issues)};
  return days;
}

}  // namespace houseleek::studies
