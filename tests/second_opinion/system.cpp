// The right-hand side of the second program.
#include "system.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::tests::second_opinion {

struct System::Moment {
  climate::Forcing weather;
  double density_kg_per_m3 = 1.2;
  double latent_j_per_kg = 2.45e6;
  double gamma_pa_per_k = 66.0;
};

namespace {

constexpr double hour_s = 3600.0;

double clip(double x) { return std::clamp(x, 0.0, 1.0); }

double stomatal_resistance_s_per_m(const simulation::Canopy& canopy, const Mesh& mesh, const double* water,
                                   double sun_w_per_m2, double air_c, double vapour_pa) {
  double w = 0.0;
  double wilting = 0.0;
  double field = 0.0;
  for (std::size_t j = 0; j < mesh.stores.size(); ++j) {
    const Store& store = mesh.stores[j];
    w += store.root_frac * water[j];
    wilting += store.root_frac * store.layer.wilting_frac;
    field += store.root_frac * store.layer.field_capacity_frac;
  }
  const double f = 0.55 * (sun_w_per_m2 / 100.0) * (2.0 / canopy.leaf_area_index);
  const double f1 = (f + canopy.stomatal_min_s_per_m / canopy.stomatal_max_s_per_m) / (1.0 + f);
  const double f2 = field > wilting ? clip((w - wilting) / (field - wilting)) : 0.0;
  const double f3 = std::max(0.25, 1.0 - 0.025 * (saturation_vapour_pressure_pa(air_c) - vapour_pa) / 100.0);
  const double from_best_k = 298.0 - (air_c + zero_celsius_k);
  const double f4 = std::max(0.05, 1.0 - 0.0016 * from_best_k * from_best_k);
  return std::min(canopy.stomatal_max_s_per_m, canopy.stomatal_min_s_per_m / (f1 * f2 * f3 * f4));  // 1/0: closed
}

double drained_kg_per_m2_s(const simulation::Layer& layer, double water_frac) {
  const double y = clip((water_frac - layer.holds_frac) / (layer.saturated_frac - layer.holds_frac));
  return y > 0.0 ? density_water_kg_per_m3 * layer.saturated_conductivity_m_per_s * std::pow(y, layer.drainage_exponent)
                 : 0.0;
}

void check_stack(const simulation::Stack& stack, const Mesh& mesh) {
  expects(stack.module.empty() == (stack.under == simulation::Under::nothing), "a way of lying under every module");
  expects(!stack.has_canopy || !mesh.stores.empty(), "water below a canopy");
  expects(!stack.surface.is_evaporating || !mesh.stores.empty(), "water below an evaporating surface");
}

}  // namespace

double watering_kg_per_m2_s(const simulation::Watering& watering, int hour) {
  if (watering.depth_mm <= 0.0) return 0.0;
  expects(watering.every_days > 0, "watering every so many days; the rule by the store is not in the second program");
  if (hour % 24 != watering.hour) return 0.0;
  const int day = (hour / 24) % 365;
  const int since = (day - watering.first_day + 365) % 365;
  const int lasts = (watering.last_day - watering.first_day + 365) % 365;
  if (since > lasts || since % watering.every_days != 0) return 0.0;
  return watering.depth_mm / 600.0;
}

double watering_kg_per_m2_s(const simulation::Stack& stack, int hour) {
  double sum = 0.0;
  for (const simulation::Watering& rule : stack.waterings) sum += watering_kg_per_m2_s(rule, hour);
  return sum;
}

System::System(const simulation::Group& group, int slice_refinement) : group_(group), rooms_(group_) {
  std::size_t next = 0;
  for (const simulation::Stack& design : group_.stacks) {
    OneStack stack;
    stack.design = &design;
    stack.mesh = make_mesh(design, slice_refinement);
    check_stack(design, stack.mesh);
    stack.sun = sun_shares(design);
    stack.foliage = next;
    if (design.has_canopy) ++next;
    stack.first_slice = next;
    const std::size_t n_slices = stack.mesh.module.size() + stack.mesh.deck.size();
    next += n_slices;
    stack.half_resistance_m2_k_per_w.resize(n_slices);
    stack.is_full.assign(stack.mesh.stores.size(), false);
    stack.uptake_kg_per_m2_s.resize(stack.mesh.stores.size());
    stack.now.excess_kg_per_m2_s.resize(stack.mesh.stores.size());
    const double start_c = design.initial_temperature_c;
    stack.now.nodes = {start_c, start_c, 0.0, start_c};
    stack.now.gap = {start_c, start_c};
    room_nodes_.ceiling_c.push_back(start_c);
    stacks_.push_back(std::move(stack));
  }
  first_mass_ = next;
  for (const simulation::Room& room : group_.rooms) {
    room_nodes_.air_c.push_back(room.initial_temperature_c);
    room_nodes_.surface_c.push_back(room.initial_temperature_c);
  }
  next += group_.rooms.size();
  n_heat_ = next;
  for (OneStack& stack : stacks_) {
    stack.first_store = next;
    next += stack.mesh.stores.size();
  }
  size_ = next;
  rooms_now_.resize(group_.rooms.size());
  ceilings_.resize(group_.stacks.size());
}

