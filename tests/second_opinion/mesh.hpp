// Layers cut into slices and stores as docs/equations/stack.md says; written for the second program only.
#pragma once
#include <vector>

#include "simulation/group.hpp"

namespace houseleek::tests::second_opinion {

inline constexpr int no_store = -1;

struct Slice {
  double thickness_m = 0.0;
  int store = no_store;
  simulation::Layer layer;  // the properties; its thickness is not used
};

struct Store {
  double depth_m = 0.0;
  double root_frac = 0.0;
  int first_slice = 0;
  int end_slice = 0;  // one past the last
  simulation::Layer layer;
};

struct Mesh {
  std::vector<Slice> module;
  std::vector<Slice> deck;
  std::vector<Store> stores;
};

/// Equal neighbours (all fields alike but the thickness; roots compared by their density) become one layer.
[[nodiscard]] std::vector<simulation::Layer> merge_equal(const std::vector<simulation::Layer>& layers);
[[nodiscard]] Mesh make_mesh(const simulation::Stack& stack, int refinement);

[[nodiscard]] double conductivity_w_per_m_k(const simulation::Layer& layer, double water_frac);

}  // namespace houseleek::tests::second_opinion
