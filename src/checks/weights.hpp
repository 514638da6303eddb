// What a square metre of each recipe weighs: dry, drained, and with every pore that water reaches full.
#pragma once
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "results/figure.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

/// kg on a square metre of module (not of roof). Plants, cover sheet, net and, where it is raised, spacers are in all
/// three; the plants are fresh, as they stand.
struct ModuleWeights {
  results::Interval dry_kg_per_m2;
  results::Interval drained_kg_per_m2;
  results::Interval soaked_kg_per_m2;
  // What each range is made of: weights_from, or weighings.
  std::string dry_from;
  std::string drained_from;
  std::string soaked_from;
  results::Interval plants_kg_per_m2;    // of it: fresh plants, of which little is left in a dry summer
  std::vector<std::string> not_counted;  // parts whose weight nobody gave
};

/// Weights of one recipe, lying flat or raised.
/// Equation: dry = sum of d rho + plants + spacers / module area; drained adds 1000 d theta_field, soaked
///           1000 d theta_saturated of every layer and sheet
/// Symbols:  d: thickness; rho: dry density in bulk; theta: water by volume; where a material has no saturated share,
///           its porosity stands in; where it has neither, it takes up none
///           What was weighed (Recipe::weighed) takes its place, with the spacers added where raised; a state that was
///           not weighed is the weighed one next to it, with the water between them added or taken off
/// Shape:    one recipe in, three intervals out; pure.
/// Units:    kg/m2.
/// Valid:    ends of all ranges at once, so wider than any real heap; thickness as the design says.
/// Errors:   ContractViolation if there is no such recipe.
/// Source:   definition.   Checked by: tests/checks/weights_test.cpp.
[[nodiscard]] ModuleWeights compute_weights(const design::ValidDesign& design, int recipe, design::Placed placed);

/// A plain rival that has weight: net, or board with its ballast. Paint has none that counts.
struct RivalWeights {
  results::Interval dry_kg_per_m2;
  results::Interval soaked_kg_per_m2;
};
[[nodiscard]] RivalWeights compute_net_weights(const design::ValidDesign& design);
[[nodiscard]] RivalWeights compute_board_weights(const design::ValidDesign& design);

/// kg of one container with its plant, fresh, in all three.
struct ContainerWeights {
  results::Interval dry_kg;
  results::Interval drained_kg;
  results::Interval soaked_kg;
};
[[nodiscard]] ContainerWeights compute_container_weights(const design::Container& container);

/// What the ranges of weights are made of, in words.
inline constexpr std::string_view weights_from = "low and high ends of every density, water share and plant added up";

[[nodiscard]] results::Figure figure_from_weight(const results::Interval& weight);
[[nodiscard]] results::Figure figure_from_weight(const results::Interval& weight, const std::string& from);

}  // namespace houseleek::checks
