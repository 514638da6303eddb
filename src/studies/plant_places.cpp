// What each recipe and container of a design asks of plants: winters, depth, dry spells, sun, wind, salt.
#include "studies/plant_places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>

#include "base/month_name.hpp"
#include "climate/calendar.hpp"
#include "climate/generate.hpp"
#include "planting/dry_spell.hpp"
#include "stats/quantile.hpp"
#include "studies/water_answers.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {
namespace {

constexpr double reference_depth_mm = 90.0;  // of medium, in the catalogue's ranking of dry spells
constexpr double strong_hours_frac = 0.95;

double lowest_of(const climate::WeatherYear& year, int first_hour, int n_hours) {
  const auto first = year.air_temperature_c.begin() + first_hour;
  return *std::min_element(first, first + n_hours + 1);
}

/// mm a day of moist days, month by month; a month that has none has that of the nearest month that has.
std::optional<std::array<double, 12>> evaporation_by_month(const report::WaterByRecipe& water, double waiting_mm) {
  std::array<std::optional<double>, 12> told;
  for (std::size_t month = 0; month < 12; ++month) {
    const report::Figure& days = water.can_wait_days_by_month[month];
    if (days.value && *days.value > 0.0) told[month] = waiting_mm / *days.value;
  }
  std::array<double, 12> all{};
  for (std::size_t month = 0; month < 12; ++month) {
    std::optional<double> nearest;
    for (std::size_t away = 0; away <= 6 && !nearest; ++away) {
      nearest = told[(month + away) % 12];
      if (!nearest) nearest = told[(month + 12 - away) % 12];
    }
    if (!nearest) return std::nullopt;
    all[month] = *nearest;
  }
  return all;
}

/// Water that a depth of the recipe's own medium gives to roots.
double reference_store_mm(const design::Recipe& recipe) {
  for (const simulation::Layer& layer : simulation::module_stack(recipe).module) {
    if (!layer.is_medium || layer.root_frac <= 0.0) continue;
    return reference_depth_mm * (layer.field_capacity_frac - layer.wilting_frac);
  }
  return 0.0;
}

/// The months in which the longest dry spells of the years end, the most usual one.
std::string usual_month(const std::vector<planting::DrySpell>& spells) {
  std::map<int, int> counts;
  for (const planting::DrySpell& spell : spells) {
    if (spell.days > 0) ++counts[climate::month_of_day[static_cast<std::size_t>(spell.last_day)] + 1];
  }
  if (counts.empty()) return "";
  const auto most =
      std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return std::string(month_name(most->first));
}

void add_dry_days(const PlacesInputs& inputs, const design::Recipe& recipe, double threshold_frac,
                  planting::Place& place) {
  const auto water = std::find_if(inputs.water.recipes.begin(), inputs.water.recipes.end(),
                                  [&](const report::WaterByRecipe& one) { return one.name == recipe.name; });
  if (water == inputs.water.recipes.end()) {
    place.why_no_dry = "this recipe is laid nowhere over a room, so its water was not followed";
    return;
  }
  const double waiting_mm = waiting_store_mm(recipe, threshold_frac);
  const auto evaporation = evaporation_by_month(*water, waiting_mm);
  if (!evaporation || waiting_mm <= 0.0) {
    place.why_no_dry = "nothing grows in it, or it holds no water for roots, so no day of it is moist";
    return;
  }
  planting::StoreOfModule store;
  store.capacity_mm = waiting_store_mm(recipe, 0.0);
  store.evaporation_mm_per_day = *evaporation;
  store.watering = simulation::watering_rules(recipe, simulation::seasons_of(inputs.design->climate, inputs.weather));
  const double peak_mm = *std::max_element(evaporation->begin(), evaporation->end());
  place.reference_days = reference_store_mm(recipe) / peak_mm;
  std::vector<planting::DrySpell> spells;
  std::vector<double> days;
  for (const climate::WeatherYear& year : inputs.years) {
    std::vector<double> rain_mm;
    for (const climate::DayFigures& day : climate::figures_of_days(year)) rain_mm.push_back(day.rain_mm);
    spells.push_back(planting::longest_dry_spell(store, rain_mm));
    days.push_back(spells.back().days);
  }
  place.dry = planting::DryDays{stats::quantile(days, 0.1), stats::quantile(days, 0.5), stats::quantile(days, 0.9),
                                usual_month(spells)};
}

std::vector<std::string> rooms_below(const design::Design& design, const geometry::RectangleM& rectangle) {
  std::vector<std::string> rooms;
  for (const design::Room& room : design.rooms) {
    if (geometry::is_overlapping(room.outline, rectangle)) rooms.push_back(room.name);
  }
  return rooms;
}

void add_rooms(std::vector<std::string>& rooms, const std::vector<std::string>& more) {
  for (const std::string& room : more) {
    if (std::find(rooms.begin(), rooms.end(), room) == rooms.end()) rooms.push_back(room);
  }
}

}  // namespace

