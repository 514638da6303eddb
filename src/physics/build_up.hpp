// Layers one on another: steady resistance and transmittance, and the answer to a daily swing.
#pragma once
#include <span>
#include <vector>

namespace houseleek::physics {

enum class HeatDirection { up, horizontal, down };

inline constexpr double outside_surface_resistance_m2_k_per_w = 0.04;  // [iso6946] Table 7 (from memory)
inline constexpr double day_s = 86400.0;

/// A layer with mass.
struct SolidLayer {
  double thickness_m;
  double conductivity_w_per_m_k;
  double density_kg_per_m3;
  double specific_heat_j_per_kg_k;
};

/// All that heat sees of a layer; films and air layers have no capacity.
struct ThermalLayer {
  double resistance_m2_k_per_w;
  double capacity_j_per_m2_k = 0.0;
};

/// Resistance and capacity of a solid layer.
/// Equation: R = d/lambda; C = d rho c
/// Symbols:  d: thickness; lambda: conductivity; rho: density; c: specific heat
/// Shape:    struct in, struct out; pure.
/// Units:    see the fields.
/// Valid:    thickness and conductivity positive, density and specific heat zero or more.
/// Errors:   ContractViolation outside the range.
/// Source:   [iso6946] Eq. for R of a homogeneous layer.   Checked by: BUILDUP-20.
[[nodiscard]] ThermalLayer thermal_layer(const SolidLayer& layer);

/// Resistance between a room's air and the inner surface, as the standard fixes it.
/// Equation: 0.10 up, 0.13 horizontal, 0.17 down
/// Symbols:  -
/// Shape:    enum in, scalar out; pure.
/// Units:    m2 K/W.
/// Valid:    plane surfaces of high emissivity, still room air.
/// Errors:   none.
/// Source:   [iso6946] Table 7 (from memory).   Checked by: BUILDUP-01.
[[nodiscard]] double inside_surface_resistance_m2_k_per_w(HeatDirection direction);

/// Resistance between air and a surface from its two ways of heat.
/// Equation: 1/(h_c + e 4 sigma T^3)
/// Symbols:  h_c = convective_w_per_m2_k; e = emissivity_frac; T = mean_k; sigma: Stefan and Boltzmann's constant
/// Shape:    scalars in, scalar out; pure.
/// Units:    W/(m2 K), fraction, K in; m2 K/W out.
/// Valid:    h_c positive, e 0 to 1, T 200 to 400 K.
/// Errors:   ContractViolation outside the range.
/// Source:   [iso6946] annex C (from memory).   Checked by: BUILDUP-01, BUILDUP-02.
[[nodiscard]] double surface_resistance_m2_k_per_w(double convective_w_per_m2_k, double emissivity_frac, double mean_k);

/// Convection at an outer surface as the standard takes it from wind.
/// Equation: 4 + 4 v
/// Symbols:  v = wind_m_per_s next to the surface
/// Shape:    scalar in, scalar out; pure.
/// Units:    m/s in; W/(m2 K) out.
/// Valid:    0 to 50 m/s.
/// Errors:   ContractViolation outside the range.
/// Source:   [iso6946] annex C (from memory).   Checked by: BUILDUP-02.
[[nodiscard]] double outside_convection_w_per_m2_k(double wind_m_per_s);

/// An air layer without ventilation, parallel to the faces.
struct AirLayer {
  double thickness_m;
  HeatDirection direction;
  double emissivity_a_frac = 0.9;
  double emissivity_b_frac = 0.9;
  double mean_k = 283.15;
};

/// Resistance of an unventilated air layer.
/// Equation: 1/(h_a + h_r); h_a: up max(1.95, 0.025/d), horizontal max(1.25, 0.025/d), down max(0.12 d^-0.44, 0.025/d);
///           h_r = 4 sigma T^3/(1/e1 + 1/e2 - 1)
/// Symbols:  d: thickness; e1, e2: emissivities of the faces; T: mean temperature
/// Shape:    struct in, scalar out; pure.
/// Units:    m2 K/W.
/// Valid:    thickness above 0 to 0.3 m; emissivities above 0 to 1; 5 K between the faces or less.
/// Errors:   ContractViolation outside the range.
/// Source:   [iso6946] annex D (from memory); rounded, its Table 8.   Checked by: BUILDUP-10, BUILDUP-11.
[[nodiscard]] double air_layer_resistance_m2_k_per_w(const AirLayer& layer);

enum class AirLayerVentilation { unventilated, slight, well };

/// How the standard counts a layer of air with openings to the outside.
/// Equation: up to 500 mm2: unventilated; above 1500 mm2: well; between: slight
/// Symbols:  area of openings to a square metre of level layer, or to a metre of length of an upright one
/// Shape:    scalar in, enum out; pure.
/// Units:    mm2 per m2 (or per m).
/// Valid:    zero or more.
/// Errors:   ContractViolation outside the range.
/// Source:   [iso6946] section on ventilated layers (from memory).   Checked by: BUILDUP-12.
[[nodiscard]] AirLayerVentilation air_layer_ventilation(double opening_mm2_per_m2);

/// Two total resistances of the same build-up.
struct TotalResistances {
  double unventilated_m2_k_per_w;     // the air layer counted as still
  double well_ventilated_m2_k_per_w;  // all outside the air layer left out, inside resistance at its face
};

/// Total resistance of a build-up with an air layer that has openings to the outside.
/// Equation: unventilated up to 500 mm2, well ventilated from 1500 mm2, straight line in the area between
/// Symbols:  A = opening_mm2_per_m2
/// Shape:    struct and scalar in, scalar out; pure.
/// Units:    m2 K/W.
/// Valid:    resistances positive; area zero or more.
/// Errors:   ContractViolation outside the range.
/// Source:   [iso6946] section on slightly ventilated layers (from memory).   Checked by: BUILDUP-12.
[[nodiscard]] double ventilated_total_resistance_m2_k_per_w(const TotalResistances& totals, double opening_mm2_per_m2);

/// Resistance of a build-up, films included.
/// Equation: sum of R
/// Symbols:  R: resistance of a layer
/// Shape:    any number of layers, films among them; scalar out; pure.
/// Units:    m2 K/W.
/// Valid:    every resistance positive.
/// Errors:   ContractViolation outside the range or without layers.
/// Source:   [iso6946] Eq. for the total resistance.   Checked by: BUILDUP-20.
[[nodiscard]] double total_resistance_m2_k_per_w(std::span<const ThermalLayer> layers);

/// Transmittance of a build-up, films included.
/// Equation: 1/sum of R
/// Symbols:  R: resistance of a layer
/// Shape:    any number of layers, films among them; scalar out; pure.
/// Units:    W/(m2 K).
/// Valid:    every resistance positive.
/// Errors:   ContractViolation outside the range or without layers.
/// Source:   [iso6946] Eq. for the transmittance.   Checked by: BUILDUP-20, BUILDUP-21.
[[nodiscard]] double transmittance_w_per_m2_k(std::span<const ThermalLayer> layers);

/// A share of an area and its transmittance.
struct AreaShare {
  double area_frac;
  double transmittance_w_per_m2_k;
};

/// Transmittance of areas side by side, heat flowing straight through each.
/// Equation: sum of f U
/// Symbols:  f: share of the area; U: its transmittance
/// Shape:    any number of shares; scalar out; pure.
/// Units:    W/(m2 K).
/// Valid:    shares zero or more that sum to one within 1e-9.
/// Errors:   ContractViolation outside the range.
/// Source:   [iso6946] upper limit of the total resistance.   Checked by: BUILDUP-22.
[[nodiscard]] double side_by_side_transmittance_w_per_m2_k(std::span<const AreaShare> shares);

/// Steady temperatures between the layers.
/// Equation: T_k = T_in - q sum of R up to k; q = (T_in - T_out)/sum of R
/// Symbols:  T_in, T_out = inside_c, outside_c; R: resistances
/// Shape:    n layers from inside to outside, films among them; n - 1 temperatures between them, same order; pure.
/// Units:    degC.
/// Valid:    every resistance positive.
/// Errors:   ContractViolation outside the range or without layers.
/// Source:   [iso6946]; steady flow through resistances in a row.   Checked by: BUILDUP-23.
[[nodiscard]] std::vector<double> face_temperatures_c(std::span<const ThermalLayer> layers, double inside_c,
                                                      double outside_c);

/// What an outer surface meets.
struct OuterSurface {
  double air_c;
  double absorbed_solar_w_per_m2;
  double lost_longwave_w_per_m2;  // net loss to a sky colder than the air, emissivity counted in
  double film_w_per_m2_k;         // convection and radiation together
};

/// Air temperature that would warm a shaded surface alike.
/// Equation: T + (a I - e dR)/h
/// Symbols:  a I: absorbed sun; e dR: lost long-wave; h: film
/// Shape:    struct in, scalar out; pure.
/// Units:    degC.
/// Valid:    film positive, the other terms finite.
/// Errors:   ContractViolation outside the range.
/// Source:   definition of the sol-air temperature.   Checked by: BUILDUP-24.
[[nodiscard]] double sol_air_temperature_c(const OuterSurface& surface);

// ---- The answer to a swing of one period. ----

struct Complex {
  double re;
  double im;
};

/// Temperature and flux at the outer face from those at the inner one.
struct PeriodicMatrix {
  Complex z11, z12, z21, z22;
};

/// Transfer matrix of a build-up for a swing.
/// Equation: xi = sqrt(pi R C/T); z11 = z22 = cosh xi cos xi + j sinh xi sin xi;
///           z12 = -(R/(2 xi)) (sinh cos + cosh sin + j (cosh sin - sinh cos));
///           z21 = -(xi/R) (sinh cos - cosh sin + j (sinh cos + cosh sin)); without capacity 1, -R, 0, 1;
///           matrices multiplied from the outermost to the innermost
/// Symbols:  R, C: resistance and capacity of a layer; T = period_s (R C: thickness over depth squared, times T/pi)
/// Shape:    n layers from inside to outside, films among them; struct out; pure.
/// Units:    s in; z12 in m2 K/W, z21 in W/(m2 K), the others none.
/// Valid:    resistances positive, capacities zero or more, xi below 30 in each layer.
/// Errors:   ContractViolation outside the range or without layers.
/// Source:   [iso13786] section 7 (equations from memory, verified by an independent finite-volume solution).
///           Checked by: BUILDUP-30, BUILDUP-31.
[[nodiscard]] PeriodicMatrix periodic_matrix(std::span<const ThermalLayer> layers, double period_s = day_s);

/// What a build-up does to a swing of its period.
struct PeriodicValues {
  double periodic_transmittance_w_per_m2_k;  // |Y12|
  double decrement_frac;                     // |Y12|/U
  double time_lag_h;                         // of the flux inside behind the temperature outside, 0 to the period
  double inside_admittance_w_per_m2_k;       // |Y11|
  double inside_admittance_lead_h;           // of the flux before the temperature, minus to plus half the period
  double outside_admittance_w_per_m2_k;      // |Y22|
  double outside_admittance_lead_h;
  double inside_capacity_j_per_m2_k;   // kappa1
  double outside_capacity_j_per_m2_k;  // kappa2
};

/// What a build-up does to a swing of its period.
/// Equation: Y12 = -1/z12; Y11 = -z11/z12; Y22 = -z22/z12; f = |Y12|/U; kappa1 = T/(2 pi) |(z11 - 1)/z12|, kappa2 with
///           z22; lag = -arg(Y12) T/(2 pi), brought into 0 to T; leads = arg T/(2 pi)
/// Symbols:  T = period_s; U: transmittance
/// Shape:    layers as periodic_matrix; struct out; pure.
/// Units:    see the fields.
/// Valid:    as periodic_matrix. A lag of more than a period shows as its remainder.
/// Errors:   ContractViolation outside the range or without layers.
/// Source:   [iso13786] section 8 (equations from memory).   Checked by: BUILDUP-31 to BUILDUP-39.
[[nodiscard]] PeriodicValues periodic_values(std::span<const ThermalLayer> layers, double period_s = day_s);

}  // namespace houseleek::physics
