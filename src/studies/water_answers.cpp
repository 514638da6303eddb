// Rain kept back, water given, and how long a full module can wait, month by month.
#include "studies/water_answers.hpp"

#include <fmt/format.h>

namespace houseleek::studies {
namespace {

using report::Figure;
using results::figure_missing;

Figure of_one_year(double value) { return results::figure_without_range(value, std::string(report::one_year_only)); }

constexpr std::string_view can_wait_means =
    "Days from a drained, full module down to the store at which it wants water, at the mean evapotranspiration of the "
    "month's days that begin above that store; without rain.";

/// Water of the stacks of one recipe, or of all.
struct WaterSums {
  double area_m2 = 0.0;
  double left_l = 0.0;
  double watering_l = 0.0;
  std::array<double, 12> moist_days_m2{};
  std::array<double, 12> moist_evapotranspiration_l{};
};

constexpr int every_recipe = -1;

WaterSums sums_of(const RunSums& planted, int recipe) {
  WaterSums sums;
  for (const StackSums& stack : planted.stacks) {
    if (stack.origin.recipe < 0 || (recipe != every_recipe && stack.origin.recipe != recipe)) continue;
    sums.area_m2 += stack.area_m2;
    sums.left_l += stack.area_m2 * stack.left_mm;
    sums.watering_l += stack.area_m2 * stack.watering_mm;
    for (std::size_t month = 0; month < 12; ++month) {
      sums.moist_days_m2[month] += stack.area_m2 * stack.moist_days[month];
      sums.moist_evapotranspiration_l[month] += stack.area_m2 * stack.moist_evapotranspiration_mm[month];
    }
  }
  return sums;
}

Figure retained_frac(const WaterSums& sums, double rain_mm) {
  const double given_l = rain_mm * sums.area_m2 + sums.watering_l;
  if (sums.area_m2 == 0.0) return figure_missing("no modules are laid over a room");
  if (given_l == 0.0) return figure_missing("neither rain nor watering");
  return of_one_year(1.0 - sums.left_l / given_l);
}

Figure watering_l_per_module(const WaterSums& sums, double module_m2) {
  if (sums.area_m2 == 0.0) return figure_missing("no modules are laid over a room");
  return of_one_year(sums.watering_l / sums.area_m2 * module_m2);
}

Figure can_wait_days(const WaterSums& sums, std::size_t month, double store_mm) {
  if (sums.area_m2 == 0.0) return figure_missing("no modules are laid over a room");
  if (store_mm <= 0.0) return figure_missing("no roots in a layer that holds water");
  if (sums.moist_days_m2[month] == 0.0) {
    return figure_missing("no day of the month began with enough water in the store");
  }
  const double mm_per_day = sums.moist_evapotranspiration_l[month] / sums.moist_days_m2[month];
  if (mm_per_day <= 0.0) return figure_missing("nothing evaporated on those days");
  return of_one_year(store_mm / mm_per_day);
}

double module_m2(const design::Recipe& recipe) { return 1e-6 * recipe.length_mm * recipe.width_mm; }

/// Mean area of the modules that are laid.
double mean_module_m2(const design::Design& design) {
  double area_m2 = 0.0;
  for (const design::ModulePlace& place : design.modules) {
    const design::Patch& patch = design.patches[static_cast<std::size_t>(place.patch)];
    area_m2 += module_m2(design.recipes[static_cast<std::size_t>(patch.recipe)]);
  }
  return design.modules.empty() ? 0.0 : area_m2 / static_cast<double>(design.modules.size());
}

bool is_laid(const design::Design& design, std::size_t recipe) {
  for (const design::Patch& patch : design.patches) {
    if (patch.recipe == static_cast<int>(recipe)) return true;
  }
  return false;
}

}  // namespace

std::vector<double> thresholds_frac(const design::Design& design) {
  std::vector<double> thresholds;
  for (const design::Recipe& recipe : design.recipes) {
    const bool is_given = recipe.watering && recipe.watering->when_store_below_frac;
    thresholds.push_back(is_given ? *recipe.watering->when_store_below_frac : wanting_store_frac.likely);
  }
  return thresholds;
}

std::vector<design::Assumption> assumed_thresholds(const design::Design& design) {
  std::vector<design::Assumption> assumed;
  for (std::size_t i = 0; i < design.recipes.size(); ++i) {
    const design::Recipe& recipe = design.recipes[i];
    if (recipe.watering && recipe.watering->when_store_below_frac) continue;
    assumed.push_back({.path = fmt::format("recipe[{}].watering.when_store_below_frac", i),
                       .name = std::string(wanting_store_frac.words),
                       .unit = "",
                       .low = wanting_store_frac.low,
                       .likely = wanting_store_frac.likely,
                       .high = wanting_store_frac.high,
                       .source = std::string(wanting_store_frac.source),
                       .certainty = wanting_store_frac.certainty,
                       .from = design::AssumedFrom::default_value});
  }
  return assumed;
}

double waiting_store_mm(const design::Recipe& recipe, double threshold_frac) {
  double store_mm = 0.0;
  for (const simulation::Layer& layer : simulation::module_stack(recipe).module) {
    if (layer.root_frac <= 0.0) continue;
    store_mm += 1000.0 * layer.thickness_m * (layer.field_capacity_frac - layer.wilting_frac);
  }
  return store_mm * (1.0 - threshold_frac);
}

double watering_m3(const RunSums& planted) { return 0.001 * sums_of(planted, every_recipe).watering_l; }

report::WaterAnswer answer_water(const WaterInputs& inputs) {
  report::WaterAnswer answer;
  const WaterSums all = sums_of(inputs.planted, every_recipe);
  answer.rain_mm = of_one_year(inputs.rain_mm);
  answer.retained_frac = retained_frac(all, inputs.rain_mm);
  answer.watering_l_per_module = watering_l_per_module(all, mean_module_m2(inputs.design));
  answer.can_wait_means = can_wait_means;
  answer.can_wait_days_by_month.fill(figure_missing("no modules are laid over a room"));
  for (std::size_t i = 0; i < inputs.design.recipes.size(); ++i) {
    if (!is_laid(inputs.design, i)) continue;
    const design::Recipe& recipe = inputs.design.recipes[i];
    const WaterSums sums = sums_of(inputs.planted, static_cast<int>(i));
    report::WaterByRecipe row;
    row.name = recipe.name;
    row.retained_frac = retained_frac(sums, inputs.rain_mm);
    row.watering_l_per_module = watering_l_per_module(sums, module_m2(recipe));
    const double store_mm = waiting_store_mm(recipe, inputs.thresholds_frac[i]);
    for (std::size_t month = 0; month < 12; ++month) {
      const Figure days = can_wait_days(sums, month, store_mm);
      Figure& least = answer.can_wait_days_by_month[month];
      // A reason why one recipe has none stands only while no recipe has a figure.
      if (!least.value || (days.value && *days.value < *least.value)) least = days;
      row.can_wait_days_by_month[month] = days;
    }
    answer.recipes.push_back(std::move(row));
  }
  return answer;
}

}  // namespace houseleek::studies
