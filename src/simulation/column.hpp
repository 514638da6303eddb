// Conduction through a column of slices between two faces, reduced to what the faces see; written for lanes.
#pragma once
#include <vector>

#include "numerics/lane.hpp"

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
  std::vector<L> pivot, upper_over_pivot;        // n; factors
  std::vector<L> lower;                          // n

  explicit Column(int n_slices) : n(n_slices) {
    const auto size = static_cast<std::size_t>(n_slices);
    for (auto* a : {&capacity_j_per_m2_k, &rate_w_per_m2_k, &temperature_c, &stage_c, &known_c, &particular, &by_top,
                    &by_bottom, &pivot, &upper_over_pivot, &lower}) {
      a->assign(size, L(0.0));
    }
    for (auto* a : {&between_w_per_m2_k, &carried_down_w_per_m2_k, &carried_up_w_per_m2_k}) a->assign(size + 1, L(0.0));
  }
};

/// Factors the column for one (gamma h) and finds how each slice follows its two faces.
/// Cost: one sweep down, one up.
template <class L>
inline void factor_column(Column<L>& c, const L gamma_step_s) {
  const int n = c.n;
  const L per_s = L(1.0) / gamma_step_s;
  for (int k = 0; k < n; ++k) {
    const L down = c.between_w_per_m2_k[k] + c.carried_down_w_per_m2_k[k];      // from above
    const L up = c.between_w_per_m2_k[k + 1] + c.carried_up_w_per_m2_k[k + 1];  // from below
    c.rate_w_per_m2_k[k] = c.capacity_j_per_m2_k[k] * per_s;
    const L diagonal = c.rate_w_per_m2_k[k] + down + up;
    c.lower[k] = down;
    if (k == 0) {
      c.pivot[k] = L(1.0) / diagonal;
    } else {
      c.pivot[k] = L(1.0) / (diagonal - down * c.upper_over_pivot[k - 1]);
    }
    c.upper_over_pivot[k] = up * c.pivot[k];
  }
  // by_top: source in the first row only; by_bottom: in the last row only.
  L forward = c.lower[0] * c.pivot[0];
  c.by_top[0] = forward;
  for (int k = 1; k < n; ++k) {
    forward = c.lower[k] * forward * c.pivot[k];
    c.by_top[k] = forward;
  }
  c.by_bottom[n - 1] = c.upper_over_pivot[n - 1];
  for (int k = n - 2; k >= 0; --k) {
    c.by_top[k] += c.upper_over_pivot[k] * c.by_top[k + 1];
    c.by_bottom[k] = c.upper_over_pivot[k] * c.by_bottom[k + 1];
  }
}

/// What the slices would be with both faces at 0 degC, from known_c.
template <class L>
inline void solve_particular(Column<L>& c) {
  const int n = c.n;
  L forward = c.rate_w_per_m2_k[0] * c.known_c[0] * c.pivot[0];
  c.particular[0] = forward;
  for (int k = 1; k < n; ++k) {
    forward = (c.rate_w_per_m2_k[k] * c.known_c[k] + c.lower[k] * forward) * c.pivot[k];
    c.particular[k] = forward;
  }
  for (int k = n - 2; k >= 0; --k) c.particular[k] += c.upper_over_pivot[k] * c.particular[k + 1];
}

/// Slices at the stage, once its faces are known.
template <class L>
inline void place_slices(Column<L>& c, const L top_c, const L bottom_c) {
  for (int k = 0; k < c.n; ++k) c.stage_c[k] = c.particular[k] + c.by_top[k] * top_c + c.by_bottom[k] * bottom_c;
}

/// Conducted heat through face k of the column at the stage, W/m2, down positive.
template <class L>
[[nodiscard]] inline L conducted(const Column<L>& c, int face, const L top_c, const L bottom_c) {
  const L above = face == 0 ? top_c : c.stage_c[face - 1];
  const L below = face == c.n ? bottom_c : c.stage_c[face];
  return c.between_w_per_m2_k[face] * (above - below);
}

}  // namespace houseleek::simulation
