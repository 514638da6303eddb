// Sunlight on the ground: diffuse share, hours of a day, planes that are not level, clear sky.
#include "physics/radiation.hpp"

#include <limits>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"

namespace houseleek::physics {
namespace {

constexpr double sunset_joint_rad = 81.4 * radians_per_degree;
constexpr double highest_clearness = 100.0;  // an hour at the edge of the night divides by almost nothing

void expects_day(double clearness, double sunset_rad) {
  expects(clearness >= 0.0 && clearness <= highest_clearness, "a clearness of zero or more");
  expects(sunset_rad >= 0.0 && sunset_rad <= pi, "a sunset hour angle from 0 to pi");
}

struct PerezRow {
  double upper_clearness;
  double f11, f12, f13, f21, f22, f23;
};

// [perez1990] Table 6 with more digits than printed; two public listings that agree were read.
constexpr PerezRow perez_rows[] = {
    {1.065, -0.0083117, 0.5877285, -0.0620636, -0.0596012, 0.0721249, -0.0220216},
    {1.23, 0.1299457, 0.6825954, -0.1513752, -0.0189325, 0.0659650, -0.0288748},
    {1.5, 0.3296958, 0.4868735, -0.2210958, 0.0554140, -0.0639588, -0.0260542},
    {1.95, 0.5682053, 0.1874525, -0.2951290, 0.1088631, -0.1519229, -0.0139754},
    {2.8, 0.8730280, -0.3920403, -0.3616149, 0.2255647, -0.4620442, 0.0012448},
    {4.5, 1.1326077, -1.2367284, -0.4118494, 0.2877813, -0.8230357, 0.0558651},
    {6.2, 1.0601591, -1.5999137, -0.3589221, 0.2642124, -1.1272340, 0.1310694},
    {std::numeric_limits<double>::infinity(), 0.6777470, -0.3272588, -0.2504286, 0.1561313, -1.3765031, 0.2506212}};

void expects_light_on_plane(const SkyLight& light, const LitPlane& plane) {
  expects(light.direct_normal_w_per_m2 >= 0.0 && light.diffuse_horizontal_w_per_m2 >= 0.0, "light of zero or more");
  expects(light.zenith_rad >= 0.0 && light.zenith_rad <= pi, "a zenith from 0 to pi");
  expects(light.direct_normal_w_per_m2 == 0.0 || light.zenith_rad <= 0.5 * pi, "no direct light while the sun is down");
  expects(plane.slope_rad >= 0.0 && plane.slope_rad <= pi && plane.cos_incidence >= -1.0 - 1e-12 &&
              plane.cos_incidence <= 1.0 + 1e-12,
          "a slope from 0 to pi and a cosine");
  expects(plane.ground_albedo_frac >= 0.0 && plane.ground_albedo_frac <= 1.0, "an albedo from 0 to 1");
}

double positive_part(double x) { return x > 0.0 ? x : 0.0; }

double sky_view_frac(const LitPlane& plane) { return 0.5 * (1.0 + numerics::cos(plane.slope_rad)); }

PlaneLight with_sky(const SkyLight& light, const LitPlane& plane, double sky_w_per_m2) {
  const double global_w_per_m2 =
      light.diffuse_horizontal_w_per_m2 + light.direct_normal_w_per_m2 * positive_part(numerics::cos(light.zenith_rad));
  return {light.direct_normal_w_per_m2 * positive_part(plane.cos_incidence), sky_w_per_m2,
          global_w_per_m2 * plane.ground_albedo_frac * (1.0 - sky_view_frac(plane))};
}

}  // namespace

double erbs_hourly_diffuse_frac(double clearness) {
  expects(clearness >= 0.0 && clearness <= highest_clearness, "a clearness of zero or more");
  const double k = clearness;
  if (k <= 0.22) return 1.0 - 0.09 * k;
  if (k <= 0.8) return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
  return 0.165;
}

double erbs_daily_diffuse_frac(double clearness, double sunset_rad) {
  expects_day(clearness, sunset_rad);
  const double k = clearness;
  if (sunset_rad <= sunset_joint_rad) {
    return k < 0.715 ? 1.0 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879))) : 0.143;
  }
  return k < 0.722 ? 1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448)) : 0.175;
}

double erbs_monthly_diffuse_frac(double clearness, double sunset_rad) {
  expects_day(clearness, sunset_rad);
  expects(clearness >= 0.3 && clearness <= 0.8, "a month's clearness from 0.3 to 0.8");
  const double k = clearness;
  if (sunset_rad <= sunset_joint_rad) return 1.391 + k * (-3.560 + k * (4.189 - k * 2.137));
  return 1.311 + k * (-3.022 + k * (3.427 - k * 1.821));
}

double hour_over_day_frac(DayShape shape, double hour_angle_rad, double sunset_rad) {
  expects(hour_angle_rad >= -pi && hour_angle_rad <= pi, "an hour angle from -pi to pi");
  expects(sunset_rad >= 0.0 && sunset_rad <= pi, "a sunset hour angle from 0 to pi");
  const double cos_hour = numerics::cos(hour_angle_rad);
  const double cos_sunset = numerics::cos(sunset_rad);
  if (cos_hour <= cos_sunset) return 0.0;
  const double plain = pi / 24.0 * (cos_hour - cos_sunset) / (numerics::sin(sunset_rad) - sunset_rad * cos_sunset);
  if (shape == DayShape::liu_jordan) return plain;
  const double bend = numerics::sin(sunset_rad - 60.0 * radians_per_degree);
  return plain * (0.409 + 0.5016 * bend + (0.6609 - 0.4767 * bend) * cos_hour);
}

