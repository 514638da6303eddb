// Sideways conduction between the decks of neighbouring stacks, explicit in time.
#pragma once
#include <span>
#include <vector>

#include "simulation/group.hpp"
#include "simulation/stack_batch.hpp"

namespace houseleek::simulation {

struct SidewaysLink {
  std::size_t first = 0, second = 0;
  std::vector<double> conductance_w_per_k;  // by deck slice
};

/// Works on deck slices stack by stack. The explicit tableau of ARS(2,2,2): stage 0 sees gamma S(start), stage 1 sees delta S(start) + (1 - delta) S(stage 0).
struct Sideways {
  int n_deck = 0;  // slices; 0 without links
  std::vector<SidewaysLink> links;
  std::vector<double> area_m2;        // by stack
  std::vector<double> loss_per_s;     // by stack and slice: sum of conductances over area and capacity
  std::vector<double> temperature_c;  // by stack and slice
  std::vector<double> start_w_per_m2, first_w_per_m2;
  std::vector<double> handed_over;

  /// Stability number of the explicit terms for a step.
  [[nodiscard]] double largest_z(double step_s) const;
  void begin_step(std::size_t n_batches);
  /// Takes the decks of one batch at the step's start (-1) or the first stage (0); the last batch completes the heat.
  void collect(int stage, const StackBatch& batch, std::span<const std::size_t> stacks);
  /// Mean explicit heat into each deck slice of these stacks over a stage's way, W/m2; empty without links.
  [[nodiscard]] std::span<const double> explicit_heat(int stage, std::span<const std::size_t> stacks);

 private:
  std::size_t n_batches_ = 0, n_collected_ = 0;
  void find_heat(std::vector<double>& heat_w_per_m2) const;
};

[[nodiscard]] Sideways make_sideways(const Group& group, std::span<const StackMeshes> meshes);

}  // namespace houseleek::simulation
