// Sunlight on the ground: diffuse share, hours of a day, planes that are not level, clear sky.
#pragma once
#include <span>
#include <vector>

namespace houseleek::physics {

/// Diffuse share of global radiation of an hour.
/// Equation: k <= 0.22: 1 - 0.09 k; k <= 0.8: 0.9511 - 0.1604 k + 4.388 k^2 - 16.638 k^3 + 12.336 k^4; above: 0.165
/// Symbols:  k = clearness: global over extraterrestrial, both horizontal
/// Shape:    scalar in, scalar out; pure.
/// Units:    fractions.
/// Valid:    0 and more; the fit jumps by 0.0003 at its joints.
/// Errors:   ContractViolation if negative or not finite.
/// Source:   [erbs1982] hourly fit.   Checked by: RAD-01.
[[nodiscard]] double erbs_hourly_diffuse_frac(double clearness);

/// Diffuse share of global radiation of a day.
/// Equation: ws <= 81.4 deg: 1 - 0.2727 K + 2.4495 K^2 - 11.9514 K^3 + 9.3879 K^4, from K = 0.715 on 0.143;
///           else 1 + 0.2832 K - 2.5557 K^2 + 0.8448 K^3, from K = 0.722 on 0.175
/// Symbols:  K = clearness of the day; ws: sunset hour angle
/// Shape:    scalars in, scalar out; pure.
/// Units:    fractions, radians.
/// Valid:    0 and more; sunset 0 to pi.
/// Errors:   ContractViolation outside the range.
/// Source:   [erbs1982] daily fit.   Checked by: RAD-02, RAD-23.
[[nodiscard]] double erbs_daily_diffuse_frac(double clearness, double sunset_rad);

/// Diffuse share of global radiation of a month's mean day.
/// Equation: ws <= 81.4 deg: 1.391 - 3.560 K + 4.189 K^2 - 2.137 K^3; else 1.311 - 3.022 K + 3.427 K^2 - 1.821 K^3
/// Symbols:  K = clearness of the mean day; ws: sunset hour angle
/// Shape:    scalars in, scalar out; pure.
/// Units:    fractions, radians.
/// Valid:    clearness 0.3 to 0.8; sunset 0 to pi.
/// Errors:   ContractViolation outside the range.
/// Source:   [erbs1982] monthly fit (coefficients from memory).   Checked by: RAD-03.
[[nodiscard]] double erbs_monthly_diffuse_frac(double clearness, double sunset_rad);

/// Which curve shares a day's radiation among its hours.
enum class DayShape { collares_pereira_rabl, liu_jordan };

/// Radiation of an hour over that of its day, as the curve is published.
/// Equation: liu_jordan: (pi/24)(cos w - cos ws)/(sin ws - ws cos ws); collares_pereira_rabl: that times a + b cos w,
///           a = 0.409 + 0.5016 sin(ws - 60 deg), b = 0.6609 - 0.4767 sin(ws - 60 deg); zero outside daylight
/// Symbols:  w = hour_angle_rad of the hour's middle; ws = sunset_rad
/// Shape:    scalars in, scalar out; pure.
/// Units:    radians in; fraction out.
/// Valid:    w from -pi to pi; sunset 0 to pi. Over a day the values sum to 0.99 to 1.01, not to one.
/// Errors:   ContractViolation outside the range.
/// Source:   [collares1979] Eq. for r_t; [liu1960] Eq. for r_d.   Checked by: RAD-10, RAD-11, RAD-24.
[[nodiscard]] double hour_over_day_frac(DayShape shape, double hour_angle_rad, double sunset_rad);

/// Shares of the hours of a day, which sum to one.
/// Equation: r_i / sum of r
/// Symbols:  r_i: the published value of hour i
/// Shape:    any number of hour angles (middles of the hours) in, as many shares out in the same order; pure.
/// Units:    radians in; fractions out.
/// Valid:    as above. All shares are zero where no hour's middle sees the sun.
/// Errors:   ContractViolation outside the range.
/// Source:   [collares1979], [liu1960]; the rescaling is ours.   Checked by: RAD-12.
[[nodiscard]] std::vector<double> shares_of_hours(DayShape shape, std::span<const double> hour_angles_rad,
                                                  double sunset_rad);

/// Sunlight at a moment as a level instrument and a sun-facing one would see it.
struct SkyLight {
  double direct_normal_w_per_m2;
  double diffuse_horizontal_w_per_m2;
  double extraterrestrial_normal_w_per_m2;
  double zenith_rad;
  double relative_air_mass;  // only for the perez sky
};

/// A plane that is lit.
struct LitPlane {
  double slope_rad;      // 0: lies flat, face up
  double cos_incidence;  // of the sun's ray to the outward normal; negative behind
  double ground_albedo_frac;
};

struct PlaneLight {
  double beam_w_per_m2;
  double sky_w_per_m2;
  double ground_w_per_m2;
  [[nodiscard]] double total_w_per_m2() const { return beam_w_per_m2 + sky_w_per_m2 + ground_w_per_m2; }
};

/// Light on a plane under a sky that is equally bright all over.
/// Equation: DNI max(0, cos i) + D (1 + cos b)/2 + G rho (1 - cos b)/2, G = D + DNI max(0, cos z)
/// Symbols:  i: incidence; b: slope; z: zenith; D: diffuse; rho: albedo of the ground
/// Shape:    structs in, struct out; pure.
/// Units:    W/m2.
/// Valid:    light zero or more; slope 0 to pi; cos i -1 to 1; no direct light while the sun is down.
/// Errors:   ContractViolation outside the range.
/// Source:   [liu1963].   Checked by: RAD-30, RAD-34.
[[nodiscard]] PlaneLight plane_light_isotropic(const SkyLight& light, const LitPlane& plane);

/// Light on a plane under a sky that is brighter around the sun.
/// Equation: as isotropic, but sky = D (A max(0, cos i)/cos z + (1 - A)(1 + cos b)/2), A = DNI/I0; A = 0 while the sun is
///           lower than 1 degree, where the quotient loses its meaning
/// Symbols:  I0: extraterrestrial normal radiation; the others as above
/// Shape:    structs in, struct out; pure.
/// Units:    W/m2.
/// Valid:    as above; I0 positive.
/// Errors:   ContractViolation outside the range.
/// Source:   [hay1980].   Checked by: RAD-31, RAD-35.
[[nodiscard]] PlaneLight plane_light_hay_davies(const SkyLight& light, const LitPlane& plane);

/// What the perez sky found, for those who look closer.
struct PerezSky {
  double clearness;    // epsilon
  int bin;             // 1 to 8
  double brightness;   // Delta
  double circumsolar;  // F1
  double horizon;      // F2
};

/// Brightening around the sun and at the horizon.
/// Equation: e = ((D + DNI)/D + 1.041 z^3)/(1 + 1.041 z^3); Delta = D m/I0; F1 = max(0, F11 + F12 Delta + F13 z);
///           F2 = F21 + F22 Delta + F23 z, coefficients by the bin of e
/// Symbols:  m: relative air mass; z: zenith in rad; the others as above
/// Shape:    struct in, struct out; pure.
/// Units:    none.
/// Valid:    D positive; zenith 0 to pi/2.
/// Errors:   ContractViolation outside the range.
/// Source:   [perez1990] Eq. 1, 2, Table 6 in its high-precision set.   Checked by: RAD-33.
[[nodiscard]] PerezSky perez_sky(const SkyLight& light);

/// Light on a plane under a sky that is brighter around the sun and at the horizon.
/// Equation: as isotropic, but sky = D ((1 - F1)(1 + cos b)/2 + F1 a/c + F2 sin b), a = max(0, cos i), c = max(cos 85 deg,
///           cos z); isotropic where D = 0 or the sun is down
/// Symbols:  as above
/// Shape:    structs in, struct out; pure.
/// Units:    W/m2.
/// Valid:    as above. The sky part can fall below zero on steep planes that face away from a clear sky.
/// Errors:   ContractViolation outside the range.
/// Source:   [perez1990] Eq. 9.   Checked by: RAD-32, RAD-36.
[[nodiscard]] PlaneLight plane_light_perez(const SkyLight& light, const LitPlane& plane);

/// Way of the sun's ray through the air over the shortest way.
/// Equation: m = 1/(cos z + 0.50572 (96.07995 - z)^-1.6364)
/// Symbols:  z: zenith in degrees
/// Shape:    scalar in, scalar out; pure.
/// Units:    radians in; no unit out.
/// Valid:    zenith 0 to pi/2.
/// Errors:   ContractViolation outside the range.
/// Source:   [kasten1989] (coefficients from memory).   Checked by: RAD-37.
[[nodiscard]] double relative_air_mass(double zenith_rad);

/// Share of extraterrestrial radiation that reaches level ground under a clear sky.
/// Equation: 0.75 + 2e-5 z
/// Symbols:  z = elevation_m
/// Shape:    scalar in, scalar out; pure.
/// Units:    m in; fraction out.
/// Valid:    -500 m to 6000 m.
/// Errors:   ContractViolation outside the range.
/// Source:   [allen1998] Eq. 37.   Checked by: RAD-40.
[[nodiscard]] double clear_sky_frac(double elevation_m);

/// Global radiation on level ground under a clear sky, from the sun's elevation alone.
/// Equation: max(0, 910 sin h - 30)
/// Symbols:  sin h = sine_of_elevation
/// Shape:    scalar in, scalar out; pure.
/// Units:    no unit in; W/m2 out.
/// Valid:    -1 to 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [kasten1980] (coefficients from memory).   Checked by: RAD-41.
[[nodiscard]] double clear_sky_global_w_per_m2(double sine_of_elevation);

/// Global radiation under clouds over that under a clear sky.
/// Equation: 1 - 0.75 c^3.4
/// Symbols:  c = cloud_cover_frac
/// Shape:    scalar in, scalar out; pure.
/// Units:    fractions.
/// Valid:    0 to 1.
/// Errors:   ContractViolation outside the range.
/// Source:   [kasten1980] (coefficients from memory).   Checked by: RAD-42.
[[nodiscard]] double cloud_factor_frac(double cloud_cover_frac);

/// Cloud cover that would leave a share of clear-sky radiation.
/// Equation: ((1 - f)/0.75)^(1/3.4); 1 where f < 0.25, 0 where f > 1
/// Symbols:  f = clear_share_frac: global radiation over that of a clear sky
/// Shape:    scalar in, scalar out; pure.
/// Units:    fractions.
/// Valid:    0 and more.
/// Errors:   ContractViolation if negative or not finite.
/// Source:   [kasten1980] solved for the cover.   Checked by: RAD-43.
[[nodiscard]] double cloud_cover_frac(double clear_share_frac);

}  // namespace houseleek::physics
