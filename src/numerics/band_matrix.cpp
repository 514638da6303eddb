// A banded matrix of any size, factored once and solved for as many right sides as one likes.
#include "numerics/band_matrix.hpp"

#include <algorithm>
#include <array>
#include <cstddef>

#include "base/contract.hpp"
#include "numerics/lane.hpp"

namespace houseleek::numerics {
namespace {

std::size_t at_index(int index) { return static_cast<std::size_t>(index); }

// The same operations in the same order, once more for registers of four doubles; chosen when the program runs. Without
// contraction (see CMakeLists.txt) both give the same bits.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define HOUSELEEK_WIDE_CLONE [[gnu::target_clones("avx2", "default")]]
#else
#define HOUSELEEK_WIDE_CLONE
#endif

/// Rows below four pivots: each takes the changes of one pivot after the other. Entry (i, p) lies at i * stride + p - i from
/// `middle`, that of (0, 0).
HOUSELEEK_WIDE_CLONE void eliminate_below(double* middle, std::ptrdiff_t stride, int first, int last_row,
                                          int n_columns) {
  const auto entry = [&](int row, int column) { return middle + row * stride + (column - row); };
  const double* const a = entry(first, first);
  const double* const b = entry(first + 1, first);
  const double* const c = entry(first + 2, first);
  const double* const d = entry(first + 3, first);
  for (int i = first + 4; i <= last_row; ++i) {
    double* const left = entry(i, first);
    if (left[0] == 0.0 && left[1] == 0.0 && left[2] == 0.0 && left[3] == 0.0) continue;
    const double m0 = left[0] * a[0];
    const double m1 = (left[1] - m0 * a[1]) * b[1];
    const double m2 = ((left[2] - m0 * a[2]) - m1 * b[2]) * c[2];
    const double m3 = (((left[3] - m0 * a[3]) - m1 * b[3]) - m2 * c[3]) * d[3];
    left[0] = m0;
    left[1] = m1;
    left[2] = m2;
    left[3] = m3;
#pragma GCC ivdep
    for (int k = 4; k < n_columns + 4; ++k) {
      left[k] = (((left[k] - m0 * a[k]) - m1 * b[k]) - m2 * c[k]) - m3 * d[k];
    }
  }
}

/// Sum of products in four strands, whatever the machine: strand s takes every fourth product from s on.
double product_sum(const double* __restrict a, const double* __restrict b, int n) {
  using Pair = Lane<2>;
  const auto pair_at = [](const double* from) {
    Pair pair;
    __builtin_memcpy(&pair, from, sizeof(pair));
    return pair;
  };
  Pair first(0.0);
  Pair second(0.0);
  int k = 0;
  for (; k + 4 <= n; k += 4) {
    first += pair_at(a + k) * pair_at(b + k);
    second += pair_at(a + k + 2) * pair_at(b + k + 2);
  }
  std::array<double, 4> sum{};
  __builtin_memcpy(sum.data(), &first, sizeof(first));
  __builtin_memcpy(&sum[2], &second, sizeof(second));
  for (std::size_t s = 0; k < n; ++k, ++s) sum[s] += a[k] * b[k];
  return (sum[0] + sum[1]) + (sum[2] + sum[3]);
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
  for (int i = 1; i < n_; ++i) {
    const int from = std::max(0, i - half_band_);
    right[at_index(i)] -= product_sum(&entries_[place(i, from)], &right[at_index(from)], i - from);
  }
  for (int i = n_ - 1; i >= 0; --i) {
    const int n_above = std::min(n_ - 1, i + half_band_) - i;
    const double* const diagonal = &entries_[place(i, i)];
    const double sum = n_above > 0 ? product_sum(diagonal + 1, &right[at_index(i + 1)], n_above) : 0.0;
    right[at_index(i)] = (right[at_index(i)] - sum) * *diagonal;
  }
}

}  // namespace houseleek::numerics
