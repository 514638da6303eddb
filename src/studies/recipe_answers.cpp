// What each recipe is by itself: its weight, and what the deck under it lets through by the standards' own rules.
#include "studies/recipe_answers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/flotation.hpp"
#include "checks/weights.hpp"
#include "physics/build_up.hpp"
#include "physics/constants.hpp"
#include "planting/food.hpp"
#include "simulation/cover_layers.hpp"

namespace houseleek::studies {
namespace {

using design::Placed;
using report::Figure;
using results::figure_missing;
using results::figure_with_range;
using results::figure_without_range;

constexpr std::string_view conductivity_from = "low and high ends of every dry conductivity together";
constexpr std::string_view wet_alone = "the range of wet conductivities is not worked out yet";
constexpr std::string_view swing_alone = "ranges of the daily swing are not worked out yet";
constexpr double widest_still_gap_m = 0.3;  // beyond it the standard has no resistance for a layer of air
constexpr double most_depths = 30.0;        // of a layer, in which a swing dies out beyond what the matrix bears

/// A build-up from inside to outside, films not counted, with the ends of its conductivities.
struct BuildUp {
  std::vector<physics::ThermalLayer> layers;
  double low_resistance_m2_k_per_w = 0.0;  // of all layers, every conductivity at its high end
  double high_resistance_m2_k_per_w = 0.0;

