// The surface and gap balances of docs/equations/stack.md, each unknown found by Newton with slopes carried along.
#include "faces.hpp"

#include <algorithm>
#include <array>

#include "base/contract.hpp"

namespace houseleek::tests::second_opinion {
namespace {

constexpr double update_end_k = 1e-9;  // Newton is quadratic here: what is left is the square of it
constexpr int max_iterations = 60;
constexpr double max_update_k = 15.0;

template <class T>
struct SurfaceBalance {
  T net;
  T air_heat;
  T air_vapour;
  T ground;
  T foliage;
  T leaf_latent;
  T ground_latent;
  T leaf_sensible;
  T ground_sensible;
  T into_layers;
};

template <class T>
SurfaceBalance<T> surface_balance(const SurfaceKnown& k, const T& t_n, const T& t_c, const T& e_c, const T& t_g) {
  SurfaceBalance<T> b;
  const T black_ground = radiated_w_per_m2(t_g);
  T l_d(k.sky_w_per_m2);
  T black_net(0.0);
  if (k.has_net) {
    black_net = radiated_w_per_m2(t_n);
    l_d = (1.0 - k.net_emissivity) * k.sky_w_per_m2 + k.net_emissivity * black_net;
  }
  const double eg = k.ground_emissivity;
  T l_f(0.0);
  T l_g = eg * (l_d - black_ground);
  if (k.has_canopy) {
    const double ef = k.leaf_emissivity;
    const double black_leaf = radiated_w_per_m2(k.foliage_c);
    const double both = eg > 0.0 ? ef * eg / (ef + eg - ef * eg) : 0.0;
    const T x = both * (black_ground - black_leaf);
    const double sl = k.long_cover_frac;
    l_f = sl * (ef * (l_d - black_leaf) + x);
    l_g = (1.0 - sl) * eg * (l_d - black_ground) - sl * x;
  }
  if (k.has_net) {
    const T l_u = l_d - l_f - l_g;
    const T difference = t_n - k.air_c;
    b.net = k.sun_net_w_per_m2 + k.net_emissivity * (k.sky_w_per_m2 + l_u) - 2.0 * k.net_emissivity * black_net -
            2.0 * (k.film_above.h_w_per_m2_k(difference) * difference);
  }
  const T e_ground = (1.0 / k.gamma_pa_per_k) * saturation_vapour_pressure_pa(t_g);
  b.into_layers = k.top_conductance_w_per_m2_k * (t_g - k.first_slice_c);
  const T water_heat = k.rain_w_per_m2_k * (k.rain_c - t_g) + k.watering_w_per_m2_k * (k.air_c - t_g);
  if (k.has_canopy) {
    const T difference = t_c - k.air_c;
    const T h = k.film_below.h_w_per_m2_k(difference);
    b.leaf_sensible = k.leaf_air_w_per_m2_k * (k.foliage_c - t_c);
    b.ground_sensible = k.ground_air_w_per_m2_k * (t_g - t_c);
    const double e_leaf = saturation_vapour_pressure_pa(k.foliage_c) / k.gamma_pa_per_k;
    b.leaf_latent = k.leaf_vapour_w_per_m2_k * (e_leaf - e_c);
    b.ground_latent = k.ground_vapour_w_per_m2_k * (e_ground - e_c);
    b.air_heat = b.leaf_sensible + b.ground_sensible - h * difference;
    b.air_vapour = b.leaf_latent + b.ground_latent - h * (e_c - k.air_vapour_k);
    b.foliage = k.sun_leaves_w_per_m2 + l_f - b.leaf_sensible - b.leaf_latent;
  } else {
    const T difference = t_g - k.air_c;
    const T h = k.film_below.h_w_per_m2_k(difference);
    b.ground_sensible = h * difference;
    // 1 / (1/h + 1/g) written so that a dry surface is no division by zero.
    const double g = k.ground_vapour_w_per_m2_k;
    if (g > 0.0) b.ground_latent = (g * h) / (h + g) * (e_ground - k.air_vapour_k);
  }
  b.ground = k.sun_ground_w_per_m2 + l_g - b.ground_sensible - b.ground_latent - b.into_layers + water_heat;
  return b;
}

}  // namespace

Film make_film(const simulation::OutsideFilm& film, double roof_wind_m_per_s) {
  Film result;
  result.is_fixed = film.is_fixed;
  result.fixed_w_per_m2_k = film.fixed_w_per_m2_k;
  const double length = film.roof_length_m;
  const double k = film_conductivity_w_per_m_k;
  const double reynolds = roof_wind_m_per_s * length / film_viscosity_m2_per_s;
  const double forced = 0.037 * std::pow(reynolds, 0.8) * std::cbrt(film_prandtl) * k / length;
  constexpr double calm_w_per_m2_k = 0.1;
  result.forced_cubed = forced * forced * forced + calm_w_per_m2_k * calm_w_per_m2_k * calm_w_per_m2_k;
  const double buoyancy_per_k =
      gravity_m_per_s2 * film_expansion_per_k / (film_viscosity_m2_per_s * film_diffusivity_m2_per_s);
  const double warm = 0.15 * k;
  result.warm_per_k = warm * warm * warm * buoyancy_per_k;
  const double cool = 0.27 * (k / length) * std::pow(buoyancy_per_k * length * length * length, 0.25);
  result.cool_cubed_per_k34 = cool * cool * cool;
  return result;
}

SunShares sun_shares(const simulation::Stack& stack) {
  const double rg = stack.surface.albedo;
  const double rf = stack.canopy.leaf_albedo;
  const double ss =
      stack.has_canopy
          ? stack.canopy.cover_frac * (1.0 - std::exp(-stack.canopy.extinction_short * stack.canopy.leaf_area_index))
          : 0.0;
  const double d = (1.0 - ss) / (1.0 - rg * rf * ss);
  SunShares result;
  result.ground = (1.0 - rg) * d;
  result.leaves = (1.0 - rf) * ss * (1.0 + rg * d);
  const double alpha = rf * ss + (1.0 - ss) * rg * d;
  result.reflected_below = alpha;
  if (stack.has_net) {
    const double tau = stack.net.transmittance;
    const double rho = stack.net.reflectance;
    const double dn = tau / (1.0 - rho * alpha);
    result.below_net = dn;
    result.net = (1.0 - tau - rho) * (1.0 + alpha * dn);
    result.ground *= dn;
    result.leaves *= dn;
  }
  return result;
}

bool solve_surface(const SurfaceKnown& known, SurfaceNodes& nodes, SurfaceFluxes& fluxes) {
  constexpr std::size_t most = 4;
  using D = Dual<most>;
  // Unknown 0 is the surface; the canopy's two and the net follow where they exist.
  const std::size_t i_c = 1;
  const std::size_t i_e = 2;
  const std::size_t i_n = known.has_canopy ? 3 : 1;
  const std::size_t n = (known.has_canopy ? 3U : 1U) + (known.has_net ? 1U : 0U);
  bool has_converged = false;
  for (int iteration = 0; iteration < max_iterations && !has_converged; ++iteration) {
    const D t_g = D::unknown(nodes.surface_c, 0);
    const D t_c = known.has_canopy ? D::unknown(nodes.canopy_air_c, i_c) : D(known.air_c);
    const D e_c = known.has_canopy ? D::unknown(nodes.canopy_vapour_k, i_e) : D(known.air_vapour_k);
    const D t_n = known.has_net ? D::unknown(nodes.net_c, i_n) : D(known.air_c);
    const SurfaceBalance<D> b = surface_balance(known, t_n, t_c, e_c, t_g);
    std::array<std::array<double, most>, most> matrix{};
    std::array<double, most> step{};
    const auto put = [&](std::size_t row, const D& residual) {
      matrix[row] = residual.slope;
      step[row] = -residual.value;
    };
    put(0, b.ground);
    if (known.has_canopy) {
      put(i_c, b.air_heat);
      put(i_e, b.air_vapour);
    }
    if (known.has_net) put(i_n, b.net);
    if (!solve_small(matrix, step, n)) return false;
    double largest = 0.0;
    for (std::size_t i = 0; i < n; ++i) largest = std::max(largest, std::abs(step[i]));
    if (!std::isfinite(largest)) return false;
    const double share = largest > max_update_k ? max_update_k / largest : 1.0;
    const double damping = iteration < 12 ? share : 0.5 * share;  // a kink can make full steps swing to and fro
    nodes.surface_c += damping * step[0];
    if (known.has_canopy) {
      nodes.canopy_air_c += damping * step[i_c];
      nodes.canopy_vapour_k += damping * step[i_e];
    }
    if (known.has_net) nodes.net_c += damping * step[i_n];
    has_converged = largest < update_end_k;
  }
  if (!has_converged) return false;
  const SurfaceBalance<double> b =
      surface_balance<double>(known, nodes.net_c, nodes.canopy_air_c, nodes.canopy_vapour_k, nodes.surface_c);
  fluxes.foliage_w_per_m2 = b.foliage;
  fluxes.leaf_latent_w_per_m2 = b.leaf_latent;
  fluxes.ground_latent_w_per_m2 = b.ground_latent;
  fluxes.leaf_sensible_w_per_m2 = b.leaf_sensible;
  fluxes.ground_sensible_w_per_m2 = b.ground_sensible;
  fluxes.into_layers_w_per_m2 = b.into_layers;
  return true;
}

GapKnown make_gap(const simulation::Stack& stack, double roof_wind_m_per_s, double density_kg_per_m3, double air_c) {
  const simulation::Gap& gap = stack.gap;
  GapKnown result;
  result.under = stack.under;
  result.air_c = air_c;
  if (stack.under == simulation::Under::contact) {
    result.contact_w_per_m2_k = 1.0 / gap.contact_resistance_m2_k_per_w;
    return result;
  }
  result.radiation_factor = 1.0 / (1.0 / gap.emissivity_above + 1.0 / gap.emissivity_below - 1.0);
  result.height_m = gap.height_m;
  if (stack.under == simulation::Under::ventilated_gap) {
    const double speed = gap.still_speed_m_per_s + gap.wind_frac * roof_wind_m_per_s;
    const double h_w = 7.541 * film_conductivity_w_per_m_k / (2.0 * gap.height_m);
    const double n =
        2.0 * h_w * gap.length_m / (density_kg_per_m3 * heat_capacity_air_j_per_kg_k * speed * gap.height_m);
    result.wall_w_per_m2_k = h_w;
    result.fresh_frac = -std::expm1(-n) / n;
  }
  return result;
}

bool solve_gap(const GapKnown& known, GapNodes& nodes) {
  using D = Dual<2>;
  for (int iteration = 0; iteration < max_iterations; ++iteration) {
    const D t_b = D::unknown(nodes.bottom_c, 0);
    const D t_m = D::unknown(nodes.membrane_c, 1);
    D leaving(0.0);
    D arriving(0.0);
    if (known.under == simulation::Under::contact) {
      leaving = known.contact_w_per_m2_k * (t_b - t_m);
      arriving = leaving;
    } else {
      const D radiation = known.radiation_factor * (radiated_w_per_m2(t_b) - radiated_w_per_m2(t_m));
      if (known.under == simulation::Under::closed_gap) {
        const double b = known.height_m;
        const double ra_per_k =
            gravity_m_per_s2 * film_expansion_per_k * b * b * b / (film_viscosity_m2_per_s * film_diffusivity_m2_per_s);
        D nusselt(1.0);
        if (t_m.value > t_b.value) nusselt = closed_gap_nusselt(ra_per_k * (t_m - t_b));
        leaving = radiation + (film_conductivity_w_per_m_k / b) * (nusselt * (t_b - t_m));
        arriving = leaving;
      } else {
        const D t_x = (0.5 * (1.0 - known.fresh_frac)) * (t_b + t_m) + known.fresh_frac * known.air_c;
        leaving = radiation + known.wall_w_per_m2_k * (t_b - t_x);
        arriving = radiation + known.wall_w_per_m2_k * (t_x - t_m);
      }
    }
    const D bottom = known.above_conductance_w_per_m2_k * (known.above_c - t_b) - leaving;
    const D deck = arriving - known.below_conductance_w_per_m2_k * (t_m - known.below_c);
    std::array<std::array<double, 2>, 2> matrix{bottom.slope, deck.slope};
    std::array<double, 2> step{-bottom.value, -deck.value};
    if (!solve_small(matrix, step, std::size_t{2})) return false;
    const double largest = std::max(std::abs(step[0]), std::abs(step[1]));
    if (!std::isfinite(largest)) return false;
    const double share = largest > max_update_k ? max_update_k / largest : 1.0;
    const double damping = iteration < 12 ? share : 0.5 * share;
    nodes.bottom_c += damping * step[0];
    nodes.membrane_c += damping * step[1];
    if (largest < update_end_k) return true;
  }
  return false;
}

}  // namespace houseleek::tests::second_opinion
