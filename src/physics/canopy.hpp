// Foliage over a growing medium: how it shares the light, and what holds its water back.
#pragma once

namespace houseleek::physics {

/// Shares of the short-wave radiation that arrives above everything; they sum to one with what is reflected.
struct ShortwaveShares {
  double net_frac = 0.0;
  double leaves_frac = 0.0;
  double ground_frac = 0.0;
  double reflected_frac = 0.0;
  double below_net_frac = 1.0;  // what arrives under the net, its reflections included
};

struct ShortwaveProperties {
  double shading_frac = 0.0;  // light that meets a leaf: cover (1 - exp(-K LAI)); 0 without plants
  double leaf_albedo = 0.0;
  double ground_albedo = 0.0;
  double net_transmittance = 1.0;  // 1 and 0: no net
  double net_reflectance = 0.0;
};

/// Short-wave between net, foliage and ground, all reflections summed.
/// Equation: D = (1-s)/(1 - rg rf s); ground (1-rg) D; leaves (1-rf) s (1 + rg D); albedo a = rf s + (1-s) rg D;
///           under a net Dn = t/(1 - rn a), net (1-t-rn)(1 + a Dn), reflected rn + t a Dn
/// Symbols:  s: shading_frac; rf, rg: albedos; t, rn: net
/// Shape:    struct in, struct out; pure.
/// Units:    fractions.
/// Valid:    all fractions 0 to 1; net_transmittance + net_reflectance at most 1.
/// Errors:   throws ContractViolation outside the valid range.
/// Source:   docs/equations/stack.md (closed by construction; two-source form of [deardorff1978]).   Checked by: CANOPY-01.
[[nodiscard]] ShortwaveShares shortwave_shares(const ShortwaveProperties& properties);

/// Share of a beam or of the sky that meets a leaf.
/// Equation: s = c (1 - exp(-K LAI))
/// Symbols:  c: cover_frac; K: extinction
/// Shape:    scalars in, scalar out; pure.
/// Units:    fractions; leaf area index in m2/m2.
/// Valid:    cover_frac 0 to 1; extinction and leaf_area_index not negative.
/// Errors:   throws ContractViolation outside the valid range.
/// Source:   [monteith2013] Beer's law, from memory.   Checked by: CANOPY-01.
[[nodiscard]] double leaf_shading_frac(double cover_frac, double extinction, double leaf_area_index);

struct StomatalInputs {
  double min_s_per_m = 200.0;
  double max_s_per_m = 5000.0;
  double leaf_area_index = 2.0;
  double light_w_per_m2 = 0.0;  // arriving on the leaves
  double water_frac = 1.0;      // root-zone water between wilting (0) and field capacity (1), already limited to 0..1
  double deficit_pa = 0.0;      // vapour pressure deficit of the air
  double air_temperature_c = 25.0;
};

/// Stomatal resistance of a leaf.
/// Equation: r = r_min/(f1 f2 f3 f4), at most r_max; f1 = (f + r_min/r_max)/(1 + f), f = 0.55 (S/100)(2/LAI);
///           f2 = water_frac; f3 = 1 - 0.025 D, at least 0.25; f4 = 1 - 0.0016 (298 - T)^2, at least 0.05
/// Symbols:  S: light_w_per_m2; D: deficit in hPa; T: air temperature in K
/// Shape:    struct in, scalar out; pure.
/// Units:    result in s/m, of one side of leaf.
/// Valid:    as named in the struct; light not negative; deficit below 0 (supersaturated air) counts as 0.
/// Errors:   throws ContractViolation for a negative light or a water_frac outside 0 to 1.
/// Source:   [noilhan1989] Eqs. 19-25 in this form, coefficients from memory.   Checked by: CANOPY-02.
[[nodiscard]] double stomatal_resistance_s_per_m(const StomatalInputs& inputs);

/// Resistance of a growing medium's surface against vapour.
/// Equation: r = exp(8.206 - 4.255 w)
/// Symbols:  w: saturation_frac
/// Shape:    scalar in, scalar out; pure.
/// Units:    result in s/m.
/// Valid:    saturation_frac 0 to 1.
/// Errors:   throws ContractViolation outside the valid range.
/// Source:   [sellers1992], coefficients from memory.   Checked by: CANOPY-03.
[[nodiscard]] double medium_surface_resistance_s_per_m(double saturation_frac);

}  // namespace houseleek::physics