std::vector<double> shares_of_hours(DayShape shape, std::span<const double> hour_angles_rad, double sunset_rad) {
  std::vector<double> shares;
  shares.reserve(hour_angles_rad.size());
  double sum = 0.0;
  for (const double hour_angle_rad : hour_angles_rad) {
    shares.push_back(hour_over_day_frac(shape, hour_angle_rad, sunset_rad));
    sum += shares.back();
  }
  if (sum > 0.0) {
    for (double& share : shares) share /= sum;
  }
  return shares;
}

PlaneLight plane_light_isotropic(const SkyLight& light, const LitPlane& plane) {
  expects_light_on_plane(light, plane);
  return with_sky(light, plane, light.diffuse_horizontal_w_per_m2 * sky_view_frac(plane));
}

PlaneLight plane_light_hay_davies(const SkyLight& light, const LitPlane& plane) {
  expects_light_on_plane(light, plane);
  expects(light.extraterrestrial_normal_w_per_m2 > 0.0, "a positive extraterrestrial radiation");
  const double cos_zenith = numerics::cos(light.zenith_rad);
  const double sine_of_1_degree = numerics::sin(radians_per_degree);
  const double around_sun =
      cos_zenith < sine_of_1_degree ? 0.0 : light.direct_normal_w_per_m2 / light.extraterrestrial_normal_w_per_m2;
  double bright = (1.0 - around_sun) * sky_view_frac(plane);
  if (around_sun > 0.0) bright += around_sun * positive_part(plane.cos_incidence) / cos_zenith;
  return with_sky(light, plane, light.diffuse_horizontal_w_per_m2 * bright);
}

PerezSky perez_sky(const SkyLight& light) {
  expects(light.diffuse_horizontal_w_per_m2 > 0.0 && light.direct_normal_w_per_m2 >= 0.0, "some diffuse light");
  expects(light.zenith_rad >= 0.0 && light.zenith_rad <= 0.5 * pi, "a zenith from 0 to pi/2");
  expects(light.extraterrestrial_normal_w_per_m2 > 0.0 && light.relative_air_mass >= 0.9,
          "a positive extraterrestrial radiation and an air mass near one or more");
  const double z = light.zenith_rad;
  const double bend = 1.041 * z * z * z;
  PerezSky sky{};
  sky.clearness =
      ((light.diffuse_horizontal_w_per_m2 + light.direct_normal_w_per_m2) / light.diffuse_horizontal_w_per_m2 + bend) /
      (1.0 + bend);
  sky.brightness = light.diffuse_horizontal_w_per_m2 * light.relative_air_mass / light.extraterrestrial_normal_w_per_m2;
  std::size_t row = 0;
  while (sky.clearness >= perez_rows[row].upper_clearness) ++row;
  const PerezRow& f = perez_rows[row];
  sky.bin = static_cast<int>(row) + 1;
  sky.circumsolar = positive_part(f.f11 + f.f12 * sky.brightness + f.f13 * z);
  sky.horizon = f.f21 + f.f22 * sky.brightness + f.f23 * z;
  return sky;
}

PlaneLight plane_light_perez(const SkyLight& light, const LitPlane& plane) {
  expects_light_on_plane(light, plane);
  if (light.diffuse_horizontal_w_per_m2 == 0.0 || light.zenith_rad > 0.5 * pi) {
    return plane_light_isotropic(light, plane);
  }
  const PerezSky sky = perez_sky(light);
  const double cos_zenith = numerics::cos(light.zenith_rad);
  const double cos_85_degrees = numerics::cos(85.0 * radians_per_degree);
  const double above_horizon = cos_zenith > cos_85_degrees ? cos_zenith : cos_85_degrees;
  const double bright = (1.0 - sky.circumsolar) * sky_view_frac(plane) +
                        sky.circumsolar * positive_part(plane.cos_incidence) / above_horizon +
                        sky.horizon * numerics::sin(plane.slope_rad);
  return with_sky(light, plane, light.diffuse_horizontal_w_per_m2 * bright);
}

double relative_air_mass(double zenith_rad) {
  expects(zenith_rad >= 0.0 && zenith_rad <= 0.5 * pi, "a zenith from 0 to pi/2");
  const double zenith_deg = zenith_rad * degrees_per_radian;
  return 1.0 / (numerics::cos(zenith_rad) + 0.50572 * numerics::pow(96.07995 - zenith_deg, -1.6364));
}

double clear_sky_frac(double elevation_m) {
  expects(elevation_m >= -500.0 && elevation_m <= 6000.0, "an elevation from -500 to 6000 m");
  return 0.75 + 2.0e-5 * elevation_m;
}

double clear_sky_global_w_per_m2(double sine_of_elevation) {
  expects(sine_of_elevation >= -1.0 && sine_of_elevation <= 1.0, "a sine");
  return positive_part(910.0 * sine_of_elevation - 30.0);
}

double cloud_factor_frac(double cover_frac) {
  expects(cover_frac >= 0.0 && cover_frac <= 1.0, "a cloud cover from 0 to 1");
  return cover_frac == 0.0 ? 1.0 : 1.0 - 0.75 * numerics::pow(cover_frac, 3.4);
}

double cloud_cover_frac(double clear_share_frac) {
  expects(clear_share_frac >= 0.0 && clear_share_frac <= highest_clearness, "a share of zero or more");
  const double missing = (1.0 - clear_share_frac) / 0.75;
  if (missing <= 0.0) return 0.0;
  return missing >= 1.0 ? 1.0 : numerics::pow(missing, 1.0 / 3.4);
}

}  // namespace houseleek::physics
