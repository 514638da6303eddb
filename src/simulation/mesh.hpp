// How layers are cut: slices for heat, stores for water.
#pragma once
#include <span>
#include <vector>

#include "simulation/group.hpp"

namespace houseleek::simulation {

struct Slice {
  double thickness_m = 0.0;
  int layer = 0;   // index into Mesh::layers
  int store = -1;  // index into Mesh::stores; -1: holds no water
};

struct WaterStore {
  double depth_m = 0.0;
  int layer = 0;
  int first_slice = 0;
  int n_slices = 0;
  double root_frac = 0.0;  // the layer's, by thickness
};

struct Mesh {
  std::vector<Layer> layers;  // equal neighbours merged
  std::vector<Slice> slices;
  std::vector<WaterStore> stores;
};

/// Cuts the layers of a module or a deck as docs/equations/stack.md says.
/// Shape:    layers top to bottom in, slices and stores top to bottom out. Pure.
/// Units:    as in the structs. `refinement` multiplies the number of slices (1 is the default mesh).
/// Errors:   throws ContractViolation for a layer without thickness, conductivity or capacity, or a refinement below 1.
[[nodiscard]] Mesh make_mesh(std::span<const Layer> layers, int refinement);

}  // namespace houseleek::simulation
