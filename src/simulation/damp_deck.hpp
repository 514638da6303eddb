// From a roof's deck to the layers that hold damp and the sheets between them (docs/equations/damp.md).
#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "design/roof.hpp"
#include "physics/porous.hpp"
#include "physics/steady_damp.hpp"
#include "simulation/damp.hpp"

namespace houseleek::simulation {

/// Which end of a range is taken.
enum class RangeEnd { low, likely, high };

/// What of a deck is varied; the rest stands at its likely figures.
struct DampChoice {
  RangeEnd membrane = RangeEnd::likely;  // vapour resistance of the sheets above the first layer that holds damp
  RangeEnd layers = RangeEnd::likely;    // vapour resistance of the layers that hold damp
  RangeEnd holds = RangeEnd::likely;     // water that they hold, and what they suck
  double start_humidity = 0.8;
  // A sheet that the deck does not name, below the lowest insulation: the still air that resists as much.
  std::optional<double> retarder_air_layer_m = std::nullopt;
};

/// A deck ready to be run. Layers, names and flags are in one order.
struct DampBuildUp {
  std::vector<std::unique_ptr<physics::PorousLaw>> laws;
  DampDeck deck;
  std::vector<std::string> names;
  std::vector<bool> is_wood;  // wood and what is made of plants: it rots
  std::vector<double> density_kg_per_m3;
  std::vector<physics::SteadyLayer> steady;  // the same for the steady method, without films; layers cut in parts
};

/// True where a deck can be hurt by damp from inside: it has timber or other plant stuff in it, or insulation.
[[nodiscard]] bool has_timber(const design::Roof& roof);
[[nodiscard]] bool has_insulation(const design::Roof& roof);

/// A sheet or layer below the topmost insulation that resists vapour as least_retarder_m of still air does.
[[nodiscard]] bool has_vapour_control(const design::Roof& roof);
inline constexpr double least_retarder_m = 2.0;

/// Still air that resists vapour as the sheets above the first layer that holds damp do.
[[nodiscard]] double membrane_air_layer_m(const design::Roof& roof, RangeEnd end);

/// Why the deck cannot be run: a material of which too little is known; empty where it can.
[[nodiscard]] std::string damp_figures_missing(const design::Roof& roof);

/// Layers that hold water as the catalogue knows it, and sheets (no water figures; tight, thin, or by an air layer).
/// Shape:    a roof and a choice in, a build-up out; pure.
/// Units:    vapour resistance of a sheet: s_d or mu d over the permeability of air at 10 degC.
/// Valid:    damp_figures_missing(roof) is empty (else a contract violation).
[[nodiscard]] DampBuildUp make_damp_build_up(const design::Roof& roof, const DampChoice& choice, double pressure_pa);

}  // namespace houseleek::simulation
