// A banded matrix of any size, factored once and solved for as many right sides as one likes.
#include "numerics/band_matrix.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

#include "base/contract.hpp"
#include "numerics/lane.hpp"
#include "numerics/wide_clone.hpp"

namespace houseleek::numerics {
namespace {

std::size_t at_index(int index) { return static_cast<std::size_t>(index); }

/// Rows below four pivots: each takes the changes of one pivot after the other. Entry (i, p) lies at i * stride + p - i from
/// `middle`, that of (0, 0).
HOUSELEEK_WIDE_CLONE void eliminate_below(double* middle, std::ptrdiff_t stride, int first, int last_row,
                                          int n_columns) {
  const auto entry = [&](int row, int column) { return middle + row * stride + (column - row); };
  const double* const __restrict a = entry(first, first);
  const double* const __restrict b = entry(first + 1, first);
  const double* const __restrict c = entry(first + 2, first);
  const double* const __restrict d = entry(first + 3, first);
  for (int i = first + 4; i <= last_row; ++i) {
    double* const __restrict left = entry(i, first);
    if (left[0] == 0.0 && left[1] == 0.0 && left[2] == 0.0 && left[3] == 0.0) continue;
    const double m0 = left[0] * a[0];
    const double m1 = (left[1] - m0 * a[1]) * b[1];
    const double m2 = ((left[2] - m0 * a[2]) - m1 * b[2]) * c[2];
    const double m3 = (((left[3] - m0 * a[3]) - m1 * b[3]) - m2 * c[3]) * d[3];
    left[0] = m0;
    left[1] = m1;
    left[2] = m2;
    left[3] = m3;
    for (int k = 4; k < n_columns + 4; ++k) {
      left[k] = (((left[k] - m0 * a[k]) - m1 * b[k]) - m2 * c[k]) - m3 * d[k];
    }
  }
}

/// Sum of products in four strands, whatever the machine: strand s takes every fourth product from s on.
[[gnu::always_inline]] inline double product_sum(const double* __restrict a, const double* __restrict b, int n) {
  using Four = LaneVectors<4>::Double;
  Four strands{};
  int k = 0;
  for (; k + 4 <= n; k += 4) {
    Four left;
    Four right;
    __builtin_memcpy(&left, a + k, sizeof(left));
    __builtin_memcpy(&right, b + k, sizeof(right));
    strands += left * right;
  }
  std::array<double, 4> sum{};
  __builtin_memcpy(sum.data(), &strands, sizeof(strands));
  for (std::size_t s = 0; k < n; ++k, ++s) sum[s] += a[k] * b[k];
  return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

struct Factored {
  const double* middle;  // of (0, 0)
  std::ptrdiff_t stride;
  int n;
  int half_band;
};

HOUSELEEK_WIDE_CLONE void substitute(const Factored& matrix, double* right) {
  const auto entry = [&](int row, int column) { return matrix.middle + row * matrix.stride + (column - row); };
  for (int i = 1; i < matrix.n; ++i) {
    const int from = std::max(0, i - matrix.half_band);
    right[i] -= product_sum(entry(i, from), right + from, i - from);
  }
  for (int i = matrix.n - 1; i >= 0; --i) {
    const int n_above = std::min(matrix.n - 1, i + matrix.half_band) - i;
    const double* const diagonal = entry(i, i);
    right[i] = (right[i] - product_sum(diagonal + 1, right + i + 1, n_above)) * *diagonal;
  }
}

}  // namespace

BandMatrix::BandMatrix(int n, int half_band)
    : n_(n), half_band_(half_band), stride_(at_index(2 * half_band + 1 + 2 * margin)) {
  expects(n >= 1 && half_band >= 0, "a matrix with rows and a band");
  entries_.assign(at_index(n_) * stride_, 0.0);
}

void BandMatrix::clear() { std::fill(entries_.begin(), entries_.end(), 0.0); }

void BandMatrix::factor_block(int first, int n_pivots) {
  // Rows of the block itself, each as far right as the block's last pivot reaches; beyond the own band there are zeros.
  const int last_column = first + n_pivots - 1 + half_band_;
  for (int p = first; p < first + n_pivots; ++p) {
    at(p, p) = 1.0 / at(p, p);
    const double* const pivot_row = &at(p, p);
    for (int i = p + 1; i < first + n_pivots; ++i) {
      double* const row = &at(i, p);
      const double multiplier = *row * *pivot_row;
      *row = multiplier;
      for (int k = 1; k <= half_band_; ++k) row[k] -= multiplier * pivot_row[k];
    }
  }
  const int last_row = std::min(n_ - 1, last_column);
  if (n_pivots == pivots_at_once) {
    eliminate_below(&at(0, 0), static_cast<std::ptrdiff_t>(stride_), first, last_row, half_band_);
  }
}

void BandMatrix::factor() {
  for (int first = 0; first < n_; first += pivots_at_once) {
    factor_block(first, std::min(pivots_at_once, n_ - first));
  }
}

void BandMatrix::solve(std::span<double> right) const {
  expects(right.size() == at_index(n_), "a right side as long as the matrix");
  substitute({&entries_[place(0, 0)], static_cast<std::ptrdiff_t>(stride_), n_, half_band_}, right.data());
}

}  // namespace houseleek::numerics
