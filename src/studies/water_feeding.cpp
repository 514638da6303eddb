// What media have lost with their age, what ties up nitrogen; and the sheet for a neighbour.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "base/number_words.hpp"
#include "planting/feeding.hpp"
#include "report/words.hpp"
#include "simulation/cover_layers.hpp"
#include "studies/water_parts.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;

constexpr double days_in_year = 365.25;
// A day's rain that soaks a dry medium through rather than wetting its skin: common practice, no source.
constexpr double rain_for_a_visit_mm = 10.0;

/// Mean age of a recipe's modules, or why it is not known.
Figure age_of(const StoreInputs& inputs, int recipe_index) {
  const design::Recipe& recipe = inputs.design->recipes[static_cast<std::size_t>(recipe_index)];
  std::vector<double> ages;
  for (const LaidModule& module : laid_modules(inputs.records)) {
    if (folded_name(module.recipe) != folded_name(recipe.name)) continue;
    ages.push_back(static_cast<double>(inputs.today - module.made_day) / days_in_year);
  }
  if (ages.empty()) {
    for (const design::Patch& patch : inputs.design->patches) {
      if (patch.recipe == recipe_index && patch.built_day && *patch.built_day <= inputs.today) {
        ages.push_back(static_cast<double>(inputs.today - *patch.built_day) / days_in_year);
      }
    }
  }
  if (ages.empty()) return results::figure_missing("nothing says when it was laid; counted as new");
  double sum = 0.0;
  for (const double age : ages) sum += age;
  return results::figure_with_range(sum / static_cast<double>(ages.size()), *std::min_element(ages.begin(), ages.end()),
                                    *std::max_element(ages.begin(), ages.end()), "the youngest and the oldest module");
}

Figure scaled(const results::Interval& one, double by, const std::string& from) {
  return results::figure_with_range(one.likely * by, one.low * by, one.high * by, from);
}

report::SettlingLayerAnswer settling(const design::Recipe& recipe, const design::RecipeLayer& layer,
                                     const Figure& age) {
  const catalogue::Material& material = layer.layer.material;
  const planting::SettlingLayer settled{layer.layer.thickness_mm, *material.thickness_in_use_frac,
                                        *material.thickness_loss_per_year_frac};
  report::SettlingLayerAnswer answer;
  answer.recipe = recipe.name;
  answer.material = material.name;
  answer.bought_mm = layer.layer.thickness_mm;
  answer.age_years = age;
  const std::string from = fmt::format(
      "settling {:.0f} to {:.0f} % at first, then {:.0f} to {:.0f} % a year: {}",
      100.0 * (1.0 - material.thickness_in_use_frac->high), 100.0 * (1.0 - material.thickness_in_use_frac->low),
      100.0 * material.thickness_loss_per_year_frac->low, 100.0 * material.thickness_loss_per_year_frac->high,
      material.thickness_loss_per_year_frac->source);
  const double years = age.value.value_or(0.0);
  const results::Interval now = planting::settled_depth_mm(settled, years);
  const results::Interval later = planting::settled_depth_mm(settled, years + 3.0);
  answer.depth_now_mm = scaled(now, 1.0, from);
  answer.depth_in_three_years_mm = scaled(later, 1.0, from);
  // The first settling packs the same mass; what goes after it is gone, with the water it held.
  const results::Interval new_one = planting::settled_depth_mm(settled, 0.0);
  const results::Interval kept = {now.low / new_one.low, now.likely / new_one.likely, now.high / new_one.high};
  answer.store_now_frac =
      scaled(kept, 1.0, "as the depth after the first settling; finer grain may hold a little more");
  answer.mass_now_frac = scaled(kept, 1.0, "what rotted and washed out is gone");
  const double module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
  const double l_per_mm = module_m2;
  const double wanted_mm = new_one.likely;
  const results::Interval gone = {std::max(0.0, wanted_mm - now.high), std::max(0.0, wanted_mm - now.likely),
                                  std::max(0.0, wanted_mm - now.low)};
  answer.top_up_l_per_module = scaled(gone, l_per_mm, "back to the depth after the first settling");
  answer.statement =
      fmt::format("{}, {}: {} mm of {:g} bought{}; in three years {} mm. A ruler at three places knows better.",
                  recipe.name, material.name, report::short_figure(answer.depth_now_mm), answer.bought_mm,
                  age.value ? fmt::format(", {:.1f} years old", years) : std::string(", as if new"),
                  report::short_figure(answer.depth_in_three_years_mm));
  return answer;
}

}  // namespace

