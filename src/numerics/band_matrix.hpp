// A banded matrix of any size, factored once and solved for as many right sides as one likes.
#pragma once
#include <cstddef>
#include <span>
#include <vector>

namespace houseleek::numerics {

/// n x n with `half_band` diagonals on each side; everything outside the band is zero.
class BandMatrix {
 public:
  BandMatrix(int n, int half_band);

  [[nodiscard]] int size() const { return n_; }

  /// Where an entry of the band lies among `entries()`: for matrices that are filled again and again in one pattern.
  [[nodiscard]] std::size_t place(int row, int column) const {
    return static_cast<std::size_t>(row) * stride_ + static_cast<std::size_t>(column - row + half_band_ + margin);
  }
  [[nodiscard]] std::span<double> entries() { return entries_; }
  [[nodiscard]] double& at(int row, int column) { return entries_[place(row, column)]; }

  void clear();

  /// Factors in place: L with ones on its diagonal below, U above, and 1 over the pivots on the diagonal.
  /// Equation: l_ij = a_ij / p_j; a_ik -= l_ij a_jk for j < i, k > j within the band
  /// Symbols:  a entries; p pivot; l multiplier
  /// Shape:    pivots four at a time; every entry still takes its changes in the order of the pivots, each a rounded
  ///           product and a rounded difference, so that the bits are those of the plain triple loop on any machine.
  /// Units:    those of the caller.
  /// Valid:    no pivoting: diagonally dominant by rows or columns, or symmetric and positive definite; a zero pivot
  ///           gives infinities or not a number.
  /// Errors:   growth at most 2 for diagonally dominant matrices [higham2002] section 9.5.
  /// Cost:     n half_band^2 products.
  /// Source:   Gaussian elimination, [higham2002] chapter 9.
  /// Checked by: BandMatrix tests, tests/numerics/linear_test.cpp.
  void factor();

  /// Solves in place with the factors: the right side becomes the solution.
  void solve(std::span<double> right) const;

 private:
  static constexpr int pivots_at_once = 4;
  static constexpr int margin = pivots_at_once;  // zeros on both sides of a row's band, read and never changed
  void factor_block(int first, int n_pivots);

  int n_;
  int half_band_;
  std::size_t stride_;
  std::vector<double> entries_;
};

}  // namespace houseleek::numerics
