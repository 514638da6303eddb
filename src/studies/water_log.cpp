// What a logbook says of water: given, rained, weighed, and the air of single days.
#include "studies/water_log.hpp"

#include <algorithm>

#include "base/nearest_name.hpp"

namespace houseleek::studies {
namespace {

using logbook::Event;
using logbook::EventKind;
using logbook::EventRecord;

constexpr std::int64_t seconds_in_hour = 3600;

int hour_of(const Event& event) {
  const std::int64_t shown_s = event.at.utc_s + event.at.offset_s;
  return event.at.is_time_known ? static_cast<int>((shown_s % n_seconds_in_civil_day) / seconds_in_hour) : 7;
}

void add(std::map<std::int64_t, GivenDay>& given, const Event& event, double mm) {
  GivenDay& day = given[civil_day_of(event)];
  day.mm += mm;
  day.hour = hour_of(event);
  if (!event.water_l) day.is_until_drip = true;
}

}  // namespace

std::int64_t civil_day_of(const Event& event) { return (event.at.utc_s + event.at.offset_s) / n_seconds_in_civil_day; }

std::map<std::int64_t, GivenDay> given_to_recipe(const std::vector<EventRecord>& records, const design::Recipe& recipe,
                                                 bool is_only_recipe) {
  std::map<std::string, std::string> recipes;
  std::map<std::string, std::int64_t> made;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::made || !event.part.empty()) continue;
    recipes[event.module] = event.recipe;
    if (folded_name(event.recipe) == folded_name(recipe.name)) made[event.module] = civil_day_of(event);
  }
  const double module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
  std::map<std::int64_t, GivenDay> given;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::watered) continue;
    if (!event.container.empty() || !event.batch.empty()) continue;
    const std::int64_t day = civil_day_of(event);
    const auto n_there = static_cast<double>(
        std::count_if(made.begin(), made.end(), [day](const auto& one) { return one.second <= day; }));
    double n_modules = event.count.value_or(0.0);
    if (!event.module.empty()) {
      const auto of = recipes.find(event.module);
      const std::string& name = of == recipes.end() ? event.recipe : of->second;
      if (folded_name(name) != folded_name(recipe.name)) continue;
      // One of several: the recipe's mean module got its share.
      if (n_modules == 0.0) n_modules = std::max(1.0, n_there);
    } else if (event.recipe.empty() ? !is_only_recipe : folded_name(event.recipe) != folded_name(recipe.name)) {
      continue;
    }
    if (n_modules == 0.0) n_modules = n_there;
    if (n_modules == 0.0) continue;
    // Without litres a single module among many says nothing of the others.
    if (!event.water_l && !event.module.empty() && n_modules > 1.0) continue;
    add(given, event, event.water_l.value_or(0.0) / n_modules / module_m2);
  }
  return given;
}

std::map<std::int64_t, GivenDay> given_to_container(const std::vector<EventRecord>& records,
                                                    const design::Container& container) {
  const double area_m2 = 1e-6 * container.length_mm * container.width_mm;
  std::map<std::int64_t, GivenDay> given;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::watered) continue;
    if (folded_name(event.container) != folded_name(container.name)) continue;
    add(given, event, event.water_l.value_or(0.0) / area_m2);
  }
  return given;
}

RainLog rain_log(const std::vector<EventRecord>& records, std::int64_t first, std::int64_t last) {
  RainLog log;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    const bool has_rain = event.kind == EventKind::rained || event.kind == EventKind::storm;
    if (record.superseded_by || !has_rain || !event.rain_mm) continue;
    const std::int64_t day = civil_day_of(event);
    log.rain_mm[day] += *event.rain_mm;
    if (event.kind == EventKind::rained && day >= first && day <= last) log.has_gauge = true;
  }
  return log;
}

std::map<std::int64_t, climate::KnownDay> air_log(const std::vector<EventRecord>& records) {
  std::map<std::int64_t, climate::KnownDay> days;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::read_off || !event.temperature_c) continue;
    const std::string item = folded_name(event.item);
    if (item == air_max_item) days[civil_day_of(event)].max_c = event.temperature_c;
    if (item == air_min_item) days[civil_day_of(event)].min_c = event.temperature_c;
  }
  return days;
}

std::optional<ModuleWeighing> last_weighing(const std::vector<EventRecord>& records, const design::Recipe& recipe,
                                            std::int64_t first, std::int64_t last) {
  std::map<std::string, std::string> recipes;
  std::optional<ModuleWeighing> latest;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by) continue;
    if (event.kind == EventKind::made && event.part.empty()) recipes[event.module] = event.recipe;
    if (event.kind != EventKind::weighed || !event.mass_kg || !event.wetness.empty()) continue;
    if (event.module.empty()) continue;
    const auto of = recipes.find(event.module);
    const std::string& name = of == recipes.end() ? event.recipe : of->second;
    if (folded_name(name) != folded_name(recipe.name)) continue;
    const std::int64_t day = civil_day_of(event);
    if (day < first || day > last || (latest && day < latest->day)) continue;
    latest = ModuleWeighing{day, hour_of(event), *event.mass_kg, event.module};
  }
  return latest;
}

std::vector<LaidModule> laid_modules(const std::vector<EventRecord>& records) {
  std::vector<LaidModule> laid;
  const auto find = [&laid](const std::string& label) {
    return std::find_if(laid.begin(), laid.end(), [&label](const LaidModule& one) { return one.label == label; });
  };
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.module.empty()) continue;
    const auto there = find(event.module);
    if (event.kind == EventKind::made && event.part.empty()) {
      if (there != laid.end()) laid.erase(there);
      laid.push_back({event.module, event.recipe, civil_day_of(event), std::nullopt});
    } else if (there != laid.end() && event.kind == EventKind::raised) {
      there->is_raised = true;
    } else if (there != laid.end() && event.kind == EventKind::lowered) {
      there->is_raised = false;
    }
  }
  return laid;
}

}  // namespace houseleek::studies
