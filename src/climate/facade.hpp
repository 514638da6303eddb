// What the sun and the bright sky send on an upright wall, hour by hour.
#pragma once
#include <vector>

#include "climate/year.hpp"

namespace houseleek::climate {

inline constexpr double usual_ground_albedo = 0.2;

/// Mean irradiance of each hour on a vertical facade with a free horizon.
/// Equation: N c + (G - N s) / 2 + rho G / 2; N = (B + A D) / s, not above I0; A = B / (s I0)
/// Symbols:  G: global; D: diffuse; B = G - D: beam, all horizontal hour means; s: mean sine of elevation; I0: normal
///           irradiance outside the air; N: from the sun and from around it, on a plane that faces the sun; A: share of
///           the sky's light that comes from around the sun; c: mean of max(0, cosine of the angle between the sun and
///           the wall's normal) while the sun is up, at the middles of six parts of the hour; rho = ground_albedo
/// Shape:    year in, one value an hour out; pure.
/// Units:    azimuth_deg of the wall's outward normal from north eastward (90 east, 180 south); result in W/m2.
/// Valid:    albedo 0 to 1. The bound of N acts only on hours of a file that the sun grazes; what is above it counts as
///           light of all the sky. Hours with s below least_shaping_sine: all light of the sky. Snow on the ground is
///           not known. Six parts are within 5 W/m2 of many more, where the sun comes round the wall's edge.
/// Errors:   ContractViolation if the albedo is out of range or the columns differ in length.
/// Source:   [hay1980] for the sky, [liu1963] for the ground.
///           Checked by: Facade.AgreesWithTheLightOnAPlaneMomentByMoment.
[[nodiscard]] std::vector<double> facade_irradiance_w_per_m2(const WeatherYear& year, double azimuth_deg,
                                                             double ground_albedo = usual_ground_albedo);

/// The same hours with north and south swapped: latitude and declination change sign, nothing else. A house whose
/// facades and falls are swapped the same way must give the same answers.
[[nodiscard]] WeatherYear mirrored_north_south(WeatherYear year);

}  // namespace houseleek::climate
