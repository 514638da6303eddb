// Sideways conduction between the decks of neighbouring stacks, explicit in time.
#pragma once
#include <span>
#include <vector>

#include "simulation/group.hpp"
#include "simulation/stack_batch.hpp"

namespace houseleek::simulation {

struct SidewaysLink {
  std::size_t first = 0, second = 0;
  std::vector<double> into_first_w_per_m2_k;  // by deck slice; to a square metre of the first stack
  std::vector<double> into_second_w_per_m2_k;
};

/// Works on deck slices stack by stack. The explicit tableau of ARS(2,2,2): stage 0 sees gamma S(start), stage 1 sees delta S(start) + (1 - delta) S(stage 0).
struct Sideways {
  int n_deck = 0;  // slices; 0 without links
  std::vector<SidewaysLink> links;
  std::vector<double> loss_per_s;  // by stack and slice: sum of conductances over area and capacity
  std::vector<double>
      temperature_c;  // by stack and slice: of the step's start before stage 0, of stage 0 before stage 1
  std::vector<double> start_w_per_m2, first_w_per_m2;
  std::vector<double> explicit_w_per_m2;  // by stack and slice: mean heat into each over the stage's way

  /// Stability number of the explicit terms for a step.
  [[nodiscard]] double largest_z(double step_s) const;
  /// Finds explicit_w_per_m2 of a stage (0 or 1) from temperature_c.
  void find_explicit(int stage);

 private:
  void find_heat(std::vector<double>& heat_w_per_m2) const;
};

/// `order`: the group's stack at each place; everything here counts by places.
[[nodiscard]] Sideways make_sideways(const Group& group, std::span<const StackMeshes> meshes,
                                     std::span<const std::size_t> order);

}  // namespace houseleek::simulation
