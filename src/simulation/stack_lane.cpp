// One stack's share of a step that needs no lanes: its water, watering, resistances and films.
#include "simulation/stack_lane.hpp"

#include "base/contract.hpp"
#include "physics/air.hpp"
#include "physics/gap.hpp"
#include "simulation/scheme.hpp"

namespace houseleek::simulation {

namespace {

double clip01(double x) { return x < 0.0 ? 0.0 : x > 1.0 ? 1.0 : x; }
double smaller(double a, double b) { return a < b ? a : b; }

physics::FilmLaw film_law(const OutsideFilm& film, double wind_m_per_s, FilmMemo& films) {
  if (film.is_fixed) return {.forced_cubed = film.fixed_w_per_m2_k * film.fixed_w_per_m2_k * film.fixed_w_per_m2_k};
  for (const FilmMemo::Entry& known : films.entries) {
    if (known.film == film && known.wind_m_per_s == wind_m_per_s) return known.law;
  }
  const physics::FilmLaw law = physics::outside_film_law(film.wind_to_roof_frac * wind_m_per_s, film.roof_length_m);
  films.entries.push_back({film, wind_m_per_s, law});
  return law;
}

}  // namespace

StackLane make_stack_lane(const Stack& stack, const StackMeshes& meshes, double pressure_pa) {
  StackLane lane;
  lane.spec = &stack;
  lane.meshes = &meshes;
  lane.pressure_pa = pressure_pa;
  const Canopy& canopy = stack.canopy;
  // The slope of a film of nothing is no number.
  expects(!stack.outside_film.is_fixed || stack.outside_film.fixed_w_per_m2_k > 0.0, "a fixed outside film above 0");
  lane.sun_shares = physics::shortwave_shares(
      {.shading_frac = stack.has_canopy ? physics::leaf_shading_frac(canopy.cover_frac, canopy.extinction_short,
                                                                     canopy.leaf_area_index)
                                        : 0.0,
       .leaf_albedo = stack.has_canopy ? canopy.leaf_albedo : 0.0,
       .ground_albedo = stack.surface.albedo,
       .net_transmittance = stack.has_net ? stack.net.transmittance : 1.0,
       .net_reflectance = stack.has_net ? stack.net.reflectance : 0.0});
  if (stack.has_canopy) {
    expects(canopy.cover_frac > 0.0 && canopy.leaf_area_index > 0.0, "plants with some cover and leaf area");
    lane.boundary_resistance_s_per_m = 25.0 / (2.0 * canopy.cover_frac * canopy.leaf_area_index);
  }
  for (const WaterStore& store : meshes.module.stores) {
    const Layer& layer = meshes.module.layers[static_cast<std::size_t>(store.layer)];
    expects(
        layer.residual_frac <= layer.wilting_frac && layer.wilting_frac < layer.field_capacity_frac &&
            layer.field_capacity_frac <= layer.saturated_frac && layer.holds_frac >= layer.residual_frac &&
            layer.holds_frac < layer.saturated_frac && layer.saturated_conductivity_m_per_s > 0.0 &&
            layer.drainage_exponent >= 1.0 && layer.initial_water_frac >= layer.residual_frac &&
            layer.initial_water_frac <= layer.saturated_frac,
        "ordered water contents: residual <= wilting < field capacity <= saturated, holds and the start between them");
    lane.water_frac.push_back(layer.initial_water_frac);
  }
  lane.last_uptake_kg_per_m2_s.assign(lane.water_frac.size(), 0.0);
  lane.uptake_kg_per_m2_s.assign(lane.water_frac.size(), 0.0);
  lane.last_rate_per_s.assign(lane.water_frac.size(), 0.0);
  return lane;
}

double StackLane::root_store_frac(const std::vector<double>& water) const {
  double held = 0.0, wilting = 0.0, field = 0.0;
  for (std::size_t j = 0; j < water.size(); ++j) {
    const WaterStore& store = meshes->module.stores[j];
    const Layer& layer = meshes->module.layers[static_cast<std::size_t>(store.layer)];
    held += store.root_frac * water[j];
    wilting += store.root_frac * layer.wilting_frac;
    field += store.root_frac * layer.field_capacity_frac;
  }
  return field > wilting ? (held - wilting) / (field - wilting) : 1.0;
}

double StackLane::water_kg_per_m2(const std::vector<double>& water) const {
  double sum = 0.0;
  for (std::size_t j = 0; j < water.size(); ++j)
    sum += water[j] * meshes->module.stores[j].depth_m * water_density_kg_per_m3;
  return sum;
}

void StackLane::begin_hour(int hour_of_year) {
  planned_watering_kg_per_m2_s = 0.0;
  const int day = hour_of_year / 24 % 365;
  for (const Watering& rule : spec->waterings) {
    if (rule.depth_mm <= 0.0 || hour_of_year % 24 != rule.hour) continue;
    const bool is_in_season = rule.first_day <= rule.last_day ? day >= rule.first_day && day <= rule.last_day
                                                              : day >= rule.first_day || day <= rule.last_day;
    if (!is_in_season) continue;
    const int since = day >= rule.first_day ? day - rule.first_day : day + 365 - rule.first_day;
    const bool is_due =
        rule.every_days > 0 ? since % rule.every_days == 0 : root_store_frac(water_frac) < rule.when_store_below_frac;
    if (is_due) planned_watering_kg_per_m2_s += rule.depth_mm / watering_time_s;
  }
}

void StackLane::begin_step(double new_step_s, double seconds_into_hour, const climate::Forcing& at_end,
                           bool is_after_jump) {
  step_s = new_step_s;
  rain_kg_per_m2_s = at_end.rain_kg_per_m2_s;
  // Steps end on whole ten minutes, so a step is either wholly within the watering or wholly after it.
  watering_kg_per_m2_s = seconds_into_hour < watering_time_s - 1e-6 ? planned_watering_kg_per_m2_s : 0.0;
  if (!has_stores()) return;
  const Mesh& mesh = meshes->module;
  if (!is_after_jump) {
    // Water goes on as in the last step; the fluxes of that step stand in accepted.
    bool is_inside = true;
    forecast.water_frac.resize(water_frac.size());
    for (std::size_t j = 0; j < water_frac.size(); ++j) {
      const Layer& layer = mesh.layers[static_cast<std::size_t>(mesh.stores[j].layer)];
      forecast.water_frac[j] = water_frac[j] + step_s * last_rate_per_s[j];
      is_inside =
          is_inside && forecast.water_frac[j] >= layer.residual_frac && forecast.water_frac[j] <= layer.saturated_frac;
    }
    if (is_inside) {
      forecast.face_kg_per_m2_s = accepted.face_kg_per_m2_s;
      return;
    }
  }
  std::vector<double> uptake(water_frac.size());
  for (std::size_t j = 0; j < water_frac.size(); ++j) {
    const Layer& layer = mesh.layers[static_cast<std::size_t>(mesh.stores[j].layer)];
    const double left =
        (water_frac[j] - layer.wilting_frac) * mesh.stores[j].depth_m * water_density_kg_per_m3 / step_s;
    uptake[j] = smaller(last_uptake_kg_per_m2_s[j], left > 0.0 ? left : 0.0);
  }
  const Layer& first = mesh.layers[static_cast<std::size_t>(mesh.stores[0].layer)];
  const double left =
      (water_frac[0] - first.residual_frac) * mesh.stores[0].depth_m * water_density_kg_per_m3 / step_s - uptake[0];
  advance_water(mesh, water_frac,
                {.arriving_kg_per_m2_s = rain_kg_per_m2_s + watering_kg_per_m2_s,
                 .top_exchange_kg_per_m2_s = smaller(last_top_kg_per_m2_s, left > 0.0 ? left : 0.0),
                 .uptake_kg_per_m2_s = uptake},
                step_s, forecast);
}

void StackLane::prepare_stage(int index, const climate::Forcing& f, FilmMemo& films) {
  LaneStage& s = stage[static_cast<std::size_t>(index)];
  const Stack& stack = *spec;
  const double density =
      pressure_pa / (dry_air_gas_constant_j_per_kg_k * (f.air_temperature_c + physics::zero_celsius_k));
  const double heat_j_per_m3_k = density * air_heat_j_per_kg_k;
  s.latent_j_per_kg = 2.501e6 - 2361.0 * f.air_temperature_c;
  s.pressure_per_k = air_heat_j_per_kg_k * pressure_pa / (0.622 * s.latent_j_per_kg);
  s.air_c = f.air_temperature_c;
  s.sun_w_per_m2 = f.global_w_per_m2;
  s.sky_w_per_m2 = f.sky_longwave_w_per_m2;
  s.air_vapour_k = f.vapour_pressure_pa / s.pressure_per_k;
  const double below_net_frac = stack.has_net ? stack.net.wind_below_frac : 1.0;
  s.film = film_law(stack.outside_film, f.wind_m_per_s * below_net_frac, films);
  if (stack.has_net) s.net_film = film_law(stack.outside_film, f.wind_m_per_s, films);
  const double arriving = rain_kg_per_m2_s + watering_kg_per_m2_s;
  s.rain_w_per_m2_k = water_heat_j_per_kg_k * arriving;
  s.rain_w_per_m2 =
      water_heat_j_per_kg_k * (rain_kg_per_m2_s * f.rain_temperature_c + watering_kg_per_m2_s * f.air_temperature_c);
  if (stack.under == Under::ventilated_gap) {
    const double roof_wind = stack.outside_film.wind_to_roof_frac * f.wind_m_per_s * below_net_frac;
    const auto sweep =
        physics::swept_gap(stack.gap.height_m, stack.gap.length_m,
                           stack.gap.still_speed_m_per_s + stack.gap.wind_frac * roof_wind, heat_j_per_m3_k);
    s.gap_wall_w_per_m2_k = sweep.wall_w_per_m2_k;
    s.gap_entering_frac = sweep.entering_frac;
  }
  if (!has_stores()) return;

  const Mesh& mesh = meshes->module;
  const double passed = index == 0 ? scheme::gamma : 1.0;
  s.water_frac.resize(water_frac.size());
  s.uptake_share.assign(water_frac.size(), 0.0);
  double open = 0.0;
  for (std::size_t j = 0; j < water_frac.size(); ++j) {
    const WaterStore& store = mesh.stores[j];
    const Layer& layer = mesh.layers[static_cast<std::size_t>(store.layer)];
    s.water_frac[j] = water_frac[j] + passed * (forecast.water_frac[j] - water_frac[j]);
    const double ramp =
        clip01((s.water_frac[j] - layer.wilting_frac) / (0.1 * (layer.field_capacity_frac - layer.wilting_frac)));
    s.uptake_share[j] = store.root_frac * ramp;
    open += s.uptake_share[j];
  }
  const Layer& first = mesh.layers[static_cast<std::size_t>(mesh.stores[0].layer)];
  const double first_kg = mesh.stores[0].depth_m * water_density_kg_per_m3;
  // Roots and the surface draw on the first store together: what both may take is halved in the caps.
  const double shared = stack.has_canopy ? 0.5 : 1.0;
  if (stack.has_canopy) {
    const Canopy& canopy = stack.canopy;
    s.boundary_w_per_m2_k = heat_j_per_m3_k / boundary_resistance_s_per_m;
    s.ground_air_w_per_m2_k = heat_j_per_m3_k / canopy.ground_resistance_s_per_m;
    const double saturated_pa = physics::saturation_pressure_unchecked(f.air_temperature_c).pressure_pa;
    const double leaf_s_per_m =
        physics::stomatal_resistance_s_per_m({.min_s_per_m = canopy.stomatal_min_s_per_m,
                                              .max_s_per_m = canopy.stomatal_max_s_per_m,
                                              .leaf_area_index = canopy.leaf_area_index,
                                              .light_w_per_m2 = f.global_w_per_m2 * sun_shares.below_net_frac,
                                              .water_frac = clip01(root_store_frac(s.water_frac)),
                                              .deficit_pa = saturated_pa - f.vapour_pressure_pa,
                                              .air_temperature_c = f.air_temperature_c});
    const double canopy_s_per_m = leaf_s_per_m / (canopy.cover_frac * canopy.leaf_area_index);
    s.leaf_vapour_w_per_m2_k = open * heat_j_per_m3_k / (boundary_resistance_s_per_m + canopy_s_per_m);
    double most_kg_per_m2_s = 1.0e9;
    for (std::size_t j = 0; j < water_frac.size(); ++j) {
      if (open > 0.0) s.uptake_share[j] /= open;
      if (s.uptake_share[j] <= 0.0) continue;
      const Layer& layer = mesh.layers[static_cast<std::size_t>(mesh.stores[j].layer)];
      const double own = water_frac[j] > layer.wilting_frac ? water_frac[j] - layer.wilting_frac : 0.0;
      const double left =
          (own * mesh.stores[j].depth_m * water_density_kg_per_m3 + step_s * forecast.face_kg_per_m2_s[j]) *
          (j == 0 ? shared : 1.0);
      most_kg_per_m2_s = smaller(most_kg_per_m2_s, left / (step_s * s.uptake_share[j]));
    }
    s.leaf_cap_w_per_m2 = most_kg_per_m2_s * s.latent_j_per_kg;
  }
  if (stack.surface.is_evaporating) {
    s.ground_open_frac =
        clip01((s.water_frac[0] - first.residual_frac) / (0.1 * (first.field_capacity_frac - first.residual_frac)));
    const double surface_s_per_m =
        physics::medium_surface_resistance_s_per_m(clip01(s.water_frac[0] / first.saturated_frac)) +
        stack.surface.cover_resistance_s_per_m;
    s.ground_resistance_m2_k_per_w = surface_s_per_m / heat_j_per_m3_k;
    s.ground_vapour_w_per_m2_k =
        s.ground_open_frac * heat_j_per_m3_k / (stack.canopy.ground_resistance_s_per_m + surface_s_per_m);
    const double above_wilting = water_frac[0] > first.wilting_frac ? water_frac[0] - first.wilting_frac : 0.0;
    const double left = (water_frac[0] - first.residual_frac - (1.0 - shared) * above_wilting) * first_kg +
                        shared * step_s * forecast.face_kg_per_m2_s[0];
    s.ground_cap_w_per_m2 = (left > 0.0 ? left : 0.0) / step_s * s.latent_j_per_kg;
  }
}

void StackLane::note_evaporation(int index, double leaf_w_per_m2, double ground_w_per_m2) {
  const std::size_t i = static_cast<std::size_t>(index);
  leaf_kg_per_m2_s[i] = leaf_w_per_m2 / stage[i].latent_j_per_kg;
  ground_kg_per_m2_s[i] = ground_w_per_m2 / stage[i].latent_j_per_kg;
}

bool StackLane::advance() {
  if (!has_stores()) return true;
  constexpr std::array<double, 2> weight{scheme::first_weight, scheme::second_weight};
  top_exchange_kg_per_m2_s = 0.0;
  for (double& u : uptake_kg_per_m2_s) u = 0.0;
  for (std::size_t i = 0; i < 2; ++i) {
    const double leaf = leaf_kg_per_m2_s[i];
    // Dew on the leaves drips onto the medium at once.
    top_exchange_kg_per_m2_s += weight[i] * (ground_kg_per_m2_s[i] + (leaf < 0.0 ? leaf : 0.0));
    for (std::size_t j = 0; j < uptake_kg_per_m2_s.size(); ++j) {
      uptake_kg_per_m2_s[j] += weight[i] * (leaf > 0.0 ? leaf * stage[i].uptake_share[j] : 0.0);
    }
  }
  advance_water(meshes->module, water_frac,
                {.arriving_kg_per_m2_s = rain_kg_per_m2_s + watering_kg_per_m2_s,
                 .top_exchange_kg_per_m2_s = top_exchange_kg_per_m2_s,
                 .uptake_kg_per_m2_s = uptake_kg_per_m2_s},
                step_s, accepted);
  return !accepted.is_overdrawn;
}

void StackLane::settle() {
  if (!has_stores()) return;
  last_top_kg_per_m2_s = top_exchange_kg_per_m2_s;
  last_uptake_kg_per_m2_s = uptake_kg_per_m2_s;
  for (std::size_t j = 0; j < water_frac.size(); ++j)
    last_rate_per_s[j] = (accepted.water_frac[j] - water_frac[j]) / step_s;
  water_frac = accepted.water_frac;
}

void StackLane::slice_faces(const WaterStep& step, double top_exchange, std::vector<double>& face) const {
  const Mesh& mesh = meshes->module;
  const int n = static_cast<int>(mesh.slices.size());
  face.assign(static_cast<std::size_t>(n) + 1, 0.0);
  double passing = step.face_kg_per_m2_s[0] - top_exchange;
  for (int k = 0; k < n; ++k) {
    face[static_cast<std::size_t>(k)] = passing;
    const int j = mesh.slices[static_cast<std::size_t>(k)].store;
    if (j < 0) continue;
    // Linear through a store, because its water content is uniform.
    const WaterStore& store = mesh.stores[static_cast<std::size_t>(j)];
    const double in = step.face_kg_per_m2_s[static_cast<std::size_t>(j)] - (j == 0 ? top_exchange : 0.0);
    const double out = step.face_kg_per_m2_s[static_cast<std::size_t>(j) + 1];
    const double part = static_cast<double>(k - store.first_slice + 1) / store.n_slices;
    passing = k - store.first_slice + 1 == store.n_slices ? out : in + part * (out - in);
  }
  face[static_cast<std::size_t>(n)] = passing;
}

}  // namespace houseleek::simulation
