// The second half of a batch: material properties, the end of a step, the books, the columns.
#pragma once
#include "simulation/stack_batch_impl.hpp"

namespace houseleek::simulation {

template <class L, bool c, bool t, bool m>
void StackBatchOf<L, c, t, m>::set_constants(int i, const StackLane& lane) {
  const Stack& stack = *lane.spec;
  const StackMeshes& meshes = *lane.meshes;
  NodeConstants<L>& k = constants_;
  const auto put = [i](L& where, double value) { set_lane(where, i, value); };
  put(k.net_sun_frac, lane.sun_shares.net_frac);
  put(k.leaves_sun_frac, lane.sun_shares.leaves_frac);
  put(k.ground_sun_frac, lane.sun_shares.ground_frac);
  put(reflected_frac_, lane.sun_shares.reflected_frac);
  const Canopy& canopy = stack.canopy;
  put(k.leaf_longwave_frac,
      c ? physics::leaf_shading_frac(canopy.cover_frac, canopy.extinction_long, canopy.leaf_area_index) : 0.0);
  put(k.leaf_emissivity, canopy.leaf_emissivity);
  const double surface_emissivity = stack.surface.emissivity;
  put(k.surface_emissivity, surface_emissivity);
  put(k.exchange_emissivity,
      canopy.leaf_emissivity * surface_emissivity /
          (canopy.leaf_emissivity + surface_emissivity - canopy.leaf_emissivity * surface_emissivity));
  put(k.net_emissivity, stack.net.emissivity);
  put(k.leaf_capacity_j_per_m2_k, c ? canopy.cover_frac * canopy.leaf_heat_capacity_j_per_m2_k : 0.0);
  put(k.gap_radiation_factor, 1.0 / (1.0 / stack.gap.emissivity_above + 1.0 / stack.gap.emissivity_below - 1.0));
  put(k.gap_conduction_w_per_m2_k, physics::FilmAir{}.conductivity_w_per_m_k / stack.gap.height_m);
  put(k.gap_rayleigh_per_k, physics::gap_rayleigh_per_k(stack.gap.height_m));
  put(k.contact_resistance_m2_k_per_w, stack.gap.contact_resistance_m2_k_per_w);
  put(k.ceiling_radiative_w_per_m2_k, stack.inside_film.is_fixed ? 0.0 : stack.inside_film.radiative_w_per_m2_k);
  put(k.is_inside_fixed, stack.inside_film.is_fixed ? 1.0 : 0.0);
  put(k.inside_fixed_w_per_m2_k, stack.inside_film.fixed_w_per_m2_k);

  const auto fill = [&](Column<L>& column, const Mesh& mesh) {
    expects(static_cast<int>(mesh.slices.size()) == column.n, "stacks of one batch with the same slices");
    for (int s = 0; s < column.n; ++s) {
      const Slice& slice = mesh.slices[static_cast<std::size_t>(s)];
      const Layer& layer = mesh.layers[static_cast<std::size_t>(slice.layer)];
      put(column.capacity_j_per_m2_k[static_cast<std::size_t>(s)],
          slice.thickness_m * layer.heat_capacity_dry_j_per_m3_k);
      put(column.temperature_c[static_cast<std::size_t>(s)], stack.initial_temperature_c);
    }
    for (int face = 0; face <= column.n; ++face) {
      double resistance = 0.0;
      for (const int s : {face - 1, face}) {
        if (s < 0 || s >= column.n) continue;
        const Slice& slice = mesh.slices[static_cast<std::size_t>(s)];
        resistance +=
            slice.thickness_m / (2.0 * mesh.layers[static_cast<std::size_t>(slice.layer)].conductivity_dry_w_per_m_k);
      }
      put(column.between_w_per_m2_k[static_cast<std::size_t>(face)], 1.0 / resistance);
    }
  };
  fill(deck_, meshes.deck);
  deck_inverse_k_m2_per_j_.resize(static_cast<std::size_t>(deck_.n), L(0.0));
  for (std::size_t s = 0; s < deck_inverse_k_m2_per_j_.size(); ++s) {
    put(deck_inverse_k_m2_per_j_[s], 1.0 / lane_at(deck_.capacity_j_per_m2_k[s], i));
  }
  const std::size_t n_module = static_cast<std::size_t>(module_.n);
  if (module_half_m2_k_per_w_.empty()) {
    for (auto* a : {&module_half_m2_k_per_w_, &start_capacity_j_per_m2_k_, &end_capacity_j_per_m2_k_, &first_module_c_,
                    &taken_kg_per_m2_s_}) {
      a->assign(n_module, L(0.0));
    }
    for (auto& a : conducted_) a.assign(n_module + 1, L(0.0));
    first_deck_c_.assign(static_cast<std::size_t>(deck_.n), L(0.0));
  }
  if constexpr (m) {
    fill(module_, meshes.module);
    for (std::size_t s = 0; s < n_module; ++s) {
      const Slice& slice = meshes.module.slices[s];
      const Layer& layer = meshes.module.layers[static_cast<std::size_t>(slice.layer)];
      put(module_half_m2_k_per_w_[s], 0.5 * slice.thickness_m / layer.conductivity_dry_w_per_m_k);
      const double water = slice.store < 0 ? 0.0 : lane.water_frac[static_cast<std::size_t>(slice.store)];
      put(end_capacity_j_per_m2_k_[s], slice.thickness_m * (layer.heat_capacity_dry_j_per_m3_k +
                                                            water_heat_j_per_kg_k * water_density_kg_per_m3 * water));
    }
  }
  module_stores_.resize(meshes.module.stores.size());
  for (std::size_t j = 0; j < module_stores_.size(); ++j) {
    const WaterStore& from = meshes.module.stores[j];
    const Layer& layer = meshes.module.layers[static_cast<std::size_t>(from.layer)];
    ModuleStore& store = module_stores_[j];
    store.first_slice = static_cast<std::size_t>(from.first_slice);
    store.end_slice = store.first_slice + static_cast<std::size_t>(from.n_slices);
    put(store.slice_m, from.depth_m / from.n_slices);
    put(store.heat_capacity_dry_j_per_m3_k, layer.heat_capacity_dry_j_per_m3_k);
    put(store.conductivity_dry_w_per_m_k, layer.conductivity_dry_w_per_m_k);
    put(store.wet_rise_w_per_m_k, layer.wet_rise_w_per_m_k);
    put(store.wet_bend, layer.wet_bend);
    put(store.wet_from_frac, layer.wet_from_frac);
    put(store.saturated_frac, layer.saturated_frac);
  }
  for (int a = 0; a < N::count; ++a) put(nodes_[static_cast<std::size_t>(a)], stack.initial_temperature_c);
  if constexpr (c) put(nodes_[N::vapour], 10.0);
  put(foliage_c_, stack.initial_temperature_c);
}

template <class L, bool c, bool t, bool m>
void StackBatchOf<L, c, t, m>::put_stage(NodeStage<L>& s, int stage) const {
  const auto put = [&](const auto& value) {
    return of_lanes([&](const StackLane& lane) { return value(lane.stage[static_cast<std::size_t>(stage)]); });
  };
  s.air_c = put([](const LaneStage& x) { return x.air_c; });
  s.sun_w_per_m2 = put([](const LaneStage& x) { return x.sun_w_per_m2; });
  s.sky_w_per_m2 = put([](const LaneStage& x) { return x.sky_w_per_m2; });
  s.air_vapour_k = put([](const LaneStage& x) { return x.air_vapour_k; });
  s.pressure_per_k = put([](const LaneStage& x) { return x.pressure_per_k; });
  s.forced_cubed = put([](const LaneStage& x) { return x.film.forced_cubed; });
  s.unstable_cubed = put([](const LaneStage& x) { return x.film.unstable_cubed; });
  s.stable_cubed = put([](const LaneStage& x) { return x.film.stable_cubed; });
  s.net_forced_cubed = put([](const LaneStage& x) { return x.net_film.forced_cubed; });
  s.net_unstable_cubed = put([](const LaneStage& x) { return x.net_film.unstable_cubed; });
  s.net_stable_cubed = put([](const LaneStage& x) { return x.net_film.stable_cubed; });
  s.boundary_w_per_m2_k = put([](const LaneStage& x) { return x.boundary_w_per_m2_k; });
  s.ground_air_w_per_m2_k = put([](const LaneStage& x) { return x.ground_air_w_per_m2_k; });
  s.leaf_vapour_w_per_m2_k = put([](const LaneStage& x) { return x.leaf_vapour_w_per_m2_k; });
  s.ground_vapour_w_per_m2_k = put([](const LaneStage& x) { return x.ground_vapour_w_per_m2_k; });
  s.ground_open_frac = put([](const LaneStage& x) { return x.ground_open_frac; });
  s.ground_resistance_m2_k_per_w = put([](const LaneStage& x) { return x.ground_resistance_m2_k_per_w; });
  s.leaf_cap_w_per_m2 = put([](const LaneStage& x) { return x.leaf_cap_w_per_m2; });
  s.ground_cap_w_per_m2 = put([](const LaneStage& x) { return x.ground_cap_w_per_m2; });
  s.rain_w_per_m2_k = put([](const LaneStage& x) { return x.rain_w_per_m2_k; });
  s.rain_w_per_m2 = put([](const LaneStage& x) { return x.rain_w_per_m2; });
  s.gap_wall_w_per_m2_k = put([](const LaneStage& x) { return x.gap_wall_w_per_m2_k; });
  s.gap_entering_frac = put([](const LaneStage& x) { return x.gap_entering_frac; });
}

/// Capacity, conductivity and water's heat of the module's slices at a stage.
template <class L, bool c, bool t, bool m>
void StackBatchOf<L, c, t, m>::set_module_properties(int stage) {
  if (module_stores_.empty()) return;
  for (std::size_t j = 0; j < module_stores_.size(); ++j) {
    const ModuleStore& store = module_stores_[j];
    const L water_frac =
        of_lanes([&](const StackLane& lane) { return lane.stage[static_cast<std::size_t>(stage)].water_frac[j]; });
    const L over = numerics::max(water_frac - store.wet_from_frac, L(0.0)) / store.saturated_frac;
    const L conductivity =
        store.conductivity_dry_w_per_m_k + store.wet_rise_w_per_m_k * over / (L(1.0) + store.wet_bend * over);
    const L half = L(0.5) * store.slice_m / conductivity;
    const L capacity = capacity_j_per_m2_k(store, water_frac);
    for (std::size_t k = store.first_slice; k < store.end_slice; ++k) {
      module_half_m2_k_per_w_[k] = half;
      module_.capacity_j_per_m2_k[k] = capacity;
    }
  }
  const std::size_t n = static_cast<std::size_t>(module_.n);
  if (stage == 0) {
    for (std::size_t i = 0; i < lanes_.size(); ++i)
      lanes_[i].slice_faces(lanes_[i].forecast, lanes_[i].last_top_kg_per_m2_s, faces_kg_per_m2_s_[i]);
    for (std::size_t face = 0; face <= n; ++face) {
      const L flux = L(water_heat_j_per_kg_k) * face_kg_per_m2_s(face);
      // Through the top face water goes at the face's own temperature, in as well as out.
      module_.carried_down_w_per_m2_k[face] = face == 0 ? flux : numerics::max(flux, L(0.0));
      module_.carried_up_w_per_m2_k[face] = face == n ? L(0.0) : numerics::max(L(0.0) - flux, L(0.0));
    }
  }
  const auto& half = module_half_m2_k_per_w_;
  module_.between_w_per_m2_k[0] = L(1.0) / half[0];
  for (std::size_t face = 1; face < n; ++face)
    module_.between_w_per_m2_k[face] = L(1.0) / (half[face - 1] + half[face]);
  module_.between_w_per_m2_k[n] = L(1.0) / half[n - 1];
}

template <class L, bool c, bool t, bool m>
bool StackBatchOf<L, c, t, m>::finish_step(double error_bound_k, bool is_judged) {
  bool is_accepted = true;
  for (StackLane& lane : lanes_) is_accepted = lane.advance() && is_accepted;

  // Error estimate of the first and last deck slice from the third derivative seen over this step and the last.
  const double h = step_s_;
  const double g = scheme::gamma;
  const std::array<int, 2> watched{0, deck_.n - 1};
  L worst(0.0);
  std::array<L, 2> rate;
  for (std::size_t w = 0; w < 2; ++w) {
    const std::size_t k = static_cast<std::size_t>(watched[w]);
    const L first = (first_deck_c_[k] - first_deck_known_c_[k]) / L(g * h);
    const L second = (deck_.stage_c[k] - deck_.known_c[k]) / L(g * h);
    rate[w] = second;
    const L bend = ((second - first) / L((1.0 - g) * h) - (first - last_rate_[w]) / L(g * h)) / L(h);
    constexpr double error_constant = 0.04;  // of the scheme, times h^3 y'''
    // A slice far quicker than the step jumps to its surface's pace: its derivatives say nothing of an error, which cannot be larger than what the
    // slice moved at all.
    const L moved_k = numerics::abs(deck_.stage_c[k] - deck_.temperature_c[k]);
    worst = numerics::max(worst, numerics::min(L(error_constant * h * h * h * 2.0) * numerics::abs(bend), moved_k));
  }
  double estimate_k = 0.0;
  if (!is_after_jump_ && is_judged) {
    for (int i = 0; i < n_stacks_; ++i) estimate_k = larger(lane_at(worst, i), estimate_k);
  }
  if (!is_accepted || estimate_k > error_bound_k) return false;
  hour_error_k_ = larger(estimate_k, hour_error_k_);

  last_rate_ = rate;
  deck_start_c_ = deck_.temperature_c;
  deck_.temperature_c = deck_.stage_c;
  foliage_start_c_ = foliage_c_;
  if constexpr (c) foliage_c_ = stage_nodes_[1][N::foliage];
  if constexpr (m) settle_module();
  audit_step();
  for (StackLane& lane : lanes_) lane.settle();
  return true;
}

/// Enthalpy after the step: conduction with the scheme's weights, and what the water that really moved carried; temperature follows.
template <class L, bool c, bool t, bool m>
void StackBatchOf<L, c, t, m>::settle_module() {
  module_start_c_ = module_.temperature_c;
  start_capacity_j_per_m2_k_ = end_capacity_j_per_m2_k_;
  const L first(scheme::first_weight), second(scheme::second_weight), step_s(step_s_);
  const L c_w(water_heat_j_per_kg_k);
  const L surface_c = first * stage_nodes_[0][N::surface] + second * stage_nodes_[1][N::surface];
  if (module_stores_.empty()) {
    const L arriving =
        of_lanes([](const StackLane& lane) { return lane.rain_kg_per_m2_s + lane.watering_kg_per_m2_s; });
    carried_out_j_per_m2_ = c_w * surface_c * arriving * step_s;
  } else {
    for (std::size_t i = 0; i < lanes_.size(); ++i)
      lanes_[i].slice_faces(lanes_[i].accepted, lanes_[i].top_exchange_kg_per_m2_s, faces_kg_per_m2_s_[i]);
    for (std::size_t j = 0; j < module_stores_.size(); ++j) {
      const ModuleStore& store = module_stores_[j];
      const L capacity =
          capacity_j_per_m2_k(store, of_lanes([&](const StackLane& lane) { return lane.accepted.water_frac[j]; }));
      const L n_slices(static_cast<double>(store.end_slice - store.first_slice));
      const L taken = of_lanes([&](const StackLane& lane) { return lane.uptake_kg_per_m2_s[j]; }) / n_slices;
      for (std::size_t k = store.first_slice; k < store.end_slice; ++k) {
        end_capacity_j_per_m2_k_[k] = capacity;
        taken_kg_per_m2_s_[k] = taken;
      }
    }
  }
  // Through each face goes the heat of the slice the water comes from (upwind); through the top face that of the face.
  const std::size_t n = static_cast<std::size_t>(module_.n);
  const bool is_moving = !module_stores_.empty();
  const auto mean_c = [&](std::size_t k) { return first * first_module_c_[k] + second * module_.stage_c[k]; };
  L above(0.0), left(0.0), here_c = mean_c(0);
  if (is_moving) {
    above = c_w * face_kg_per_m2_s(0) * surface_c;
    left = c_w * of_lanes([](const StackLane& lane) { return lane.top_exchange_kg_per_m2_s; }) * surface_c;
  }
  for (std::size_t k = 0; k < n; ++k) {
    L carried(0.0);
    const L below_c = k + 1 < n ? mean_c(k + 1) : here_c;
    if (is_moving) {
      const L down = face_kg_per_m2_s(k + 1);
      const L below = c_w * down * select(down >= L(0.0), here_c, below_c);
      const L taken = c_w * taken_kg_per_m2_s_[k] * here_c;
      carried = above - below - taken;
      left += taken;
      above = below;
    }
    const L in = first * (conducted_[0][k] - conducted_[0][k + 1]) + second * (conducted_[1][k] - conducted_[1][k + 1]);
    const L enthalpy = start_capacity_j_per_m2_k_[k] * module_.temperature_c[k] + step_s * (in + carried);
    module_.temperature_c[k] = enthalpy / end_capacity_j_per_m2_k_[k];
    here_c = below_c;
  }
  if (is_moving) {
    const L runoff = of_lanes([](const StackLane& lane) { return lane.accepted.runoff_kg_per_m2_s; });
    carried_out_j_per_m2_ = (left + above + c_w * runoff * surface_c) * step_s;
  }
}

/// The books of the step, from end states and recomputed boundary fluxes.
template <class L, bool c, bool t, bool m>
void StackBatchOf<L, c, t, m>::audit_step() {
  L stored(0.0);
  for (int k = 0; k < deck_.n; ++k)
    stored += deck_.capacity_j_per_m2_k[k] * (deck_.temperature_c[k] - deck_start_c_[k]);
  if constexpr (m) {
    for (int s = 0; s < module_.n; ++s) {
      const std::size_t k = static_cast<std::size_t>(s);
      stored +=
          end_capacity_j_per_m2_k_[k] * module_.temperature_c[k] - start_capacity_j_per_m2_k_[k] * module_start_c_[k];
    }
  }
  if constexpr (c) stored += constants_.leaf_capacity_j_per_m2_k * (foliage_c_ - foliage_start_c_);
  constexpr std::array<double, 2> weight{scheme::first_weight, scheme::second_weight};
  L in(0.0), gross(0.0), vapour(0.0), surface_c(0.0), to_ceiling(0.0), rain_in(0.0);
  for (std::size_t i = 0; i < 2; ++i) {
    const auto flux = boundary_fluxes<L, c, t, m>(constants_, stage_[i], reflected_frac_, stage_nodes_[i].data(),
                                                  stage_room_air_c_[i], stage_room_surface_c_[i]);
    in += L(weight[i]) * flux.net_w_per_m2;
    gross += L(weight[i]) * flux.gross_w_per_m2;
    L latent(0.0);
    for (int l = 0; l < width; ++l) set_lane(latent, l, lanes_[static_cast<std::size_t>(l)].stage[i].latent_j_per_kg);
    vapour += L(weight[i]) * flux.vapour_w_per_m2 / latent;
    surface_c += L(weight[i]) * stage_nodes_[i][N::surface];
    rain_in += L(weight[i]) * stage_[i].rain_w_per_m2;
    const auto room =
        ceiling_flux(constants_, stage_nodes_[i][N::ceiling], stage_room_air_c_[i], stage_room_surface_c_[i]);
    to_ceiling += L(weight[i]) * (room.convective_w_per_m2 + room.radiative_w_per_m2);
  }
  L sideways(0.0), sideways_gross(0.0);
  for (const L& w : sideways_kept_) {
    sideways += w;
    sideways_gross += numerics::abs(w);
  }
  for (int i = 0; i < n_stacks_; ++i) {
    StackLane& lane = lanes_[static_cast<std::size_t>(i)];
    const double arriving = lane.rain_kg_per_m2_s + lane.watering_kg_per_m2_s;
    const double water_in_j = lane_at(rain_in, i) * step_s_;
    const double water_out_j =
        m ? lane_at(carried_out_j_per_m2_, i) : water_heat_j_per_kg_k * arriving * lane_at(surface_c, i) * step_s_;
    const double heat_in_j = (lane_at(in, i) + lane_at(sideways, i)) * step_s_ + water_in_j - water_out_j;
    StepBalance& b = lane.balance;
    b.heat_residual_j_per_m2 = lane_at(stored, i) - heat_in_j;
    b.heat_throughput_j_per_m2 = (lane_at(gross, i) + lane_at(sideways_gross, i)) * step_s_ +
                                 numerics::abs(water_in_j) + numerics::abs(water_out_j);
    b.heat_residual_frac = numerics::abs(b.heat_residual_j_per_m2) / b.heat_throughput_j_per_m2;
    const double vapour_kg = lane_at(vapour, i) * step_s_;
    if (lane.has_stores()) {
      const double change_kg = lane.water_kg_per_m2(lane.accepted.water_frac) - lane.water_kg_per_m2(lane.water_frac);
      const double out_kg =
          (lane.accepted.face_kg_per_m2_s.back() + lane.accepted.runoff_kg_per_m2_s) * step_s_ + vapour_kg;
      b.water_residual_m = (change_kg - arriving * step_s_ + out_kg) / water_density_kg_per_m3;
      lane.sums.drained_kg_per_m2 += lane.accepted.face_kg_per_m2_s.back() * step_s_;
      lane.sums.runoff_kg_per_m2 += lane.accepted.runoff_kg_per_m2_s * step_s_;
      lane.sums.evaporated_kg_per_m2 += vapour_kg;
    } else {
      b.water_residual_m = vapour_kg / water_density_kg_per_m3;
      lane.sums.runoff_kg_per_m2 += arriving * step_s_;
    }
    lane.sums.watered_kg_per_m2 += lane.watering_kg_per_m2_s * step_s_;
    lane.sums.ceiling_j_per_m2 += lane_at(to_ceiling, i) * step_s_;
    lane.year_heat_residual_j_per_m2 += b.heat_residual_j_per_m2;
    lane.year_heat_throughput_j_per_m2 += b.heat_throughput_j_per_m2;
    lane.year_water_residual_m += b.water_residual_m;
    HourExtremes& e = lane.extremes;
    e.heat_residual_frac = larger(b.heat_residual_frac, e.heat_residual_frac);
    e.water_residual_m = larger(numerics::abs(b.water_residual_m), e.water_residual_m);
    const double membrane_c = lane_at(stage_nodes_[1][N::membrane], i);
    e.membrane_max_c = larger(membrane_c, e.membrane_max_c);
    e.membrane_min_c = -larger(-membrane_c, -e.membrane_min_c);
    e.ceiling_max_c = larger(lane_at(stage_nodes_[1][N::ceiling], i), e.ceiling_max_c);
  }
}

template <class L, bool c, bool t, bool m>
void StackBatchOf<L, c, t, m>::keep_hour(std::span<results::StackYear> columns) {
  for (int i = 0; i < n_stacks_; ++i) {
    const StackLane& lane = lanes_[static_cast<std::size_t>(i)];
    auto& out = columns[static_cast<std::size_t>(i)];
    const HourExtremes& e = lane.extremes;
    out.membrane_max_c = larger(e.membrane_max_c, out.membrane_max_c);
    out.membrane_min_c = -larger(-e.membrane_min_c, -out.membrane_min_c);
    out.ceiling_max_c = larger(e.ceiling_max_c, out.ceiling_max_c);
    out.heat_residual_max_frac = larger(e.heat_residual_frac, out.heat_residual_max_frac);
    out.water_residual_max_m = larger(e.water_residual_m, out.water_residual_max_m);
    out.surface_c.push_back(lane_at(stage_nodes_[1][N::surface], i));
    if constexpr (c) out.foliage_c.push_back(lane_at(stage_nodes_[1][N::foliage], i));
    out.membrane_c.push_back(lane_at(stage_nodes_[1][N::membrane], i));
    out.ceiling_c.push_back(lane_at(stage_nodes_[1][N::ceiling], i));
    out.water_mm.push_back(lane.water_kg_per_m2(lane.water_frac));
    out.root_store_frac.push_back(lane.has_stores() ? lane.root_store_frac(lane.water_frac) : 1.0);
    out.ceiling_flux_w_per_m2.push_back(lane.sums.ceiling_j_per_m2 / 3600.0);
    out.evapotranspiration_mm.push_back(lane.sums.evaporated_kg_per_m2);
    out.drainage_mm.push_back(lane.sums.drained_kg_per_m2);
    out.runoff_mm.push_back(lane.sums.runoff_kg_per_m2);
    out.watering_mm.push_back(lane.sums.watered_kg_per_m2);
  }
}

}  // namespace houseleek::simulation
