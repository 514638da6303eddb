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

/// Three right sides of a column between two faces.
template <LaneType L>
struct ColumnSides {
  std::span<L> right;     // in: a right side; out: its solution
  std::span<L> by_first;  // out: the solution for a right side of 1 in the first row, times `first`
  std::span<L> by_last;   // out: the same for the last row and `last`
  L first{0.0};
  L last{0.0};
};

/// Factors without pivoting and solves for one right side and for either end at once; the factors, which may take the
/// places of `below`, `diagonal` and `above`, serve further right sides (solve_tridiagonal).
/// Equation: m_i = b_i / p_{i-1}; p_i = d_i - m_i a_{i-1}; then downward and upward as solve_tridiagonal for (right),
///           (first, 0, ... 0) and (0, ... 0, last)
/// Symbols:  b, d, a below, on and above the diagonal; p pivot
/// Shape:    n >= 1 rows; lanes are independent systems; the bits are those of three solutions one by one.
/// Units:    those of the caller.
/// Valid:    diagonally dominant, or symmetric and positive definite; a zero pivot gives infinities or not a number.
/// Errors:   backward stable for such matrices [higham2002] section 9.6.
/// Cost:     one sweep down and one up; the divisions of the factors hide most of the rest.
/// Source:   Thomas elimination, [higham2002] section 9.6.
/// Checked by: TridiagonalSolve.ManyRightSidesHaveSmallResiduals, TridiagonalSolve.EitherEndHasSmallResiduals,
///             TridiagonalSolve.RightSidesAtOnceOrLaterGiveTheSameBits, Lanes.LinearSystemsGiveEqualBits
template <LaneType L>
inline void factor_and_solve_sides(const Tridiagonal<L>& system, const TridiagonalFactors<L>& factors,
                                   const ColumnSides<L>& sides) {
  const std::size_t n = system.diagonal.size();
  expects(n >= 1 && system.below.size() == n && system.above.size() == n && factors.multiplier.size() == n &&
              factors.inverse_pivot.size() == n && factors.scaled_above.size() == n && sides.right.size() == n &&
              sides.by_first.size() == n && sides.by_last.size() == n,
          "tridiagonal arrays of one length");
  L inverse = L(1.0) / system.diagonal[0];
  L row = sides.right[0];
  L first = sides.first;
  factors.multiplier[0] = L(0.0);
  factors.inverse_pivot[0] = inverse;
  sides.by_first[0] = first;
  for (std::size_t i = 1; i < n; ++i) {
    const L above = system.above[i - 1];
    const L multiplier = system.below[i] * inverse;
    factors.scaled_above[i - 1] = above * inverse;
    inverse = L(1.0) / (system.diagonal[i] - multiplier * above);
    factors.multiplier[i] = multiplier;
    factors.inverse_pivot[i] = inverse;
    row = sides.right[i] - multiplier * row;
    sides.right[i] = row;
    first = L(0.0) - multiplier * first;
    sides.by_first[i] = first;
  }
  factors.scaled_above[n - 1] = L(0.0);
  row = row * inverse;
  first = first * inverse;
  L last = sides.last * inverse;
  sides.right[n - 1] = row;
  sides.by_first[n - 1] = first;
  sides.by_last[n - 1] = last;
  for (std::size_t i = n - 1; i-- > 0;) {
    const L scaled = factors.scaled_above[i];
    const L pivot = factors.inverse_pivot[i];
    row = sides.right[i] * pivot - scaled * row;
    sides.right[i] = row;
    first = sides.by_first[i] * pivot - scaled * first;
    sides.by_first[i] = first;
    last = L(0.0) - scaled * last;
    sides.by_last[i] = last;
  }
}

}  // namespace houseleek::numerics
