// Water in the medium of a bag, pot or tub by days: the FAO-56 method with two coefficients.
#include "planting/soil_water.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::planting {
namespace {

// [allen1998] p. 149: rain below 3 to 4 mm wets too little to count.
constexpr double wetting_rain_mm = 3.0;

}  // namespace

double dry_air_addition(const StandClimate& climate) {
  expects(climate.wind_2m_m_per_s >= 0.0 && climate.wind_2m_m_per_s <= 30.0, "wind from 0 to 30 m/s");
  expects(climate.least_humidity_percent >= 0.0 && climate.least_humidity_percent <= 100.0, "humidity in percent");
  expects(climate.height_m > 0.0 && climate.height_m <= 30.0, "plants of some height");
  return (0.04 * (climate.wind_2m_m_per_s - 2.0) - 0.004 * (climate.least_humidity_percent - 45.0)) *
         std::pow(climate.height_m / 3.0, 0.3);
}

double full_cover_coefficient(const StandClimate& climate) {
  return std::min(1.0 + 0.1 * climate.height_m, 1.2) + dry_air_addition(climate);
}

double basal_coefficient_by_leaves(double leaf_area_index, double full_coefficient) {
  expects(leaf_area_index >= 0.0 && leaf_area_index <= 20.0, "a leaf area index from 0 to 20");
  expects(full_coefficient >= least_coefficient, "a full cover that gives off more than dry ground");
  return least_coefficient + (full_coefficient - least_coefficient) * (1.0 - std::exp(-0.7 * leaf_area_index));
}

double stomatal_factor(const LeafClimate& climate) {
  expects(climate.slope_kpa_per_k > 0.0 && climate.psychrometric_kpa_per_k > 0.0 && climate.wind_2m_m_per_s > 0.0 &&
              climate.leaf_resistance_s_per_m > 0.0,
          "a slope, a psychrometric constant, wind and a resistance above 0");
  const double grass = climate.psychrometric_kpa_per_k * (1.0 + 0.34 * climate.wind_2m_m_per_s);
  const double leaf = climate.psychrometric_kpa_per_k *
                      (1.0 + 0.34 * climate.wind_2m_m_per_s * climate.leaf_resistance_s_per_m / 100.0);
  return (climate.slope_kpa_per_k + grass) / (climate.slope_kpa_per_k + leaf);
}

double most_coefficient(double basal_coefficient, const StandClimate& climate) {
  return std::max(1.2 + dry_air_addition(climate), basal_coefficient + 0.05);
}

double covered_frac(double basal_coefficient, double most_coefficient, double height_m) {
  expects(most_coefficient > basal_coefficient && most_coefficient > least_coefficient + 0.01,
          "a most that is more than the basal and the least coefficient");
  const double above_least = std::max(basal_coefficient - least_coefficient, 0.01);
  return std::min(0.99, std::pow(above_least / (most_coefficient - least_coefficient), 1.0 + 0.5 * height_m));
}

double evaporation_reduction_frac(double depleted_mm, const TopSoil& top) {
  expects(top.ready_mm >= 0.0 && top.ready_mm < top.total_mm, "ready water that is less than the total");
  expects(depleted_mm >= 0.0 && depleted_mm <= top.total_mm * (1.0 + 1e-12), "a depletion within the total");
  if (depleted_mm <= top.ready_mm) return 1.0;
  return std::max(0.0, (top.total_mm - depleted_mm) / (top.total_mm - top.ready_mm));
}

double evaporable_mm(double field_capacity_frac, double wilting_frac, double depth_m) {
  expects(wilting_frac >= 0.0 && wilting_frac < field_capacity_frac && field_capacity_frac <= 1.0 && depth_m > 0.0,
          "wilting below field capacity, and some depth");
  return 1000.0 * (field_capacity_frac - 0.5 * wilting_frac) * depth_m;
}

double available_mm(double field_capacity_frac, double wilting_frac, double depth_m) {
  expects(wilting_frac >= 0.0 && wilting_frac < field_capacity_frac && field_capacity_frac <= 1.0 && depth_m > 0.0,
          "wilting below field capacity, and some depth");
  return 1000.0 * (field_capacity_frac - wilting_frac) * depth_m;
}

double easy_frac_on_day(double table_frac, double evapotranspiration_mm_per_d) {
  expects(table_frac >= 0.0 && table_frac <= 1.0, "a share from 0 to 1");
  expects(evapotranspiration_mm_per_d >= 0.0 && evapotranspiration_mm_per_d <= 30.0,
          "an evapotranspiration from 0 to 30 mm a day");
  return std::clamp(table_frac + 0.04 * (5.0 - evapotranspiration_mm_per_d), 0.1, 0.8);
}

double stress_frac(double depleted_mm, double total_mm, double easy_frac) {
  expects(total_mm > 0.0 && easy_frac >= 0.0 && easy_frac < 1.0, "a store, and a share of it that is easy");
  expects(depleted_mm >= 0.0 && depleted_mm <= total_mm * (1.0 + 1e-12), "a depletion within the store");
  if (depleted_mm <= easy_frac * total_mm) return 1.0;
  return std::max(0.0, (total_mm - depleted_mm) / ((1.0 - easy_frac) * total_mm));
}

SoilDayOut step_soil_day(const SoilState& start, const SoilDay& day) {
  expects(day.reference_mm >= 0.0 && day.rain_mm >= 0.0 && day.watering_mm >= 0.0, "depths that are not negative");
  expects(day.watered_frac > 0.0 && day.watered_frac <= 1.0, "a share of the ground that watering wets");
  SoilDayOut out;
  out.end.wetted_frac = start.wetted_frac;
  if (day.watering_mm > 0.0) {
    out.end.wetted_frac = day.watered_frac;
  } else if (day.rain_mm > wetting_rain_mm) {
    out.end.wetted_frac = 1.0;
  }
  const double top_in_mm = day.rain_mm + day.watering_mm / out.end.wetted_frac;
  const double root_in_mm = day.rain_mm + day.watering_mm;
  const double top_mm = std::max(0.0, start.top_depleted_mm - top_in_mm);
  const double root_mm = std::max(0.0, start.root_depleted_mm - root_in_mm);
  out.drained_mm = std::max(0.0, root_in_mm - start.root_depleted_mm);

  const double exposed_frac = std::min(1.0 - day.covered_frac, out.end.wetted_frac);
  const double reduced = evaporation_reduction_frac(top_mm, day.top);
  const double evaporation_coefficient =
      std::min(reduced * (day.most_coefficient - day.basal_coefficient), exposed_frac * day.most_coefficient);
  const double evaporation_mm =
      std::min(evaporation_coefficient * day.reference_mm, exposed_frac * (day.top.total_mm - top_mm));
  const double transpiration_mm =
      stress_frac(root_mm, day.available_mm, day.easy_frac) * day.basal_coefficient * day.reference_mm;
  out.evapotranspiration_mm = std::min(evaporation_mm + transpiration_mm, day.available_mm - root_mm);
  out.end.top_depleted_mm = top_mm + (exposed_frac > 0.0 ? evaporation_mm / exposed_frac : 0.0);
  out.end.root_depleted_mm = root_mm + out.evapotranspiration_mm;
  return out;
}

}  // namespace houseleek::planting
