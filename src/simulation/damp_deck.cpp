// From a roof's deck to the layers that hold damp and the sheets between them.
#include "simulation/damp_deck.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "numerics/elementary.hpp"

namespace houseleek::simulation {
namespace {

using catalogue::Material;
using catalogue::Spread;
using design::Layer;

constexpr double metres_per_mm = 0.001;
// Of a sheet that names no s_d: what resists this much lets so little through that its own water does not count.
constexpr double tight_factor = 1000.0;
constexpr double thin_sheet_mm = 3.0;
constexpr double insulating_w_per_m_k = 0.065;
constexpr double least_insulation_mm = 20.0;
// The steady method is exact only where layers are thin for heat [iso13788].
constexpr double most_part_m2_k_per_w = 0.25;
constexpr double reference_c = 10.0;

double end_of(const Spread& spread, RangeEnd end) {
  return end == RangeEnd::low ? spread.low : end == RangeEnd::high ? spread.high : spread.likely;
}

bool is_plant_stuff(const Material& material) {
  using catalogue::Family;
  return material.family == Family::wood || material.family == Family::plant_fibre ||
         material.family == Family::animal_fibre;
}

bool is_insulation(const Layer& layer) {
  return layer.thickness_mm >= least_insulation_mm &&
         layer.material.conductivity_w_per_m_k.likely <= insulating_w_per_m_k;
}

bool holds_damp(const Material& material) { return material.free_water_kg_per_m3.has_value(); }

bool has_resistance(const Material& material) {
  return material.vapour_air_layer_m || material.vapour_resistance_factor_dry;
}

/// A sheet: nothing is known of water in it, and none is expected.
bool is_sheet(const Layer& layer) {
  const Material& material = layer.material;
  return !holds_damp(material) && has_resistance(material) &&
         (material.vapour_air_layer_m.has_value() || material.vapour_resistance_factor_dry->likely >= tight_factor ||
          layer.thickness_mm <= thin_sheet_mm);
}

/// The still air that resists as the layer does.
double air_layer_m(const Layer& layer, RangeEnd end) {
  const Material& material = layer.material;
  if (material.vapour_air_layer_m) return end_of(*material.vapour_air_layer_m, end);
  expects(material.vapour_resistance_factor_dry.has_value(), "a layer whose vapour resistance is known");
  return end_of(*material.vapour_resistance_factor_dry, end) * metres_per_mm * layer.thickness_mm;
}

physics::SorptionPoints points_of(const Material& material, RangeEnd end) {
  return {end_of(*material.water_at_50_percent_kg_per_m3, end), end_of(*material.water_at_80_percent_kg_per_m3, end),
          end_of(*material.free_water_kg_per_m3, end)};
}

bool has_curves(const Material& material) {
  return physics::can_pass_through(points_of(material, RangeEnd::low)) &&
         physics::can_pass_through(points_of(material, RangeEnd::likely)) &&
         physics::can_pass_through(points_of(material, RangeEnd::high));
}

physics::Porous porous_from(const Material& material, const DampChoice& choice, double pressure_pa) {
  const Spread& dry = *material.vapour_resistance_factor_dry;
  const Spread& wet = material.vapour_resistance_factor_wet ? *material.vapour_resistance_factor_wet : dry;
  return {.density_kg_per_m3 = material.density_kg_per_m3.likely,
          .heat_capacity_j_per_kg_k = material.heat_capacity_j_per_kg_k.likely,
          .conductivity_w_per_m_k = material.conductivity_w_per_m_k.likely,
          .moisture_conversion = material.moisture_conversion_m3_per_m3->likely,
          .sorption = physics::sorption_through(points_of(material, choice.holds)),
          .water_absorption_kg_per_m2_s05 = end_of(*material.water_absorption_kg_per_m2_s05, choice.holds),
          .vapour_resistance_factor_dry = end_of(dry, choice.layers),
          .vapour_resistance_factor_wet = end_of(wet, choice.layers),
          .pressure_pa = pressure_pa};
}

/// Four times as many change the greatest water of a light deck by less than 5 %
/// (tests/simulation/damp_deck_test.cpp): far less than what the ranges of its materials do.
int n_slices(const Layer& layer) {
  constexpr double thin_mm = 15.0;
  return layer.thickness_mm <= thin_mm ? 4 : 8;
}

/// Cut in parts thin enough for the steady method.
void add_steady(double heat_m2_k_per_w, double vapour, std::vector<physics::SteadyLayer>& steady) {
  const int n_parts = 1 + static_cast<int>(heat_m2_k_per_w / most_part_m2_k_per_w);
  for (int part = 0; part < n_parts; ++part) steady.push_back({heat_m2_k_per_w / n_parts, vapour / n_parts});
}

double steady_resistance(double air_layer_thickness_m) {
  return air_layer_thickness_m / physics::steady_air_permeability_kg_per_m_s_pa;
}

/// Index of the lowest layer that insulates.
std::optional<std::size_t> lowest_insulation(const design::Roof& roof) {
  std::optional<std::size_t> lowest;
  for (std::size_t i = 0; i < roof.deck.size(); ++i) {
    if (is_insulation(roof.deck[i])) lowest = i;
  }
  return lowest;
}

}  // namespace

bool has_timber(const design::Roof& roof) {
  return std::any_of(roof.deck.begin(), roof.deck.end(),
                     [](const Layer& layer) { return is_plant_stuff(layer.material); });
}

bool has_insulation(const design::Roof& roof) { return lowest_insulation(roof).has_value(); }

bool has_vapour_control(const design::Roof& roof) {
  bool is_below_insulation = false;
  for (const Layer& layer : roof.deck) {
    if (is_below_insulation && !is_insulation(layer) && has_resistance(layer.material) &&
        air_layer_m(layer, RangeEnd::likely) >= least_retarder_m) {
      return true;
    }
    is_below_insulation = is_below_insulation || is_insulation(layer);
  }
  return false;
}

double membrane_air_layer_m(const design::Roof& roof, RangeEnd end) {
  double sum_m = 0.0;
  for (const Layer& layer : roof.deck) {
    if (!is_sheet(layer)) break;
    sum_m += air_layer_m(layer, end);
  }
  return sum_m;
}

std::string damp_figures_missing(const design::Roof& roof) {
  bool has_layer = false;
  for (const Layer& layer : roof.deck) {
    const Material& material = layer.material;
    if (is_sheet(layer)) continue;
    if (!holds_damp(material) || !has_resistance(material)) {
      return "the catalogue does not say how much water " + layer.material_name +
             " holds or how it lets vapour through";
    }
    if (!has_curves(material) || !material.vapour_resistance_factor_dry) {
      return "no sorption curve of the form used passes through the water figures of " + layer.material_name;
    }
    has_layer = true;
  }
  return has_layer ? "" : "no layer of the deck holds water";
}

DampBuildUp make_damp_build_up(const design::Roof& roof, const DampChoice& choice, double pressure_pa) {
  expects(damp_figures_missing(roof).empty(), "a deck of which enough is known");
  const double air = physics::air_vapour_permeability_kg_per_m_s_pa(reference_c, pressure_pa);
  DampBuildUp built;
  built.deck.sheets.emplace_back();
  const auto add_sheet = [&](double heat_m2_k_per_w, double air_layer_thickness_m) {
    DampSheet& sheet = built.deck.sheets.back();
    sheet.heat_resistance_m2_k_per_w += heat_m2_k_per_w;
    sheet.vapour_resistance_m2_s_pa_per_kg += air_layer_thickness_m / air;
    sheet.lets_liquid_through = false;
    add_steady(heat_m2_k_per_w, steady_resistance(air_layer_thickness_m), built.steady);
  };
  const std::optional<std::size_t> insulation = lowest_insulation(roof);
  for (std::size_t i = 0; i < roof.deck.size(); ++i) {
    const Layer& layer = roof.deck[i];
    const Material& material = layer.material;
    const double thickness_m = metres_per_mm * layer.thickness_mm;
    const double heat_m2_k_per_w = thickness_m / material.conductivity_w_per_m_k.likely;
    if (is_sheet(layer)) {
      const bool is_membrane = built.deck.layers.empty();
      add_sheet(heat_m2_k_per_w, air_layer_m(layer, is_membrane ? choice.membrane : choice.layers));
    } else {
      built.laws.push_back(std::make_unique<physics::PorousLaw>(porous_from(material, choice, pressure_pa)));
      built.deck.layers.push_back({built.laws.back().get(), thickness_m, n_slices(layer), choice.start_humidity, 15.0});
      built.deck.sheets.emplace_back();
      built.names.push_back(layer.material_name);
      built.is_wood.push_back(is_plant_stuff(material));
      built.density_kg_per_m3.push_back(material.density_kg_per_m3.likely);
      add_steady(heat_m2_k_per_w,
                 steady_resistance(end_of(*material.vapour_resistance_factor_dry, choice.layers) * thickness_m),
                 built.steady);
    }
    if (insulation == i && choice.retarder_air_layer_m) add_sheet(0.0, *choice.retarder_air_layer_m);
  }
  return built;
}

}  // namespace houseleek::simulation