report::FeedingAnswer answer_feeding(const StoreInputs& inputs) {
  report::FeedingAnswer feeding;
  std::vector<int> seen;
  for (const StoreGroup& group : store_groups(inputs)) {
    if (std::find(seen.begin(), seen.end(), group.recipe) != seen.end()) continue;
    seen.push_back(group.recipe);
    const design::Recipe& recipe = inputs.design->recipes[static_cast<std::size_t>(group.recipe)];
    const Figure age = age_of(inputs, group.recipe);
    for (const design::RecipeLayer& layer : recipe.layers) {
      const catalogue::Material& material = layer.layer.material;
      if (layer.role == design::LayerRole::medium && material.thickness_in_use_frac &&
          material.thickness_loss_per_year_frac) {
        feeding.layers.push_back(settling(recipe, layer, age));
      }
      const planting::CarbonRich* rich = planting::find_carbon_rich(material.name);
      if (rich == nullptr) continue;
      report::NitrogenAnswer answer;
      answer.recipe = recipe.name;
      answer.material = material.name;
      answer.placed = layer.role == design::LayerRole::medium ? "among the roots" : "below the roots";
      const double kg =
          1e-9 * recipe.length_mm * recipe.width_mm * layer.layer.thickness_mm * material.density_kg_per_m3.likely;
      answer.tied_g_per_module =
          scaled(planting::nitrogen_tied_g_per_kg(*rich), kg,
                 "textbook balance of soil nitrogen, from memory, not confirmed; all ends at once");
      answer.statement = fmt::format("{}: {} ({}) ties up {} g of nitrogen a module in its first year. {}", recipe.name,
                                     material.name, answer.placed, report::short_figure(answer.tied_g_per_module),
                                     layer.role == design::LayerRole::medium
                                         ? "Feed that much more, little by little (from memory, not confirmed), or lay "
                                           "it on top instead of mixing it in."
                                         : "Roots that reach it go pale: feed then.");
      feeding.nitrogen.push_back(std::move(answer));
    }
  }
  std::optional<std::int64_t> fed;
  for (const logbook::EventRecord& record : inputs.records) {
    if (record.superseded_by || record.event.kind != logbook::EventKind::fed) continue;
    const std::int64_t day = civil_day_of(record.event);
    if (!fed || day > *fed) fed = day;
  }
  if (fed) feeding.last_fed = text_from_day(*fed);
  feeding.statement =
      "Feeding: stonecrops want none or a little compost in spring; herbs a little in spring; vegetables and fruit in "
      "bags "
      "a liquid feed every one to two weeks while they grow, never on a dry medium. Common practice, no source. "
      "Compost "
      "halves in a few years (common practice, no source), so depth, weight and water go down together.";
  return feeding;
}

report::HolidayAnswer answer_holiday(const std::vector<report::StoreNow>& full_stores, const WaterDays& days,
                                     double can_l) {
  report::HolidayAnswer holiday;
  const std::int64_t first = *days.away_from;
  const std::int64_t last = *days.away_to;
  holiday.first_day = text_from_day(first);
  holiday.last_day = text_from_day(last);
  struct Visit {
    std::int64_t day;
    const report::StoreNow* store;
  };
  std::vector<Visit> visits;
  for (const report::StoreNow& store : full_stores) {
    // The tenth part: nobody is there to see one that dries faster.
    const auto interval = static_cast<std::int64_t>(std::max(1.0, std::floor(store.can_wait_days.range->low)));
    for (std::int64_t day = first + interval; day <= last; day += interval) visits.push_back({day, &store});
  }
  std::stable_sort(visits.begin(), visits.end(), [](const Visit& a, const Visit& b) { return a.day < b.day; });
  for (const Visit& visit : visits) {
    const report::StoreNow& store = *visit.store;
    const double litres = *store.litres_each_when_due.value * store.count;
    holiday.visits.push_back({text_from_day(visit.day),
                              store.count > 1 ? fmt::format("{} modules \"{}\"", store.count, store.name) : store.name,
                              litres, std::ceil(litres / can_l)});
  }
  holiday.least_rain_mm = rain_for_a_visit_mm;
  std::vector<std::string> visited;
  for (const report::HolidayVisit& visit : holiday.visits) visited.push_back(visit.day);
  visited.erase(std::unique(visited.begin(), visited.end()), visited.end());
  holiday.statement = fmt::format(
      "{} from {} to {}, if it does not rain and all is watered until it drips on the evening before. After "
      "{:g} mm of "
      "rain or more in a day the next visit can be left out, but not for what stands under a roof.",
      counted(static_cast<double>(visited.size()), "visit", "visits"), holiday.first_day, holiday.last_day,
      holiday.least_rain_mm);
  return holiday;
}

}  // namespace houseleek::studies
