// Conduction through a column of slices between two faces, reduced to what the faces see; written for lanes.
#pragma once
#include <vector>

#include "numerics/lane.hpp"
#include "numerics/tridiagonal.hpp"

namespace houseleek::simulation {

/// A column of n slices with its matrix factored for one (gamma h): rows are C/(gamma h) (T - known) = conduction + carried heat.
template <class L>
struct Column {
  int n = 0;
  std::vector<L> capacity_j_per_m2_k;            // n
  std::vector<L> rate_w_per_m2_k;                // n; capacity over (gamma h)
  std::vector<L> between_w_per_m2_k;             // n + 1; [0] top face to first slice, [n] last slice to bottom face
  std::vector<L> carried_down_w_per_m2_k;        // n + 1; c_w q of water moving down through each face, else 0
  std::vector<L> carried_up_w_per_m2_k;          // n + 1; c_w |q| of water moving up
  std::vector<L> temperature_c;                  // n; at the step's start, later at its end
  std::vector<L> stage_c;                        // n; at the stage just solved
  std::vector<L> known_c;                        // n; the stage's starting point
  std::vector<L> particular, by_top, by_bottom;  // n; T = particular + by_top T_top + by_bottom T_bottom
  std::vector<L> below, diagonal, above;         // n; the matrix
  std::vector<L> multiplier, inverse_pivot, scaled_above;  // n; its factors

  explicit Column(int n_slices) : n(n_slices) {
    const auto size = static_cast<std::size_t>(n_slices);
    for (auto* a : {&capacity_j_per_m2_k, &rate_w_per_m2_k, &temperature_c, &stage_c, &known_c, &particular, &by_top,
                    &by_bottom, &below, &diagonal, &above, &multiplier, &inverse_pivot, &scaled_above}) {
      a->assign(size, L(0.0));
    }
    for (auto* a : {&between_w_per_m2_k, &carried_down_w_per_m2_k, &carried_up_w_per_m2_k}) a->assign(size + 1, L(0.0));
  }
};

template <class L>
[[nodiscard]] inline numerics::TridiagonalFactors<L> factors_of(Column<L>& c) {
  return {.multiplier = c.multiplier, .inverse_pivot = c.inverse_pivot, .scaled_above = c.scaled_above};
}

/// Fills the matrix of the column for one (gamma h).
template <class L>
inline void fill_column(Column<L>& c, const L gamma_step_s) {
  const std::size_t n = static_cast<std::size_t>(c.n);
  const L per_s = L(1.0) / gamma_step_s;
  for (std::size_t k = 0; k < n; ++k) {
    const L from_above = c.between_w_per_m2_k[k] + c.carried_down_w_per_m2_k[k];
    const L from_below = c.between_w_per_m2_k[k + 1] + c.carried_up_w_per_m2_k[k + 1];
    c.rate_w_per_m2_k[k] = c.capacity_j_per_m2_k[k] * per_s;
    c.below[k] = -from_above;
    c.above[k] = -from_below;
    c.diagonal[k] = c.rate_w_per_m2_k[k] + from_above + from_below;
  }
}

/// Factors the column for one (gamma h), finds how each slice follows its two faces, and what the slices would be with
/// both faces at 0 degC, from known_c.
/// Cost: one factorisation, three right sides.
template <class L>
inline void factor_column(Column<L>& c, const L gamma_step_s) {
  fill_column(c, gamma_step_s);
  const std::size_t last = static_cast<std::size_t>(c.n) - 1;
  for (std::size_t k = 0; k <= last; ++k) c.particular[k] = c.rate_w_per_m2_k[k] * c.known_c[k];
  // Read before the factors take the places of the matrix.
  const L by_first = -c.below[0], by_last = -c.above[last];
  numerics::factor_and_solve_sides<L>(
      {.below = c.below, .diagonal = c.diagonal, .above = c.above}, factors_of(c),
      {.right = c.particular, .by_first = c.by_top, .by_last = c.by_bottom, .first = by_first, .last = by_last});
}

/// What the slices would be with both faces at 0 degC, from known_c, once the factors stand.
template <class L>
inline void solve_particular(Column<L>& c) {
  for (int k = 0; k < c.n; ++k) c.particular[k] = c.rate_w_per_m2_k[k] * c.known_c[k];
  numerics::solve_tridiagonal<L>(factors_of(c), c.particular);
}

/// Slices at the stage, once its faces are known.
template <class L>
inline void place_slices(Column<L>& c, const L top_c, const L bottom_c) {
  for (int k = 0; k < c.n; ++k) c.stage_c[k] = c.particular[k] + c.by_top[k] * top_c + c.by_bottom[k] * bottom_c;
}

/// Conducted heat through face k of the column at the stage, W/m2, down positive.
template <class L>
[[nodiscard]] inline L conducted(const Column<L>& c, int face, const L top_c, const L bottom_c) {
  const L upper_c = face == 0 ? top_c : c.stage_c[face - 1];
  const L lower_c = face == c.n ? bottom_c : c.stage_c[face];
  return c.between_w_per_m2_k[face] * (upper_c - lower_c);
}

}  // namespace houseleek::simulation