std::vector<climate::WeatherYear> years_for_plants(const design::ValidDesign& design,
                                                   std::span<const climate::WeatherYear> at_hand) {
  if (!design->climate.normals) return {at_hand.begin(), at_hand.end()};
  std::vector<climate::WeatherYear> years;
  const climate::Place place = place_from(design->site);
  const climate::MonthlyNormals normals = normals_from(*design->climate.normals);
  for (int draw = 0; draw < plant_years; ++draw) {
    Result<climate::WeatherYear> year = climate::generate_year(place, normals, design->climate.seed, draw);
    if (year) years.push_back(std::move(year).value());
  }
  if (years.empty()) years.assign(at_hand.begin(), at_hand.end());
  return years;
}

report::WaterAnswer water_of_planted_roof(const design::ValidDesign& design, const climate::WeatherYear& weather,
                                          const Context& context) {
  const plan::Layout layout = plan::make_layout(design);
  const LimitsByDay limits = adaptive_limits_by_day(weather);
  const RunInputs year = run_inputs_of(design, layout, weather, limits);
  const RunSums planted = run_cover(year, report::CoverKind::planted, false, context);
  return answer_water({*design, planted, rain_mm(weather, year.options), year.thresholds_frac});
}

Winter winter_of(std::span<const climate::WeatherYear> years, const std::string& source) {
  std::vector<double> lowest;
  std::vector<std::vector<double>> by_month(12);
  for (const climate::WeatherYear& year : years) {
    lowest.push_back(lowest_of(year, 0, climate::n_hours_in_year));
    for (std::size_t month = 0; month < 12; ++month) {
      const int first = climate::first_day_of_month[month] * climate::n_hours_in_day;
      const int n_hours = climate::n_days_in_month[month] * climate::n_hours_in_day;
      by_month[month].push_back(lowest_of(year, first, n_hours));
    }
  }
  Winter winter;
  winter.coldest = planting::coldest_night(lowest, planting::winter_return_years);
  for (const std::vector<double>& month : by_month) {
    winter.coldest_by_month_c.push_back(planting::coldest_night(month, planting::winter_return_years).likely_c);
  }
  winter.from =
      winter.coldest.is_spread_assumed
          ? fmt::format("{}; {} of weather, how much years differ is assumed", source,
                        winter.coldest.n_years == 1 ? "one year" : fmt::format("{} years", winter.coldest.n_years))
          : fmt::format("{}; fitted to {} years, 95 %", source, winter.coldest.n_years);
  return winter;
}

double wind_of_twentieth_hour(const climate::WeatherYear& weather, double wind_factor) {
  return wind_factor * stats::quantile(weather.wind_m_per_s, strong_hours_frac);
}

