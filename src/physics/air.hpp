// Moist air: vapour pressure and its neighbours, density, heat, wet bulb and dew point.
#pragma once
#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "numerics/lane.hpp"
#include "physics/constants.hpp"

namespace houseleek::physics {

inline constexpr double lowest_air_temperature_c = -60.0;
inline constexpr double highest_air_temperature_c = 100.0;
inline constexpr double standard_pressure_pa = 101325.0;
inline constexpr double gas_constant_dry_air_j_per_kg_k = 287.042;  // [ashrae2009] ch. 1, Eq. 1 (from memory)
inline constexpr double gas_constant_vapour_j_per_kg_k = 461.524;   // [ashrae2009] ch. 1, Eq. 2 (from memory)
inline constexpr double molar_mass_ratio_vapour_to_air = 0.621945;  // [ashrae2009] ch. 1, Eq. 23 (from memory)

/// A vapour pressure and how it changes with temperature.
template <class L>
struct SaturationPressure {
  L pressure_pa;
  L slope_pa_per_k;
};

/// Saturation vapour pressure over liquid water and its exact derivative, for inner loops.
/// Equation: e = a exp(b t / (t + c));  de/dt = e b c / (t + c)^2
/// Symbols:  a = 610.8 Pa; b = 17.27; c = 237.3 degC; t = temperature_c
/// Shape:    one lane type in and out; pure.
/// Units:    temperature_c in degC; results in Pa and Pa/K.
/// Valid:    -60 degC to 120 degC, kept by the caller; 0.8 % above [wagner2002] at 100 degC, 1.6 % at 120 degC.
/// Errors:   none: not checked here, because it is called inside Newton loops.
/// Source:   [allen1998] Eq. 11; the derivative is ours, and exact (Eq. 13 rounds b c to 4098).   Checked by: AIR-01.
template <class L>
[[nodiscard]] inline SaturationPressure<L> saturation_pressure_unchecked(L temperature_c) {
  const L shifted_c = temperature_c + L(237.3);
  const L pressure_pa = L(610.8) * numerics::exp(L(17.27) * temperature_c / shifted_c);
  return {pressure_pa, pressure_pa * L(17.27 * 237.3) / (shifted_c * shifted_c)};
}

/// Saturation vapour pressure over ice and its exact derivative, for inner loops.
/// Equation: e = a exp(b t / (t + c));  de/dt = e b c / (t + c)^2
/// Symbols:  a = 610.8 Pa, so that ice and water meet at 0 degC; b = 22.46; c = 272.62 degC; t = temperature_c
/// Shape:    one lane type in and out; pure.
/// Units:    temperature_c in degC; results in Pa and Pa/K.
/// Valid:    -60 degC to 0 degC, kept by the caller; within 0.1 % of Hyland and Wexler down to -20 degC.
/// Errors:   none: not checked here, as above.
/// Source:   [wmo8] annex 4.B, b and c (from memory); a of water is 0.07 % below the source's 611.2 Pa.
///           Checked by: AIR-05.
template <class L>
[[nodiscard]] inline SaturationPressure<L> saturation_pressure_over_ice_unchecked(L temperature_c) {
  const L shifted_c = temperature_c + L(272.62);
  const L pressure_pa = L(610.8) * numerics::exp(L(22.46) * temperature_c / shifted_c);
  return {pressure_pa, pressure_pa * L(22.46 * 272.62) / (shifted_c * shifted_c)};
}

/// Saturation vapour pressure over liquid water.
/// Equation: e = a exp(b t / (t + c))
/// Symbols:  a = 610.8 Pa; b = 17.27; c = 237.3 degC; t = temperature_c
/// Shape:    one lane type in and out; pure.
/// Units:    temperature_c in degC; result in Pa.
/// Valid:    -60 degC to 100 degC (this project's range; the source gives none).
/// Errors:   ContractViolation outside the range or if not a number, in any lane.
/// Source:   [allen1998] Eq. 11.   Checked by: AIR-01, AIR-02.
template <class L>
[[nodiscard]] inline L saturation_vapour_pressure_pa(L temperature_c) {
  expects(numerics::all(numerics::mask_and(temperature_c >= L(lowest_air_temperature_c),
                                           temperature_c <= L(highest_air_temperature_c))),
          "an air temperature from -60 to 100 degC");
  return saturation_pressure_unchecked(temperature_c).pressure_pa;
}

/// Slope of the saturation vapour pressure curve, as the reference evapotranspiration method rounds it.
/// Equation: d = 4098 e / (t + 237.3)^2
/// Symbols:  e: saturation vapour pressure; t = temperature_c
/// Shape:    one lane type in and out; pure.
/// Units:    temperature_c in degC; result in Pa/K.
/// Valid:    -60 degC to 100 degC.
/// Errors:   ContractViolation outside the range, in any lane.
/// Source:   [allen1998] Eq. 13.   Checked by: AIR-03.
template <class L>
[[nodiscard]] inline L saturation_slope_pa_per_k(L temperature_c) {
  const L shifted_c = temperature_c + L(237.3);
  return L(4098.0) * saturation_vapour_pressure_pa(temperature_c) / (shifted_c * shifted_c);
}

/// Saturation vapour pressure over ice.
/// Equation: e = a exp(b t / (t + c))
/// Symbols:  a = 610.8 Pa; b = 22.46; c = 272.62 degC; t = temperature_c
/// Shape:    one lane type in and out; pure.
/// Units:    temperature_c in degC; result in Pa.
/// Valid:    -60 degC to 0 degC.
/// Errors:   ContractViolation outside the range, in any lane.
/// Source:   [wmo8] annex 4.B, b and c (from memory); a from [allen1998] Eq. 11.   Checked by: AIR-05.
template <class L>
[[nodiscard]] inline L saturation_vapour_pressure_over_ice_pa(L temperature_c) {
  expects(numerics::all(numerics::mask_and(temperature_c >= L(lowest_air_temperature_c), temperature_c <= L(0.0))),
          "a temperature from -60 to 0 degC over ice");
  return saturation_pressure_over_ice_unchecked(temperature_c).pressure_pa;
}

/// Heat that evaporates water.
/// Equation: l = 2.501e6 - 2361 t
/// Symbols:  t = temperature_c
/// Shape:    one lane type in and out; pure.
/// Units:    temperature_c in degC; result in J/kg.
/// Valid:    -60 degC to 100 degC as a straight line; not checked, because it is called inside Newton loops.
/// Errors:   none.
/// Source:   [allen1998] annex 3, Eq. 3-1 (from memory).   Checked by: AIR-08.
template <class L>
[[nodiscard]] inline L latent_heat_of_evaporation_j_per_kg(L temperature_c) {
  return L(2.501e6) - L(2361.0) * temperature_c;
}

/// Mean pressure of the atmosphere at a height.
/// Equation: P = 101300 ((293 - 0.0065 z) / 293)^5.26
/// Symbols:  z = elevation_m
/// Shape:    scalar in, scalar out; pure.
/// Units:    elevation_m above sea level in m; result in Pa.
/// Valid:    -500 m to 9000 m.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 7.   Checked by: AIR-10.
[[nodiscard]] double pressure_at_elevation_pa(double elevation_m);

/// Psychrometric constant as the reference evapotranspiration method takes it (latent heat fixed at 2.45 MJ/kg).
/// Equation: g = 0.665e-3 P
/// Symbols:  P = pressure_pa
/// Shape:    scalar in, scalar out; pure.
/// Units:    pressure_pa in Pa; result in Pa/K.
/// Valid:    30 kPa to 110 kPa.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 8.   Checked by: AIR-11.
[[nodiscard]] double psychrometric_constant_pa_per_k(double pressure_pa);

/// Psychrometric constant with the latent heat of the temperature at hand.
/// Equation: g = c_p P / (0.622 l)
/// Symbols:  c_p = specific_heat_j_per_kg_k; P = pressure_pa; l = latent_heat_j_per_kg
/// Shape:    one lane type in and out; pure.
/// Units:    J/(kg K), Pa, J/kg; result in Pa/K.
/// Valid:    any positive values; not checked, because it is called inside Newton loops.
/// Errors:   none.
/// Source:   [allen1998] Eq. 8.   Checked by: AIR-12.
template <class L>
[[nodiscard]] inline L psychrometric_constant_pa_per_k(L specific_heat_j_per_kg_k, L pressure_pa,
                                                       L latent_heat_j_per_kg) {
  return specific_heat_j_per_kg_k * pressure_pa / (L(0.622) * latent_heat_j_per_kg);
}

/// Temperature, vapour and pressure of a parcel of air.
struct MoistAir {
  double temperature_c;
  double vapour_pressure_pa;
  double pressure_pa = standard_pressure_pa;
};

/// Vapour pressure from relative humidity over liquid water.
/// Equation: e = phi e_s(t)
/// Symbols:  phi = relative_humidity_frac; e_s: saturation vapour pressure
/// Shape:    scalars in, scalar out; pure.
/// Units:    temperature_c in degC; relative_humidity_frac 0 to 1; result in Pa.
/// Valid:    -60 degC to 100 degC; 0 to 1.
/// Errors:   ContractViolation outside the ranges.
/// Source:   [allen1998] Eq. 10.   Checked by: AIR-20.
[[nodiscard]] double vapour_pressure_pa(double temperature_c, double relative_humidity_frac);

/// Mass of vapour to a mass of dry air.
/// Equation: W = 0.621945 e / (P - e)
/// Symbols:  e: vapour pressure; P: pressure
/// Shape:    struct in, scalar out; pure.
/// Units:    result in kg/kg.
/// Valid:    0 <= e < P.
/// Errors:   ContractViolation outside the range.
/// Source:   [ashrae2009] ch. 1, Eq. 22 (from memory).   Checked by: AIR-20.
[[nodiscard]] double humidity_ratio_kg_per_kg(const MoistAir& air);

/// Vapour pressure from a humidity ratio.
/// Equation: e = P W / (0.621945 + W)
/// Symbols:  W: humidity ratio; P: pressure
/// Shape:    scalars in, scalar out; pure.
/// Units:    kg/kg and Pa in, Pa out.
/// Valid:    W >= 0, P > 0.
/// Errors:   ContractViolation outside the range.
/// Source:   [ashrae2009] ch. 1, Eq. 22 solved for e (from memory).   Checked by: AIR-20.
[[nodiscard]] double vapour_pressure_from_humidity_ratio_pa(double humidity_ratio_kg_per_kg, double pressure_pa);

/// Density of moist air.
/// Equation: rho = (P - e) / (R_a T) + e / (R_v T)
/// Symbols:  R_a = 287.042 J/(kg K); R_v = 461.524 J/(kg K); T = t + 273.15
/// Shape:    struct in, scalar out; pure.
/// Units:    result in kg/m3.
/// Valid:    -60 degC to 100 degC, 0 <= e < P; ideal gas (0.05 % at room conditions).
/// Errors:   ContractViolation outside the range.
/// Source:   [ashrae2009] ch. 1, Eq. 28 (from memory).   Checked by: AIR-20.
[[nodiscard]] double air_density_kg_per_m3(const MoistAir& air);

/// Heat held by moist air, counted from dry air and liquid water at 0 degC, to a mass of dry air.
/// Equation: h = 1000 (1.006 t + W (2501 + 1.86 t))
/// Symbols:  t: temperature; W: humidity ratio
/// Shape:    struct in, scalar out; pure.
/// Units:    result in J/kg of dry air.
/// Valid:    -60 degC to 100 degC, 0 <= e < P.
/// Errors:   ContractViolation outside the range.
/// Source:   [ashrae2009] ch. 1, Eq. 32 (from memory).   Checked by: AIR-20.
[[nodiscard]] double moist_air_enthalpy_j_per_kg(const MoistAir& air);

/// Room taken by moist air to a mass of dry air.
/// Equation: v = R_a T / (P - e)
/// Symbols:  R_a = 287.042 J/(kg K); T = t + 273.15
/// Shape:    struct in, scalar out; pure.
/// Units:    result in m3/kg of dry air.
/// Valid:    -60 degC to 100 degC, 0 <= e < P.
/// Errors:   ContractViolation outside the range.
/// Source:   [ashrae2009] ch. 1, Eq. 28 (from memory).   Checked by: AIR-20.
[[nodiscard]] double moist_air_volume_m3_per_kg(const MoistAir& air);

/// Temperature at which the vapour would begin to condense on something wet.
/// Equation: t_d = c y / (b - y), y = ln(e / a): the saturation formula solved for t
/// Symbols:  a = 610.8 Pa; b = 17.27; c = 237.3 degC
/// Shape:    scalar in, scalar out; pure.
/// Units:    Pa in, degC out.
/// Valid:    vapour pressures whose dew point is from -60 to 100 degC.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] annex 3, Eq. 3-11.   Checked by: AIR-30.
[[nodiscard]] double dew_point_c(double vapour_pressure_pa);

/// Temperature of a wetted surface in a strong draught (thermodynamic wet bulb, over liquid water also below 0 degC).
/// Equation: W = ((2501 - 2.326 x) W_s(x) - 1.006 (t - x)) / (2501 + 1.86 t - 4.186 x), solved for x by halving
/// Symbols:  x: wet bulb; W: humidity ratio of the air; W_s: at saturation at x; t: temperature
/// Shape:    struct in, scalar out; pure.
/// Units:    result in degC, within 1e-9 K of the root.
/// Valid:    -60 degC to 60 degC, 0 <= e <= saturation (rounding of 1e-9 allowed), P 30 to 110 kPa.
/// Errors:   ContractViolation outside the range.
/// Source:   [ashrae2009] ch. 1, Eq. 35 (from memory).   Checked by: AIR-20.
[[nodiscard]] double wet_bulb_c(const MoistAir& air);

/// A dry and a wet thermometer read together.
struct PsychrometerReading {
  double dry_bulb_c;
  double wet_bulb_c;
  double pressure_pa;
  double psychrometer_per_k = 0.000662;
};

/// Vapour pressure from a pair of thermometers.
/// Equation: e = e_s(wet) - a P (dry - wet)
/// Symbols:  a = psychrometer_per_k: 0.000662 where air is drawn past, 0.000800 in natural draught, 0.001200 indoors
/// Shape:    scalars in, scalar out; pure.
/// Units:    degC, Pa, 1/K in; Pa out.
/// Valid:    -60 degC to 100 degC, wet <= dry, a 0.0006 to 0.0013.
/// Errors:   ContractViolation outside the ranges, or where the pair leaves a vapour pressure below zero.
/// Source:   [allen1998] Eq. 15, 16.   Checked by: AIR-15.
[[nodiscard]] double vapour_pressure_from_psychrometer_pa(const PsychrometerReading& reading);

}  // namespace houseleek::physics
