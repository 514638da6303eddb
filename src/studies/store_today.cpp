// How much water modules hold today, by what was watered and rained since, and how long they can wait.
#include "studies/store_today.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "studies/water_answers.hpp"

namespace houseleek::studies {
namespace {

using logbook::Event;
using logbook::EventKind;
using logbook::EventRecord;
using report::Figure;

constexpr double narrow_frac = 0.7;
constexpr double wide_frac = 1.3;
constexpr std::array<double, 12> days_in_month = {31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

struct Rate {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
};

std::size_t month_of(std::int64_t day) {
  return static_cast<std::size_t>(std::stoi(text_from_day(day).substr(5, 2)) - 1);
}

std::int64_t day_of(const Event& event) { return (event.at.utc_s + event.at.offset_s) / n_seconds_in_civil_day; }

/// Evapotranspiration of a month's moist days, from how long a full module can wait in it.
std::optional<Rate> rate_of(const report::WaterByRecipe& water, std::size_t month, double waiting_mm) {
  for (std::size_t away = 0; away <= 6; ++away) {
    for (const std::size_t at : {(month + away) % 12, (month + 12 - away) % 12}) {
      const Figure& days = water.can_wait_days_by_month[at];
      if (!days.value || *days.value <= 0.0) continue;
      const double likely = waiting_mm / *days.value;
      if (!days.range || days.range->low <= 0.0) return Rate{narrow_frac * likely, likely, wide_frac * likely};
      return Rate{waiting_mm / days.range->high, likely, waiting_mm / days.range->low};
    }
  }
  return std::nullopt;
}

/// Water given to each square metre of a recipe's modules on each day.
std::map<std::int64_t, double> given_mm(const std::vector<EventRecord>& records, const design::Recipe& recipe,
                                        bool is_only_recipe) {
  std::map<std::string, std::string> recipes;
  std::map<std::string, std::int64_t> made;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::made || !event.part.empty()) continue;
    recipes[event.module] = event.recipe;
    if (folded_name(event.recipe) == folded_name(recipe.name)) made[event.module] = day_of(event);
  }
  const double module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
  std::map<std::int64_t, double> given;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::watered || !event.water_l) continue;
    if (!event.container.empty() || !event.batch.empty()) continue;
    const std::int64_t day = day_of(event);
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
    given[day] += *event.water_l / n_modules / module_m2;
  }
  return given;
}

/// What gauges held, by day; and rain of storms.
std::map<std::int64_t, double> rained_mm(const std::vector<EventRecord>& records) {
  std::map<std::int64_t, double> rain;
  for (const EventRecord& record : records) {
    const Event& event = record.event;
    const bool has_rain = event.kind == EventKind::rained || event.kind == EventKind::storm;
    if (record.superseded_by || !has_rain || !event.rain_mm) continue;
    rain[day_of(event)] += *event.rain_mm;
  }
  return rain;
}

bool has_gauge(const std::vector<EventRecord>& records, std::int64_t from, std::int64_t today) {
  return std::any_of(records.begin(), records.end(), [&](const EventRecord& record) {
    const std::int64_t day = day_of(record.event);
    return !record.superseded_by && record.event.kind == EventKind::rained && day >= from && day <= today;
  });
}

struct Run {
  double store_mm = 0.0;
  /// One day: what comes in fills up to the capacity, what evaporates slows below the threshold.
  void step(double in_mm, double rate_mm, double capacity_mm, double threshold_mm) {
    store_mm = std::min(capacity_mm, store_mm + in_mm);
    const double slowed = threshold_mm > 0.0 ? std::min(1.0, store_mm / threshold_mm) : 1.0;
    store_mm = std::max(0.0, store_mm - rate_mm * slowed);
  }
};

std::string percent_text(double frac) { return fmt::format("{:.0f}", 100.0 * frac); }

}  // namespace

