// Small banded systems in lanes, size known when compiled: what happens at one surface, open at its last unknown.
#pragma once
#include <array>
#include <cstddef>

#include "numerics/lane.hpp"

namespace houseleek::numerics {

/// n x n with `half_band` diagonals on each side; everything outside the band is zero and not stored.
template <LaneType L, int n, int half_band>
struct Banded {
  static_assert(n >= 1 && n <= 9 && half_band >= 0 && half_band < n);
  static constexpr int size = n;
  std::array<L, static_cast<std::size_t>(n*(2 * half_band + 1))> entries{};

  [[nodiscard]] L& at(int row, int column) { return entries[place(row, column)]; }
  [[nodiscard]] const L& at(int row, int column) const { return entries[place(row, column)]; }

 private:
  static constexpr std::size_t place(int row, int column) {
    return static_cast<std::size_t>(row * (2 * half_band + 1) + column - row + half_band);
  }
};

/// Factors in place without pivoting, all but the last unknown: the pivots of rows 0 to n-2 become their inverses, the
/// entries below the diagonal the multipliers; the last pivot stays, so that the last row can be coupled outside.
/// Equation: l_ij = a_ij / p_j; a_ik -= l_ij a_jk for j < i, k > j within the band
/// Symbols:  a entries; p pivot; l multiplier
/// Shape:    lanes are independent systems; the loops have fixed bounds.
/// Units:    those of the caller.
/// Valid:    diagonally dominant by rows or columns, or symmetric and positive definite; a zero pivot gives infinities or
///           not a number.
/// Errors:   growth at most 2 for diagonally dominant matrices [higham2002] section 9.5.
/// Source:   Gaussian elimination, [higham2002] chapter 9.
/// Checked by: BandedSolve.EverySizeSolvesAndOpensAtTheLastUnknown
template <LaneType L, int n, int half_band>
inline void factor_all_but_last(Banded<L, n, half_band>& a) {
#pragma GCC unroll 9
  for (int j = 0; j < n - 1; ++j) {
    const L inverse = L(1.0) / a.at(j, j);
    a.at(j, j) = inverse;
    const int end = j + half_band + 1 < n ? j + half_band + 1 : n;
#pragma GCC unroll 9
    for (int i = j + 1; i < end; ++i) {
      const L multiplier = a.at(i, j) * inverse;
      a.at(i, j) = multiplier;
#pragma GCC unroll 9
      for (int k = j + 1; k < end; ++k) a.at(i, k) -= multiplier * a.at(j, k);
    }
  }
}

/// The last row once the others are eliminated: pivot x[n-1] = right.
template <LaneType L>
struct LastRow {
  L pivot;
  L right;
};

/// Reduces a right side in place and gives the equation left for the last unknown.
template <LaneType L, int n, int half_band>
[[nodiscard]] inline LastRow<L> reduce_to_last(const Banded<L, n, half_band>& factored,
                                               std::array<L, static_cast<std::size_t>(n)>& right) {
#pragma GCC unroll 9
  for (int j = 0; j < n - 1; ++j) {
    const int end = j + half_band + 1 < n ? j + half_band + 1 : n;
#pragma GCC unroll 9
    for (int i = j + 1; i < end; ++i) {
      right[static_cast<std::size_t>(i)] -= factored.at(i, j) * right[static_cast<std::size_t>(j)];
    }
  }
  return {factored.at(n - 1, n - 1), right[static_cast<std::size_t>(n - 1)]};
}

/// All unknowns from the last one and the reduced right side, in place.
template <LaneType L, int n, int half_band>
inline void substitute_from_last(const Banded<L, n, half_band>& factored, L last,
                                 std::array<L, static_cast<std::size_t>(n)>& x) {
  x[static_cast<std::size_t>(n - 1)] = last;
#pragma GCC unroll 9
  for (int i = n - 2; i >= 0; --i) {
    const int end = i + half_band + 1 < n ? i + half_band + 1 : n;
    L sum = x[static_cast<std::size_t>(i)];
#pragma GCC unroll 9
    for (int k = i + 1; k < end; ++k) sum -= factored.at(i, k) * x[static_cast<std::size_t>(k)];
    x[static_cast<std::size_t>(i)] = sum * factored.at(i, i);
  }
}

/// Solves in place where nothing outside is coupled.
template <LaneType L, int n, int half_band>
inline void solve_banded(const Banded<L, n, half_band>& factored, std::array<L, static_cast<std::size_t>(n)>& right) {
  const LastRow<L> row = reduce_to_last(factored, right);
  substitute_from_last(factored, row.right / row.pivot, right);
}

}  // namespace houseleek::numerics