std::vector<double> System::initial_state() const {
  std::vector<double> state(size_);
  for (const OneStack& stack : stacks_) {
    const std::size_t end = stack.first_slice + stack.half_resistance_m2_k_per_w.size();
    for (std::size_t i = stack.foliage; i < end; ++i) state[i] = stack.design->initial_temperature_c;
    for (std::size_t j = 0; j < stack.mesh.stores.size(); ++j) {
      state[stack.first_store + j] = stack.mesh.stores[j].layer.initial_water_frac;
    }
  }
  for (std::size_t r = 0; r < group_.rooms.size(); ++r) state[mass_at(r)] = group_.rooms[r].initial_temperature_c;
  return state;
}

void System::set_hour(int hour) {
  hour_ = hour;
  for (std::size_t r = 0; r < group_.rooms.size(); ++r) {
    const simulation::Room& room = group_.rooms[r];
    const auto hour_of_day = static_cast<std::size_t>(hour % 24);
    rooms_now_[r].internal_gain_w = room.internal_gain_w[hour_of_day];
    rooms_now_[r].solar_gain_w =
        room.solar_gain_w.empty() ? 0.0 : room.solar_gain_w[static_cast<std::size_t>(hour) % room.solar_gain_w.size()];
    rooms_now_[r].is_window_hour = is_window_hour(room.window_rule, hour % 24);
  }
}

void System::begin_segment(const climate::ForcingSource& forcing, int hour, double from_fraction, double to_fraction) {
  forcing_ = forcing;
  set_hour(hour);
  const double middle = 0.5 * (from_fraction + to_fraction);
  rain_kg_per_m2_s_ = forcing_(hour, middle).rain_kg_per_m2_s;
  for (OneStack& stack : stacks_) {
    stack.watering_kg_per_m2_s = 0.0;
    if (middle * hour_s >= 600.0) continue;
    for (const simulation::Watering& rule : stack.design->waterings) {
      stack.watering_kg_per_m2_s += watering_kg_per_m2_s(rule, hour);
    }
  }
}

void System::begin_moment(const climate::Forcing& forcing, int hour) {
  forcing_ = [forcing](int, double) { return forcing; };
  set_hour(hour);
  rain_kg_per_m2_s_ = forcing.rain_kg_per_m2_s;
}

climate::Forcing System::forcing_now(double time_in_hour_s) const {
  climate::Forcing weather = forcing_(hour_, std::clamp(time_in_hour_s / hour_s, 0.0, 1.0));
  weather.rain_kg_per_m2_s = rain_kg_per_m2_s_;  // the segment's own, also on its edges
  return weather;
}

