// Linear systems against hand-worked cases, against each other and by their residuals.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <span>
#include <vector>

#include "numerics/band_matrix.hpp"
#include "numerics/grid_matrix.hpp"
#include "numerics/small_linear.hpp"
#include "numerics/tridiagonal.hpp"

namespace houseleek {
namespace {

constexpr double rounding = 0x1p-53;

double number(std::mt19937_64& bits) { return static_cast<double>(bits() >> 11) * 0x1p-53; }

std::vector<double> solve_copy_of(std::vector<double> a, std::vector<double> right) {
  std::vector<int> exchanged_with(right.size());
  EXPECT_TRUE(numerics::factor_dense(a, exchanged_with));
  numerics::solve_dense(a, exchanged_with, right);
  return right;
}

/// Largest |b - A x| of a row over |A| |x| + |b| of that row: below a few roundings per entry for a stable solve.
double backward_error(std::span<const double> a, std::span<const double> x, std::span<const double> b) {
  const std::size_t n = b.size();
  double largest = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    long double residual = b[i];
    double size = std::fabs(b[i]);
    for (std::size_t k = 0; k < n; ++k) {
      residual -= static_cast<long double>(a[i * n + k]) * x[k];
      size += std::fabs(a[i * n + k] * x[k]);
    }
    largest = std::max(largest, std::fabs(static_cast<double>(residual)) / size);
  }
  return largest;
}

struct TridiagonalCase {
  std::vector<double> below, diagonal, above, right;
  explicit TridiagonalCase(std::size_t n) : below(n), diagonal(n), above(n), right(n) {}
  [[nodiscard]] std::vector<double> dense() const {
    const std::size_t n = diagonal.size();
    std::vector<double> a(n * n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
      a[i * n + i] = diagonal[i];
      if (i > 0) a[i * n + i - 1] = below[i];
      if (i + 1 < n) a[i * n + i + 1] = above[i];
    }
    return a;
  }
};

/// Factors alone: what else comes with them is thrown away.
void factor(const numerics::Tridiagonal<double>& system, const numerics::TridiagonalFactors<double>& factors) {
  const std::size_t n = system.diagonal.size();
  std::vector<double> right(n, 0.0), by_first(n), by_last(n);
  numerics::factor_and_solve_sides<double>(system, factors, {right, by_first, by_last});
}
void factor(const TridiagonalCase& c, const numerics::TridiagonalFactors<double>& factors) {
  factor({c.below, c.diagonal, c.above}, factors);
}

TridiagonalCase some_tridiagonal(std::size_t n, std::uint64_t seed) {
  std::mt19937_64 bits(seed);
  TridiagonalCase c(n);
  for (std::size_t i = 0; i < n; ++i) {
    c.below[i] = -number(bits);
    c.above[i] = -number(bits);
    c.diagonal[i] = 0.01 + number(bits) - c.below[i] - c.above[i];
    c.right[i] = number(bits) - 0.5;
  }
  return c;
}

// -x[i-1] + 2 x[i] - x[i+1] = 1 with x[-1] = x[n] = 0 has x[i] = (i + 1)(n - i) / 2.
TEST(TridiagonalSolve, SecondDifferencesGiveTheParabola) {
  constexpr std::size_t n = 9;
  TridiagonalCase c(n);
  std::fill(c.below.begin(), c.below.end(), -1.0);
  std::fill(c.above.begin(), c.above.end(), -1.0);
  std::fill(c.diagonal.begin(), c.diagonal.end(), 2.0);
  std::fill(c.right.begin(), c.right.end(), 1.0);
  std::vector<double> multiplier(n), inverse_pivot(n), scaled_above(n);
  const numerics::TridiagonalFactors<double> factors{multiplier, inverse_pivot, scaled_above};
  factor(c, factors);
  numerics::solve_tridiagonal<double>(factors, c.right);
  const std::array<double, n> expected{4.5, 8.0, 10.5, 12.0, 12.5, 12.0, 10.5, 8.0, 4.5};
  for (std::size_t i = 0; i < n; ++i) EXPECT_NEAR(c.right[i], expected[i], 1e-14) << i;
}

TEST(TridiagonalSolve, OneUnknown) {
  std::vector<double> zero{0.0}, diagonal{4.0}, right{2.0}, multiplier(1), inverse_pivot(1), scaled_above(1);
  const numerics::TridiagonalFactors<double> factors{multiplier, inverse_pivot, scaled_above};
  factor({zero, diagonal, zero}, factors);
  numerics::solve_tridiagonal<double>(factors, right);
  EXPECT_EQ(right[0], 0.5);
}

TEST(TridiagonalSolve, ManyRightSidesHaveSmallResiduals) {
  for (std::uint64_t seed = 0; seed < 50; ++seed) {
    const std::size_t n = 2 + seed;
    const TridiagonalCase c = some_tridiagonal(n, seed);
    std::vector<double> multiplier(n), inverse_pivot(n), scaled_above(n);
    const numerics::TridiagonalFactors<double> factors{multiplier, inverse_pivot, scaled_above};
    factor(c, factors);
    std::mt19937_64 bits(seed);
    for (int k = 0; k < 3; ++k) {
      std::vector<double> right(n);
      for (double& value : right) value = number(bits) - 0.5;
      std::vector<double> x = right;
      numerics::solve_tridiagonal<double>(factors, x);
      EXPECT_LE(backward_error(c.dense(), x, right), 8.0 * rounding) << seed;
    }
  }
}

TEST(TridiagonalSolve, EitherEndHasSmallResiduals) {
  for (std::uint64_t seed = 0; seed < 50; ++seed) {
    const std::size_t n = 1 + seed;
    const TridiagonalCase c = some_tridiagonal(n, seed);
    std::vector<double> multiplier(n), inverse_pivot(n), scaled_above(n), x = c.right, by_first(n), by_last(n);
    numerics::factor_and_solve_sides<double>({c.below, c.diagonal, c.above}, {multiplier, inverse_pivot, scaled_above},
                                             {x, by_first, by_last, 0.3, 7.0});
    std::vector<double> first(n, 0.0), last(n, 0.0);
    first[0] = 0.3;
    last[n - 1] = 7.0;
    EXPECT_LE(backward_error(c.dense(), by_first, first), 8.0 * rounding) << seed;
    EXPECT_LE(backward_error(c.dense(), by_last, last), 8.0 * rounding) << seed;
  }
}

TEST(TridiagonalSolve, RightSidesAtOnceOrLaterGiveTheSameBits) {
  constexpr std::size_t n = 23;
  const TridiagonalCase c = some_tridiagonal(n, 5);
  std::vector<double> multiplier(n), inverse_pivot(n), scaled_above(n), at_once = c.right, by_first(n), by_last(n);
  const numerics::TridiagonalFactors<double> factors{multiplier, inverse_pivot, scaled_above};
  numerics::factor_and_solve_sides<double>({c.below, c.diagonal, c.above}, factors,
                                           {at_once, by_first, by_last, 2.0, 3.0});
  std::vector<double> later = c.right, first(n, 0.0), last(n, 0.0);
  first[0] = 2.0;
  last[n - 1] = 3.0;
  for (auto* right : {&later, &first, &last}) numerics::solve_tridiagonal<double>(factors, *right);
  EXPECT_EQ(later, at_once);
  EXPECT_EQ(first, by_first);
  EXPECT_EQ(last, by_last);
}

TEST(TridiagonalSolve, FactorsMayTakeThePlaceOfTheMatrix) {
  TridiagonalCase c = some_tridiagonal(12, 3);
  const std::vector<double> expected = solve_copy_of(c.dense(), c.right);
  const numerics::TridiagonalFactors<double> factors{c.below, c.diagonal, c.above};
  factor(c, factors);
  numerics::solve_tridiagonal<double>(factors, c.right);
  for (std::size_t i = 0; i < 12; ++i) EXPECT_NEAR(c.right[i], expected[i], 1e-13);
}

// The last unknown coupled to one unknown outside, u: row n-1 gets -k u, outside (k + 1) u - k x[n-1] = 3.
TEST(TridiagonalSolve, OpenAtTheLastUnknown) {
  constexpr std::size_t n = 15;
  constexpr double k = 0.7;
  TridiagonalCase c = some_tridiagonal(n, 8);
  std::vector<double> multiplier(n), inverse_pivot(n), scaled_above(n);
  const numerics::TridiagonalFactors<double> factors{multiplier, inverse_pivot, scaled_above};
  factor(c, factors);
  std::vector<double> x = c.right;
  numerics::eliminate_downward<double>(factors, x);
  const double pivot = 1.0 / inverse_pivot[n - 1];
  const double u = (3.0 + k * x[n - 1] / pivot) / (k + 1.0 - k * k / pivot);
  x[n - 1] = (x[n - 1] + k * u) / pivot;
  numerics::substitute_upward<double>(factors, x);

  std::vector<double> whole((n + 1) * (n + 1), 0.0);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) whole[i * (n + 1) + j] = c.dense()[i * n + j];
  }
  whole[(n - 1) * (n + 1) + n] = -k;
  whole[n * (n + 1) + n - 1] = -k;
  whole[n * (n + 1) + n] = k + 1.0;
  c.right.push_back(3.0);
  x.push_back(u);
  EXPECT_LE(backward_error(whole, x, c.right), 16.0 * rounding);
}

