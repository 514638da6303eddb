// Where the sun is: the exact position of a moment, and a cheap one for a year of hours.
#pragma once
#include <vector>

namespace houseleek::physics {

/// Seconds by which terrestrial time runs ahead of universal time; 69 s holds for 2016 to 2030 within about a second,
/// and a second moves the sun by 0.00002 degrees.
inline constexpr double usual_delta_t_s = 69.0;

struct CalendarMoment {
  int year;
  int month;             // 1 to 12
  int day;               // 1 to 31
  double hour_ut = 0.0;  // 0 to 24, universal time
};

/// Julian date of a moment of the Gregorian calendar.
/// Equation: JD = int(365.25 (Y + 4716)) + int(30.6001 (M + 1)) + D + B - 1524.5,
///           B = 2 - int(Y/100) + int(int(Y/100)/4)
/// Symbols:  Y, M: year and month, January and February as months 13 and 14 of the year before; D: day with decimals
/// Shape:    struct in, scalar out; pure.
/// Units:    universal time in; days out.
/// Valid:    years 1583 to 9999.
/// Errors:   ContractViolation outside the range.
/// Source:   [reda2008] Eq. 4.   Checked by: SUN-01, SUN-02.
[[nodiscard]] double julian_date(const CalendarMoment& moment);

/// The sun seen from the middle of the earth, with what it was computed from.
struct GeocentricSun {
  double longitude_sums[6];            // L0 to L5, 1e-8 rad
  double latitude_sums[2];             // B0, B1, 1e-8 rad
  double distance_sums[5];             // R0 to R4, 1e-8 au
  double heliocentric_longitude_deg;   // L
  double heliocentric_latitude_deg;    // B
  double distance_au;                  // R
  double nutation_longitude_deg;       // delta psi
  double nutation_obliquity_deg;       // delta epsilon
  double obliquity_deg;                // epsilon
  double apparent_longitude_deg;       // lambda
  double greenwich_sidereal_time_deg;  // nu, apparent
  double right_ascension_deg;          // alpha, 0 to 360
  double declination_deg;              // delta
  double mean_longitude_deg;           // M, 0 to 360
  double equation_of_time_min;         // apparent minus mean solar time
};

/// The sun seen from the middle of the earth.
/// Equation: sums of A cos(B + C t) for longitude, latitude, distance; nutation; aberration; rotation by the obliquity
/// Symbols:  as the fields say; t in Julian ephemeris millennia from 2000
/// Shape:    scalars in, struct out; pure.
/// Units:    days, seconds; degrees and astronomical units out.
/// Valid:    years 1583 to 2599 (0.0003 degrees by the source, which goes further; our cosine ends at 1e5 rad).
/// Errors:   ContractViolation outside those years.
/// Source:   [reda2008] sections 3.1 to 3.10 and A.1.   Checked by: SUN-01 to SUN-40.
[[nodiscard]] GeocentricSun geocentric_sun(double julian_date_ut, double delta_t_s = usual_delta_t_s);

struct Observer {
  double latitude_deg;              // north positive
  double longitude_deg;             // east positive
  double elevation_m = 0.0;         // above sea level
  double pressure_pa = 0.0;         // for refraction; zero: none, the true position
  double air_temperature_c = 10.0;  // for refraction
};

/// The sun seen from a place.
struct SunPosition {
  double hour_angle_deg;               // H, 0 at noon, 0 to 360 westward, seen from the earth's middle
  double topocentric_declination_deg;  // delta'
  double topocentric_hour_angle_deg;   // H'
  double true_elevation_deg;           // e0, without refraction
  double refraction_deg;               // delta e
  double zenith_deg;                   // with refraction
  double azimuth_deg;                  // from north eastward, 0 to 360
};

/// The sun seen from a place.
/// Equation: parallax by the place's distance from the earth's middle;
///           e0 = asin(sin phi sin delta' + cos phi cos delta' cos H');
///           refraction (P/1010)(283/(273 + t)) 1.02/(60 tan(e0 + 10.3/(e0 + 5.11))) while e0 >= -0.8333 deg (the disc
///           or its image can be seen), else none
/// Symbols:  phi: latitude; H': hour angle; P in mbar; t in degC; e0 in deg
/// Shape:    structs in, struct out; pure.
/// Units:    degrees.
/// Valid:    latitudes -90 to 90; true within 0.0003 degrees by the source.
/// Errors:   ContractViolation outside the range.
/// Source:   [reda2008] sections 3.11 to 3.15; the source says "below the horizon" for where refraction ends.
///           Checked by: SUN-30, SUN-50 to SUN-61.
[[nodiscard]] SunPosition sun_position(const GeocentricSun& sun, const Observer& observer);

/// Slope of a plane and the side it faces.
struct Plane {
  double slope_deg;    // 0: lies flat, face up; 90: stands
  double azimuth_deg;  // of the outward normal, from north eastward
};

/// Cosine of the angle between the sun's ray and a plane's normal; negative behind the plane.
/// Equation: cos z cos b + sin z sin b cos(A - A_p)
/// Symbols:  z: zenith; b: slope; A: azimuth of the sun; A_p: of the plane
/// Shape:    scalars and struct in, scalar out; pure.
/// Units:    degrees in; no unit out.
/// Valid:    any angles.
/// Errors:   none.
/// Source:   [reda2008] Eq. 47.   Checked by: SUN-30.
[[nodiscard]] double cosine_of_incidence(double zenith_deg, double azimuth_deg, const Plane& plane);

// ---- A year of hours: the slow parts once a day, the rest by a few operations a moment. ----

/// What changes slowly: good between days.
struct SunOfMoment {
  double declination_rad;
  double equation_of_time_min;  // from the hour angle itself: universal time already counted in
  double distance_au;
};

/// The slow parts at 0 h universal time of consecutive days, with a margin of a day before and two behind.
struct SunTrack {
  double first_julian_date;  // of the first node
  std::vector<SunOfMoment> nodes;
};

/// The slow parts for some days.
/// Equation: as geocentric_sun, once a day
/// Symbols:  n: days asked for
/// Shape:    scalars in; n + 4 nodes out; pure.
/// Units:    days, seconds.
/// Valid:    1 to 40000 days inside the years of geocentric_sun.
/// Errors:   ContractViolation outside the range.
/// Source:   [reda2008].   Checked by: SUN-70.
[[nodiscard]] SunTrack track_sun(double first_julian_date_ut, int n_days, double delta_t_s = usual_delta_t_s);

/// The slow parts at a moment inside a track.
/// Equation: cubic through the four nodes around the moment
/// Symbols:  -
/// Shape:    track and scalar in, struct out; pure.
/// Units:    radians, minutes, astronomical units.
/// Valid:    moments inside the days of the track; within 0.0001 degrees of geocentric_sun (tested for 2026 and 2027).
/// Errors:   ContractViolation outside the track.
/// Source:   definition of the interpolation; nodes by [reda2008].   Checked by: SUN-70, SUN-72.
[[nodiscard]] SunOfMoment sun_of_moment(const SunTrack& track, double julian_date_ut);

/// Hour angle of the sun, zero at solar noon, positive in the afternoon.
/// Equation: w = 2 pi (JD - int(JD)) + longitude + E 2 pi / 1440, brought into -pi to pi
/// Symbols:  E: equation of time; a Julian date is whole at noon
/// Shape:    scalars in, scalar out; pure.
/// Units:    days, degrees, minutes in; radians out.
/// Valid:    any.
/// Errors:   none.
/// Source:   definition of the equation of time.   Checked by: SUN-70.
[[nodiscard]] double hour_angle_rad(double julian_date_ut, double longitude_deg, double equation_of_time_min);

/// sin(elevation) = a + b cos(hour angle), for a place and a declination.
struct ElevationTerms {
  double a;  // sin phi sin delta
  double b;  // cos phi cos delta, never negative
};

/// The two terms of the sine of elevation.
/// Equation: a = sin phi sin delta; b = cos phi cos delta
/// Symbols:  phi = latitude_rad; delta = declination_rad
/// Shape:    scalars in, struct out; pure.
/// Units:    radians in; no unit out.
/// Valid:    latitudes -pi/2 to pi/2; parallax (0.0024 degrees) is left out.
/// Errors:   none.
/// Source:   [reda2008] Eq. 41.   Checked by: SUN-70, SUN-71.
[[nodiscard]] ElevationTerms elevation_terms(double latitude_rad, double declination_rad);

/// Sine of the sun's elevation.
/// Equation: a + b cos w
/// Symbols:  w = hour_angle_rad
/// Shape:    struct and scalar in, scalar out; pure.
/// Units:    radians in; no unit out.
/// Valid:    any.
/// Errors:   none.
/// Source:   [reda2008] Eq. 41.   Checked by: SUN-70.
[[nodiscard]] double sine_of_elevation(const ElevationTerms& terms, double hour_angle_rad);

/// Hour angle at sunset: 0 where the sun never rises, pi where it never sets.
/// Equation: acos(-a/b), the quotient held in -1 to 1
/// Symbols:  a, b: the two terms of the sine of elevation
/// Shape:    struct in, scalar out; pure.
/// Units:    radians.
/// Valid:    any; the middle of the disc, no refraction.
/// Errors:   none.
/// Source:   [duffie2013] Eq. 1.6.10 (from memory).   Checked by: SUN-71.
[[nodiscard]] double sunset_hour_angle_rad(const ElevationTerms& terms);

/// Mean of the sine of elevation between two hour angles, counting what lies below the horizon as zero.
/// Equation: (1/(w2 - w1)) integral of max(0, a + b cos w) dw, in closed form between sunrise and sunset
/// Symbols:  w1 = from_rad; w2 = to_rad
/// Shape:    struct and scalars in, scalar out; pure.
/// Units:    radians in; no unit out.
/// Valid:    -3 pi <= w1 < w2 <= 3 pi, not more than a whole turn apart.
/// Errors:   ContractViolation outside the range.
/// Source:   [duffie2013] Eq. 1.10.4 (from memory).   Checked by: SUN-81.
[[nodiscard]] double mean_sine_of_elevation(const ElevationTerms& terms, double from_rad, double to_rad);

/// Azimuth of the sun from north eastward.
/// Equation: atan2(-cos delta sin w, sin delta cos phi - cos delta sin phi cos w), brought into 0 to 2 pi
/// Symbols:  phi = latitude_rad; delta = declination_rad; w = hour_angle_rad
/// Shape:    scalars in, scalar out; pure.
/// Units:    radians.
/// Valid:    any but the zenith and the poles, where it has no meaning.
/// Errors:   none.
/// Source:   [reda2008] Eq. 45, 46, turned from south to north.   Checked by: SUN-70.
[[nodiscard]] double sun_azimuth_rad(double latitude_rad, double declination_rad, double hour_angle_rad);

/// Power of the sun on a plane that faces it outside the air.
/// Equation: S / R^2
/// Symbols:  S = 1361 W/m2; R = distance_au
/// Shape:    scalar in, scalar out; pure.
/// Units:    astronomical units in; W/m2 out.
/// Valid:    0.9 to 1.1 au.
/// Errors:   ContractViolation outside the range.
/// Source:   inverse square; S from [iau2015] resolution B3.   Checked by: SUN-80.
[[nodiscard]] double extraterrestrial_normal_w_per_m2(double distance_au);

}  // namespace houseleek::physics
