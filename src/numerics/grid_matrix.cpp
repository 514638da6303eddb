// Systems in which each square of a grid knows itself and its four neighbours: every other square is eliminated first.
#include "numerics/grid_matrix.hpp"

#include <algorithm>

#include "base/contract.hpp"

namespace houseleek::numerics {
namespace {

std::size_t at_index(int index) { return static_cast<std::size_t>(index); }

std::size_t facing(std::size_t side) { return side ^ 1U; }

/// Kept squares two rows apart are as far from each other as a row is long.
int half_band_of(int columns, int rows) { return std::max(1, std::min(columns, rows)); }

}  // namespace

GridMatrix::GridMatrix(int columns, int rows)
    : band_(std::max(1, (columns * rows + 1) / 2), half_band_of(columns, rows)) {
  expects(columns >= 1 && rows >= 1, "a grid with squares");
  const std::size_t n = at_index(columns) * at_index(rows);
  own_.assign(n, 0.0);
  for (std::vector<double>& list : beside_) list.assign(n, 0.0);
  // The band's unknowns are numbered along the shorter side, so that it is narrow.
  const bool is_along_x = columns <= rows;
  std::vector<int> unknown(n, -1);
  for (int outer = 0; outer < (is_along_x ? rows : columns); ++outer) {
    for (int inner = 0; inner < (is_along_x ? columns : rows); ++inner) {
      if ((outer + inner) % 2 != 0) continue;
      const int square = is_along_x ? inner + outer * columns : outer + inner * columns;
      unknown[at_index(square)] = static_cast<int>(kept_.size());
      kept_place_.push_back(band_.place(unknown[at_index(square)], unknown[at_index(square)]));
      kept_.push_back(at_index(square));
    }
  }
  for (int j = 0; j < rows; ++j) {
    for (int i = 0; i < columns; ++i) {
      if ((i + j) % 2 == 0) continue;
      Eliminated one;
      const int square = i + j * columns;
      one.square = at_index(square);
      one.neighbour = {i + 1 < columns ? square + 1 : -1, i > 0 ? square - 1 : -1, j + 1 < rows ? square + columns : -1,
                       j > 0 ? square - columns : -1};
      for (std::size_t a = 0; a < n_sides; ++a) {
        for (std::size_t b = 0; b < n_sides; ++b) {
          if (one.neighbour[a] < 0 || one.neighbour[b] < 0) continue;
          one.place[a][b] = band_.place(unknown[at_index(one.neighbour[a])], unknown[at_index(one.neighbour[b])]);
        }
      }
      eliminated_.push_back(one);
    }
  }
  kept_right_.resize(kept_.size());
}

void GridMatrix::clear() {
  std::fill(own_.begin(), own_.end(), 0.0);
  for (std::vector<double>& list : beside_) std::fill(list.begin(), list.end(), 0.0);
}

void GridMatrix::factor() {
  band_.clear();
  const std::span<double> entries = band_.entries();
  for (std::size_t k = 0; k < kept_.size(); ++k) entries[kept_place_[k]] = own_[kept_[k]];
  for (Eliminated& one : eliminated_) {
    one.inverse = 1.0 / own_[one.square];
    for (std::size_t a = 0; a < n_sides; ++a) {
      if (one.neighbour[a] < 0) continue;
      one.multiplier[a] = beside_[facing(a)][at_index(one.neighbour[a])] * one.inverse;
      if (one.multiplier[a] == 0.0) continue;
      for (std::size_t b = 0; b < n_sides; ++b) {
        if (one.neighbour[b] >= 0) entries[one.place[a][b]] -= one.multiplier[a] * beside_[b][one.square];
      }
    }
  }
  band_.factor();
}

void GridMatrix::solve(std::span<double> right) {
  expects(right.size() == own_.size(), "a right side as long as the matrix");
  for (const Eliminated& one : eliminated_) {
    for (std::size_t a = 0; a < n_sides; ++a) {
      if (one.neighbour[a] >= 0) right[at_index(one.neighbour[a])] -= one.multiplier[a] * right[one.square];
    }
  }
  for (std::size_t k = 0; k < kept_.size(); ++k) kept_right_[k] = right[kept_[k]];
  band_.solve(kept_right_);
  for (std::size_t k = 0; k < kept_.size(); ++k) right[kept_[k]] = kept_right_[k];
  for (const Eliminated& one : eliminated_) {
    double rest = right[one.square];
    for (std::size_t a = 0; a < n_sides; ++a) {
      if (one.neighbour[a] >= 0) rest -= beside_[a][one.square] * right[at_index(one.neighbour[a])];
    }
    right[one.square] = rest * one.inverse;
  }
}

}  // namespace houseleek::numerics
