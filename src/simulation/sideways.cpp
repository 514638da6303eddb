// Sideways conduction between the decks of neighbouring stacks, explicit in time.
#include "simulation/sideways.hpp"

#include "base/contract.hpp"
#include "simulation/scheme.hpp"

namespace houseleek::simulation {

Sideways make_sideways(const Group& group, std::span<const StackMeshes> meshes) {
  Sideways side;
  if (group.side_links.empty()) return side;
  side.n_deck = static_cast<int>(meshes[0].deck.slices.size());
  const std::size_t n = static_cast<std::size_t>(side.n_deck);
  for (std::size_t i = 0; i < group.stacks.size(); ++i) {
    side.area_m2.push_back(group.stacks[i].area_m2);
    expects(meshes[i].deck.slices.size() == n, "decks with the same slices where stacks are linked sideways");
  }
  side.loss_per_s.assign(group.stacks.size() * n, 0.0);
  for (const SideLink& link : group.side_links) {
    const std::size_t a = static_cast<std::size_t>(link.first), b = static_cast<std::size_t>(link.second);
    expects(a < group.stacks.size() && b < group.stacks.size() && a != b && link.edge_length_m > 0.0 &&
                link.distance_m > 0.0,
            "a sideways link between two stacks, with an edge and a distance");
    expects(meshes[a].deck.layers == meshes[b].deck.layers, "the same deck on both sides of a sideways link");
    SidewaysLink out{.first = a, .second = b, .conductance_w_per_k = {}};
    for (std::size_t k = 0; k < n; ++k) {
      const Slice& slice = meshes[a].deck.slices[k];
      const Layer& layer = meshes[a].deck.layers[static_cast<std::size_t>(slice.layer)];
      const double g = layer.conductivity_dry_w_per_m_k * slice.thickness_m * link.edge_length_m / link.distance_m;
      out.conductance_w_per_k.push_back(g);
      const double capacity = slice.thickness_m * layer.heat_capacity_dry_j_per_m3_k;
      side.loss_per_s[a * n + k] += g / (side.area_m2[a] * capacity);
      side.loss_per_s[b * n + k] += g / (side.area_m2[b] * capacity);
    }
    side.links.push_back(std::move(out));
  }
  for (auto* v : {&side.temperature_c, &side.start_w_per_m2, &side.first_w_per_m2})
    v->assign(group.stacks.size() * n, 0.0);
  return side;
}

double Sideways::largest_z(double step_s) const {
  double largest = 0.0;
  // Rows of the exchange matrix sum to twice their diagonal in size, so this bounds its spectrum (Gershgorin).
  for (const double loss : loss_per_s) largest = 2.0 * loss * step_s > largest ? 2.0 * loss * step_s : largest;
  return largest;
}

void Sideways::begin_step(std::size_t n_batches) {
  n_batches_ = n_batches;
  n_collected_ = 0;
}

void Sideways::find_heat(std::vector<double>& heat) const {
  const std::size_t n = static_cast<std::size_t>(n_deck);
  for (double& w : heat) w = 0.0;
  for (const SidewaysLink& link : links) {
    for (std::size_t k = 0; k < n; ++k) {
      const double w =
          link.conductance_w_per_k[k] * (temperature_c[link.second * n + k] - temperature_c[link.first * n + k]);
      heat[link.first * n + k] += w / area_m2[link.first];
      heat[link.second * n + k] -= w / area_m2[link.second];
    }
  }
}

void Sideways::collect(int stage, const StackBatch& batch, std::span<const std::size_t> stacks) {
  if (links.empty()) return;
  const std::size_t n = static_cast<std::size_t>(n_deck);
  std::vector<double> own(stacks.size() * n);
  batch.deck_temperatures(stage, own);
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    for (std::size_t k = 0; k < n; ++k) temperature_c[stacks[i] * n + k] = own[i * n + k];
  }
  if (++n_collected_ == n_batches_) {
    n_collected_ = 0;
    find_heat(stage < 0 ? start_w_per_m2 : first_w_per_m2);
  }
}

std::span<const double> Sideways::explicit_heat(int stage, std::span<const std::size_t> stacks) {
  if (links.empty()) return {};
  const std::size_t n = static_cast<std::size_t>(n_deck);
  handed_over.resize(stacks.size() * n);
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    for (std::size_t k = 0; k < n; ++k) {
      const double start = start_w_per_m2[stacks[i] * n + k];
      handed_over[i * n + k] = stage == 0
                                   ? scheme::gamma * start
                                   : scheme::delta * start + (1.0 - scheme::delta) * first_w_per_m2[stacks[i] * n + k];
    }
  }
  return handed_over;
}

}  // namespace houseleek::simulation
