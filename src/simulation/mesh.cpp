// How layers are cut: slices for heat, stores for water.
#include "simulation/mesh.hpp"

#include "base/contract.hpp"
#include "numerics/lane.hpp"
#include "physics/constants.hpp"

namespace houseleek::simulation {

namespace {

constexpr double top_zone_m = 0.020;
constexpr double top_slice_m = 0.003;
constexpr double store_depth_m = 0.040;

std::vector<Layer> merge_equal(std::span<const Layer> layers) {
  std::vector<Layer> merged;
  for (const Layer& layer : layers) {
    if (!merged.empty()) {
      Layer same_but_size = layer;
      same_but_size.thickness_m = merged.back().thickness_m;
      same_but_size.root_frac = merged.back().root_frac;
      if (same_but_size == merged.back()) {
        merged.back().thickness_m += layer.thickness_m;
        merged.back().root_frac += layer.root_frac;
        continue;
      }
    }
    merged.push_back(layer);
  }
  return merged;
}

int pieces(double thickness_m, double largest_m) {
  // The tiny allowance keeps 40 mm cut at 20 mm from becoming three pieces by rounding.
  const double exact = thickness_m / largest_m;
  int n = static_cast<int>(exact);
  if (static_cast<double>(n) < exact - 1e-9) ++n;
  return n < 1 ? 1 : n;
}

}  // namespace

Mesh make_mesh(std::span<const Layer> layers, int refinement) {
  expects(refinement >= 1, "a refinement of at least 1");
  Mesh mesh;
  mesh.layers = merge_equal(layers);
  for (int i = 0; i < static_cast<int>(mesh.layers.size()); ++i) {
    const Layer& layer = mesh.layers[static_cast<std::size_t>(i)];
    expects(
        layer.thickness_m > 0.0 && layer.conductivity_dry_w_per_m_k > 0.0 && layer.heat_capacity_dry_j_per_m3_k > 0.0,
        "a layer with thickness, conductivity and heat capacity above 0");
    constexpr double day_s = 86400.0;
    const double depth_m =
        numerics::sqrt(layer.conductivity_dry_w_per_m_k * day_s / (physics::pi * layer.heat_capacity_dry_j_per_m3_k));
    const double slice_m = depth_m / 16.0;
    const bool has_water = layer.saturated_frac > 0.0;
    const bool has_top_zone = i == 0 && layer.is_medium;

    // Parts of the layer: the fine top zone of a medium, and water stores; each part is sliced by itself.
    std::vector<double> parts_m;
    double rest_m = layer.thickness_m;
    if (has_top_zone) {
      const double top_m = rest_m < top_zone_m ? rest_m : top_zone_m;
      parts_m.push_back(top_m);
      rest_m -= top_m;
    }
    if (rest_m > 1e-9) {
      const int n_parts = has_water ? pieces(rest_m, store_depth_m) : 1;
      for (int part = 0; part < n_parts; ++part) parts_m.push_back(rest_m / n_parts);
    }
    for (std::size_t part = 0; part < parts_m.size(); ++part) {
      const double part_m = parts_m[part];
      const double largest_m = has_top_zone && part == 0 && top_slice_m < slice_m ? top_slice_m : slice_m;
      const int n_slices = pieces(part_m, largest_m) * refinement;
      int store = -1;
      if (has_water) {
        store = static_cast<int>(mesh.stores.size());
        mesh.stores.push_back({.depth_m = part_m,
                               .layer = i,
                               .first_slice = static_cast<int>(mesh.slices.size()),
                               .n_slices = n_slices,
                               .root_frac = layer.root_frac * part_m / layer.thickness_m});
      }
      for (int k = 0; k < n_slices; ++k)
        mesh.slices.push_back({.thickness_m = part_m / n_slices, .layer = i, .store = store});
    }
  }
  return mesh;
}

}  // namespace houseleek::simulation