TEST(TridiagonalSolve, UnequalLengthsAreAContractViolation) {
  std::vector<double> three(3, 1.0), two(2, 1.0), multiplier(3), inverse_pivot(3), scaled_above(3);
  const numerics::TridiagonalFactors<double> factors{multiplier, inverse_pivot, scaled_above};
  EXPECT_THROW(factor({two, three, three}, factors), ContractViolation);
}

template <int n, int half_band>
void expect_banded_solves(std::uint64_t seed) {
  std::mt19937_64 bits(seed);
  numerics::Banded<double, n, half_band> banded;
  std::vector<double> dense(n * n, 0.0);
  std::array<double, n> right{};
  for (int row = 0; row < n; ++row) {
    double sum = 0.0;
    for (int column = std::max(0, row - half_band); column <= std::min(n - 1, row + half_band); ++column) {
      if (column == row) continue;
      banded.at(row, column) = number(bits) - 0.5;
      sum += std::fabs(banded.at(row, column));
      dense[static_cast<std::size_t>(row * n + column)] = banded.at(row, column);
    }
    banded.at(row, row) = sum + 0.05 + number(bits);
    dense[static_cast<std::size_t>(row * n + row)] = banded.at(row, row);
    right[static_cast<std::size_t>(row)] = number(bits) - 0.5;
  }
  std::array<double, n> x = right;
  numerics::factor_all_but_last(banded);
  numerics::solve_banded(banded, x);
  EXPECT_LE(backward_error(dense, x, right), 16.0 * rounding) << n << " " << half_band;

  // Open at the last unknown: any value of it must leave the other rows satisfied.
  std::array<double, n> open = right;
  const numerics::LastRow<double> row = numerics::reduce_to_last(banded, open);
  EXPECT_NEAR(row.right / row.pivot, x[n - 1], 1e-14);
  numerics::substitute_from_last(banded, 0.25, open);
  EXPECT_EQ(open[n - 1], 0.25);
  std::vector<double> others(dense.begin(), dense.end());
  std::array<double, n> right_with_last = right;
  for (int j = 0; j < n; ++j) others[static_cast<std::size_t>((n - 1) * n + j)] = j == n - 1 ? 1.0 : 0.0;
  right_with_last[n - 1] = 0.25;
  EXPECT_LE(backward_error(others, open, right_with_last), 16.0 * rounding) << n << " " << half_band;
}

