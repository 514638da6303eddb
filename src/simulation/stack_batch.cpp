// Makes batches: picks the code for a topology and a width.
#include "simulation/stack_batch.hpp"

#include "simulation/stack_batch_step.hpp"

namespace houseleek::simulation {

namespace {

template <class L>
std::unique_ptr<StackBatch> make_with(std::span<const Stack* const> stacks, std::span<const StackMeshes* const> meshes,
                                      double pressure_pa) {
  const Stack& s = *stacks[0];
  if (s.under == Under::nothing) {
    if (s.has_net) return std::make_unique<StackBatchOf<L, false, true, false>>(stacks, meshes, pressure_pa);
    return std::make_unique<StackBatchOf<L, false, false, false>>(stacks, meshes, pressure_pa);
  }
  if (s.has_canopy) {
    if (s.has_net) return std::make_unique<StackBatchOf<L, true, true, true>>(stacks, meshes, pressure_pa);
    return std::make_unique<StackBatchOf<L, true, false, true>>(stacks, meshes, pressure_pa);
  }
  if (s.has_net) return std::make_unique<StackBatchOf<L, false, true, true>>(stacks, meshes, pressure_pa);
  return std::make_unique<StackBatchOf<L, false, false, true>>(stacks, meshes, pressure_pa);
}

}  // namespace

Topology topology_of(const Stack& stack, const StackMeshes& meshes) {
  Topology topology{.has_canopy = stack.has_canopy,
                    .has_net = stack.has_net,
                    .under = stack.under,
                    .module_stores = {},
                    .n_deck = static_cast<int>(meshes.deck.slices.size())};
  for (const Slice& slice : meshes.module.slices) topology.module_stores.push_back(slice.store);
  return topology;
}

std::unique_ptr<StackBatch> make_batch(int width, std::span<const Stack* const> stacks,
                                       std::span<const StackMeshes* const> meshes, double pressure_pa) {
  switch (width) {
    case 1:
      return make_with<double>(stacks, meshes, pressure_pa);
    case 2:
      return make_with<numerics::Lane<2>>(stacks, meshes, pressure_pa);
    case 4:
      return make_with<numerics::Lane<4>>(stacks, meshes, pressure_pa);
    default:
      expects(false, "a width of 1, 2 or 4 lanes");
      return nullptr;
  }
}

}  // namespace houseleek::simulation