bool System::solve_top(OneStack& stack, const Moment& moment, const double* state) {
  const simulation::Stack& design = *stack.design;
  const simulation::Canopy& canopy = design.canopy;
  const climate::Forcing& weather = moment.weather;
  const double* water = state + stack.first_store;
  const double rho_cp = moment.density_kg_per_m3 * heat_capacity_air_j_per_kg_k;
  SurfaceKnown k;
  k.has_net = design.has_net;
  k.has_canopy = design.has_canopy;
  k.air_c = weather.air_temperature_c;
  k.gamma_pa_per_k = moment.gamma_pa_per_k;
  k.air_vapour_k = weather.vapour_pressure_pa / moment.gamma_pa_per_k;
  k.sky_w_per_m2 = weather.sky_longwave_w_per_m2;
  k.sun_net_w_per_m2 = stack.sun.net * weather.global_w_per_m2;
  k.sun_leaves_w_per_m2 = stack.sun.leaves * weather.global_w_per_m2;
  k.sun_ground_w_per_m2 = stack.sun.ground * weather.global_w_per_m2;
  k.net_emissivity = design.net.emissivity;
  k.leaf_emissivity = canopy.leaf_emissivity;
  k.ground_emissivity = design.surface.emissivity;
  const double roof_wind = design.outside_film.wind_to_roof_frac * weather.wind_m_per_s;
  const double wind_below = roof_wind * (design.has_net ? design.net.wind_below_frac : 1.0);
  k.film_above = make_film(design.outside_film, roof_wind);
  k.film_below = make_film(design.outside_film, wind_below);

  std::fill(stack.uptake_kg_per_m2_s.begin(), stack.uptake_kg_per_m2_s.end(), 0.0);
  double soil_resistance_s_per_m = 0.0;
  double soil_share = 0.0;
  if (design.surface.is_evaporating) {
    const simulation::Layer& top = stack.mesh.stores[0].layer;
    soil_resistance_s_per_m =
        std::exp(8.206 - 4.255 * water[0] / top.saturated_frac) + design.surface.cover_resistance_s_per_m;
    soil_share = clip((water[0] - top.residual_frac) / (0.1 * (top.field_capacity_frac - top.residual_frac)));
  }
  double root_share = 0.0;
  if (design.has_canopy) {
    k.long_cover_frac = canopy.cover_frac * (1.0 - std::exp(-canopy.extinction_long * canopy.leaf_area_index));
    const double leaf_area = canopy.cover_frac * canopy.leaf_area_index;
    const double r_b = 25.0 / (2.0 * leaf_area);
    k.leaf_air_w_per_m2_k = rho_cp / r_b;
    k.ground_air_w_per_m2_k = rho_cp / canopy.ground_resistance_s_per_m;
    for (std::size_t j = 0; j < stack.mesh.stores.size(); ++j) {
      const Store& store = stack.mesh.stores[j];
      const double width = 0.1 * (store.layer.field_capacity_frac - store.layer.wilting_frac);
      const double share =
          store.root_frac > 0.0 ? store.root_frac * clip((water[j] - store.layer.wilting_frac) / width) : 0.0;
      stack.uptake_kg_per_m2_s[j] = share;
      root_share += share;
    }
    const double r_c =
        stomatal_resistance_s_per_m(canopy, stack.mesh, water, stack.sun.below_net * weather.global_w_per_m2, k.air_c,
                                    weather.vapour_pressure_pa) /
        leaf_area;
    k.leaf_vapour_w_per_m2_k = root_share * rho_cp / (r_b + r_c);
    k.ground_vapour_w_per_m2_k = soil_share * rho_cp / (canopy.ground_resistance_s_per_m + soil_resistance_s_per_m);
    k.foliage_c = state[stack.foliage];
  } else if (soil_share > 0.0) {
    k.ground_vapour_w_per_m2_k = soil_share * rho_cp / soil_resistance_s_per_m;
  }
  k.rain_w_per_m2_k = heat_capacity_water_j_per_kg_k * weather.rain_kg_per_m2_s;
  k.rain_c = weather.rain_temperature_c;
  k.watering_w_per_m2_k = heat_capacity_water_j_per_kg_k * stack.watering_kg_per_m2_s;
  k.top_conductance_w_per_m2_k = 1.0 / stack.half_resistance_m2_k_per_w.front();
  k.first_slice_c = state[stack.first_slice];
  if (!solve_surface(k, stack.now.nodes, stack.now.fluxes)) return false;
  stack.now.surface_c = stack.now.nodes.surface_c;

  const double transpired = std::max(0.0, stack.now.fluxes.leaf_latent_w_per_m2) / moment.latent_j_per_kg;
  for (double& uptake : stack.uptake_kg_per_m2_s) uptake = root_share > 0.0 ? transpired * uptake / root_share : 0.0;
  return true;
}

/// Adds what flows between slices to `slope`, in W/m2.
void System::conduct(OneStack& stack, const double* state, double* slope) const {
  const std::size_t n_module = stack.mesh.module.size();
  const std::size_t n = stack.half_resistance_m2_k_per_w.size();
  const double* t = state + stack.first_slice;
  double* into = slope + stack.first_slice;
  const std::vector<double>& r = stack.half_resistance_m2_k_per_w;
  into[0] += stack.now.fluxes.into_layers_w_per_m2;
  for (std::size_t i = 1; i < n; ++i) {
    if (i == n_module) continue;  // the gap
    const double flux = (t[i - 1] - t[i]) / (r[i - 1] + r[i]);
    into[i - 1] -= flux;
    into[i] += flux;
  }
}

