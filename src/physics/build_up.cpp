// Layers one on another: steady resistance and transmittance, and the answer to a daily swing.
#include "physics/build_up.hpp"

#include <cmath>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/constants.hpp"

namespace houseleek::physics {
namespace {

Complex operator+(Complex a, Complex b) { return {a.re + b.re, a.im + b.im}; }
Complex operator-(Complex a, Complex b) { return {a.re - b.re, a.im - b.im}; }
Complex operator-(Complex a) { return {-a.re, -a.im}; }
Complex operator*(Complex a, Complex b) { return {a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re}; }
Complex operator*(double a, Complex b) { return {a * b.re, a * b.im}; }
Complex operator/(Complex a, Complex b) {
  const double squared = b.re * b.re + b.im * b.im;
  return {(a.re * b.re + a.im * b.im) / squared, (a.im * b.re - a.re * b.im) / squared};
}
double magnitude(Complex a) { return numerics::sqrt(a.re * a.re + a.im * a.im); }
double argument_rad(Complex a) { return numerics::atan2(a.im, a.re); }

PeriodicMatrix product(const PeriodicMatrix& a, const PeriodicMatrix& b) {
  return {a.z11 * b.z11 + a.z12 * b.z21, a.z11 * b.z12 + a.z12 * b.z22, a.z21 * b.z11 + a.z22 * b.z21,
          a.z21 * b.z12 + a.z22 * b.z22};
}

PeriodicMatrix layer_matrix(const ThermalLayer& layer, double period_s) {
  const double resistance = layer.resistance_m2_k_per_w;
  if (layer.capacity_j_per_m2_k == 0.0) return {{1.0, 0.0}, {-resistance, 0.0}, {0.0, 0.0}, {1.0, 0.0}};
  const double xi = numerics::sqrt(pi * resistance * layer.capacity_j_per_m2_k / period_s);
  expects(xi < 30.0, "a layer less than 30 depths of the swing thick");
  const double growing = numerics::exp(xi);
  const double cosh_xi = 0.5 * (growing + 1.0 / growing);
  // Below 0.1 the difference of the two exponentials loses digits that the series keeps.
  const double sinh_xi = xi < 0.1 ? xi * (1.0 + xi * xi / 6.0 * (1.0 + xi * xi / 20.0 * (1.0 + xi * xi / 42.0)))
                                  : 0.5 * (growing - 1.0 / growing);
  const double cos_xi = numerics::cos(xi);
  const double sin_xi = numerics::sin(xi);
  const Complex diagonal{cosh_xi * cos_xi, sinh_xi * sin_xi};
  const double first = sinh_xi * cos_xi;
  const double second = cosh_xi * sin_xi;
  return {diagonal, -resistance / (2.0 * xi) * Complex{first + second, second - first},
          -xi / resistance * Complex{first - second, first + second}, diagonal};
}

double quarter_of_black_film_w_per_m2_k(double temperature_k) {
  expects(temperature_k >= 200.0 && temperature_k <= 400.0, "a mean temperature from 200 to 400 K");
  return stefan_boltzmann_w_per_m2_k4 * temperature_k * temperature_k * temperature_k;
}

double largest(double a, double b) { return a > b ? a : b; }

}  // namespace

ThermalLayer thermal_layer(const SolidLayer& layer) {
  expects(layer.thickness_m > 0.0 && layer.conductivity_w_per_m_k > 0.0, "a positive thickness and conductivity");
  expects(layer.density_kg_per_m3 >= 0.0 && layer.specific_heat_j_per_kg_k >= 0.0, "a density and a specific heat");
  return {layer.thickness_m / layer.conductivity_w_per_m_k,
          layer.thickness_m * layer.density_kg_per_m3 * layer.specific_heat_j_per_kg_k};
}

double inside_surface_resistance_m2_k_per_w(HeatDirection direction) {
  if (direction == HeatDirection::up) return 0.10;
  return direction == HeatDirection::horizontal ? 0.13 : 0.17;
}

double surface_resistance_m2_k_per_w(double convective_w_per_m2_k, double emissivity_frac, double mean_k) {
  expects(convective_w_per_m2_k > 0.0 && emissivity_frac >= 0.0 && emissivity_frac <= 1.0,
          "a positive convection and an emissivity from 0 to 1");
  return 1.0 / (convective_w_per_m2_k + emissivity_frac * 4.0 * quarter_of_black_film_w_per_m2_k(mean_k));
}

double outside_convection_w_per_m2_k(double wind_m_per_s) {
  expects(wind_m_per_s >= 0.0 && wind_m_per_s <= 50.0, "a wind from 0 to 50 m/s");
  return 4.0 + 4.0 * wind_m_per_s;
}

double air_layer_resistance_m2_k_per_w(const AirLayer& layer) {
  expects(layer.thickness_m > 0.0 && layer.thickness_m <= 0.3, "an air layer up to 0.3 m thick");
  expects(layer.emissivity_a_frac > 0.0 && layer.emissivity_a_frac <= 1.0 && layer.emissivity_b_frac > 0.0 &&
              layer.emissivity_b_frac <= 1.0,
          "emissivities above 0, up to 1");
  double moving_w_per_m2_k = 1.95;
  if (layer.direction == HeatDirection::horizontal) moving_w_per_m2_k = 1.25;
  if (layer.direction == HeatDirection::down) moving_w_per_m2_k = 0.12 * numerics::pow(layer.thickness_m, -0.44);
  const double air_w_per_m2_k = largest(moving_w_per_m2_k, 0.025 / layer.thickness_m);
  const double radiation_w_per_m2_k = 4.0 * quarter_of_black_film_w_per_m2_k(layer.mean_k) /
                                      (1.0 / layer.emissivity_a_frac + 1.0 / layer.emissivity_b_frac - 1.0);
  return 1.0 / (air_w_per_m2_k + radiation_w_per_m2_k);
}

AirLayerVentilation air_layer_ventilation(double opening_mm2_per_m2) {
  expects(opening_mm2_per_m2 >= 0.0, "an opening of zero or more");
  if (opening_mm2_per_m2 <= 500.0) return AirLayerVentilation::unventilated;
  return opening_mm2_per_m2 > 1500.0 ? AirLayerVentilation::well : AirLayerVentilation::slight;
}

double ventilated_total_resistance_m2_k_per_w(const TotalResistances& totals, double opening_mm2_per_m2) {
  expects(totals.unventilated_m2_k_per_w > 0.0 && totals.well_ventilated_m2_k_per_w > 0.0, "positive resistances");
  switch (air_layer_ventilation(opening_mm2_per_m2)) {
    case AirLayerVentilation::unventilated:
      return totals.unventilated_m2_k_per_w;
    case AirLayerVentilation::well:
      return totals.well_ventilated_m2_k_per_w;
    case AirLayerVentilation::slight:
      break;
  }
  const double open_share = (opening_mm2_per_m2 - 500.0) / 1000.0;
  return (1.0 - open_share) * totals.unventilated_m2_k_per_w + open_share * totals.well_ventilated_m2_k_per_w;
}

double total_resistance_m2_k_per_w(std::span<const ThermalLayer> layers) {
  expects(!layers.empty(), "at least one layer");
  double sum = 0.0;
  for (const ThermalLayer& layer : layers) {
    expects(layer.resistance_m2_k_per_w > 0.0, "a positive resistance in every layer");
    sum += layer.resistance_m2_k_per_w;
  }
  return sum;
}

double transmittance_w_per_m2_k(std::span<const ThermalLayer> layers) {
  return 1.0 / total_resistance_m2_k_per_w(layers);
}

double side_by_side_transmittance_w_per_m2_k(std::span<const AreaShare> shares) {
  double area = 0.0;
  double sum = 0.0;
  for (const AreaShare& share : shares) {
    expects(share.area_frac >= 0.0 && share.transmittance_w_per_m2_k >= 0.0,
            "shares and transmittances of zero or more");
    area += share.area_frac;
    sum += share.area_frac * share.transmittance_w_per_m2_k;
  }
  expects(std::abs(area - 1.0) <= 1e-9, "shares that sum to one");
  return sum;
}

std::vector<double> face_temperatures_c(std::span<const ThermalLayer> layers, double inside_c, double outside_c) {
  const double flux_w_per_m2 = (inside_c - outside_c) / total_resistance_m2_k_per_w(layers);
  std::vector<double> temperatures;
  temperatures.reserve(layers.size());
  double temperature_c = inside_c;
  for (const ThermalLayer& layer : layers.first(layers.size() - 1)) {
    temperature_c -= flux_w_per_m2 * layer.resistance_m2_k_per_w;
    temperatures.push_back(temperature_c);
  }
  return temperatures;
}

double sol_air_temperature_c(const OuterSurface& surface) {
  expects(surface.film_w_per_m2_k > 0.0 && std::isfinite(surface.absorbed_solar_w_per_m2) &&
              std::isfinite(surface.lost_longwave_w_per_m2),
          "a positive film and finite radiation");
  return surface.air_c + (surface.absorbed_solar_w_per_m2 - surface.lost_longwave_w_per_m2) / surface.film_w_per_m2_k;
}

PeriodicMatrix periodic_matrix(std::span<const ThermalLayer> layers, double period_s) {
  expects(!layers.empty() && period_s > 0.0, "at least one layer and a positive period");
  PeriodicMatrix whole{{1.0, 0.0}, {0.0, 0.0}, {0.0, 0.0}, {1.0, 0.0}};
  for (const ThermalLayer& layer : layers) {
    expects(layer.resistance_m2_k_per_w > 0.0 && layer.capacity_j_per_m2_k >= 0.0,
            "a positive resistance and a capacity of zero or more in every layer");
    whole = product(layer_matrix(layer, period_s), whole);
  }
  return whole;
}

PeriodicValues periodic_values(std::span<const ThermalLayer> layers, double period_s) {
  const PeriodicMatrix z = periodic_matrix(layers, period_s);
  const Complex one{1.0, 0.0};
  const Complex across = -(one / z.z12);
  const Complex inside = -(z.z11 / z.z12);
  const Complex outside = -(z.z22 / z.z12);
  const double period_h = period_s / 3600.0;
  const double hours_per_radian = period_h / (2.0 * pi);
  const double lag_h = -hours_per_radian * argument_rad(across);
  const double seconds_per_radian = period_s / (2.0 * pi);
  return {.periodic_transmittance_w_per_m2_k = magnitude(across),
          .decrement_frac = magnitude(across) * total_resistance_m2_k_per_w(layers),
          .time_lag_h = lag_h < 0.0 ? lag_h + period_h : lag_h,
          .inside_admittance_w_per_m2_k = magnitude(inside),
          .inside_admittance_lead_h = hours_per_radian * argument_rad(inside),
          .outside_admittance_w_per_m2_k = magnitude(outside),
          .outside_admittance_lead_h = hours_per_radian * argument_rad(outside),
          .inside_capacity_j_per_m2_k = seconds_per_radian * magnitude((z.z11 - one) / z.z12),
          .outside_capacity_j_per_m2_k = seconds_per_radian * magnitude((z.z22 - one) / z.z12)};
}

}  // namespace houseleek::physics
