// Whether two groups would be stepped alike: what a run reads is the same to the last bit.
#include "studies/one_at_a_time_group.hpp"

#include <algorithm>
#include <tuple>

namespace houseleek::studies {
namespace {

using simulation::Group;
using simulation::Partition;
using simulation::Room;
using simulation::SideLink;
using simulation::Stack;
using simulation::WindowRule;

// Structured bindings name every field of a struct, or do not compile.

auto fields_of(const Stack& stack) {
  const auto& [name, area_m2, room, has_canopy, has_net, canopy, surface, net, under, gap, outside_film, inside_film,
               waterings, module, deck, initial_temperature_c] = stack;
  (void)name;
  return std::tie(area_m2, room, has_canopy, has_net, canopy, surface, net, under, gap, outside_film, inside_film,
                  waterings, module, deck, initial_temperature_c);
}

auto fields_of(const SideLink& link) {
  const auto& [first, second, edge_length_m, distance_m] = link;
  return std::tie(first, second, edge_length_m, distance_m);
}

auto fields_of(const WindowRule& rule) {
  const auto& [open_above_c, extra_per_h, from_hour, to_hour, only_when_outside_cooler] = rule;
  return std::tie(open_above_c, extra_per_h, from_hour, to_hour, only_when_outside_cooler);
}

auto fields_of(const Partition& partition) {
  const auto& [first, second, conductance_w_per_k] = partition;
  return std::tie(first, second, conductance_w_per_k);
}

bool is_same(const Room& a, const Room& b) {
  const auto fields = [](const Room& room) {
    const auto& [name, floor_area_m2, volume_m3, mass_to_surface_w_per_k, surface_to_air_w_per_k,
                 mass_to_outside_w_per_k, window_w_per_k, heat_capacity_j_per_k, total_surface_m2, mass_area_m2,
                 infiltration_per_h, window_rule, internal_gain_w, solar_gain_w, is_held, heat_below_c, cool_above_c,
                 is_prescribed, prescribed_c, initial_temperature_c] = room;
    (void)name;
    (void)window_rule;
    (void)heat_below_c;
    (void)cool_above_c;
    return std::tie(floor_area_m2, volume_m3, mass_to_surface_w_per_k, surface_to_air_w_per_k, mass_to_outside_w_per_k,
                    window_w_per_k, heat_capacity_j_per_k, total_surface_m2, mass_area_m2, infiltration_per_h,
                    internal_gain_w, solar_gain_w, is_held, is_prescribed, prescribed_c, initial_temperature_c);
  };
  // Machines keep no room that runs free.
  const bool is_kept_alike = !a.is_held || (a.heat_below_c == b.heat_below_c && a.cool_above_c == b.cool_above_c);
  return fields(a) == fields(b) && fields_of(a.window_rule) == fields_of(b.window_rule) && is_kept_alike;
}

template <class T>
bool is_same(const T& a, const T& b) {
  return fields_of(a) == fields_of(b);
}

template <class T>
bool is_same_list(const std::vector<T>& a, const std::vector<T>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const T& here, const T& there) { return is_same(here, there); });
}

}  // namespace

bool is_same_group(const Group& a, const Group& b) {
  const auto& [stacks, side_links, rooms, partitions, pressure_pa] = a;
  return is_same_list(stacks, b.stacks) && is_same_list(side_links, b.side_links) && is_same_list(rooms, b.rooms) &&
         is_same_list(partitions, b.partitions) && pressure_pa == b.pressure_pa;
}

}  // namespace houseleek::studies
