// How the second program cuts layers; where the page leaves a choice it is named here.
#include "mesh.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/contract.hpp"

namespace houseleek::tests::second_opinion {
namespace {

constexpr double top_m = 0.020;
constexpr double top_slice_m = 0.003;
constexpr double store_m = 0.040;

/// Rounded up, but 2.0000000001 counts as 2.
int parts(double thickness_m, double most_m) {
  return std::max(1, static_cast<int>(std::ceil(thickness_m / most_m - 1e-9)));
}

double largest_slice_m(const simulation::Layer& layer) {
  const double delta =
      std::sqrt(layer.conductivity_dry_w_per_m_k * 86400.0 / (std::numbers::pi * layer.heat_capacity_dry_j_per_m3_k));
  return delta / 16.0;
}

bool are_equal(const simulation::Layer& a, const simulation::Layer& b) {
  simulation::Layer other = b;
  other.thickness_m = a.thickness_m;
  other.root_frac = a.root_frac;
  const double density_a = a.root_frac / a.thickness_m;
  const double density_b = b.root_frac / b.thickness_m;
  return a == other && std::abs(density_a - density_b) <= 1e-9 * std::max(density_a, density_b);
}

/// One piece of a layer: cut in equal slices, and one store if it holds water.
void add_piece(Mesh& mesh, const simulation::Layer& layer, double thickness_m, double slice_m, int refinement) {
  const int n = parts(thickness_m, slice_m) * refinement;
  Slice slice;
  slice.thickness_m = thickness_m / n;
  slice.layer = layer;
  if (layer.saturated_frac > 0.0) {
    slice.store = static_cast<int>(mesh.stores.size());
    Store store;
    store.depth_m = thickness_m;
    store.root_frac = layer.root_frac * thickness_m / layer.thickness_m;
    store.first_slice = static_cast<int>(mesh.module.size());
    store.end_slice = store.first_slice + n;
    store.layer = layer;
    mesh.stores.push_back(store);
  }
  for (int i = 0; i < n; ++i) mesh.module.push_back(slice);
}

}  // namespace

std::vector<simulation::Layer> merge_equal(const std::vector<simulation::Layer>& layers) {
  std::vector<simulation::Layer> merged;
  for (const simulation::Layer& layer : layers) {
    if (!merged.empty() && are_equal(merged.back(), layer)) {
      merged.back().thickness_m += layer.thickness_m;
      merged.back().root_frac += layer.root_frac;
    } else {
      merged.push_back(layer);
    }
  }
  return merged;
}

Mesh make_mesh(const simulation::Stack& stack, int refinement) {
  expects(refinement >= 1, "a slice refinement of at least 1");
  Mesh mesh;
  bool is_top = true;
  for (const simulation::Layer& layer : merge_equal(stack.module)) {
    const double slice_m = largest_slice_m(layer);
    const bool holds_water = layer.saturated_frac > 0.0;
    double rest_m = layer.thickness_m;
    if (is_top && layer.is_medium) {
      const double cut_m = std::min(top_m, rest_m);
      add_piece(mesh, layer, cut_m, std::min(slice_m, top_slice_m), refinement);
      rest_m -= cut_m;
    }
    is_top = false;
    if (rest_m <= 1e-9) continue;
    // Stores are cut first and each is sliced apart, so that a slice never lies in two stores.
    const int n_stores = holds_water ? parts(rest_m, store_m) : 1;
    for (int i = 0; i < n_stores; ++i) add_piece(mesh, layer, rest_m / n_stores, slice_m, refinement);
  }
  for (const simulation::Layer& layer : merge_equal(stack.deck)) {
    expects(layer.saturated_frac == 0.0, "deck layers that hold no water");
    const int n = parts(layer.thickness_m, largest_slice_m(layer)) * refinement;
    Slice slice;
    slice.thickness_m = layer.thickness_m / n;
    slice.layer = layer;
    for (int i = 0; i < n; ++i) mesh.deck.push_back(slice);
  }
  expects(!mesh.deck.empty(), "a deck of at least one layer");
  return mesh;
}

double conductivity_w_per_m_k(const simulation::Layer& layer, double water_frac) {
  if (layer.saturated_frac <= 0.0) return layer.conductivity_dry_w_per_m_k;
  const double x = std::max(0.0, water_frac - layer.wet_from_frac) / layer.saturated_frac;
  return layer.conductivity_dry_w_per_m_k + layer.wet_rise_w_per_m_k * x / (1.0 + layer.wet_bend * x);
}

}  // namespace houseleek::tests::second_opinion
