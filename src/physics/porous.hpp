// Porous building materials: water held by humidity, vapour and liquid in the pores, conductivity and freezing when damp.
#pragma once
#include <array>

#include "physics/damp_law.hpp"

namespace houseleek::physics {

inline constexpr double water_density_kg_per_m3 = 1000.0;
inline constexpr double water_heat_capacity_j_per_kg_k = 4187.0;
inline constexpr double vapour_heat_capacity_j_per_kg_k = 1860.0;
inline constexpr double heat_of_vaporisation_at_zero_j_per_kg = 2.501e6;
inline constexpr double heat_of_fusion_j_per_kg = 3.34e5;
/// Pore water freezes between 0 degC and here, a straight share; what is held at 90 % humidity stays liquid (both ours).
inline constexpr double frozen_below_c = -0.5;
inline constexpr double unfrozen_humidity = 0.9;

/// Water that a material holds at a humidity.
/// Equation: w = w_f (1 - ln(h) / a)^(-1 / n), 0 < h <= 1
/// Symbols:  w_f: free_water_kg_per_m3; a, n: shape; h: humidity
struct Sorption {
  double free_water_kg_per_m3 = 0.0;
  double a = 1.0;
  double n = 1.0;
};

/// What is known of a material's sorption: water at 50 and at 80 % humidity, and what it takes up freely.
struct SorptionPoints {
  double at_50_percent_kg_per_m3 = 0.0;
  double at_80_percent_kg_per_m3 = 0.0;
  double free_kg_per_m3 = 0.0;
};

/// True where a curve of this form can pass through the points.
/// Equation: 0 < w_50 < w_80 < w_f and ln(w_f/w_50) / ln(w_f/w_80) < ln .5 / ln .8
/// Symbols:  as Sorption
/// Shape:    three numbers in; pure.
/// Units:    kg/m3.
/// Valid:    any numbers.
/// Errors:   none.
/// Source:   docs/equations/damp.md.   Checked by: DAMP-01, DAMP-02, DAMP-03
[[nodiscard]] bool can_pass_through(const SorptionPoints& points);

/// The curve through three points.
/// Equation: 1 - ln(.8)/a = (w_f/w_80)^n and 1 - ln(.5)/a = (w_f/w_50)^n; without a, one equation is left for n:
///           [(w_f/w_50)^n - 1] / [(w_f/w_80)^n - 1] = ln .5 / ln .8
/// Symbols:  as above
/// Shape:    three numbers in, a curve out; pure.
/// Units:    kg/m3.
/// Valid:    can_pass_through(points): ln(w_f/w_50) / ln(w_f/w_80) below 3.106.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [hansen1986] for the form.   Checked by: DAMP-01, DAMP-02, DAMP-03
[[nodiscard]] Sorption sorption_through(const SorptionPoints& points);

/// Water held at a humidity.
/// Equation: as Sorption
/// Symbols:  as Sorption
/// Shape:    a curve and a number in, a number out; pure.
/// Units:    kg/m3.
/// Valid:    humidity above 0 and no more than 1.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [hansen1986].   Checked by: DAMP-01, DAMP-02, DAMP-03
[[nodiscard]] double water_held_kg_per_m3(const Sorption& sorption, double humidity);

/// Permeability of still air to vapour.
/// Equation: d = 0.083 / 3600 / (R_v T) (p_0 / p) (T / 273 K)^1.81
/// Symbols:  R_v = 462 J/(kg K); p_0 = 101325 Pa; T in K; 0.083 m2/h
/// Shape:    scalars; pure.
/// Units:    temperature_c in degC; pressure_pa in Pa; result in kg/(m s Pa).
/// Valid:    -60 to 120 degC, pressure above 0.
/// Errors:   ContractViolation outside `Valid`.
/// Source:   [iso12572] (from memory).   Checked by: DAMP-04
[[nodiscard]] double air_vapour_permeability_kg_per_m_s_pa(double temperature_c, double pressure_pa);

/// How fast liquid spreads in a material that sucks, where that is dry.
/// Equation: D = D_0 exp(6 s), S^2 / D_0 = [e^6 (2 6 - 1) - 6 + 1] / 6^2 = 123.13, S = A_w / w_f
/// Symbols:  s: water over free water; A_w: water absorption coefficient; D_0 at s = 0; S: sorptivity
/// Shape:    scalars; pure.
/// Units:    kg/(m2 s^0.5) and kg/m3 in; m2/s out.
/// Valid:    free water above 0, coefficient 0 or more.
/// Errors:   ContractViolation outside `Valid`. The exponent is one for all materials: concrete and brick were measured
///           between 5 and 8.
/// Source:   [lockington1999] (from memory; the number recomputed).   Checked by:
///           DAMP-05, DAMP-10
[[nodiscard]] double liquid_diffusivity_dry_m2_per_s(double water_absorption_kg_per_m2_s05, double free_kg_per_m3);
inline constexpr double liquid_diffusivity_exponent = 6.0;

/// The same for inner loops: a table by the degree with cubics between, within 1e-12 of the function.
class AirPermeability {
 public:
  AirPermeability() = default;
  explicit AirPermeability(double pressure_pa);
  [[nodiscard]] double at(double temperature_c) const;

