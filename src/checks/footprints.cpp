// Everything that stands on the roof for good: modules and containers, each with its place and its weight.
#include "checks/footprints.hpp"

#include "checks/allowance.hpp"
#include "checks/weights.hpp"

namespace houseleek::checks {
namespace {

constexpr double kn_per_kg = 0.001 * standard_gravity_m_per_s2;

}  // namespace

Footprint make_module_footprint(const design::ValidDesign& design, int recipe, design::Placed placed) {
  const design::Recipe& of = design->recipes[static_cast<std::size_t>(recipe)];
  const ModuleWeights weights = compute_weights(design, recipe, placed);
  const double kn_m2_per_kg = kn_per_kg * 1e-6 * of.length_mm * of.width_mm;
  Footprint one;
  one.dry_kn = kn_m2_per_kg * weights.dry_kg_per_m2;
  one.drained_kn = kn_m2_per_kg * weights.drained_kg_per_m2;
  one.soaked_kn = kn_m2_per_kg * weights.soaked_kg_per_m2;
  return one;
}

std::vector<Footprint> find_footprints(const design::ValidDesign& design) {
  std::vector<Footprint> of_patch;
  for (const design::Patch& patch : design->patches) {
    of_patch.push_back(make_module_footprint(design, patch.recipe, patch.placed));
  }
  std::vector<Footprint> all;
  for (std::size_t i = 0; i < design->modules.size(); ++i) {
    const design::ModulePlace& place = design->modules[i];
    all.push_back(of_patch[static_cast<std::size_t>(place.patch)]);
    all.back().rectangle = place.rectangle;
    all.back().module = static_cast<int>(i);
  }
  for (std::size_t i = 0; i < design->containers.size(); ++i) {
    const ContainerWeights weights = compute_container_weights(design->containers[i]);
    Footprint one;
    one.rectangle = design->containers[i].rectangle;
    one.container = static_cast<int>(i);
    one.dry_kn = kn_per_kg * weights.dry_kg;
    one.drained_kn = kn_per_kg * weights.drained_kg;
    one.soaked_kn = kn_per_kg * weights.soaked_kg;
    all.push_back(one);
  }
  return all;
}

}  // namespace houseleek::checks
