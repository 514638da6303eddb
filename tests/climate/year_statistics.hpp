// Statistics of generated years that several tests ask for.
#pragma once
#include <cmath>
#include <cstddef>
#include <vector>

#include "climate/year.hpp"

namespace houseleek::climate::tests {

inline double outside_w_per_m2(const WeatherYear& year, std::size_t hour) {
  return year.sun_normal_w_per_m2[hour] * year.sun_mean_sine[hour];
}

/// Clearness of each day, hours weighted as they arrive.
inline std::vector<double> clearness_of(const WeatherYear& year) {
  std::vector<double> clearness;
  for (std::size_t day = 0; day < 365; ++day) {
    double global = 0.0;
    double outside = 0.0;
    for (std::size_t hour = 24 * day; hour < 24 * day + 24; ++hour) {
      global += year.global_w_per_m2[hour];
      outside += outside_w_per_m2(year, hour);
    }
    clearness.push_back(global / outside);
  }
  return clearness;
}

/// Sums for a correlation of pairs.
struct Pairs {
  double n = 0, x = 0, y = 0, xx = 0, yy = 0, xy = 0;
  void add(double a, double b) { n += 1, x += a, y += b, xx += a * a, yy += b * b, xy += a * b; }
  [[nodiscard]] double correlation() const { return (xy - x * y / n) / std::sqrt((xx - x * x / n) * (yy - y * y / n)); }
  [[nodiscard]] double sd_of_x() const { return std::sqrt((xx - x * x / n) / n); }
  [[nodiscard]] double mean_of_x() const { return x / n; }
};

/// Rain of each day.
inline std::vector<double> rain_of_days_mm(const WeatherYear& year) {
  std::vector<double> days_mm(365, 0.0);
  for (std::size_t slot = 0; slot < year.rain_mm_per_10_min.size(); ++slot) {
    days_mm[slot / 144] += year.rain_mm_per_10_min[slot];
  }
  return days_mm;
}

}  // namespace houseleek::climate::tests