TEST(BandedSolve, EverySizeSolvesAndOpensAtTheLastUnknown) {
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    expect_banded_solves<1, 0>(seed);
    expect_banded_solves<2, 1>(seed);
    expect_banded_solves<3, 2>(seed);
    expect_banded_solves<5, 2>(seed);
    expect_banded_solves<6, 1>(seed);
    expect_banded_solves<7, 3>(seed);
    expect_banded_solves<8, 2>(seed);
    expect_banded_solves<9, 4>(seed);
    expect_banded_solves<9, 8>(seed);
  }
}

TEST(DenseSolve, ExchangesRows) {
  const std::vector<double> x = solve_copy_of({0.0, 2.0, 4.0, 1.0}, {6.0, 11.0});
  EXPECT_EQ(x[0], 2.0);
  EXPECT_EQ(x[1], 3.0);
}

// The inverse of the Hilbert matrix has whole entries; its first column for n = 5 is 25, -300, 1050, -1400, 630.
TEST(DenseSolve, FirstColumnOfTheInverseOfHilbertsMatrix) {
  constexpr std::size_t n = 5;
  std::vector<double> a(n * n);
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) a[i * n + j] = 1.0 / static_cast<double>(i + j + 1);
  }
  const std::vector<double> x = solve_copy_of(a, {1.0, 0.0, 0.0, 0.0, 0.0});
  const std::array<double, n> expected{25.0, -300.0, 1050.0, -1400.0, 630.0};
  // Condition number 4.8e5 times the rounding of the entries.
  for (std::size_t i = 0; i < n; ++i) EXPECT_NEAR(x[i], expected[i], 4.8e5 * rounding * std::fabs(expected[i])) << i;
}

TEST(DenseSolve, LargeSystemsHaveSmallResiduals) {
  for (std::uint64_t seed = 0; seed < 30; ++seed) {
    std::mt19937_64 bits(seed);
    const std::size_t n = 1 + 2 * seed;
    std::vector<double> a(n * n), right(n);
    for (double& value : a) value = number(bits) - 0.5;
    for (double& value : right) value = number(bits) - 0.5;
    EXPECT_LE(backward_error(a, solve_copy_of(a, right), right), 64.0 * rounding) << n;
  }
}

