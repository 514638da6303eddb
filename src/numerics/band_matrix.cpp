// A banded matrix of any size, factored once and solved for as many right sides as one likes.
#include "numerics/band_matrix.hpp"

#include <algorithm>
#include <array>

#include "base/contract.hpp"
#include "numerics/lane.hpp"

namespace houseleek::numerics {
namespace {

std::size_t at_index(int index) { return static_cast<std::size_t>(index); }

/// row -= multipliers times pivot rows, one pivot after the other.
void subtract_four(double* __restrict row, const std::array<double, 4>& multiplier, const double* __restrict a,
                   const double* __restrict b, const double* __restrict c, const double* __restrict d, int n) {
  for (int k = 0; k < n; ++k) {
    row[k] = (((row[k] - multiplier[0] * a[k]) - multiplier[1] * b[k]) - multiplier[2] * c[k]) - multiplier[3] * d[k];
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
  const int n_columns = last_column - (first + n_pivots) + 1;
  for (int i = first + n_pivots; i <= last_row; ++i) {
    std::array<double, 4> multiplier{};
    bool is_touched = false;
    for (int p = 0; p < n_pivots; ++p) {
      double entry = at(i, first + p);
      for (int q = 0; q < p; ++q) entry -= multiplier[at_index(q)] * at(first + q, first + p);
      multiplier[at_index(p)] = entry * at(first + p, first + p);
      at(i, first + p) = multiplier[at_index(p)];
      is_touched = is_touched || entry != 0.0;
    }
    if (!is_touched) continue;
    double* const row = &at(i, first + n_pivots);
    if (n_pivots == pivots_at_once) {
      subtract_four(row, multiplier, &at(first, first + 4), &at(first + 1, first + 4), &at(first + 2, first + 4),
                    &at(first + 3, first + 4), n_columns);
      continue;
    }
    for (int p = 0; p < n_pivots; ++p) {
      const double* const pivot_row = &at(first + p, first + n_pivots);
      for (int k = 0; k < n_columns; ++k) row[k] -= multiplier[at_index(p)] * pivot_row[k];
    }
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
