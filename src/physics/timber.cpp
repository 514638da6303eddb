// Timber joists under a load that stays: strength lost with time, creep, and water that gathers in the sag.
#include "physics/timber.hpp"

#include <array>
#include <cstddef>
#include <numbers>

#include "base/contract.hpp"

namespace houseleek::physics {

double timber_strength_frac(TimberDuration duration, int service_class) {
  expects(service_class >= 1 && service_class <= 3, "a service class from 1 to 3");
  constexpr std::array<double, 4> dry = {0.60, 0.70, 0.80, 0.90};
  constexpr std::array<double, 4> wet = {0.50, 0.55, 0.65, 0.70};
  return (service_class == 3 ? wet : dry)[static_cast<std::size_t>(duration)];
}

double timber_creep_frac(int service_class) {
  expects(service_class >= 1 && service_class <= 3, "a service class from 1 to 3");
  constexpr std::array<double, 3> creep = {0.60, 0.80, 2.00};
  return creep[static_cast<std::size_t>(service_class - 1)];
}

double joist_stiffness_knm2(double width_mm, double height_mm, double modulus_n_per_mm2) {
  return 1e-9 * modulus_n_per_mm2 * width_mm * height_mm * height_mm * height_mm / 12.0;
}

double ponding_frac(double spacing_m, double span_m, double stiffness_knm2) {
  expects(stiffness_knm2 > 0.0, "a stiffness above zero");
  constexpr double water_kn_per_m3 = 9.81;
  constexpr double pi2 = std::numbers::pi * std::numbers::pi;
  const double span2_m2 = span_m * span_m;
  return water_kn_per_m3 * spacing_m * span2_m2 * span2_m2 / (pi2 * pi2 * stiffness_knm2);
}

}  // namespace houseleek::physics