TEST(DenseSolve, SaysWhenAMatrixIsSingularOrNotANumber) {
  std::vector<int> exchanged_with(2);
  std::vector<double> singular{1.0, 2.0, 2.0, 4.0};
  EXPECT_FALSE(numerics::factor_dense(singular, exchanged_with));
  std::vector<double> with_nan{std::nan(""), 1.0, 1.0, 1.0};
  EXPECT_FALSE(numerics::factor_dense(with_nan, exchanged_with));
  std::vector<double> too_short(3, 1.0);
  EXPECT_THROW((void)numerics::factor_dense(too_short, exchanged_with), ContractViolation);
}

TEST(GridMatrix, SolvesWhatItWasMadeOf) {
  std::mt19937_64 generator(5);
  const auto draw = [&generator] { return static_cast<double>(generator() % 2048) / 1024.0 - 1.0; };
  struct Size {
    int columns, rows;
  };
  constexpr numerics::Side sides[] = {numerics::Side::right, numerics::Side::left, numerics::Side::above,
                                      numerics::Side::below};
  for (const Size size :
       {Size{1, 1}, Size{2, 1}, Size{1, 7}, Size{3, 3}, Size{4, 9}, Size{9, 4}, Size{12, 12}, Size{31, 34}}) {
    const int n = size.columns * size.rows;
    numerics::GridMatrix matrix(size.columns, size.rows);
    // Twice, so that what a factorisation leaves behind is seen.
    for (int repeat = 0; repeat < 2; ++repeat) {
      matrix.clear();
      std::vector<double> expected(static_cast<std::size_t>(n)), right(static_cast<std::size_t>(n), 0.0);
      for (double& value : expected) value = draw();
      for (int square = 0; square < n; ++square) {
        const auto k = static_cast<std::size_t>(square);
        const int i = square % size.columns, j = square / size.columns;
        const int beside[] = {i + 1 < size.columns ? square + 1 : -1, i > 0 ? square - 1 : -1,
                              j + 1 < size.rows ? square + size.columns : -1, j > 0 ? square - size.columns : -1};
        matrix.own()[k] = 4.5;
        right[k] = 4.5 * expected[k];
        for (std::size_t side = 0; side < 4; ++side) {
          if (beside[side] < 0) continue;
          const double coefficient = draw();
          matrix.beside(sides[side])[k] = coefficient;
          right[k] += coefficient * expected[static_cast<std::size_t>(beside[side])];
        }
      }
      matrix.factor();
      matrix.solve(right);
      for (std::size_t k = 0; k < expected.size(); ++k) {
        EXPECT_NEAR(right[k], expected[k], 1e-13) << size.columns << " x " << size.rows << " at " << k;
      }
    }
  }
}

TEST(BandMatrix, FactorsInTheBitsOfThePlainTripleLoopAndSolves) {
  std::mt19937_64 generator(3);
  const auto draw = [&generator] { return static_cast<double>(generator() % 2048) / 1024.0 - 1.0; };
  struct Size {
    int n, half_band;
  };
  for (const Size size : {Size{1, 0}, Size{2, 1}, Size{3, 2}, Size{7, 1}, Size{30, 4}, Size{61, 7}, Size{130, 31}}) {
    const auto n = static_cast<std::size_t>(size.n);
    numerics::BandMatrix matrix(size.n, size.half_band);
    std::vector<std::vector<double>> plain(n, std::vector<double>(n, 0.0));
    for (int i = 0; i < size.n; ++i) {
      for (int j = std::max(0, i - size.half_band); j <= std::min(size.n - 1, i + size.half_band); ++j) {
        const double entry = i == j ? 2.0 * size.half_band + 1.5 : draw();
        matrix.at(i, j) = entry;
        plain[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] = entry;
      }
    }
    std::vector<double> expected(n), right(n, 0.0);
    for (double& value : expected) value = draw();
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) right[i] += plain[i][j] * expected[j];
    }
    matrix.factor();
    for (std::size_t j = 0; j < n; ++j) {
      plain[j][j] = 1.0 / plain[j][j];
      for (std::size_t i = j + 1; i < n; ++i) {
        const double multiplier = plain[i][j] * plain[j][j];
        plain[i][j] = multiplier;
        for (std::size_t k = j + 1; k < n; ++k) plain[i][k] -= multiplier * plain[j][k];
      }
    }
    for (int i = 0; i < size.n; ++i) {
      for (int j = std::max(0, i - size.half_band); j <= std::min(size.n - 1, i + size.half_band); ++j) {
        EXPECT_EQ(matrix.at(i, j), plain[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)]) << i << " " << j;
      }
    }
    matrix.solve(right);
    for (std::size_t i = 0; i < n; ++i) EXPECT_NEAR(right[i], expected[i], 1e-13) << size.n << " " << i;
  }
}

}  // namespace
}  // namespace houseleek
