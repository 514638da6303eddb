// What the sun and the bright sky send on an upright wall, hour by hour.
#include "climate/facade.hpp"

#include <utility>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"

namespace houseleek::climate {
namespace {

constexpr int parts_of_hour = 6;
constexpr double hour_turn_rad = 15.0 * physics::radians_per_degree;

/// Outward normal of a wall and the turn of the place's horizon.
struct Wall {
  double north;  // component of the normal
  double east;
  double sine_latitude;
  double cosine_latitude;
};

/// Sine and cosine of an angle in degrees, with the exact symmetries of the compass: mirrored walls get mirrored bits.
numerics::SinCos<double> sin_cos_of_azimuth(double azimuth_deg) {
  expects(azimuth_deg >= -3600.0 && azimuth_deg <= 3600.0, "an azimuth in degrees");
  double angle_deg = azimuth_deg - 360.0 * static_cast<double>(static_cast<int>(azimuth_deg / 360.0));
  if (angle_deg < 0.0) angle_deg += 360.0;
  const bool is_turned = angle_deg >= 180.0;
  if (is_turned) angle_deg -= 180.0;
  const bool is_obtuse = angle_deg > 90.0;
  if (is_obtuse) angle_deg = 180.0 - angle_deg;
  const bool is_steep = angle_deg > 45.0;
  numerics::SinCos<double> of =
      numerics::sin_cos((is_steep ? 90.0 - angle_deg : angle_deg) * physics::radians_per_degree);
  if (is_steep) of = {of.cos, of.sin};
  if (is_obtuse) of.cos = -of.cos;
  return is_turned ? numerics::SinCos<double>{-of.sin, -of.cos} : of;
}

/// Mean of max(0, cos(theta)) over the parts of the hour with the sun up.
double mean_cosine_on_wall(const WeatherYear& year, std::size_t hour, const Wall& wall) {
  const double sine_declination = year.sun_sine_declination[hour];
  const double cosine_declination = numerics::sqrt(1.0 - sine_declination * sine_declination);
  double sum = 0.0;
  for (int part = 0; part < parts_of_hour; ++part) {
    const double fraction = (static_cast<double>(part) + 0.5) / static_cast<double>(parts_of_hour);
    const numerics::SinCos<double> turn = numerics::sin_cos(year.sun_hour_angle_rad[hour] + fraction * hour_turn_rad);
    if (year.sun_a[hour] + year.sun_b[hour] * turn.cos <= 0.0) continue;
    const double sun_east = -cosine_declination * turn.sin;
    const double sun_north =
        sine_declination * wall.cosine_latitude - cosine_declination * wall.sine_latitude * turn.cos;
    const double cosine = wall.north * sun_north + wall.east * sun_east;
    if (cosine > 0.0) sum += cosine;
  }
  return sum / static_cast<double>(parts_of_hour);
}

}  // namespace

std::vector<double> facade_irradiance_w_per_m2(const WeatherYear& year, double azimuth_deg, double ground_albedo) {
  expects(ground_albedo >= 0.0 && ground_albedo <= 1.0, "a ground albedo from 0 to 1");
  const std::size_t n_hours = year.global_w_per_m2.size();
  expects(year.diffuse_w_per_m2.size() == n_hours && year.sun_mean_sine.size() == n_hours &&
              year.sun_sine_declination.size() == n_hours && year.sun_normal_w_per_m2.size() == n_hours,
          "a weather year whose columns are all there");
  const numerics::SinCos<double> azimuth = sin_cos_of_azimuth(azimuth_deg);
  const numerics::SinCos<double> latitude = numerics::sin_cos(year.place.latitude_deg * physics::radians_per_degree);
  const Wall wall = {
      .north = azimuth.cos, .east = azimuth.sin, .sine_latitude = latitude.sin, .cosine_latitude = latitude.cos};

  std::vector<double> facade_w_per_m2(n_hours);
  for (std::size_t hour = 0; hour < n_hours; ++hour) {
    const double global = year.global_w_per_m2[hour];
    const double mean_sine = year.sun_mean_sine[hour];
    const double outside_normal = year.sun_normal_w_per_m2[hour];
    double towards_sun = 0.0;  // beam and what of the sky's light comes from around the sun, on a plane that faces it
    double cosine = 0.0;
    if (mean_sine >= least_shaping_sine) {
      const double beam = global - year.diffuse_w_per_m2[hour];
      const double around_sun = numerics::min(beam / (mean_sine * outside_normal), 1.0);
      towards_sun = numerics::min((beam + around_sun * year.diffuse_w_per_m2[hour]) / mean_sine, outside_normal);
      cosine = mean_cosine_on_wall(year, hour, wall);
    }
    const double from_all_sky = global - towards_sun * mean_sine;
    facade_w_per_m2[hour] = towards_sun * cosine + 0.5 * from_all_sky + 0.5 * ground_albedo * global;
  }
  return facade_w_per_m2;
}

WeatherYear mirrored_north_south(WeatherYear year) {
  year.place.latitude_deg = -year.place.latitude_deg;
  for (double& sine : year.sun_sine_declination) sine = -sine;
  return year;
}

}  // namespace houseleek::climate
