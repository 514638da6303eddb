// Foliage over a growing medium: shares of light and resistances.
#include "physics/canopy.hpp"

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::physics {

ShortwaveShares shortwave_shares(const ShortwaveProperties& p) {
  const auto is_frac = [](double x) { return x >= 0.0 && x <= 1.0; };
  expects(is_frac(p.shading_frac) && is_frac(p.leaf_albedo) && is_frac(p.ground_albedo) &&
              is_frac(p.net_transmittance) && is_frac(p.net_reflectance) &&
              p.net_transmittance + p.net_reflectance <= 1.0,
          "short-wave properties between 0 and 1");
  const double on_ground = (1.0 - p.shading_frac) / (1.0 - p.ground_albedo * p.leaf_albedo * p.shading_frac);
  const double ground = (1.0 - p.ground_albedo) * on_ground;
  const double leaves = (1.0 - p.leaf_albedo) * p.shading_frac * (1.0 + p.ground_albedo * on_ground);
  const double albedo = p.leaf_albedo * p.shading_frac + (1.0 - p.shading_frac) * p.ground_albedo * on_ground;
  const double below_net = p.net_transmittance / (1.0 - p.net_reflectance * albedo);
  return {.net_frac = (1.0 - p.net_transmittance - p.net_reflectance) * (1.0 + albedo * below_net),
          .leaves_frac = leaves * below_net,
          .ground_frac = ground * below_net,
          .reflected_frac = p.net_reflectance + p.net_transmittance * albedo * below_net,
          .below_net_frac = below_net};
}

double leaf_shading_frac(double cover_frac, double extinction, double leaf_area_index) {
  expects(cover_frac >= 0.0 && cover_frac <= 1.0 && extinction >= 0.0 && leaf_area_index >= 0.0,
          "a cover between 0 and 1, extinction and leaf area not negative");
  return cover_frac * (1.0 - numerics::exp(-extinction * leaf_area_index));
}

double stomatal_resistance_s_per_m(const StomatalInputs& in) {
  expects(in.light_w_per_m2 >= 0.0 && in.water_frac >= 0.0 && in.water_frac <= 1.0 && in.leaf_area_index > 0.0 &&
              in.min_s_per_m > 0.0 && in.max_s_per_m >= in.min_s_per_m,
          "light not negative, water between 0 and 1, positive leaf area, ordered resistances");
  const double f = 0.55 * (in.light_w_per_m2 / 100.0) * (2.0 / in.leaf_area_index);
  const double by_light = (f + in.min_s_per_m / in.max_s_per_m) / (1.0 + f);
  const double deficit_hpa = in.deficit_pa > 0.0 ? in.deficit_pa / 100.0 : 0.0;
  const double by_deficit = 1.0 - 0.025 * deficit_hpa > 0.25 ? 1.0 - 0.025 * deficit_hpa : 0.25;
  const double cold_k = 298.0 - (in.air_temperature_c + 273.15);
  const double warmth = 1.0 - 0.0016 * cold_k * cold_k;
  const double by_warmth = warmth > 0.05 ? warmth : 0.05;
  const double product = by_light * in.water_frac * by_deficit * by_warmth;
  // Written so that no water (a product of zero) gives the upper limit without a division by zero.
  return in.min_s_per_m < in.max_s_per_m * product ? in.min_s_per_m / product : in.max_s_per_m;
}

double medium_surface_resistance_s_per_m(double saturation_frac) {
  expects(saturation_frac >= 0.0 && saturation_frac <= 1.0, "a saturation between 0 and 1");
  return numerics::exp(8.206 - 4.255 * saturation_frac);
}

}  // namespace houseleek::physics
