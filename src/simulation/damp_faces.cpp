// Fluxes of vapour, liquid and heat through a face, and their slopes.
#include "simulation/damp_faces.hpp"

#include "numerics/elementary.hpp"
#include "physics/porous.hpp"

namespace houseleek::simulation {
namespace {

using physics::DampPoint;

/// Conductance of two half slices and what lies between, with its slopes by the two properties.
struct Conductance {
  double value = 0.0;
  double by_upper = 0.0;
  double by_lower = 0.0;
};

Conductance in_series(double half_upper, double upper, double between, double half_lower, double lower) {
  const double resistance_upper = half_upper > 0.0 ? half_upper / upper : 0.0;
  const double resistance_lower = half_lower > 0.0 ? half_lower / lower : 0.0;
  const double total = 1.0 / (resistance_upper + between + resistance_lower);
  return {total, half_upper > 0.0 ? total * total * resistance_upper / upper : 0.0,
          half_lower > 0.0 ? total * total * resistance_lower / lower : 0.0};
}

/// The property at the face by a straight line between the two middles, over their distance.
Conductance by_straight_line(double half_upper, double upper, double half_lower, double lower) {
  const double length = half_upper + half_lower;
  const double weight = half_lower / length;  // of the upper
  return {(weight * upper + (1.0 - weight) * lower) / length, weight / length, (1.0 - weight) / length};
}

}  // namespace

FacePair fluxes_through(const FaceLaw& face, const FaceSide& upper, const FaceSide& lower) {
  const DampPoint& u = upper.point;
  const DampPoint& l = lower.point;
  FacePair pair;

  const Conductance vapour = in_series(upper.half_m, u.vapour_permeability_kg_per_m_s_pa, face.vapour_resistance,
                                       lower.half_m, l.vapour_permeability_kg_per_m_s_pa);
  const double vapour_difference = upper.vapour_pa - lower.vapour_pa;
  Flux vapour_flux;
  vapour_flux.value = vapour.value * vapour_difference;
  vapour_flux.by_wu =
      vapour.value * upper.vapour_by_w + vapour.by_upper * u.vapour_permeability_by_w * vapour_difference;
  vapour_flux.by_ku =
      vapour.value * upper.vapour_by_k + vapour.by_upper * u.vapour_permeability_by_k * vapour_difference;
  vapour_flux.by_wl =
      -vapour.value * lower.vapour_by_w + vapour.by_lower * l.vapour_permeability_by_w * vapour_difference;
  vapour_flux.by_kl =
      -vapour.value * lower.vapour_by_k + vapour.by_lower * l.vapour_permeability_by_k * vapour_difference;

  Flux liquid_flux;
  const double least_liquid = numerics::min(u.liquid_conductivity_kg_per_m_s_pa, l.liquid_conductivity_kg_per_m_s_pa);
  if (face.liquid == Liquid::one_material) {
    const Conductance liquid =
        by_straight_line(upper.half_m, u.liquid_diffusivity_m2_per_s, lower.half_m, l.liquid_diffusivity_m2_per_s);
    // Its own slopes are left out of Newton's matrix: it is a small part.
    const double thermal =
        by_straight_line(upper.half_m, u.thermal_liquid_kg_per_m_s_k, lower.half_m, l.thermal_liquid_kg_per_m_s_k)
            .value;
    const double difference = upper.water_kg_per_m3 - lower.water_kg_per_m3;
    liquid_flux.value = liquid.value * difference + thermal * (upper.temperature_c - lower.temperature_c);
    liquid_flux.by_wu = liquid.value + liquid.by_upper * u.liquid_diffusivity_by_w * difference;
    liquid_flux.by_ku = liquid.by_upper * u.liquid_diffusivity_by_k * difference + thermal;
    liquid_flux.by_wl = -liquid.value + liquid.by_lower * l.liquid_diffusivity_by_w * difference;
    liquid_flux.by_kl = liquid.by_lower * l.liquid_diffusivity_by_k * difference - thermal;
  } else if (face.liquid == Liquid::two_materials && least_liquid > 0.0) {
    const Conductance liquid = in_series(upper.half_m, u.liquid_conductivity_kg_per_m_s_pa, 0.0, lower.half_m,
                                         l.liquid_conductivity_kg_per_m_s_pa);
    const double difference = u.capillary_pressure_pa - l.capillary_pressure_pa;
    liquid_flux.value = liquid.value * difference;
    liquid_flux.by_wu =
        liquid.value * u.capillary_pressure_by_w + liquid.by_upper * u.liquid_conductivity_by_w * difference;
    liquid_flux.by_ku =
        liquid.value * u.capillary_pressure_by_k + liquid.by_upper * u.liquid_conductivity_by_k * difference;
    liquid_flux.by_wl =
        -liquid.value * l.capillary_pressure_by_w + liquid.by_lower * l.liquid_conductivity_by_w * difference;
    liquid_flux.by_kl =
        -liquid.value * l.capillary_pressure_by_k + liquid.by_lower * l.liquid_conductivity_by_k * difference;
  }
  pair.water = {vapour_flux.value + liquid_flux.value, vapour_flux.by_wu + liquid_flux.by_wu,
                vapour_flux.by_ku + liquid_flux.by_ku, vapour_flux.by_wl + liquid_flux.by_wl,
                vapour_flux.by_kl + liquid_flux.by_kl};

  const Conductance heat =
      in_series(upper.half_m, u.conductivity_w_per_m_k, face.heat_resistance, lower.half_m, l.conductivity_w_per_m_k);
  const double difference_k = upper.temperature_c - lower.temperature_c;
  const double mean_c = 0.5 * (upper.temperature_c + lower.temperature_c);
  const double per_vapour =
      physics::heat_of_vaporisation_at_zero_j_per_kg + physics::vapour_heat_capacity_j_per_kg_k * mean_c;
  const double per_liquid = physics::water_heat_capacity_j_per_kg_k * mean_c;
  const double by_mean = 0.5 * (physics::vapour_heat_capacity_j_per_kg_k * vapour_flux.value +
                                physics::water_heat_capacity_j_per_kg_k * liquid_flux.value);
  pair.heat.value = heat.value * difference_k + vapour_flux.value * per_vapour + liquid_flux.value * per_liquid;
  pair.heat.by_wu = heat.by_upper * u.conductivity_by_w * difference_k + vapour_flux.by_wu * per_vapour +
                    liquid_flux.by_wu * per_liquid;
  pair.heat.by_ku = heat.value + vapour_flux.by_ku * per_vapour + liquid_flux.by_ku * per_liquid + by_mean;
  pair.heat.by_wl = heat.by_lower * l.conductivity_by_w * difference_k + vapour_flux.by_wl * per_vapour +
                    liquid_flux.by_wl * per_liquid;
  pair.heat.by_kl = -heat.value + vapour_flux.by_kl * per_vapour + liquid_flux.by_kl * per_liquid + by_mean;
  return pair;
}

/// An outer face. In wet contact the face's own conductivities and those of the slice share the half slice.
FacePair fluxes_through_outer(const FaceLaw& face, const FaceSide& air, const FaceSide& slice, bool is_top) {
  if (face.liquid == Liquid::none) {
    return is_top ? fluxes_through(face, air, slice) : fluxes_through(face, slice, air);
  }
  // The middle of the half slice lies between: a quarter slice to either side.
  FaceSide outer = air;
  outer.half_m = 0.5 * slice.half_m;
  FaceSide inner = slice;
  inner.half_m = 0.5 * slice.half_m;
  FaceLaw law = face;
  law.liquid = Liquid::one_material;
  return is_top ? fluxes_through(law, outer, inner) : fluxes_through(law, inner, outer);
}

}  // namespace houseleek::simulation
