// Sideways conduction between the decks of neighbouring stacks, explicit in time.
#include "simulation/sideways.hpp"

#include "base/contract.hpp"
#include "simulation/scheme.hpp"

namespace houseleek::simulation {

Sideways make_sideways(const Group& group, std::span<const StackMeshes> meshes, std::span<const std::size_t> order) {
  Sideways side;
  if (group.side_links.empty()) return side;
  std::vector<std::size_t> place_of(order.size());
  for (std::size_t place = 0; place < order.size(); ++place) place_of[order[place]] = place;
  side.n_deck = static_cast<int>(meshes[0].deck.slices.size());
  const std::size_t n = static_cast<std::size_t>(side.n_deck);
  for (const StackMeshes& mesh : meshes)
    expects(mesh.deck.slices.size() == n, "decks with the same slices where stacks are linked sideways");
  side.loss_per_s.assign(group.stacks.size() * n, 0.0);
  for (const SideLink& link : group.side_links) {
    const std::size_t a = static_cast<std::size_t>(link.first), b = static_cast<std::size_t>(link.second);
    expects(a < group.stacks.size() && b < group.stacks.size() && a != b && link.edge_length_m > 0.0 &&
                link.distance_m > 0.0,
            "a sideways link between two stacks, with an edge and a distance");
    expects(meshes[a].deck.layers == meshes[b].deck.layers, "the same deck on both sides of a sideways link");
    const double first_m2 = group.stacks[a].area_m2, second_m2 = group.stacks[b].area_m2;
    SidewaysLink out{
        .first = place_of[a], .second = place_of[b], .into_first_w_per_m2_k = {}, .into_second_w_per_m2_k = {}};
    for (std::size_t k = 0; k < n; ++k) {
      const Slice& slice = meshes[a].deck.slices[k];
      const Layer& layer = meshes[a].deck.layers[static_cast<std::size_t>(slice.layer)];
      const double g = layer.conductivity_dry_w_per_m_k * slice.thickness_m * link.edge_length_m / link.distance_m;
      out.into_first_w_per_m2_k.push_back(g / first_m2);
      out.into_second_w_per_m2_k.push_back(g / second_m2);
      const double capacity = slice.thickness_m * layer.heat_capacity_dry_j_per_m3_k;
      side.loss_per_s[out.first * n + k] += g / (first_m2 * capacity);
      side.loss_per_s[out.second * n + k] += g / (second_m2 * capacity);
    }
    side.links.push_back(std::move(out));
  }
  for (auto* v : {&side.temperature_c, &side.start_w_per_m2, &side.first_w_per_m2, &side.explicit_w_per_m2})
    v->assign(group.stacks.size() * n, 0.0);
  return side;
}

double Sideways::largest_z(double step_s) const {
  double largest = 0.0;
  // Rows of the exchange matrix sum to twice their diagonal in size, so this bounds its spectrum (Gershgorin).
  for (const double loss : loss_per_s) largest = 2.0 * loss * step_s > largest ? 2.0 * loss * step_s : largest;
  return largest;
}

void Sideways::find_heat(std::vector<double>& heat_w_per_m2) const {
  const std::size_t n = static_cast<std::size_t>(n_deck);
  for (double& w : heat_w_per_m2) w = 0.0;
  for (const SidewaysLink& link : links) {
    const double* first_c = &temperature_c[link.first * n];
    const double* second_c = &temperature_c[link.second * n];
    double* first = &heat_w_per_m2[link.first * n];
    double* second = &heat_w_per_m2[link.second * n];
    for (std::size_t k = 0; k < n; ++k) {
      const double warmer_k = second_c[k] - first_c[k];
      first[k] += link.into_first_w_per_m2_k[k] * warmer_k;
      second[k] -= link.into_second_w_per_m2_k[k] * warmer_k;
    }
  }
}

void Sideways::find_explicit(int stage) {
  if (links.empty()) return;
  find_heat(stage == 0 ? start_w_per_m2 : first_w_per_m2);
  for (std::size_t k = 0; k < explicit_w_per_m2.size(); ++k) {
    explicit_w_per_m2[k] = stage == 0 ? scheme::gamma * start_w_per_m2[k]
                                      : scheme::delta * start_w_per_m2[k] + (1.0 - scheme::delta) * first_w_per_m2[k];
  }
}

}  // namespace houseleek::simulation
