// Systems in which each square of a grid knows itself and its four neighbours: every other square is eliminated first.
#pragma once
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "numerics/band_matrix.hpp"

namespace houseleek::numerics {

/// Neighbours of square i + j columns, in pairs that face each other.
enum class Side { right, left, above, below };

/// A five-point matrix of columns x rows, factored once and solved for as many right sides as one likes.
class GridMatrix {
 public:
  GridMatrix(int columns, int rows);

  /// Coefficients by row of the matrix: of the square's own unknown and of that beside it. Over the grid's edge they are
  /// never read. They must not change between factor() and solve().
  [[nodiscard]] std::span<double> own() { return own_; }
  [[nodiscard]] std::span<double> beside(Side side) { return beside_[static_cast<std::size_t>(side)]; }

  void clear();

  /// Eliminates the squares of one colour of a chess board, which do not know each other, then the rest by its band.
  /// Equation: S = A_kk - A_ke A_ee^(-1) A_ek with A_ee diagonal; then BandMatrix::factor
  /// Symbols:  e: eliminated squares, i + j odd; k: kept squares
  /// Shape:    every sum in a fixed order, so that the bits do not depend on the machine.
  /// Units:    those of the caller.
  /// Valid:    no pivoting: diagonally dominant by rows or columns; S then is too.
  /// Errors:   as of BandMatrix.
  /// Cost:     half of what the band of the whole grid costs: n/2 (lesser side)^2 products.
  /// Source:   block elimination, [higham2002] chapter 13.
  /// Checked by: GridMatrix tests, tests/numerics/linear_test.cpp.
  void factor();

  /// Solves in place with the factors: the right side becomes the solution.
  void solve(std::span<double> right);

 private:
  static constexpr std::size_t n_sides = 4;
  struct Eliminated {
    std::size_t square = 0;
    std::array<int, n_sides> neighbour{};  // -1: over the edge
    std::array<std::array<std::size_t, n_sides>, n_sides>
        place{};                               // in the band: row of one neighbour, column of another
    std::array<double, n_sides> multiplier{};  // of this row, by neighbour
    double inverse = 0.0;
  };

  std::vector<double> own_;
  std::array<std::vector<double>, n_sides> beside_;
  std::vector<Eliminated> eliminated_;
  std::vector<std::size_t> kept_;  // squares in the order of the band's unknowns
  std::vector<std::size_t> kept_place_;
  BandMatrix band_;
  std::vector<double> kept_right_;
};

}  // namespace houseleek::numerics
