// Porous building materials: their curves and laws.
#include "physics/porous.hpp"

#include <algorithm>
#include <optional>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "numerics/root.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"

namespace houseleek::physics {
namespace {

constexpr double log_of_half = -0.69314718055994530942;
constexpr double log_of_eight_tenths = -0.22314355131420975577;
// Beyond it the standard's exponential is not meant.
constexpr double most_converted_water_kg_per_m3 = 150.0;
// Mean humidities of the dry and the wet cup [iso12572].
constexpr double dry_cup_humidity = 0.25;
constexpr double wet_cup_humidity = 0.715;

constexpr double coldest_c = -60.0;
constexpr double hottest_c = 120.0;

struct WithSlope {
  double value = 0.0;
  double slope = 0.0;
};

/// exp(f w / 1000) and, beyond 15 % by volume, the tangent there.
WithSlope moisture_factor(double conversion, double water_kg_per_m3) {
  const double per_kg = conversion / water_density_kg_per_m3;
  const double limited = numerics::min(water_kg_per_m3, most_converted_water_kg_per_m3);
  const double factor = numerics::exp(per_kg * limited);
  const double slope = per_kg * factor;
  return {factor + slope * (water_kg_per_m3 - limited), slope};
}

/// 1 / mu by humidity.
WithSlope inverse_resistance(double dry, double wet, double humidity) {
  const double slope = (1.0 / wet - 1.0 / dry) / (wet_cup_humidity - dry_cup_humidity);
  if (humidity <= dry_cup_humidity) return {1.0 / dry, 0.0};
  if (humidity >= wet_cup_humidity) return {1.0 / wet, 0.0};
  return {1.0 / dry + slope * (humidity - dry_cup_humidity), slope};
}

/// The permeability by temperature is a power: T^0.81.
constexpr double permeability_exponent = 0.81;

}  // namespace

bool can_pass_through(const SorptionPoints& points) {
  if (!(points.at_50_percent_kg_per_m3 > 0.0 && points.at_50_percent_kg_per_m3 < points.at_80_percent_kg_per_m3 &&
        points.at_80_percent_kg_per_m3 < points.free_kg_per_m3)) {
    return false;
  }
  const double half = numerics::log(points.free_kg_per_m3 / points.at_50_percent_kg_per_m3);
  const double eight_tenths = numerics::log(points.free_kg_per_m3 / points.at_80_percent_kg_per_m3);
  return half * log_of_eight_tenths > eight_tenths * log_of_half;
}

Sorption sorption_through(const SorptionPoints& points) {
  expects(can_pass_through(points), "sorption points that a curve of this form can pass through");
  const double half = points.free_kg_per_m3 / points.at_50_percent_kg_per_m3;
  const double eight_tenths = points.free_kg_per_m3 / points.at_80_percent_kg_per_m3;
  const auto excess = [&](double n) {
    return (numerics::pow(half, n) - 1.0) * log_of_eight_tenths - (numerics::pow(eight_tenths, n) - 1.0) * log_of_half;
  };
  // Both ends differ in sign: at the lower the powers are straight lines, at the upper the larger ratio wins.
  double high = 1.0;
  while (excess(high) > 0.0 && high < 1e4) high *= 2.0;
  const std::optional<numerics::Root> root = numerics::find_root(excess, {1e-6, high, 1e-12});
  expects(root.has_value(), "a sorption curve through its points");
  const double n = root->x;
  return {points.free_kg_per_m3, -log_of_eight_tenths / (numerics::pow(eight_tenths, n) - 1.0), n};
}

double water_held_kg_per_m3(const Sorption& sorption, double humidity) {
  expects(humidity > 0.0 && humidity <= 1.0, "a humidity above 0 and no more than 1");
  const double base = 1.0 - numerics::log(humidity) / sorption.a;
  return sorption.free_water_kg_per_m3 * numerics::pow(base, -1.0 / sorption.n);
}

double air_vapour_permeability_kg_per_m_s_pa(double temperature_c, double pressure_pa) {
  expects(temperature_c >= coldest_c && temperature_c <= hottest_c, "a temperature from -60 to 120 degC");
  expects(pressure_pa > 0.0, "an air pressure above 0");
  constexpr double gas_constant_j_per_kg_k = 462.0;
  constexpr double diffusivity_m2_per_s = 0.083 / 3600.0;
  const double temperature_k = temperature_c + zero_celsius_k;
  return diffusivity_m2_per_s / (gas_constant_j_per_kg_k * temperature_k) * (standard_pressure_pa / pressure_pa) *
         numerics::exp((permeability_exponent + 1.0) * numerics::log(temperature_k / 273.0));
}

double liquid_diffusivity_dry_m2_per_s(double water_absorption_kg_per_m2_s05, double free_kg_per_m3) {
  expects(water_absorption_kg_per_m2_s05 >= 0.0 && free_kg_per_m3 > 0.0,
          "a water absorption coefficient of 0 or more and free water above 0");
  constexpr double b = liquid_diffusivity_exponent;
  const double sorptivity = water_absorption_kg_per_m2_s05 / free_kg_per_m3;
  return sorptivity * sorptivity * b * b / (numerics::exp(b) * (2.0 * b - 1.0) - b + 1.0);
}

AirPermeability::AirPermeability(double pressure_pa) {
  for (std::size_t i = 0; i < values_.size(); ++i) {
    const double temperature_c = coldest_c + static_cast<double>(i);
    values_[i] = air_vapour_permeability_kg_per_m_s_pa(temperature_c, pressure_pa);
    slopes_[i] = permeability_exponent * values_[i] / (temperature_c + zero_celsius_k);
  }
}

double AirPermeability::at(double temperature_c) const {
  expects(temperature_c >= coldest_c && temperature_c <= hottest_c, "a temperature from -60 to 120 degC");
  const double place = temperature_c - coldest_c;
  const auto i = std::min(static_cast<std::size_t>(place), values_.size() - 2);
  const double x = place - static_cast<double>(i);
  const double rest = 1.0 - x;
  return rest * rest * ((1.0 + 2.0 * x) * values_[i] + x * slopes_[i]) +
         x * x * ((1.0 + 2.0 * rest) * values_[i + 1] - rest * slopes_[i + 1]);
}

PorousLaw::PorousLaw(const Porous& material) : material_(material) {
  expects(material.density_kg_per_m3 > 0.0 && material.heat_capacity_j_per_kg_k > 0.0 &&
              material.conductivity_w_per_m_k > 0.0 && material.vapour_resistance_factor_dry > 0.0 &&
              material.vapour_resistance_factor_wet > 0.0 && material.sorption.free_water_kg_per_m3 > 0.0 &&
              material.sorption.a > 0.0 && material.sorption.n > 0.0 && material.moisture_conversion >= 0.0,
          "figures of a porous material above 0");
  diffusivity_dry_m2_per_s_ =
      liquid_diffusivity_dry_m2_per_s(material.water_absorption_kg_per_m2_s05, material.sorption.free_water_kg_per_m3);
  permeability_ = AirPermeability(material.pressure_pa);
  unfrozen_water_kg_per_m3_ = water_held_kg_per_m3(material.sorption, unfrozen_humidity);
}

double PorousLaw::water_kg_per_m3(double humidity, double /*temperature_c*/) const {
  return water_held_kg_per_m3(material_.sorption, humidity);
}

DampPoint PorousLaw::at(double water_kg_per_m3, double temperature_c) const {
  const Sorption& sorption = material_.sorption;
  const double temperature_k = temperature_c + zero_celsius_k;
  const double free = sorption.free_water_kg_per_m3;
  const double filled = numerics::min(water_kg_per_m3 / free, 1.0);
  DampPoint point;
  // ln h and its slope by water; s^-n from one power.
  const double power = numerics::exp(-sorption.n * numerics::log(filled));
  const double log_humidity = -sorption.a * (power - 1.0);
  const double log_slope = sorption.a * sorption.n * power / (filled * free);
  const bool is_full = water_kg_per_m3 >= free;
  const double humidity = is_full ? 1.0 : numerics::exp(log_humidity);
  point.humidity = humidity;
  point.humidity_by_w = is_full ? 0.0 : humidity * log_slope;

  const double pressure_scale_pa_per_k = water_density_kg_per_m3 * gas_constant_vapour_j_per_kg_k;
  const double log_extended = is_full ? log_slope * (water_kg_per_m3 - free) : log_humidity;
  point.capillary_pressure_pa = pressure_scale_pa_per_k * temperature_k * log_extended;
  point.capillary_pressure_by_w = pressure_scale_pa_per_k * temperature_k * log_slope;
  point.capillary_pressure_by_k = pressure_scale_pa_per_k * log_extended;

  const double frozen_share = numerics::max(0.0, numerics::min(1.0, temperature_c / frozen_below_c));
  const bool is_freezing = temperature_c < 0.0 && temperature_c > frozen_below_c;
  if (diffusivity_dry_m2_per_s_ > 0.0) {
    const double unfrozen = diffusivity_dry_m2_per_s_ * numerics::exp(liquid_diffusivity_exponent * filled);
    point.liquid_diffusivity_m2_per_s = unfrozen * (1.0 - frozen_share);
    point.liquid_diffusivity_by_w =
        is_full ? 0.0 : point.liquid_diffusivity_m2_per_s * liquid_diffusivity_exponent / free;
    point.liquid_diffusivity_by_k = is_freezing ? -unfrozen / frozen_below_c : 0.0;
    point.liquid_conductivity_kg_per_m_s_pa = point.liquid_diffusivity_m2_per_s / point.capillary_pressure_by_w;
    point.liquid_conductivity_by_w =
        is_full ? 0.0
                : point.liquid_conductivity_kg_per_m_s_pa *
                      (liquid_diffusivity_exponent / free + (sorption.n + 1.0) / water_kg_per_m3);
    point.liquid_conductivity_by_k = -point.liquid_conductivity_kg_per_m_s_pa / temperature_k +
                                     point.liquid_diffusivity_by_k / point.capillary_pressure_by_w;
    point.thermal_liquid_kg_per_m_s_k = point.liquid_conductivity_kg_per_m_s_pa * point.capillary_pressure_by_k;
  }

  const WithSlope inverse =
      inverse_resistance(material_.vapour_resistance_factor_dry, material_.vapour_resistance_factor_wet, humidity);
  const double air = permeability_.at(temperature_c);
  point.vapour_permeability_kg_per_m_s_pa = air * inverse.value;
  point.vapour_permeability_by_w = air * inverse.slope * point.humidity_by_w;
  point.vapour_permeability_by_k = permeability_exponent * point.vapour_permeability_kg_per_m_s_pa / temperature_k;

  const WithSlope factor = moisture_factor(material_.moisture_conversion, water_kg_per_m3);
  point.conductivity_w_per_m_k = material_.conductivity_w_per_m_k * factor.value;
  point.conductivity_by_w = material_.conductivity_w_per_m_k * factor.slope;

  const double freezable = numerics::max(0.0, water_kg_per_m3 - unfrozen_water_kg_per_m3_);
  const double capacity = material_.density_kg_per_m3 * material_.heat_capacity_j_per_kg_k +
                          water_kg_per_m3 * water_heat_capacity_j_per_kg_k;
  point.heat_j_per_m3 = capacity * temperature_c - heat_of_fusion_j_per_kg * frozen_share * freezable;
  point.heat_by_w =
      water_heat_capacity_j_per_kg_k * temperature_c - (freezable > 0.0 ? heat_of_fusion_j_per_kg * frozen_share : 0.0);
  point.heat_by_k = capacity - (is_freezing ? heat_of_fusion_j_per_kg * freezable / frozen_below_c : 0.0);
  return point;
}

}  // namespace houseleek::physics
