// What a square metre of each recipe weighs: dry, drained, and with every pore that water reaches full.
#include "checks/weights.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/contract.hpp"
#include "plan/assumed_interval.hpp"

namespace houseleek::checks {
namespace {

using catalogue::Material;
using results::exactly;
using results::Interval;

constexpr double water_kg_per_m3 = 1000.0;

struct Sum {
  Interval dry;
  Interval drained_water;
  Interval soaked_water;
};

void add_slab(Sum& sum, const Material& material, const Interval& thickness_mm) {
  const Interval thickness_m = 0.001 * thickness_mm;
  sum.dry = sum.dry + thickness_m * plan::interval_from(material.density_kg_per_m3);
  const Interval full_kg_per_m2 = water_kg_per_m3 * thickness_m;
  if (material.field_capacity_frac) {
    sum.drained_water = sum.drained_water + full_kg_per_m2 * plan::interval_from(*material.field_capacity_frac);
  }
  if (material.saturated_water_frac) {
    sum.soaked_water = sum.soaked_water + full_kg_per_m2 * plan::interval_from(*material.saturated_water_frac);
  } else if (material.porosity_frac) {
    sum.soaked_water = sum.soaked_water + full_kg_per_m2 * plan::interval_from(*material.porosity_frac);
  }
}

Interval screen_thickness_mm(const design::ValidDesign& design, int recipe, std::string_view which,
                             const design::Screen& screen) {
  return plan::assumed_interval(design, fmt::format("recipe[{}].{}.thickness_mm", recipe, which), screen.thickness_mm);
}

/// Fresh plants on a square metre of module.
Interval plants_kg_per_m2(const design::ValidDesign& design, int index, const design::Recipe& recipe) {
  if (recipe.canopy.cover_frac == 0.0) return exactly(0.0);
  Interval cover_frac = exactly(0.0);
  for (std::size_t i = 0; i < recipe.plants.size(); ++i) {
    cover_frac = cover_frac + plan::assumed_interval(design, fmt::format("recipe[{}].plant[{}].cover_frac", index, i),
                                                     recipe.plants[i].cover_frac);
  }
  return cover_frac * plan::assumed_interval(design, fmt::format("recipe[{}].canopy.fresh_mass_kg_per_m2", index),
                                             recipe.canopy.fresh_mass_kg_per_m2);
}

/// A module in one state.
struct StateWeight {
  Interval kg_per_m2;
  std::string from;
};

/// The water between two states of the estimate, by the same ends of both.
Interval water_between(const Interval& less, const Interval& more) {
  const double at_low = more.low - less.low;
  const double at_likely = more.likely - less.likely;
  const double at_high = more.high - less.high;
  return {std::min({at_low, at_likely, at_high}), at_likely, std::max({at_low, at_likely, at_high})};
}

/// Dry, drained, soaked: what was weighed in its place, with the spacers; the others by the water between.
void put_weighed(const design::Weighed& weighed, const Interval& spacers, std::array<StateWeight, 3>& states) {
  const std::array<const std::optional<catalogue::Spread>*, 3> given = {
      &weighed.dry_kg_per_m2, &weighed.drained_kg_per_m2, &weighed.soaked_kg_per_m2};
  constexpr std::array<std::string_view, 3> names = {"dry", "drained", "soaked"};
  const std::array<StateWeight, 3> estimate = states;
  for (std::size_t i = 0; i < states.size(); ++i) {
    // The state itself, else the next one with less water, else the next one with more.
    std::optional<std::size_t> next;
    for (std::size_t j = i + 1; j-- > 0 && !next;) {
      if (*given[j]) next = j;
    }
    for (std::size_t j = i + 1; j < states.size() && !next; ++j) {
      if (*given[j]) next = j;
    }
    if (!next) continue;
    const catalogue::Spread& scale = **given[*next];
    const Interval weight = plan::interval_from(scale) + spacers;
    if (*next == i) {
      states[i] = {weight, scale.source};
      continue;
    }
    const std::string from =
        fmt::format("{} weight ({}) and the water that the materials hold", names[*next], scale.source);
    if (*next < i) {
      states[i] = {weight + water_between(estimate[*next].kg_per_m2, estimate[i].kg_per_m2), from};
      continue;
    }
    const Interval water = water_between(estimate[i].kg_per_m2, estimate[*next].kg_per_m2);
    // No module weighs less than nothing, whatever the materials are said to hold.
    states[i] = {{std::max(0.0, weight.low - water.high), std::max(0.0, weight.likely - water.likely),
                  std::max(0.0, weight.high - water.low)},
                 from};
  }
}

}  // namespace

ModuleWeights compute_weights(const design::ValidDesign& design, int index, design::Placed placed) {
  expects(index >= 0 && index < static_cast<int>(design->recipes.size()), "a recipe of the design");
  const design::Recipe& recipe = design->recipes[static_cast<std::size_t>(index)];
  ModuleWeights weights;
  Sum sum;
  for (const design::RecipeLayer& layer : recipe.layers) {
    add_slab(sum, layer.layer.material, exactly(layer.layer.thickness_mm));
  }
  if (recipe.cover) {
    add_slab(sum, recipe.cover->material, screen_thickness_mm(design, index, "cover", *recipe.cover));
  }
  if (recipe.net) {
    add_slab(sum, recipe.net->material, screen_thickness_mm(design, index, "net", *recipe.net));
    weights.not_counted.emplace_back("the frame that holds the net");
  }
  weights.plants_kg_per_m2 = plants_kg_per_m2(design, index, recipe);
  sum.dry = sum.dry + weights.plants_kg_per_m2;
  Interval spacers_kg_per_m2 = exactly(0.0);
  if (placed == design::Placed::raised) {
    const double module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
    spacers_kg_per_m2 =
        (1.0 / module_m2) * plan::assumed_interval(design, fmt::format("recipe[{}].spacer.mass_kg_per_module", index),
                                                   recipe.spacer.mass_kg_per_module);
  }
  const Interval dry = sum.dry + spacers_kg_per_m2;
  std::array<StateWeight, 3> states = {{{dry, std::string(weights_from)},
                                        {dry + sum.drained_water, std::string(weights_from)},
                                        {dry + sum.soaked_water, std::string(weights_from)}}};
  if (recipe.weighed) put_weighed(*recipe.weighed, spacers_kg_per_m2, states);
  weights.dry_kg_per_m2 = states[0].kg_per_m2;
  weights.drained_kg_per_m2 = states[1].kg_per_m2;
  weights.soaked_kg_per_m2 = states[2].kg_per_m2;
  weights.dry_from = states[0].from;
  weights.drained_from = states[1].from;
  weights.soaked_from = states[2].from;
  return weights;
}

RivalWeights compute_net_weights(const design::ValidDesign& design) {
  Sum sum;
  const design::Screen& net = design->rivals.net;
  add_slab(sum, net.material, plan::assumed_interval(design, "rivals.net.thickness_mm", net.thickness_mm));
  return {.dry_kg_per_m2 = sum.dry, .soaked_kg_per_m2 = sum.dry + sum.soaked_water};
}

RivalWeights compute_board_weights(const design::ValidDesign& design) {
  Sum sum;
  const design::Rivals& rivals = design->rivals;
  add_slab(sum, rivals.board.material,
           plan::assumed_interval(design, "rivals.board_thickness_mm", rivals.board.thickness_mm));
  add_slab(sum, rivals.ballast.material,
           plan::assumed_interval(design, "rivals.ballast_thickness_mm", rivals.ballast.thickness_mm));
  return {.dry_kg_per_m2 = sum.dry, .soaked_kg_per_m2 = sum.dry + sum.soaked_water};
}

ContainerWeights compute_container_weights(const design::Container& container) {
  Sum sum;
  add_slab(sum, container.fill.material, exactly(container.fill.thickness_mm));
  const double base_m2 = 1e-6 * container.length_mm * container.width_mm;
  const Interval alone = exactly(container.empty_kg + container.plant_kg);
  return {.dry_kg = alone + base_m2 * sum.dry,
          .drained_kg = alone + base_m2 * (sum.dry + sum.drained_water),
          .soaked_kg = alone + base_m2 * (sum.dry + sum.soaked_water)};
}

results::Figure figure_from_weight(const Interval& weight) {
  return figure_from_weight(weight, std::string(weights_from));
}

results::Figure figure_from_weight(const Interval& weight, const std::string& from) {
  return results::figure_with_range(weight.likely, weight.low, weight.high, from);
}

}  // namespace houseleek::checks
