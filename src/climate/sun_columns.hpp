// The sun's columns of a weather year, and the air pressure of its place.
#pragma once
#include <string>

#include "base/result.hpp"
#include "climate/year.hpp"

namespace houseleek::climate {

/// Issues of a place that no year can be made for: latitude, longitude, elevation, zone or calendar year out of range.
/// `path` goes before the field's name.
[[nodiscard]] Issues issues_of_place(const Place& place, int year, const std::string& path);

/// A year that knows the sun and the pressure of its place, and no weather yet (the weather's columns are empty).
/// Equation: sin(elevation) = a + b cos(w + f 15 deg) inside an hour, with the declination and the equation of time of
/// its middle Symbols:  a = sin(latitude) sin(declination); b = cos(latitude) cos(declination); w: hour angle at the
/// start; f = 0..1 Shape:    struct in; columns of 8760 hours out; pure. Units:    as the fields say. Valid: latitudes
/// -90 to 90, years 1600 to 2400; true elevation within 0.01 degrees: parallax (0.0024) and the declination's change
///           within half an hour (0.008) are left out.
/// Errors:   ContractViolation where issues_of_place is not empty.
/// Source:   [reda2008] for the position; pressure by [allen1998] Eq. 7.
///           Checked by: Year.SunColumnsFollowTheExactPosition.
[[nodiscard]] WeatherYear make_year_with_sun(const Place& place, int year);

}  // namespace houseleek::climate
