// Small dense systems of plain doubles: Gaussian elimination with row exchanges, in the caller's arrays.
#pragma once
#include <cstddef>
#include <span>
#include <utility>

#include "base/contract.hpp"
#include "numerics/banded.hpp"  // IWYU pragma: export
#include "numerics/lane.hpp"

namespace houseleek::numerics {

/// Factors the n x n matrix `a` (row by row) in place; `exchanged_with[j]` is the row that took the place of row j.
/// Equation: P A = L U, the largest entry of each column below the diagonal as pivot
/// Symbols:  P row exchanges; L unit lower, U upper triangle, both kept in `a`
/// Shape:    a: n n entries, row by row; exchanged_with: n.
/// Units:    those of the caller; rows should be scaled alike, since pivots are compared by size.
/// Valid:    any matrix; false where a column has no nonzero finite pivot (singular, or not a number): `a` is then spent.
/// Errors:   backward stable in practice, [higham2002] section 9.3.
/// Source:   [higham2002] chapter 9.
/// Checked by: DenseSolve.LargeSystemsHaveSmallResiduals
[[nodiscard]] inline bool factor_dense(std::span<double> a, std::span<int> exchanged_with) {
  const std::size_t n = exchanged_with.size();
  expects(a.size() == n * n, "n times n entries for n exchanges");
  for (std::size_t j = 0; j < n; ++j) {
    std::size_t best = j;
    for (std::size_t i = j + 1; i < n; ++i) {
      if (abs(a[i * n + j]) > abs(a[best * n + j])) best = i;
    }
    exchanged_with[j] = static_cast<int>(best);
    if (best != j) {
      for (std::size_t k = 0; k < n; ++k) std::swap(a[j * n + k], a[best * n + k]);
    }
    const double pivot = a[j * n + j];
    const bool is_usable = abs(pivot) > 0.0 && abs(pivot) <= 1.7976931348623157e308;
    if (!is_usable) return false;
    const double inverse = 1.0 / pivot;
    for (std::size_t i = j + 1; i < n; ++i) {
      const double multiplier = a[i * n + j] * inverse;
      a[i * n + j] = multiplier;
      for (std::size_t k = j + 1; k < n; ++k) a[i * n + k] -= multiplier * a[j * n + k];
    }
  }
  return true;
}

/// Solves with the factors, in place: the right side becomes the solution.
inline void solve_dense(std::span<const double> factored, std::span<const int> exchanged_with,
                        std::span<double> right) {
  const std::size_t n = exchanged_with.size();
  expects(factored.size() == n * n && right.size() == n, "n times n factors and n right sides for n exchanges");
  for (std::size_t j = 0; j < n; ++j) {
    const std::size_t other = static_cast<std::size_t>(exchanged_with[j]);
    if (other != j) std::swap(right[j], right[other]);
  }
  for (std::size_t i = 1; i < n; ++i) {
    double sum = right[i];
    for (std::size_t k = 0; k < i; ++k) sum -= factored[i * n + k] * right[k];
    right[i] = sum;
  }
  for (std::size_t i = n; i-- > 0;) {
    double sum = right[i];
    for (std::size_t k = i + 1; k < n; ++k) sum -= factored[i * n + k] * right[k];
    right[i] = sum / factored[i * n + i];
  }
}

}  // namespace houseleek::numerics
