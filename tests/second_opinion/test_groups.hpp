// Invented roofs that the second program is tried on, alone and against the first.
#pragma once
#include <algorithm>
#include <cmath>
#include <numbers>

#include "simulation/group.hpp"

namespace houseleek::tests::second_opinion {

enum class Kind { bare, contact, closed, ventilated, netted };

inline simulation::Layer plain_layer(double thickness_m, double conductivity_w_per_m_k, double capacity_j_per_m3_k) {
  simulation::Layer layer;
  layer.thickness_m = thickness_m;
  layer.conductivity_dry_w_per_m_k = conductivity_w_per_m_k;
  layer.heat_capacity_dry_j_per_m3_k = capacity_j_per_m3_k;
  return layer;
}

inline simulation::Layer light_medium(double thickness_m) {
  simulation::Layer layer = plain_layer(thickness_m, 0.2, 1.0e6);
  layer.wet_rise_w_per_m_k = 1.2;
  layer.wet_bend = 0.8;
  layer.saturated_frac = 0.55;
  layer.holds_frac = 0.30;
  layer.field_capacity_frac = 0.32;
  layer.wilting_frac = 0.07;
  layer.residual_frac = 0.03;
  layer.saturated_conductivity_m_per_s = 5e-5;
  layer.drainage_exponent = 4.0;
  layer.initial_water_frac = 0.25;
  layer.root_frac = 0.9;
  layer.is_medium = true;
  return layer;
}

inline simulation::Layer fibre_core(double thickness_m) {
  simulation::Layer layer = plain_layer(thickness_m, 0.04, 5.0e4);
  layer.wet_rise_w_per_m_k = 0.5;
  layer.wet_from_frac = 0.05;
  layer.saturated_frac = 0.8;
  layer.holds_frac = 0.10;
  layer.field_capacity_frac = 0.12;
  layer.wilting_frac = 0.02;
  layer.residual_frac = 0.01;
  layer.saturated_conductivity_m_per_s = 1e-5;
  layer.drainage_exponent = 3.0;
  layer.initial_water_frac = 0.08;
  layer.root_frac = 0.1;
  return layer;
}

inline simulation::Room plain_room() {
  simulation::Room room;
  room.floor_area_m2 = 20.0;
  room.volume_m3 = 56.0;
  room.mass_to_surface_w_per_k = 455.0;
  room.surface_to_air_w_per_k = 310.0;
  room.mass_to_outside_w_per_k = 40.0;
  room.window_w_per_k = 12.0;
  room.heat_capacity_j_per_k = 3.3e6;
  room.total_surface_m2 = 90.0;
  room.mass_area_m2 = 50.0;
  room.window_rule.extra_per_h = 4.0;
  room.window_rule.from_hour = 19;
  room.window_rule.to_hour = 8;
  for (std::size_t hour = 0; hour < 24; ++hour) {
    room.internal_gain_w[hour] = hour < 7 ? 80.0 : (hour < 17 ? 40.0 : 160.0);
  }
  for (int hour = 0; hour < 8760; ++hour) {
    const double angle = std::numbers::pi * (hour % 24 - 5.5) / 12.0;
    room.solar_gain_w.push_back(std::max(0.0, 300.0 * std::sin(angle)));
  }
  return room;
}

/// A concrete deck over one room; all kinds but the bare one carry 80 mm of medium on a fibre core and a tray.
inline simulation::Group one_stack_group(Kind kind) {
  simulation::Stack stack;
  stack.area_m2 = 20.0;
  stack.surface.albedo = 0.15;
  stack.surface.emissivity = 0.9;
  stack.deck = {plain_layer(0.010, 0.23, 1.1e6), plain_layer(0.060, 0.41, 1.0e6), plain_layer(0.160, 2.0, 2.4e6),
                plain_layer(0.015, 0.57, 1.3e6)};
  if (kind != Kind::bare) {
    stack.module = {light_medium(0.08), fibre_core(0.05), plain_layer(0.003, 0.5, 1.8e6)};
    stack.has_canopy = true;
    stack.canopy.cover_frac = 0.8;
    stack.surface.is_evaporating = true;
    stack.surface.albedo = 0.2;
    stack.surface.emissivity = 0.95;
    stack.under = simulation::Under::ventilated_gap;
    if (kind == Kind::contact) stack.under = simulation::Under::contact;
    if (kind == Kind::closed) stack.under = simulation::Under::closed_gap;
    stack.has_net = kind == Kind::netted;
    stack.waterings.push_back({.depth_mm = 6.0, .every_days = 4, .first_day = 120, .last_day = 270});
  }
  simulation::Group group;
  group.stacks = {stack};
  group.rooms = {plain_room()};
  return group;
}

/// A bare strip and a planted patch over one room, a netted patch over the next, all joined sideways.
inline simulation::Group linked_group() {
  simulation::Group group = one_stack_group(Kind::bare);
  group.stacks[0].area_m2 = 5.0;
  group.stacks.push_back(one_stack_group(Kind::contact).stacks[0]);
  group.stacks[1].area_m2 = 12.0;
  group.stacks.push_back(one_stack_group(Kind::netted).stacks[0]);
  group.stacks[2].area_m2 = 16.0;
  group.stacks[2].room = 1;
  group.rooms.push_back(group.rooms[0]);
  group.rooms[1].internal_gain_w.fill(250.0);
  group.rooms[1].is_held = true;
  group.rooms[1].heat_below_c = 20.0;
  group.rooms[1].cool_above_c = 25.0;
  group.side_links = {{0, 1, 6.0, 0.4}, {1, 2, 3.0, 0.5}};
  group.partitions = {{0, 1, 22.0}};
  return group;
}

}  // namespace houseleek::tests::second_opinion
