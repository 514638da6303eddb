// Materials and recipes as the stepper sees them: layers, canopy, surfaces, net, gap, watering
// (docs/equations/covers.md).
#pragma once
#include <array>
#include <vector>

#include "climate/year.hpp"
#include "design/design.hpp"
#include "simulation/group.hpp"

namespace houseleek::simulation {

/// Heat alone; what the material does with water is left out.
/// Shape: struct and scalar in, struct out; pure.   Units: thickness in mm, conductivity and heat capacity at the
///        likely figures.
[[nodiscard]] Layer dry_layer(const catalogue::Material& material, double thickness_mm);

/// A layer that takes up, holds and drains water.
/// Shape: struct and scalar in, struct out; pure.   Valid: materials with a wet_rule.   Errors: ContractViolation
///        without one.
[[nodiscard]] Layer wet_layer(const catalogue::Material& material, double thickness_mm);

/// The deck, from the membrane down; neighbours of one material are one layer. No water in decks.
[[nodiscard]] std::vector<Layer> deck_layers(const design::Roof& roof);

/// A recipe's module on the deck, without its place: layers, roots, canopy, surface, net. `area_m2`, `room`, `deck`,
/// `under`, `gap` and the film
/// are left to the caller.
[[nodiscard]] Stack module_stack(const design::Recipe& recipe);

/// How a module of the recipe lies on the deck; `length_m` along the air's way.
struct ModuleSeat {
  Under under = Under::contact;
  Gap gap;
};
[[nodiscard]] ModuleSeat module_seat(const design::Recipe& recipe, design::Placed placed, double deck_emissivity,
                                     double length_m);

/// Thickness of all layers of the module.
[[nodiscard]] double module_height_m(const design::Recipe& recipe);

/// A shade net: closed threads exchange heat radiation, holes let it pass.
[[nodiscard]] Net net_from_screen(const design::Screen& screen);

enum class Season { summer, between, winter };

/// Season of each month, January first: the three hottest months are summer, the three coldest winter; from the
/// design's normals, else from the year.
[[nodiscard]] std::array<Season, 12> seasons_of(const design::Climate& climate, const climate::WeatherYear& year);

/// A recipe's watering as rules; empty if it is never watered.
/// Equation: depth = litres/(length width); days between waterings rounded to whole days d, depth times d/days;
///           neighbouring months with equal
///           days make one season, counted from its first day
[[nodiscard]] std::vector<Watering> watering_rules(const design::Recipe& recipe, const std::array<Season, 12>& seasons);

}  // namespace houseleek::simulation