bool System::cross_gap(OneStack& stack, const Moment& moment, const double* state, double* slope) const {
  const simulation::Stack& design = *stack.design;
  const std::size_t n_module = stack.mesh.module.size();
  if (n_module == 0) {
    stack.now.membrane_c = stack.now.surface_c;
    return true;
  }
  const double wind = design.outside_film.wind_to_roof_frac * moment.weather.wind_m_per_s *
                      (design.has_net ? design.net.wind_below_frac : 1.0);
  GapKnown gap = make_gap(design, wind, moment.density_kg_per_m3, moment.weather.air_temperature_c);
  const std::size_t above = stack.first_slice + n_module - 1;
  gap.above_conductance_w_per_m2_k = 1.0 / stack.half_resistance_m2_k_per_w[n_module - 1];
  gap.above_c = state[above];
  gap.below_conductance_w_per_m2_k = 1.0 / stack.half_resistance_m2_k_per_w[n_module];
  gap.below_c = state[above + 1];
  if (!solve_gap(gap, stack.now.gap)) return false;
  slope[above] -= gap.above_conductance_w_per_m2_k * (gap.above_c - stack.now.gap.bottom_c);
  slope[above + 1] += gap.below_conductance_w_per_m2_k * (stack.now.gap.membrane_c - gap.below_c);
  stack.now.membrane_c = stack.now.gap.membrane_c;
  return true;
}

/// Water between stores, and the heat it brings: C dT/dt gains c_w J (T of where it comes from - own T) for every flow
/// that enters a slice, which is what conservation of enthalpy leaves after C's own change.
void System::move_water(OneStack& stack, const Moment& moment, const double* state, double* slope) const {
  const std::vector<Store>& stores = stack.mesh.stores;
  StackNow& now = stack.now;
  const double evaporated = now.fluxes.ground_latent_w_per_m2 / moment.latent_j_per_kg;
  const double leaf = now.fluxes.leaf_latent_w_per_m2 / moment.latent_j_per_kg;
  const double arriving = moment.weather.rain_kg_per_m2_s + stack.watering_kg_per_m2_s + std::max(0.0, -leaf);
  now.evaporated_kg_per_m2_s = evaporated + leaf;
  now.run_off_kg_per_m2_s = arriving;
  now.drained_kg_per_m2_s = 0.0;
  if (stores.empty()) return;
  const double* t = state + stack.first_slice;
  double* into = slope + stack.first_slice;
  const double* water = state + stack.first_store;
  double* water_slope = slope + stack.first_store;

  double flow = std::min(arriving, density_water_kg_per_m3 * stores[0].layer.saturated_conductivity_m_per_s);
  double flow_c = now.surface_c;
  std::size_t slice = 0;
  for (std::size_t j = 0; j < stores.size(); ++j) {
    const Store& store = stores[j];
    const auto begin = static_cast<std::size_t>(store.first_slice);
    const auto end = static_cast<std::size_t>(store.end_slice);
    const double leaving_top = j == 0 ? evaporated : 0.0;
    const double out = drained_kg_per_m2_s(store.layer, water[j]);
    const double excess = flow - leaving_top - out - stack.uptake_kg_per_m2_s[j];
    now.excess_kg_per_m2_s[j] = excess;
    const double past = stack.is_full[j] && excess > 0.0 ? excess : 0.0;
    if (j == 0) {
      flow -= past;
      now.run_off_kg_per_m2_s = arriving - flow;
    }
    // Layers without water between here and the store above are crossed by all that flows; what evaporates from the
    // first store rises through those above it and leaves at the surface's temperature.
    const double crossing = flow - leaving_top;
    const double entering = j == 0 ? crossing : flow - past;
    if (j == 0) {
      for (; slice < begin; ++slice) {
        if (slice == 0 || crossing > 0.0) {
          into[slice] += heat_capacity_water_j_per_kg_k * crossing * (flow_c - t[slice]);
        }
        flow_c = t[slice];
        if (crossing < 0.0) {
          into[slice] -= heat_capacity_water_j_per_kg_k * crossing * (t[slice + 1] - t[slice]);
        }
      }
    }
    for (; slice < begin; ++slice) {
      into[slice] += heat_capacity_water_j_per_kg_k * flow * (flow_c - t[slice]);
      flow_c = t[slice];
    }
    if (begin == 0 || entering > 0.0) {
      into[begin] += heat_capacity_water_j_per_kg_k * entering * (flow_c - t[begin]);
    }
    water_slope[j] += (excess - past) / (density_water_kg_per_m3 * store.depth_m);
    const double top = entering;
    for (std::size_t i = begin + 1; i < end; ++i) {
      const double depth = static_cast<double>(i - begin) / static_cast<double>(end - begin);
      const double between = top + (out - top) * depth;
      if (between > 0.0) {
        into[i] += heat_capacity_water_j_per_kg_k * between * (t[i - 1] - t[i]);
      } else {
        into[i - 1] -= heat_capacity_water_j_per_kg_k * between * (t[i] - t[i - 1]);
      }
    }
    slice = end;
    const double passing = j == 0 ? 0.0 : past;
    flow = out + passing;
    if (flow > 0.0) flow_c = (out * t[end - 1] + passing * flow_c) / flow;
  }
  // What drains crosses the layers below the last store too, and leaves the module at its bottom.
  for (; slice < stack.mesh.module.size(); ++slice) {
    into[slice] += heat_capacity_water_j_per_kg_k * flow * (flow_c - t[slice]);
    flow_c = t[slice];
  }
  now.drained_kg_per_m2_s = flow;
}

