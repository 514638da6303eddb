// The depth of water at which a module, dry, lifts off and drifts.
#include "checks/flotation.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "checks/weights.hpp"

namespace houseleek::checks {

FloatingDepth find_floating_depth(const design::ValidDesign& design, int index, design::Placed placed) {
  expects(index >= 0 && index < static_cast<int>(design->recipes.size()), "a recipe of the design");
  const design::Recipe& recipe = design->recipes[static_cast<std::size_t>(index)];
  FloatingDepth floating;
  floating.dry_kg_per_m2 = compute_weights(design, index, placed).dry_kg_per_m2;
  double height_mm = 0.0;
  for (const design::RecipeLayer& layer : recipe.layers) height_mm += layer.layer.thickness_mm;
  const double under_mm = placed == design::Placed::raised ? recipe.spacer.height_mm : 0.0;
  floating.is_sinking_at_high_end = floating.dry_kg_per_m2.high >= height_mm;
  if (floating.dry_kg_per_m2.likely >= height_mm) return floating;
  floating.depth_mm = results::Interval{under_mm + floating.dry_kg_per_m2.low, under_mm + floating.dry_kg_per_m2.likely,
                                        under_mm + std::min(height_mm, floating.dry_kg_per_m2.high)};
  return floating;
}

Buoyancy judge_floating(const FloatingDepth& floating, const results::Interval& depth_mm) {
  if (!floating.depth_mm) return Buoyancy::stays;
  if (depth_mm.likely > floating.depth_mm->likely) return Buoyancy::floats;
  return depth_mm.high >= floating.depth_mm->low ? Buoyancy::not_shown : Buoyancy::stays;
}

}  // namespace houseleek::checks
