// How a porous material holds and moves moisture and heat at one state: what a solver of damp asks of it.
#pragma once

namespace houseleek::physics {

/// Values at one state and their slopes, by water content (w) and by temperature (k).
struct DampPoint {
  double humidity = 0.0;  // of the air in the pores, a share of saturation
  double humidity_by_w = 0.0;
  double humidity_by_k = 0.0;
  double capillary_pressure_pa = 0.0;  // of the pore water over that of free water: negative below saturation
  double capillary_pressure_by_w = 0.0;
  double capillary_pressure_by_k = 0.0;
  double vapour_permeability_kg_per_m_s_pa = 0.0;
  double vapour_permeability_by_w = 0.0;
  double vapour_permeability_by_k = 0.0;
  double liquid_conductivity_kg_per_m_s_pa = 0.0;
  double liquid_conductivity_by_w = 0.0;
  double liquid_conductivity_by_k = 0.0;
  // Within one material liquid moves by -D dw/dx - D_k dT/dx: the same flux in terms that stay small where it is dry.
  double liquid_diffusivity_m2_per_s = 0.0;  // D = K dp_c/dw
  double liquid_diffusivity_by_w = 0.0;
  double liquid_diffusivity_by_k = 0.0;
  double thermal_liquid_kg_per_m_s_k = 0.0;  // D_k = K dp_c/dT
  double conductivity_w_per_m_k = 0.0;
  double conductivity_by_w = 0.0;
  double heat_j_per_m3 = 0.0;  // of solid, water and ice, from 0 degC and liquid
  double heat_by_w = 0.0;
  double heat_by_k = 0.0;
};

/// A material's law. Units: kg/m3, degC, and those of DampPoint.
/// Valid: water above 0, temperature from -60 to 120 degC, kept by the caller (called inside Newton loops).
class DampLaw {
 public:
  DampLaw() = default;
  DampLaw(const DampLaw&) = default;
  DampLaw& operator=(const DampLaw&) = default;
  DampLaw(DampLaw&&) = default;
  DampLaw& operator=(DampLaw&&) = default;
  virtual ~DampLaw() = default;

  [[nodiscard]] virtual DampPoint at(double water_kg_per_m3, double temperature_c) const = 0;
  /// The water at a humidity above 0 and no more than 1.
  [[nodiscard]] virtual double water_kg_per_m3(double humidity, double temperature_c) const = 0;
};

}  // namespace houseleek::physics