  void add(const physics::ThermalLayer& layer) {
    layers.push_back(layer);
    low_resistance_m2_k_per_w += layer.resistance_m2_k_per_w;
    high_resistance_m2_k_per_w += layer.resistance_m2_k_per_w;
  }
  void add(const catalogue::Material& material, double thickness_mm) {
    const double thickness_m = 0.001 * thickness_mm;
    const catalogue::Spread& conductivity = material.conductivity_w_per_m_k;
    layers.push_back(physics::thermal_layer({.thickness_m = thickness_m,
                                             .conductivity_w_per_m_k = conductivity.likely,
                                             .density_kg_per_m3 = material.density_kg_per_m3.likely,
                                             .specific_heat_j_per_kg_k = material.heat_capacity_j_per_kg_k.likely}));
    low_resistance_m2_k_per_w += thickness_m / conductivity.high;
    high_resistance_m2_k_per_w += thickness_m / conductivity.low;
  }
};

double inside_m2_k_per_w() { return physics::inside_surface_resistance_m2_k_per_w(physics::HeatDirection::up); }

std::vector<physics::ThermalLayer> with_films(const BuildUp& build_up, double outside_m2_k_per_w) {
  std::vector<physics::ThermalLayer> all = {{inside_m2_k_per_w()}};
  all.insert(all.end(), build_up.layers.begin(), build_up.layers.end());
  all.push_back({outside_m2_k_per_w});
  return all;
}

Figure u_value_of(const BuildUp& build_up, double outside_m2_k_per_w) {
  const double films = inside_m2_k_per_w() + outside_m2_k_per_w;
  return figure_with_range(physics::transmittance_w_per_m2_k(with_films(build_up, outside_m2_k_per_w)),
                           1.0 / (films + build_up.high_resistance_m2_k_per_w),
                           1.0 / (films + build_up.low_resistance_m2_k_per_w), std::string(conductivity_from));
}

struct Swing {
  Figure decrement_factor;
  Figure time_lag_h;
};

Swing swing_of(const BuildUp& build_up, double outside_m2_k_per_w) {
  for (const physics::ThermalLayer& layer : build_up.layers) {
    const double depths =
        std::sqrt(physics::pi * layer.resistance_m2_k_per_w * layer.capacity_j_per_m2_k / physics::day_s);
    if (depths < most_depths) continue;
    const Figure none = figure_missing("a layer is so thick that the daily swing does not come through");
    return {none, none};
  }
  const physics::PeriodicValues values = physics::periodic_values(with_films(build_up, outside_m2_k_per_w));
  return {figure_without_range(values.decrement_frac, std::string(swing_alone)),
          figure_without_range(values.time_lag_h, std::string(swing_alone))};
}

BuildUp deck_of(const design::Roof& roof) {
  BuildUp deck;
  for (auto layer = roof.deck.rbegin(); layer != roof.deck.rend(); ++layer) {
    deck.add(layer->material, layer->thickness_mm);
  }
  return deck;
}

double wet_conductivity_w_per_m_k(const simulation::Layer& layer) {
  const double wet_frac = std::max(0.0, layer.field_capacity_frac - layer.wet_from_frac);
  const double x = layer.saturated_frac > 0.0 ? wet_frac / layer.saturated_frac : 0.0;
  return layer.conductivity_dry_w_per_m_k + layer.wet_rise_w_per_m_k * x / (1.0 + layer.wet_bend * x);
}

/// The module from below; wet with every store at field capacity.
void add_module(BuildUp& build_up, const design::Recipe& recipe, bool is_wet) {
  if (!is_wet) {
    for (auto layer = recipe.layers.rbegin(); layer != recipe.layers.rend(); ++layer) {
      build_up.add(layer->layer.material, layer->layer.thickness_mm);
    }
    return;
  }
  const std::vector<simulation::Layer> layers = simulation::module_stack(recipe).module;
  for (auto layer = layers.rbegin(); layer != layers.rend(); ++layer) {
    build_up.add(physics::ThermalLayer{layer->thickness_m / wet_conductivity_w_per_m_k(*layer)});
  }
}

report::PlacedAnswer answer_flat(const design::ValidDesign& design, const design::Recipe& recipe) {
  const auto build_up = [&](bool is_wet) {
    BuildUp made = deck_of(design->roof);
    made.add(physics::ThermalLayer{
        simulation::module_seat(recipe, Placed::flat, 0.9, 1.0).gap.contact_resistance_m2_k_per_w});
    add_module(made, recipe, is_wet);
    return made;
  };
  const double outside = physics::outside_surface_resistance_m2_k_per_w;
  report::PlacedAnswer answer;
  const BuildUp dry = build_up(false);
  answer.u_value_dry_w_per_m2_k = u_value_of(dry, outside);
  answer.u_value_wet_w_per_m2_k = figure_without_range(
      physics::transmittance_w_per_m2_k(with_films(build_up(true), outside)), std::string(wet_alone));
  const Swing swing = swing_of(dry, outside);
  answer.decrement_factor = swing.decrement_factor;
  answer.time_lag_h = swing.time_lag_h;
  answer.note = "The module lies on the roof; rain running below it is not counted.";
  return answer;
}

double opening_mm2_per_m2(const design::Recipe& recipe) {
  if (recipe.spacer.edges == design::Edges::closed) return 0.0;
  const double perimeter_mm = 2.0 * (recipe.length_mm + recipe.width_mm);
  const double module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
  return recipe.spacer.height_mm * perimeter_mm * (1.0 - recipe.spacer.blocked_frac) / module_m2;
}

report::PlacedAnswer answer_raised(const design::ValidDesign& design, const design::Recipe& recipe) {
  const double opening = opening_mm2_per_m2(recipe);
  const double gap_m = 0.001 * recipe.spacer.height_mm;
  const physics::AirLayerVentilation ventilation = physics::air_layer_ventilation(opening);
  report::PlacedAnswer answer;
  const BuildUp deck = deck_of(design->roof);
  if (ventilation == physics::AirLayerVentilation::well) {
    answer.u_value_dry_w_per_m2_k = u_value_of(deck, inside_m2_k_per_w());
    answer.u_value_wet_w_per_m2_k = answer.u_value_dry_w_per_m2_k;
    const Swing swing = swing_of(deck, inside_m2_k_per_w());
    answer.decrement_factor = swing.decrement_factor;
    answer.time_lag_h = swing.time_lag_h;
    answer.note =
        "The gap counts as well ventilated by ISO 6946: module and gap are left out. The figures by the hour come from "
        "the simulated gap.";
    return answer;
  }
  if (gap_m > widest_still_gap_m) {
    const Figure none = figure_missing("ISO 6946 has no resistance for still air more than 300 mm high");
    return {none, none, none, none, "The gap is closed or nearly so."};
  }
  const physics::ThermalLayer air = {
      physics::air_layer_resistance_m2_k_per_w({.thickness_m = gap_m, .direction = physics::HeatDirection::up})};
  const auto build_up = [&](bool is_wet) {
    BuildUp made = deck;
    made.add(air);
    add_module(made, recipe, is_wet);
    return made;
  };
  const double outside = physics::outside_surface_resistance_m2_k_per_w;
  const double ventilated = 2.0 * inside_m2_k_per_w();
  const auto u_between = [&](double still_layers, double deck_layers) {
    const physics::TotalResistances totals = {.unventilated_m2_k_per_w = inside_m2_k_per_w() + still_layers + outside,
                                              .well_ventilated_m2_k_per_w = ventilated + deck_layers};
    return 1.0 / physics::ventilated_total_resistance_m2_k_per_w(totals, opening);
  };
  const auto likely = [](const BuildUp& made) { return physics::total_resistance_m2_k_per_w(made.layers); };
  const BuildUp dry = build_up(false);
  answer.u_value_dry_w_per_m2_k = figure_with_range(
      u_between(likely(dry), likely(deck)), u_between(dry.high_resistance_m2_k_per_w, deck.high_resistance_m2_k_per_w),
      u_between(dry.low_resistance_m2_k_per_w, deck.low_resistance_m2_k_per_w), std::string(conductivity_from));
  answer.u_value_wet_w_per_m2_k =
      figure_without_range(u_between(likely(build_up(true)), likely(deck)), std::string(wet_alone));
  const Swing swing = swing_of(dry, outside);
  answer.decrement_factor = swing.decrement_factor;
  answer.time_lag_h = swing.time_lag_h;
  answer.note = ventilation == physics::AirLayerVentilation::slight
                    ? "The gap counts as slightly ventilated by ISO 6946; the daily swing is that of still air in it."
                    : "The gap counts as still air by ISO 6946.";
  return answer;
}

Figure floating_depth_mm(const checks::FloatingDepth& floating) {
  if (!floating.depth_mm) return figure_missing("heavier, dry, than the water it takes the place of");
  const results::Interval& depth_mm = *floating.depth_mm;
  return figure_with_range(
      depth_mm.likely, depth_mm.low, depth_mm.high,
      fmt::format("low to high dry weight, as if no water got in; one that lets water in floats later or not at all{}",
                  floating.is_sinking_at_high_end ? "; at the high end it does not float" : ""));
}

}  // namespace

std::string deck_in_words(const design::Roof& roof) {
  std::string words;
  for (const design::Layer& layer : roof.deck) {
    words += fmt::format("{}{:.6g} mm {}", words.empty() ? "" : ", ", layer.thickness_mm, layer.material_name);
  }
  return words;
}

report::DeckAnswer answer_deck(const design::ValidDesign& design) {
  const BuildUp deck = deck_of(design->roof);
  const double outside = physics::outside_surface_resistance_m2_k_per_w;
  const Swing swing = swing_of(deck, outside);
  return {.u_value_w_per_m2_k = u_value_of(deck, outside),
          .decrement_factor = swing.decrement_factor,
          .time_lag_h = swing.time_lag_h};
}

std::vector<report::RecipeAnswer> answer_recipes(const design::ValidDesign& design) {
  std::vector<report::RecipeAnswer> answers;
  for (std::size_t i = 0; i < design->recipes.size(); ++i) {
    const design::Recipe& recipe = design->recipes[i];
    const checks::ModuleWeights weights = checks::compute_weights(design, static_cast<int>(i), recipe.placed);
    report::RecipeAnswer answer;
    answer.name = recipe.name;
    for (const design::Patch& patch : design->patches) {
      if (patch.recipe == static_cast<int>(i)) answer.n_modules += static_cast<int>(design::module_count(patch));
    }
    answer.mass_dry_kg_per_m2 = checks::figure_from_weight(weights.dry_kg_per_m2, weights.dry_from);
    answer.mass_drained_kg_per_m2 = checks::figure_from_weight(weights.drained_kg_per_m2, weights.drained_from);
    answer.mass_soaked_kg_per_m2 = checks::figure_from_weight(weights.soaked_kg_per_m2, weights.soaked_from);
    answer.mass_not_counted = weights.not_counted;
    answer.deck = deck_in_words(design->roof);
    answer.flat = answer_flat(design, recipe);
    if (recipe.spacer.height_mm > 0.0) answer.raised = answer_raised(design, recipe);
    answer.floats_at_mm = floating_depth_mm(checks::find_floating_depth(design, static_cast<int>(i), recipe.placed));
    const planting::FoodWord food = planting::food_in(recipe);
    answer.edible = planting::word_of(food.word);
    answer.edible_because = food.because;
    const planting::FoodWord water = planting::food_from_roof_water(design->roof);
    answer.edible_with_roof_water = planting::word_of(std::max(food.word, water.word));
    answer.roof_water_because = water.because;
    answers.push_back(std::move(answer));
  }
  return answers;
}

}  // namespace houseleek::studies