std::vector<report::StoreToday> answer_store_today(const std::vector<EventRecord>& records,
                                                   const design::ValidDesign& design, const report::WaterAnswer& water,
                                                   std::int64_t today) {
  std::vector<report::StoreToday> answers;
  const std::vector<double> thresholds = thresholds_frac(*design);
  const std::map<std::int64_t, double> rain = rained_mm(records);
  const std::int64_t first = today - days_of_store;
  const bool is_gauged = has_gauge(records, first, today);
  for (const report::WaterByRecipe& of_water : water.recipes) {
    const auto recipe = std::find_if(design->recipes.begin(), design->recipes.end(),
                                     [&](const design::Recipe& one) { return one.name == of_water.name; });
    if (recipe == design->recipes.end()) continue;
    const double threshold_frac = thresholds[static_cast<std::size_t>(recipe - design->recipes.begin())];
    const double capacity_mm = waiting_store_mm(*recipe, 0.0);
    const double waiting_mm = waiting_store_mm(*recipe, threshold_frac);
    const std::map<std::int64_t, double> given = given_mm(records, *recipe, design->recipes.size() == 1);
    const bool is_watered = std::any_of(given.begin(), given.end(),
                                        [&](const auto& one) { return one.first >= first && one.first <= today; });
    if (capacity_mm <= 0.0 || (!is_watered && !is_gauged)) continue;
    if (!rate_of(of_water, month_of(today), waiting_mm)) continue;
    Run low{0.0};
    Run likely{0.5 * capacity_mm};
    Run high{capacity_mm};
    const auto at = [](const std::map<std::int64_t, double>& days, std::int64_t day) {
      const auto found = days.find(day);
      return found == days.end() ? 0.0 : found->second;
    };
    for (std::int64_t day = first; day <= today; ++day) {
      const Rate rate = *rate_of(of_water, month_of(day), waiting_mm);
      const std::size_t month = month_of(day);
      const double logged_mm = at(given, day) + at(rain, day);
      const double usual_mm =
          is_gauged || !design->climate.normals ? 0.0 : design->climate.normals->rain_mm[month] / days_in_month[month];
      const double threshold_mm = threshold_frac * capacity_mm;
      low.step(logged_mm, rate.high, capacity_mm, threshold_mm);
      likely.step(logged_mm + usual_mm, rate.likely, capacity_mm, threshold_mm);
      high.step(logged_mm + 2.0 * usual_mm, rate.low, capacity_mm, threshold_mm);
    }
    report::StoreToday answer;
    answer.recipe = recipe->name;
    const std::string from =
        fmt::format("water {}, rain {}; evapotranspiration as the study has it", is_watered ? "logged" : "not logged",
                    is_gauged ? "logged" : "from the normals, none to twice as much");
    answer.store_frac = results::figure_with_range(likely.store_mm / capacity_mm, low.store_mm / capacity_mm,
                                                   high.store_mm / capacity_mm, from);
    const Rate rate = *rate_of(of_water, month_of(today), waiting_mm);
    const double threshold_mm = threshold_frac * capacity_mm;
    const auto wait = [&](double store_mm, double rate_mm) {
      return std::max(0.0, (store_mm - threshold_mm) / rate_mm);
    };
    answer.can_wait_days =
        results::figure_with_range(wait(likely.store_mm, rate.likely), wait(low.store_mm, rate.high),
                                   wait(high.store_mm, rate.low), from + "; without rain from now on");
    const bool is_due = *answer.can_wait_days.value < 1.0;
    answer.statement = fmt::format(
        "{}: about {} % of its store of water ({} to {}); {}. Rain: {}.", recipe->name,
        percent_text(*answer.store_frac.value), percent_text(answer.store_frac.range->low),
        percent_text(answer.store_frac.range->high),
        is_due ? std::string("water now")
               : fmt::format("can wait {:.0f} days ({:.0f} to {:.0f}) without rain",
                             std::floor(*answer.can_wait_days.value), std::floor(answer.can_wait_days.range->low),
                             std::floor(answer.can_wait_days.range->high)),
        is_gauged ? "by the gauge" : "no gauge is logged, the usual of the month");
    answers.push_back(std::move(answer));
  }
  return answers;
}

}  // namespace houseleek::studies