 private:
  std::array<double, 181> values_{};  // from -60 to 120 degC
  std::array<double, 181> slopes_{};
};

/// A material of a deck.
struct Porous {
  double density_kg_per_m3 = 0.0;
  double heat_capacity_j_per_kg_k = 0.0;
  double conductivity_w_per_m_k = 0.0;  // dry
  double moisture_conversion = 0.0;     // f of lambda = lambda_dry exp(f psi), by volume
  Sorption sorption;
  double water_absorption_kg_per_m2_s05 = 0.0;  // 0: does not suck
  double vapour_resistance_factor_dry = 1.0;
  double vapour_resistance_factor_wet = 1.0;
  double pressure_pa = 101325.0;
};

/// The law of a material as the catalogue knows it.
/// Equation: humidity ln h = -a [(w/w_f)^-n - 1] up to w_f, 1 above. Capillary pressure p = rho_w R_v T ln h (Kelvin),
///           above w_f its tangent. Liquid g = -K dp/dx with K = D(s) / (dp/dw), so that g = -D dw/dx within a material,
///           less the frozen share. Vapour g = -(d(T)/mu) dp_v/dx, 1/mu straight between the dry cup (25 %) and the wet
///           cup (71.5 %). Heat conductivity lambda exp(f w / 1000) to 15 % by volume, from there its tangent. Heat:
///           rho c T + w c_w T less the heat of fusion of the frozen part
/// Symbols:  s = w / w_f, no more than 1; h: humidity; rho_w, R_v: water's density, vapour's gas constant
/// Shape:    one state in, its values and slopes out; pure.
/// Units:    SI, degC.
/// Valid:    as DampLaw::at. Hysteresis, age, and change of sorption with temperature are left out.
/// Errors:   none in `at`; the constructor: ContractViolation for figures that are not above 0.
/// Source:   [hansen1986], [lockington1999], [iso12572], [iso10456]; freezing ours.   Checked by:
///           PorousLaw.SlopesAreThoseOfItsValues
class PorousLaw final : public DampLaw {
 public:
  explicit PorousLaw(const Porous& material);
  [[nodiscard]] DampPoint at(double water_kg_per_m3, double temperature_c) const override;
  [[nodiscard]] double water_kg_per_m3(double humidity, double temperature_c) const override;

 private:
  Porous material_;
  AirPermeability permeability_;
  double diffusivity_dry_m2_per_s_ = 0.0;
  double unfrozen_water_kg_per_m3_ = 0.0;
};

}  // namespace houseleek::physics