std::vector<catalogue::Climate> climates_of(const climate::YearSummary& months, double latitude_deg,
                                            const planting::ColdestNight& coldest, design::SaltSpray salt) {
  const bool is_north = latitude_deg >= 0.0;
  const auto is_summer_half = [&](std::size_t month) { return (month >= 3 && month <= 8) == is_north; };
  double rain_mm = 0.0;
  double summer_rain_mm = 0.0;
  double driest_summer_mm = 1e9;
  double wettest_winter_mm = 0.0;
  double mean_c = 0.0;
  double coldest_month_c = 1e9;
  for (std::size_t month = 0; month < 12; ++month) {
    const double rain = months.rain_mm[month];
    const double month_c = 0.5 * (months.max_c[month] + months.min_c[month]);
    rain_mm += rain;
    mean_c += month_c / 12.0;
    coldest_month_c = std::min(coldest_month_c, month_c);
    if (is_summer_half(month)) {
      summer_rain_mm += rain;
      driest_summer_mm = std::min(driest_summer_mm, rain);
    } else {
      wettest_winter_mm = std::max(wettest_winter_mm, rain);
    }
  }
  const double share = rain_mm > 0.0 ? summer_rain_mm / rain_mm : 0.5;
  const double w = share >= 0.7 ? 28.0 : share <= 0.3 ? 0.0 : 14.0;
  std::vector<catalogue::Climate> all;
  const bool is_half_dry = rain_mm < 10.0 * (2.0 * mean_c + w);
  const bool is_summer_dry = driest_summer_mm < 40.0 && driest_summer_mm < wettest_winter_mm / 3.0;
  if (is_summer_dry) all.push_back(catalogue::Climate::summer_dry);
  if (is_half_dry) all.push_back(catalogue::Climate::semi_arid);
  if (coldest_month_c <= 0.0) all.push_back(catalogue::Climate::cold);
  if (all.empty()) all.push_back(catalogue::Climate::temperate);
  if (coldest.likely_c > 0.0) all.push_back(catalogue::Climate::frost_free);
  if (salt != design::SaltSpray::none) all.push_back(catalogue::Climate::coast);
  return all;
}

std::vector<PlantPlace> plant_places(const PlacesInputs& inputs, const Winter& winter) {
  const design::Design& design = *inputs.design;
  planting::Place common;
  common.coldest = winter.coldest;
  common.coldest_by_month_c = winter.coldest_by_month_c;
  common.wind_m_per_s = wind_of_twentieth_hour(inputs.weather, design.site.wind_factor);
  common.wind = planting::wind_exposure(common.wind_m_per_s);
  common.salt = design.planting.salt_spray.value_or(design::SaltSpray::none);
  common.is_sun_said = design.planting.sun.has_value();
  const design::RoofSun roof_sun = design.planting.sun.value_or(design::RoofSun::full);
  common.climates =
      climates_of(climate::summarise(inputs.weather), design.site.latitude_deg, winter.coldest, common.salt);
  const std::vector<double> thresholds = thresholds_frac(design);
  std::vector<PlantPlace> all;
  for (std::size_t i = 0; i < design.recipes.size(); ++i) {
    const design::Recipe& recipe = design.recipes[i];
    PlantPlace one;
    one.recipe = static_cast<int>(i);
    one.module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
    one.place = common;
    one.place.name = recipe.name;
    for (const design::RecipeLayer& layer : recipe.layers) {
      if (layer.role == design::LayerRole::medium) one.place.medium_depth_mm += layer.layer.thickness_mm;
    }
    one.place.is_under_net = recipe.net.has_value();
    const double net_frac = recipe.net ? recipe.net->material.solar_transmittance_frac->likely : 1.0;
    one.place.sun = planting::sun_on_plants(roof_sun, net_frac);
    for (const design::ModulePlace& module : design.modules) {
      if (design.patches[static_cast<std::size_t>(module.patch)].recipe != one.recipe) continue;
      ++one.n_modules;
      add_rooms(one.rooms, rooms_below(design, module.rectangle));
    }
    add_dry_days(inputs, recipe, thresholds[i], one.place);
    all.push_back(std::move(one));
  }
  for (std::size_t i = 0; i < design.containers.size(); ++i) {
    const design::Container& container = design.containers[i];
    PlantPlace one;
    one.container = static_cast<int>(i);
    one.n_modules = 1;
    one.module_m2 = 1e-6 * container.length_mm * container.width_mm;
    one.place = common;
    one.place.name = container.name;
    one.place.is_container = true;
    one.place.medium_depth_mm = container.fill.thickness_mm;
    one.place.sun = planting::sun_on_plants(roof_sun, 1.0);
    one.place.why_no_dry =
        "how long a bag or tub can wait is not computed; in high summer it wants water every day or two (common "
        "practice, no source)";
    one.rooms = rooms_below(design, container.rectangle);
    all.push_back(std::move(one));
  }
  return all;
}

}  // namespace houseleek::studies