void System::conduct_sideways(const double* state, double* slope) const {
  for (const simulation::SideLink& link : group_.side_links) {
    const OneStack& a = stacks_[static_cast<std::size_t>(link.first)];
    const OneStack& b = stacks_[static_cast<std::size_t>(link.second)];
    expects(a.mesh.deck.size() == b.mesh.deck.size(), "linked decks of the same layers");
    const std::size_t at_a = a.first_slice + a.mesh.module.size();
    const std::size_t at_b = b.first_slice + b.mesh.module.size();
    for (std::size_t j = 0; j < a.mesh.deck.size(); ++j) {
      const Slice& slice = a.mesh.deck[j];
      const double w_per_k =
          slice.layer.conductivity_dry_w_per_m_k * slice.thickness_m * link.edge_length_m / link.distance_m;
      const double flow_w = w_per_k * (state[at_a + j] - state[at_b + j]);
      slope[at_a + j] -= flow_w / a.design->area_m2;
      slope[at_b + j] += flow_w / b.design->area_m2;
    }
  }
}

void System::divide_by_capacity(const OneStack& stack, const double* state, double* slope) const {
  double* into = slope + stack.first_slice;
  const auto divide = [&](const Slice& slice) {
    double capacity = slice.layer.heat_capacity_dry_j_per_m3_k;
    if (slice.store != no_store) {
      capacity += heat_capacity_water_j_per_kg_k * density_water_kg_per_m3 *
                  state[stack.first_store + static_cast<std::size_t>(slice.store)];
    }
    *into++ /= slice.thickness_m * capacity;
  };
  for (const Slice& slice : stack.mesh.module) divide(slice);
  for (const Slice& slice : stack.mesh.deck) divide(slice);
}

