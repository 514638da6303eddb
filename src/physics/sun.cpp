// The solar position algorithm step by step, and its thinned-out form for a year of hours.
#include "physics/sun.hpp"

#include <cmath>
#include <span>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"
#include "physics/sun_terms.hpp"

namespace houseleek::physics {
namespace {

constexpr double sun_radius_deg = 0.26667;
constexpr double refraction_at_horizon_deg = 0.5667;
constexpr int margin_before_days = 1;
constexpr int margin_behind_days = 2;

double sin_deg(double angle_deg) { return numerics::sin(angle_deg * radians_per_degree); }
double cos_deg(double angle_deg) { return numerics::cos(angle_deg * radians_per_degree); }
double tan_deg(double angle_deg) { return numerics::tan(angle_deg * radians_per_degree); }

// floor is exact on every machine; a turn is taken off in one subtraction so that the result stays below the turn.
double into_turn(double angle, double turn) {
  const double reduced = angle - turn * std::floor(angle / turn);
  return reduced < turn ? reduced : 0.0;
}

double into_half_turns(double angle, double turn) {
  const double reduced = into_turn(angle, turn);
  return reduced > 0.5 * turn ? reduced - turn : reduced;
}

double sum_of(std::span<const sun_terms::EarthTerm> terms, double millennia) {
  double sum = 0.0;
  for (const sun_terms::EarthTerm& term : terms) sum += term.a * numerics::cos(term.b + term.c * millennia);
  return sum;
}

double power_series(std::span<const double> coefficients, double x) {
  double value = 0.0;
  for (std::size_t i = coefficients.size(); i > 0; --i) value = value * x + coefficients[i - 1];
  return value;
}

struct Nutation {
  double longitude_deg;
  double obliquity_deg;
};

Nutation nutation(double centuries) {
  constexpr double elongation[] = {297.85036, 445267.111480, -0.0019142, 1.0 / 189474.0};
  constexpr double sun_anomaly[] = {357.52772, 35999.050340, -0.0001603, -1.0 / 300000.0};
  constexpr double moon_anomaly[] = {134.96298, 477198.867398, 0.0086972, 1.0 / 56250.0};
  constexpr double moon_latitude[] = {93.27191, 483202.017538, -0.0036825, 1.0 / 327270.0};
  constexpr double moon_node[] = {125.04452, -1934.136261, 0.0020708, 1.0 / 450000.0};
  const double x0 = into_turn(power_series(elongation, centuries), 360.0);
  const double x1 = into_turn(power_series(sun_anomaly, centuries), 360.0);
  const double x2 = into_turn(power_series(moon_anomaly, centuries), 360.0);
  const double x3 = into_turn(power_series(moon_latitude, centuries), 360.0);
  const double x4 = into_turn(power_series(moon_node, centuries), 360.0);
  double longitude = 0.0;
  double obliquity = 0.0;
  for (const sun_terms::NutationTerm& term : sun_terms::nutation) {
    const double argument_deg = x0 * term.elongation + x1 * term.sun_anomaly + x2 * term.moon_anomaly +
                                x3 * term.moon_latitude + x4 * term.moon_node;
    longitude += (term.a + term.b * centuries) * sin_deg(argument_deg);
    obliquity += (term.c + term.d * centuries) * cos_deg(argument_deg);
  }
  constexpr double units_per_degree = 36.0e6;
  return {longitude / units_per_degree, obliquity / units_per_degree};
}

double mean_obliquity_arcsec(double millennia) {
  constexpr double coefficients[] = {84381.448, -4680.93, -1.55, 1999.25, -51.38, -249.67,
                                     -39.05,    7.12,     27.87, 5.79,    2.45};
  return power_series(coefficients, millennia / 10.0);
}

SunOfMoment slow_parts(double julian_date_ut, double delta_t_s) {
  const GeocentricSun sun = geocentric_sun(julian_date_ut, delta_t_s);
  // Taken from the hour angle at Greenwich, so that nothing is lost between terrestrial and universal time.
  const double greenwich_hour_angle_deg = sun.greenwich_sidereal_time_deg - sun.right_ascension_deg;
  const double mean_hour_angle_deg = 360.0 * (julian_date_ut - std::floor(julian_date_ut));
  const double difference_deg = into_half_turns(greenwich_hour_angle_deg - mean_hour_angle_deg, 360.0);
  return {sun.declination_deg * radians_per_degree, 4.0 * difference_deg, sun.distance_au};
}

}  // namespace

double julian_date(const CalendarMoment& moment) {
  expects(moment.year >= 1583 && moment.year <= 9999, "a year of the Gregorian calendar, 1583 to 9999");
  expects(moment.month >= 1 && moment.month <= 12 && moment.day >= 1 && moment.day <= 31, "a month and a day");
  expects(moment.hour_ut >= 0.0 && moment.hour_ut <= 24.0, "an hour from 0 to 24");
  const int year = moment.month > 2 ? moment.year : moment.year - 1;
  const int month = moment.month > 2 ? moment.month : moment.month + 12;
  const int century = year / 100;
  const int leap_correction = 2 - century + century / 4;
  // Whole numbers in place of int(30.6001 (M + 1)): 306001 (M + 1) / 10000.
  const int whole_days = 1461 * (year + 4716) / 4 + 306001 * (month + 1) / 10000 + moment.day + leap_correction;
  return static_cast<double>(whole_days) - 1524.5 + moment.hour_ut / 24.0;
}

GeocentricSun geocentric_sun(double julian_date_ut, double delta_t_s) {
  expects(julian_date_ut >= 2299238.5 && julian_date_ut <= 2670690.5, "a moment in the years 1583 to 2599");
  expects(delta_t_s >= -1.0e5 && delta_t_s <= 1.0e5, "a difference between terrestrial and universal time in seconds");
  const double ephemeris_date = julian_date_ut + delta_t_s / 86400.0;
  const double centuries_ut = (julian_date_ut - 2451545.0) / 36525.0;
  const double centuries = (ephemeris_date - 2451545.0) / 36525.0;
  const double millennia = centuries / 10.0;

  GeocentricSun sun{};
  using namespace sun_terms;  // NOLINT: tables of this function alone
  const std::span<const EarthTerm> longitude_tables[] = {longitude_0, longitude_1, longitude_2,
                                                         longitude_3, longitude_4, longitude_5};
  const std::span<const EarthTerm> latitude_tables[] = {latitude_0, latitude_1};
  const std::span<const EarthTerm> distance_tables[] = {distance_0, distance_1, distance_2, distance_3, distance_4};
  for (std::size_t i = 0; i < 6; ++i) sun.longitude_sums[i] = sum_of(longitude_tables[i], millennia);
  for (std::size_t i = 0; i < 2; ++i) sun.latitude_sums[i] = sum_of(latitude_tables[i], millennia);
  for (std::size_t i = 0; i < 5; ++i) sun.distance_sums[i] = sum_of(distance_tables[i], millennia);

  const double longitude_rad = power_series(sun.longitude_sums, millennia) / 1.0e8;
  sun.heliocentric_longitude_deg = into_turn(longitude_rad * degrees_per_radian, 360.0);
  sun.heliocentric_latitude_deg = power_series(sun.latitude_sums, millennia) / 1.0e8 * degrees_per_radian;
  sun.distance_au = power_series(sun.distance_sums, millennia) / 1.0e8;

  const double geocentric_longitude_deg = into_turn(sun.heliocentric_longitude_deg + 180.0, 360.0);
  const double geocentric_latitude_deg = -sun.heliocentric_latitude_deg;
  const Nutation shift = physics::nutation(centuries);
  sun.nutation_longitude_deg = shift.longitude_deg;
  sun.nutation_obliquity_deg = shift.obliquity_deg;
  sun.obliquity_deg = mean_obliquity_arcsec(millennia) / 3600.0 + shift.obliquity_deg;
  const double aberration_deg = -20.4898 / (3600.0 * sun.distance_au);
  sun.apparent_longitude_deg = geocentric_longitude_deg + shift.longitude_deg + aberration_deg;

  const double mean_sidereal_deg =
      into_turn(280.46061837 + 360.98564736629 * (julian_date_ut - 2451545.0) +
                    centuries_ut * centuries_ut * (0.000387933 - centuries_ut / 38710000.0),
                360.0);
  const double cos_obliquity = cos_deg(sun.obliquity_deg);
  const double sin_obliquity = sin_deg(sun.obliquity_deg);
  sun.greenwich_sidereal_time_deg = mean_sidereal_deg + shift.longitude_deg * cos_obliquity;

  const double sin_longitude = sin_deg(sun.apparent_longitude_deg);
  const double right_ascension_rad =
      numerics::atan2(sin_longitude * cos_obliquity - tan_deg(geocentric_latitude_deg) * sin_obliquity,
                      cos_deg(sun.apparent_longitude_deg));
  sun.right_ascension_deg = into_turn(right_ascension_rad * degrees_per_radian, 360.0);
  sun.declination_deg =
      degrees_per_radian * numerics::asin(sin_deg(geocentric_latitude_deg) * cos_obliquity +
                                          cos_deg(geocentric_latitude_deg) * sin_obliquity * sin_longitude);

  constexpr double mean_longitude[] = {280.4664567,   360007.6982779, 0.03032028,
                                       1.0 / 49931.0, -1.0 / 15300.0, -1.0 / 2000000.0};
  sun.mean_longitude_deg = into_turn(power_series(mean_longitude, millennia), 360.0);
  sun.equation_of_time_min = 4.0 * into_half_turns(sun.mean_longitude_deg - 0.0057183 - sun.right_ascension_deg +
                                                       shift.longitude_deg * cos_obliquity,
                                                   360.0);
  return sun;
}

SunPosition sun_position(const GeocentricSun& sun, const Observer& observer) {
  expects(observer.latitude_deg >= -90.0 && observer.latitude_deg <= 90.0, "a latitude from -90 to 90");
  expects(observer.longitude_deg >= -360.0 && observer.longitude_deg <= 360.0, "a longitude in degrees");
  expects(observer.elevation_m >= -1000.0 && observer.elevation_m <= 10000.0, "an elevation from -1000 to 10000 m");
  expects(observer.pressure_pa >= 0.0 && observer.air_temperature_c > -273.0, "air that can be");

  SunPosition position{};
  position.hour_angle_deg =
      into_turn(sun.greenwich_sidereal_time_deg + observer.longitude_deg - sun.right_ascension_deg, 360.0);

  const double sin_latitude = sin_deg(observer.latitude_deg);
  const double cos_latitude = cos_deg(observer.latitude_deg);
  const double sin_declination = sin_deg(sun.declination_deg);
  const double cos_declination = cos_deg(sun.declination_deg);
  const double sin_parallax = sin_deg(8.794 / (3600.0 * sun.distance_au));
  constexpr double earth_radius_m = 6378140.0;
  constexpr double polar_over_equatorial = 0.99664719;
  const double u = numerics::atan2(polar_over_equatorial * sin_latitude, cos_latitude);
  const double x = numerics::cos(u) + observer.elevation_m / earth_radius_m * cos_latitude;
  const double y = polar_over_equatorial * numerics::sin(u) + observer.elevation_m / earth_radius_m * sin_latitude;
  const double along = cos_declination - x * sin_parallax * cos_deg(position.hour_angle_deg);
  const double shift_rad = numerics::atan2(-x * sin_parallax * sin_deg(position.hour_angle_deg), along);
  const double declination_rad =
      numerics::atan2((sin_declination - y * sin_parallax) * numerics::cos(shift_rad), along);
  position.topocentric_declination_deg = declination_rad * degrees_per_radian;
  position.topocentric_hour_angle_deg = position.hour_angle_deg - shift_rad * degrees_per_radian;

  const double hour_angle_rad = position.topocentric_hour_angle_deg * radians_per_degree;
  const double sine = sin_latitude * numerics::sin(declination_rad) +
                      cos_latitude * numerics::cos(declination_rad) * numerics::cos(hour_angle_rad);
  position.true_elevation_deg = degrees_per_radian * numerics::asin(sine > 1.0 ? 1.0 : (sine < -1.0 ? -1.0 : sine));
  const double elevation_deg = position.true_elevation_deg;
  if (elevation_deg >= -(sun_radius_deg + refraction_at_horizon_deg)) {
    position.refraction_deg = observer.pressure_pa / 101000.0 * 283.0 / (273.0 + observer.air_temperature_c) * 1.02 /
                              (60.0 * tan_deg(elevation_deg + 10.3 / (elevation_deg + 5.11)));
  }
  position.zenith_deg = 90.0 - elevation_deg - position.refraction_deg;
  position.azimuth_deg =
      degrees_per_radian * sun_azimuth_rad(observer.latitude_deg * radians_per_degree, declination_rad, hour_angle_rad);
  return position;
}

double cosine_of_incidence(double zenith_deg, double azimuth_deg, const Plane& plane) {
  return cos_deg(zenith_deg) * cos_deg(plane.slope_deg) +
         sin_deg(zenith_deg) * sin_deg(plane.slope_deg) * cos_deg(azimuth_deg - plane.azimuth_deg);
}

SunTrack track_sun(double first_julian_date_ut, int n_days, double delta_t_s) {
  expects(n_days >= 1 && n_days <= 40000, "1 to 40000 days");
  // Nodes at 0 h universal time, where a Julian date ends in one half.
  SunTrack track{std::floor(first_julian_date_ut - 0.5) + 0.5 - margin_before_days, {}};
  const int n_nodes = n_days + margin_before_days + margin_behind_days + 1;
  track.nodes.reserve(static_cast<std::size_t>(n_nodes));
  for (int i = 0; i < n_nodes; ++i) track.nodes.push_back(slow_parts(track.first_julian_date + i, delta_t_s));
  return track;
}

SunOfMoment sun_of_moment(const SunTrack& track, double julian_date_ut) {
  const double place = julian_date_ut - track.first_julian_date;
  const double whole = std::floor(place);
  expects(whole >= 1.0 && whole + 2.0 < static_cast<double>(track.nodes.size()),
          "a moment inside the track of the sun");
  const double t = place - whole;
  // Lagrange through nodes at -1, 0, 1, 2.
  const double before = -t * (t - 1.0) * (t - 2.0) / 6.0;
  const double here = (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0;
  const double next = -(t + 1.0) * t * (t - 2.0) / 2.0;
  const double after = (t + 1.0) * t * (t - 1.0) / 6.0;
  const SunOfMoment* node = &track.nodes[static_cast<std::size_t>(whole) - 1];
  const auto through = [&](double SunOfMoment::*part) {
    return before * node[0].*part + here * node[1].*part + next * node[2].*part + after * node[3].*part;
  };
  return {through(&SunOfMoment::declination_rad), through(&SunOfMoment::equation_of_time_min),
          through(&SunOfMoment::distance_au)};
}

double hour_angle_rad(double julian_date_ut, double longitude_deg, double equation_of_time_min) {
  const double turns =
      julian_date_ut - std::floor(julian_date_ut) + longitude_deg / 360.0 + equation_of_time_min / 1440.0;
  return 2.0 * pi * into_half_turns(turns, 1.0);
}

ElevationTerms elevation_terms(double latitude_rad, double declination_rad) {
  return {numerics::sin(latitude_rad) * numerics::sin(declination_rad),
          numerics::cos(latitude_rad) * numerics::cos(declination_rad)};
}

double sine_of_elevation(const ElevationTerms& terms, double hour_angle_rad) {
  return terms.a + terms.b * numerics::cos(hour_angle_rad);
}

double sunset_hour_angle_rad(const ElevationTerms& terms) {
  if (terms.a >= terms.b) return terms.a > 0.0 ? pi : 0.5 * pi;
  if (terms.a <= -terms.b) return 0.0;
  return numerics::acos(-terms.a / terms.b);
}

double mean_sine_of_elevation(const ElevationTerms& terms, double from_rad, double to_rad) {
  expects(from_rad >= -3.0 * pi && to_rad <= 3.0 * pi && from_rad < to_rad && to_rad - from_rad <= 2.0 * pi,
          "two hour angles in order, at most a turn apart");
  const double sunset_rad = sunset_hour_angle_rad(terms);
  double integral = 0.0;
  for (int turn = -1; turn <= 1; ++turn) {
    const double noon_rad = 2.0 * pi * turn;
    const double start_rad = from_rad > noon_rad - sunset_rad ? from_rad : noon_rad - sunset_rad;
    const double end_rad = to_rad < noon_rad + sunset_rad ? to_rad : noon_rad + sunset_rad;
    if (end_rad <= start_rad) continue;
    integral += terms.a * (end_rad - start_rad) + terms.b * (numerics::sin(end_rad) - numerics::sin(start_rad));
  }
  return integral > 0.0 ? integral / (to_rad - from_rad) : 0.0;
}

double sun_azimuth_rad(double latitude_rad, double declination_rad, double hour_angle_rad) {
  const double east = -numerics::cos(declination_rad) * numerics::sin(hour_angle_rad);
  const double north = numerics::sin(declination_rad) * numerics::cos(latitude_rad) -
                       numerics::cos(declination_rad) * numerics::sin(latitude_rad) * numerics::cos(hour_angle_rad);
  return into_turn(numerics::atan2(east, north), 2.0 * pi);
}

double extraterrestrial_normal_w_per_m2(double distance_au) {
  expects(distance_au >= 0.9 && distance_au <= 1.1, "a distance of the sun from 0.9 to 1.1 astronomical units");
  return solar_constant_w_per_m2 / (distance_au * distance_au);
}

}  // namespace houseleek::physics
