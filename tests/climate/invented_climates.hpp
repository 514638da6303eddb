// Three invented climates for tests: what a householder could type, of different completeness.
#pragma once
#include <cmath>

#include "climate/generate.hpp"

namespace houseleek::climate::tests {

struct Climate {
  const char* name;
  Place place;
  MonthlyNormals normals;
};

/// Hot dry summers, mild wet winters; sunshine and relative humidity are known, wind is not.
inline Climate dry_summer() {
  Climate climate = {.name = "dry summer", .place = {37.4, -6.0, 20.0, 1.0}, .normals = {}};
  climate.normals.max_c = {16, 18, 21.5, 23, 27, 32.5, 36, 35.5, 31.5, 26, 20, 16.5};
  climate.normals.min_c = {5.5, 7, 9.5, 11, 14.5, 18.5, 20.5, 20.5, 18, 14, 9.5, 7};
  climate.normals.rain_mm = {66, 50, 36, 54, 31, 10, 2, 5, 27, 68, 91, 99};
  climate.normals.rain_days = Months{7, 6, 5, 6, 4, 1.5, 0.3, 0.6, 2.5, 6, 7, 8};
  climate.normals.sunshine_h = Months{183, 189, 220, 238, 293, 317, 354, 328, 244, 217, 181, 154};
  climate.normals.relative_humidity_frac = Months{.71, .67, .59, .57, .53, .48, .44, .48, .54, .62, .70, .74};
  return climate;
}

/// Cold winters, inland; global radiation, dew point and wind are known.
inline Climate cold_inland() {
  Climate climate = {.name = "cold inland", .place = {53.5, -113.5, 700.0, -7.0}, .normals = {}};
  climate.normals.max_c = {-6, -3, 2, 11, 18, 21, 23, 22.5, 17, 10.5, 0, -5};
  climate.normals.min_c = {-15, -13, -8, -1.5, 4, 8.5, 10.5, 9, 4, -1, -8, -13.5};
  climate.normals.rain_mm = {22, 14, 18, 27, 46, 78, 91, 63, 40, 21, 18, 17};
  climate.normals.rain_days = Months{9, 7, 7, 7, 10, 14, 14, 12, 9, 7, 8, 8};
  climate.normals.global_mj_per_m2_d = Months{3.9, 7.5, 12.8, 17.5, 20.3, 22, 21.3, 17.6, 12.6, 7.9, 4.4, 3.0};
  climate.normals.dew_point_c = Months{-13, -11, -8, -3, 2, 8, 11, 10, 5, -1, -7, -12};
  climate.normals.wind_m_per_s = Months{3.6, 3.6, 3.8, 4.3, 4.3, 3.9, 3.5, 3.3, 3.6, 3.7, 3.5, 3.5};
  return climate;
}

/// Warm humid summers south of the equator; only maximum, minimum and rain are known.
inline Climate humid_south() {
  Climate climate = {.name = "humid south", .place = {-27.5, 153.0, 30.0, 10.0}, .normals = {}};
  climate.normals.max_c = {30.4, 30.2, 29.3, 27, 24.3, 22, 21.8, 23.2, 25.5, 27.1, 28.5, 29.8};
  climate.normals.min_c = {21.5, 21.4, 20.1, 17.2, 13.8, 11.3, 10, 10.5, 13.2, 16, 18.4, 20.4};
  climate.normals.rain_mm = {153, 143, 109, 56, 61, 57, 34, 40, 30, 87, 97, 128};
  return climate;
}

/// A place at 45 degrees north whose every month has this clearness by its daily range: 0.16 sqrt(range) = clearness.
inline Climate even_clearness(double clearness) {
  Climate climate = {.name = "even", .place = {45.0, 0.0, 0.0, 0.0}, .normals = {}};
  const double range_k = (clearness / 0.16) * (clearness / 0.16);
  for (std::size_t month = 0; month < 12; ++month) {
    const double season_k = 8.0 * std::cos(2.0 * 3.14159265358979 * (static_cast<double>(month) - 6.5) / 12.0);
    climate.normals.max_c[month] = 15.0 + season_k + 0.5 * range_k;
    climate.normals.min_c[month] = 15.0 + season_k - 0.5 * range_k;
    climate.normals.rain_mm[month] = 50.0;
  }
  climate.normals.rain_days =
      Months{31. / 3, 28. / 3, 31. / 3, 10, 31. / 3, 10, 31. / 3, 31. / 3, 10, 31. / 3, 10, 31. / 3};
  return climate;
}

}  // namespace houseleek::climate::tests
