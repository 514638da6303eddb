// Tridiagonal systems in lanes: factored once, solved for many right sides, open at the last unknown.
#pragma once
#include <span>

#include "base/contract.hpp"
#include "numerics/lane.hpp"

namespace houseleek::numerics {

/// Row i: below[i] x[i-1] + diagonal[i] x[i] + above[i] x[i+1] = right[i]; below[0] and above[n-1] are not read.
template <LaneType L>
struct Tridiagonal {
  std::span<const L> below;
  std::span<const L> diagonal;
  std::span<const L> above;
};

/// What is kept of a factored system, in arrays the caller owns (n each).
template <LaneType L>
struct TridiagonalFactors {
  std::span<L> multiplier;     // what row i takes of row i-1; [0] is 0
  std::span<L> inverse_pivot;  // 1 / pivot of row i
  std::span<L> scaled_above;   // above / pivot of row i: one operation less to wait for on the way up; [n-1] is 0
};

/// Factors without pivoting; the factors may take the places of `below`, `diagonal` and `above`.
/// Equation: m_i = b_i / p_{i-1}; p_i = d_i - m_i a_{i-1}
/// Symbols:  b, d, a below, on and above the diagonal; p pivot
/// Shape:    n >= 1 rows; lanes are independent systems.
/// Units:    those of the caller.
/// Valid:    diagonally dominant, or symmetric and positive definite; a zero pivot gives infinities or not a number.
/// Errors:   backward stable for such matrices [higham2002] section 9.6.
/// Source:   Thomas elimination, [higham2002] section 9.6.
/// Checked by: TridiagonalSolve.ManyRightSidesHaveSmallResiduals, Lanes.LinearSystemsGiveEqualBits
template <LaneType L>
inline void factor_tridiagonal(const Tridiagonal<L>& system, const TridiagonalFactors<L>& factors) {
  const std::size_t n = system.diagonal.size();
  expects(n >= 1 && system.below.size() == n && system.above.size() == n && factors.multiplier.size() == n &&
              factors.inverse_pivot.size() == n && factors.scaled_above.size() == n,
          "tridiagonal arrays of one length");
  L inverse = L(1.0) / system.diagonal[0];
  factors.multiplier[0] = L(0.0);
  factors.inverse_pivot[0] = inverse;
  for (std::size_t i = 1; i < n; ++i) {
    const L above = system.above[i - 1];
    const L multiplier = system.below[i] * inverse;
    factors.scaled_above[i - 1] = above * inverse;
    inverse = L(1.0) / (system.diagonal[i] - multiplier * above);
    factors.multiplier[i] = multiplier;
    factors.inverse_pivot[i] = inverse;
  }
  factors.scaled_above[n - 1] = L(0.0);
}

/// Downward half: afterwards the last row alone reads x[n-1] / inverse_pivot[n-1] = right[n-1].
template <LaneType L>
inline void eliminate_downward(const TridiagonalFactors<L>& factors, std::span<L> right) {
  const std::size_t n = factors.multiplier.size();
  expects(right.size() == n, "a right side as long as the system");
  L row = right[0];
  for (std::size_t i = 1; i < n; ++i) {
    row = right[i] - factors.multiplier[i] * row;
    right[i] = row;
  }
}

/// Upward half: `x[n-1]` holds the last unknown (found by the caller, who may have coupled it to something outside), the
/// others the reduced right side; all become the solution.
template <LaneType L>
inline void substitute_upward(const TridiagonalFactors<L>& factors, std::span<L> x) {
  const std::size_t n = factors.multiplier.size();
  expects(x.size() == n, "a right side as long as the system");
  L known = x[n - 1];
  for (std::size_t i = n - 1; i-- > 0;) {
    known = x[i] * factors.inverse_pivot[i] - factors.scaled_above[i] * known;
    x[i] = known;
  }
}

/// Solves in place: the right side becomes the solution.
template <LaneType L>
inline void solve_tridiagonal(const TridiagonalFactors<L>& factors, std::span<L> right) {
  eliminate_downward(factors, right);
  const std::size_t last = right.size() - 1;
  right[last] = right[last] * factors.inverse_pivot[last];
  substitute_upward(factors, right);
}

}  // namespace houseleek::numerics
