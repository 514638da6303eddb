// A bag, pot or tub with plants through the days of a weather year, by the FAO-56 method.
#include "planting/crop_days.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "climate/calendar.hpp"
#include "climate/weather_columns.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"
#include "physics/reference_evapotranspiration.hpp"
#include "physics/wind.hpp"
#include "planting/soil_water.hpp"

namespace houseleek::planting {
namespace {

constexpr double mj_per_wh = 0.0036;
constexpr double anemometer_m = 10.0;
constexpr double top_depth_m = 0.1;      // [allen1998] p. 144: 0.10 to 0.15 m
constexpr double ready_of_total = 0.45;  // of Table 19: 8 to 10 of 16 to 22 mm in loam
constexpr double vegetable_easy_frac = 0.4;

double likely_or(const std::optional<catalogue::Spread>& figure, double otherwise) {
  return figure ? figure->likely : otherwise;
}

}  // namespace

std::vector<CropWeather> crop_weather(const climate::WeatherYear& year, double elevation_m, double wind_factor) {
  std::vector<CropWeather> days;
  constexpr auto hours = static_cast<std::size_t>(climate::n_hours_in_day);
  for (std::size_t day = 0; day < static_cast<std::size_t>(climate::n_days_in_year); ++day) {
    double max_c = -100.0;
    double min_c = 100.0;
    double vapour_pa = 0.0;
    double wind = 0.0;
    double sun_wh = 0.0;
    CropWeather one;
    for (std::size_t hour = day * hours; hour < (day + 1) * hours; ++hour) {
      max_c = std::max(max_c, year.air_temperature_c[hour]);
      min_c = std::min(min_c, year.air_temperature_c[hour]);
      vapour_pa += year.vapour_pressure_pa[hour] / static_cast<double>(hours);
      wind += wind_factor * year.wind_m_per_s[hour] / static_cast<double>(hours);
      sun_wh += year.global_w_per_m2[hour];
      for (std::size_t slot = 0; slot < climate::n_rain_slots; ++slot) {
        one.rain_mm += year.rain_mm_per_10_min[hour * climate::n_rain_slots + slot];
      }
    }
    one.wind_2m_m_per_s =
        std::max(physics::least_reference_wind_m_per_s, physics::wind_speed_at_2_m_m_per_s(wind, anemometer_m));
    const physics::ReferenceDay reference =
        physics::reference_day({.latitude_rad = year.place.latitude_deg * physics::radians_per_degree,
                                .elevation_m = elevation_m,
                                .day_of_year = static_cast<int>(day) + 1,
                                .max_c = max_c,
                                .min_c = min_c,
                                .vapour_kpa = 1e-3 * vapour_pa,
                                .wind_at_2_m_m_per_s = one.wind_2m_m_per_s,
                                .solar_mj_per_m2_d = mj_per_wh * sun_wh});
    one.reference_mm = std::max(0.0, reference.evapotranspiration_mm_per_d);
    one.slope_kpa_per_k = reference.slope_kpa_per_k;
    one.psychrometric_kpa_per_k = reference.psychrometric_kpa_per_k;
    one.least_humidity_percent =
        std::clamp(100.0 * vapour_pa / physics::saturation_vapour_pressure_pa(max_c), 1.0, 100.0);
    days.push_back(one);
  }
  return days;
}

CropStand crop_stand(const catalogue::Plant* known) {
  CropStand stand;
  stand.easy_frac = vegetable_easy_frac;
  if (known == nullptr) return stand;
  const catalogue::Plant& plant = *known;
  stand.height_m = 0.001 * plant.foliage.height_mm.likely;
  stand.leaf_area_index = plant.foliage.leaf_area_index.likely * plant.foliage.cover_frac.likely;
  stand.leaf_resistance_s_per_m = plant.foliage.least_stomatal_resistance_s_per_m.likely;
  stand.easy_frac = likely_or(plant.easy_water_frac, vegetable_easy_frac);
  return stand;
}

CropStore crop_store(const design::Container& container) {
  const catalogue::Material& medium = container.fill.material;
  expects(medium.field_capacity_frac.has_value() && medium.wilting_water_frac.has_value(), "a medium that holds water");
  const double field = medium.field_capacity_frac->likely;
  const double wilting = medium.wilting_water_frac->likely;
  const double depth_m = 0.001 * container.fill.thickness_mm;
  return {available_mm(field, wilting, depth_m), evaporable_mm(field, wilting, std::min(top_depth_m, depth_m))};
}

CropDays run_crop_days(const CropQuestion& question) {
  expects(question.weather.size() == static_cast<std::size_t>(climate::n_days_in_year), "a year of days");
  expects(question.n_days >= 1 && question.first_day >= 0 && question.first_day < climate::n_days_in_year,
          "days of a year");
  expects(question.watering_mm.empty() || question.watering_mm.size() == static_cast<std::size_t>(question.n_days),
          "one watering a day, or none");
  const CropStand stand = crop_stand(question.plant);
  const CropStore store = crop_store(question.container);
  const TopSoil top{store.evaporable_mm, ready_of_total * store.evaporable_mm};
  SoilState state;
  state.root_depleted_mm = (1.0 - question.first_store_frac) * store.available_mm;
  state.top_depleted_mm = (1.0 - question.first_store_frac) * store.evaporable_mm;
  CropDays days;
  for (int i = 0; i < question.n_days; ++i) {
    const CropWeather& weather =
        question.weather[static_cast<std::size_t>((question.first_day + i) % climate::n_days_in_year)];
    const StandClimate climate{weather.wind_2m_m_per_s, weather.least_humidity_percent, stand.height_m};
    const LeafClimate leaf{weather.slope_kpa_per_k, weather.psychrometric_kpa_per_k, weather.wind_2m_m_per_s,
                           stand.leaf_resistance_s_per_m};
    SoilDay day;
    day.reference_mm = weather.reference_mm;
    day.rain_mm = weather.rain_mm;
    day.basal_coefficient = question.stand_factor * stomatal_factor(leaf) *
                            basal_coefficient_by_leaves(stand.leaf_area_index, full_cover_coefficient(climate));
    day.most_coefficient =
        std::max(question.stand_factor * most_coefficient(0.0, climate), day.basal_coefficient + 0.05);
    day.covered_frac = covered_frac(day.basal_coefficient, day.most_coefficient, stand.height_m);
    day.top = top;
    day.available_mm = store.available_mm;
    day.easy_frac = easy_frac_on_day(stand.easy_frac, std::min(30.0, day.basal_coefficient * weather.reference_mm));
    if (!question.watering_mm.empty()) day.watering_mm = question.watering_mm[static_cast<std::size_t>(i)];
    if (question.fills_when_due && state.root_depleted_mm > day.easy_frac * store.available_mm) {
      day.watering_mm += state.root_depleted_mm;
    }
    const SoilDayOut out = step_soil_day(state, day);
    state = out.end;
    days.store_frac.push_back(1.0 - state.root_depleted_mm / store.available_mm);
    days.missing_mm.push_back(state.root_depleted_mm);
    days.evapotranspiration_mm.push_back(out.evapotranspiration_mm);
    days.watered_mm.push_back(day.watering_mm);
    days.wants_below_frac.push_back(1.0 - day.easy_frac);
  }
  return days;
}

}  // namespace houseleek::planting
