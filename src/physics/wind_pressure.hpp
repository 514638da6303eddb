// Wind on a flat roof after EN 1991-1-4 with its recommended values: peak pressure, and suction by zone and area.
#pragma once

namespace houseleek::physics {

/// A terrain category: roughness length, and the height below which the wind is taken as at it.
struct TerrainRoughness {
  double roughness_m = 0.0;
  double least_height_m = 0.0;
};

// Categories 0 to IV. Source: [en1991_1_4] Table 4.1.
inline constexpr TerrainRoughness terrain_roughness[] = {
    {0.003, 1.0}, {0.01, 1.0}, {0.05, 2.0}, {0.3, 5.0}, {1.0, 10.0}};

inline constexpr double wind_air_kg_per_m3 = 1.25;

/// Mean wind, its turbulence and the peak pressure at a height.
struct WindAtHeight {
  double mean_m_per_s = 0.0;
  double turbulence_frac = 0.0;
  double basic_pressure_kn_per_m2 = 0.0;
  double peak_pressure_kn_per_m2 = 0.0;
};

/// Peak velocity pressure.
/// Equation: q_p = (1 + 7 I) rho v2/2; v = v_b k_r ln(z/z_0); k_r = 0.19 (z_0/0.05)^0.07; I = 1/ln(z/z_0);
///           z not below z_min
/// Symbols:  v_b: basic wind; z_0: roughness length; rho = 1.25 kg/m3; no hills, turbulence factor 1
/// Shape:    scalars in; struct out; pure.
/// Units:    m/s, m; kN/m2.
/// Valid:    heights to 200 m, level country. The lift to z_min is the code's own.
/// Errors:   ContractViolation for a height or a wind not above zero.
/// Source:   [en1991_1_4] 4.3 to 4.5.   Checked by: WIND-01 to WIND-18.
[[nodiscard]] WindAtHeight wind_at_height(const TerrainRoughness& terrain, double basic_wind_m_per_s, double height_m);

/// Gust whose pressure this is.
/// Equation: v = sqrt(2 q/rho)
/// Symbols:  rho = 1.25 kg/m3
/// Shape:    scalar in, scalar out; pure.
/// Units:    kN/m2; km/h.
/// Valid:    q not below zero.
/// Errors:   ContractViolation below zero.
/// Source:   definition.   Checked by: WIND-19.
[[nodiscard]] double gust_km_per_h(double pressure_kn_per_m2);

/// Where on a flat roof: corners, edge, inner strip, the rest.
enum class RoofZone { f, g, h, i };

/// Suction of a zone on an area, upwards positive.
/// Equation: c = c_1 - (c_1 - c_10) log10 A between 1 and 10 m2; c_1 below, c_10 above; between parapets of
///           h_p/h = 0, 0.025, 0.05, 0.10 on a straight line, beyond 0.10 as at it
/// Symbols:  A: area that must lift together; h_p: parapet; h: height of the roof
/// Shape:    scalars in; scalar out; pure.
/// Units:    m2; pure number.
/// Valid:    flat roofs to 5 degrees; zone I: 0.2, its suction.
/// Errors:   ContractViolation for an area not above zero or a parapet below zero.
/// Source:   [en1991_1_4] Table 7.2 and Figure 7.2; the line between parapets from memory.
/// Checked by: WIND-20 to WIND-32.
[[nodiscard]] double roof_suction(RoofZone zone, double area_m2, double parapet_over_height);

}  // namespace houseleek::physics
