// How long a module stands dry: a store of water, day by day through years of rain.
#include "planting/dry_spell.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "climate/calendar.hpp"

namespace houseleek::planting {
namespace {

using climate::n_days_in_year;

/// Days since the rule's season began; -1 outside it.
int day_in_season(const simulation::Watering& rule, int day) {
  const bool wraps = rule.last_day < rule.first_day;
  const bool is_in =
      wraps ? day >= rule.first_day || day <= rule.last_day : day >= rule.first_day && day <= rule.last_day;
  return is_in ? (day - rule.first_day + n_days_in_year) % n_days_in_year : -1;
}

double watering_mm(const StoreOfModule& store, int day, double held_mm) {
  double given_mm = 0.0;
  for (const simulation::Watering& rule : store.watering) {
    const int in_season = day_in_season(rule, day);
    if (in_season < 0) continue;
    const bool is_due = rule.every_days > 0 ? in_season % rule.every_days == 0
                                            : held_mm < rule.when_store_below_frac * store.capacity_mm;
    if (is_due) given_mm += rule.depth_mm;
  }
  return given_mm;
}

}  // namespace

DrySpell longest_dry_spell(const StoreOfModule& store, std::span<const double> rain_mm) {
  expects(store.capacity_mm > 0.0, "a store that holds something");
  expects(rain_mm.size() == n_days_in_year, "365 days of rain");
  double held_mm = store.capacity_mm;
  int run = 0;
  DrySpell longest;
  for (int pass = 0; pass < 2; ++pass) {
    for (int day = 0; day < n_days_in_year; ++day) {
      const double rain = rain_mm[static_cast<std::size_t>(day)];
      const double evaporation =
          store.evaporation_mm_per_day[static_cast<std::size_t>(climate::month_of_day[static_cast<std::size_t>(day)])];
      expects(rain >= 0.0 && evaporation >= 0.0, "no negative rain or evaporation");
      const double in_mm = rain + watering_mm(store, day, held_mm);
      held_mm = std::max(0.0, std::min(store.capacity_mm, held_mm + in_mm) - evaporation);
      run = held_mm > 0.0 ? 0 : std::min(run + 1, n_days_in_year);
      if (pass == 1 && run > longest.days) longest = {run, day};
    }
  }
  return longest;
}

}  // namespace houseleek::planting