bool System::derivative(double time_in_hour_s, const double* state, double* slope) {
  Moment moment;
  moment.weather = forcing_now(time_in_hour_s);
  const double air_c = moment.weather.air_temperature_c;
  moment.density_kg_per_m3 = group_.pressure_pa / (gas_constant_air_j_per_kg_k * (air_c + zero_celsius_k));
  moment.latent_j_per_kg = 2.501e6 - 2361.0 * air_c;
  moment.gamma_pa_per_k = heat_capacity_air_j_per_kg_k * group_.pressure_pa / (0.622 * moment.latent_j_per_kg);
  std::fill(slope, slope + size_, 0.0);
  for (std::size_t i = 0; i < stacks_.size(); ++i) {
    OneStack& stack = stacks_[i];
    const std::size_t n_module = stack.mesh.module.size();
    const std::size_t n = stack.half_resistance_m2_k_per_w.size();
    int cached_store = no_store;
    double cached = 0.0;
    for (std::size_t s = 0; s < n; ++s) {
      const Slice& slice = s < n_module ? stack.mesh.module[s] : stack.mesh.deck[s - n_module];
      double conductivity = slice.layer.conductivity_dry_w_per_m_k;
      if (slice.store != no_store) {
        if (slice.store != cached_store) {
          cached_store = slice.store;
          cached =
              conductivity_w_per_m_k(slice.layer, state[stack.first_store + static_cast<std::size_t>(slice.store)]);
        }
        conductivity = cached;
      }
      stack.half_resistance_m2_k_per_w[s] = slice.thickness_m / (2.0 * conductivity);
    }
    if (!solve_top(stack, moment, state)) return false;
    if (stack.design->has_canopy) {
      const double capacity = stack.design->canopy.cover_frac * stack.design->canopy.leaf_heat_capacity_j_per_m2_k;
      slope[stack.foliage] = stack.now.fluxes.foliage_w_per_m2 / capacity;
    }
    conduct(stack, state, slope);
    if (!cross_gap(stack, moment, state, slope)) return false;
    move_water(stack, moment, state, slope);
    ceilings_[i] = {1.0 / stack.half_resistance_m2_k_per_w.back(), state[stack.first_slice + n - 1]};
  }
  conduct_sideways(state, slope);
  for (std::size_t r = 0; r < group_.rooms.size(); ++r) {
    rooms_now_[r].outside_c = air_c;
    rooms_now_[r].mass_c = state[mass_at(r)];
  }
  if (!rooms_.solve(ceilings_, rooms_now_, room_nodes_)) return false;
  for (std::size_t i = 0; i < stacks_.size(); ++i) {
    const OneStack& stack = stacks_[i];
    const std::size_t last = stack.first_slice + stack.half_resistance_m2_k_per_w.size() - 1;
    slope[last] -= ceilings_[i].conductance_w_per_m2_k * (ceilings_[i].last_slice_c - room_nodes_.ceiling_c[i]);
    divide_by_capacity(stack, state, slope);
  }
  for (std::size_t r = 0; r < group_.rooms.size(); ++r) {
    slope[mass_at(r)] =
        rooms_.mass_heating_w(r, rooms_now_[r], room_nodes_.surface_c[r]) / group_.rooms[r].heat_capacity_j_per_k;
  }
  return true;
}

bool System::mark_full_stores(double time_in_hour_s, double* state) {
  bool is_any_full = false;
  for (OneStack& stack : stacks_) {
    for (std::size_t j = 0; j < stack.mesh.stores.size(); ++j) {
      double& water = state[stack.first_store + j];
      const double most = stack.mesh.stores[j].layer.saturated_frac;
      stack.is_full[j] = water >= most - 1e-12;
      if (stack.is_full[j]) water = most;
      is_any_full = is_any_full || stack.is_full[j];
    }
  }
  if (!is_any_full) return true;
  // One that loses more than it gets is leaving its edge.
  std::vector<double> unused(size_);
  if (!derivative(time_in_hour_s, state, unused.data())) return false;
  for (OneStack& stack : stacks_) {
    for (std::size_t j = 0; j < stack.mesh.stores.size(); ++j) {
      if (stack.now.excess_kg_per_m2_s[j] < 0.0) stack.is_full[j] = false;
    }
  }
  return true;
}

bool System::events(double time_in_hour_s, const double* state, double* values) {
  const auto is_any_full = [](const OneStack& stack) {
    return std::find(stack.is_full.begin(), stack.is_full.end(), true) != stack.is_full.end();
  };
  if (std::any_of(stacks_.begin(), stacks_.end(), is_any_full)) {
    std::vector<double> unused(size_);
    if (!derivative(time_in_hour_s, state, unused.data())) return false;
  }
  for (const OneStack& stack : stacks_) {
    for (std::size_t j = 0; j < stack.mesh.stores.size(); ++j) {
      const std::size_t at = stack.first_store + j;
      values[at - n_heat_] = stack.is_full[j] ? stack.now.excess_kg_per_m2_s[j] * 1e3
                                              : state[at] - stack.mesh.stores[j].layer.saturated_frac;
    }
  }
  return true;
}

void System::switch_store(std::size_t store, double* state) {
  for (OneStack& stack : stacks_) {
    const std::size_t at = n_heat_ + store;
    if (at < stack.first_store || at >= stack.first_store + stack.mesh.stores.size()) continue;
    const std::size_t j = at - stack.first_store;
    stack.is_full[j] = !stack.is_full[j];
    if (stack.is_full[j]) state[at] = stack.mesh.stores[j].layer.saturated_frac;
  }
}

double System::water_mm(std::size_t stack, const double* state) const {
  double result = 0.0;
  for (std::size_t j = 0; j < stacks_[stack].mesh.stores.size(); ++j) {
    result += 1000.0 * stacks_[stack].mesh.stores[j].depth_m * state[stacks_[stack].first_store + j];
  }
  return result;
}

}  // namespace houseleek::tests::second_opinion
