// One lane and lanes of every width give equal bits, on arguments of every kind.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include "numerics/elementary.hpp"
#include "numerics/small_linear.hpp"
#include "numerics/tridiagonal.hpp"

namespace houseleek {
namespace {

using numerics::Lane;

/// Differences in bits between one lane and `width` lanes.
template <int width, class F>
int differences(const F& f, const std::array<double, 8>& x, const std::array<double, 8>& y) {
  int n_different = 0;
  for (int start = 0; start < 8; start += width) {
    Lane<width> a;
    Lane<width> b;
    for (int j = 0; j < width; ++j) {
      numerics::set_lane(a, j, x[static_cast<std::size_t>(start + j)]);
      numerics::set_lane(b, j, y[static_cast<std::size_t>(start + j)]);
    }
    const Lane<width> together = f(a, b);
    for (int j = 0; j < width; ++j) {
      const double alone = f(x[static_cast<std::size_t>(start + j)], y[static_cast<std::size_t>(start + j)]);
      const double among = numerics::lane_at(together, j);
      // Which of two arguments that are not numbers hands its payload on is the processor's business.
      const bool are_no_numbers = std::isnan(alone) && std::isnan(among);
      if (!are_no_numbers && numerics::bits_of(alone) != numerics::bits_of(among)) ++n_different;
    }
  }
  return n_different;
}

/// Any pattern of bits; numbers of ordinary size; numbers over the whole range of exp; large angles.
double some_argument(std::mt19937_64& bits) {
  const std::uint64_t pattern = bits();
  const double u = static_cast<double>(pattern >> 11) * 0x1p-53;
  switch (pattern & 3U) {
    case 0:
      return std::bit_cast<double>(bits());
    case 1:
      return (u - 0.5) * 1500.0;
    case 2:
      return (u - 0.5) * 4.0;
    default:
      return (u - 0.5) * 5e5;
  }
}

template <class F>
void expect_equal_bits(const char* name, const F& f) {
  std::mt19937_64 bits(99);
  int n_different = 0;
  for (int i = 0; i < 125000; ++i) {  // a million arguments
    std::array<double, 8> x{};
    std::array<double, 8> y{};
    for (double& value : x) value = some_argument(bits);
    for (double& value : y) value = some_argument(bits);
    n_different += differences<2>(f, x, y) + differences<4>(f, x, y) + differences<8>(f, x, y);
  }
  EXPECT_EQ(n_different, 0) << name;
}

#define EQUAL_BITS(name) expect_equal_bits(#name, [](auto x, auto) { return numerics::name(x); })

TEST(Lanes, ElementaryFunctionsGiveEqualBits) {
  EQUAL_BITS(exp);
  EQUAL_BITS(log);
  EQUAL_BITS(cbrt);
  EQUAL_BITS(power_four_fifths);
  EQUAL_BITS(fourth_root);
  EQUAL_BITS(sin);
  EQUAL_BITS(cos);
  EQUAL_BITS(tan);
  EQUAL_BITS(atan);
  EQUAL_BITS(asin);
  EQUAL_BITS(acos);
  expect_equal_bits("pow", [](auto x, auto y) { return numerics::pow(x, y); });
  expect_equal_bits("pow of moderate numbers", [](auto x, auto y) {
    using L = decltype(x);
    return numerics::pow(numerics::abs(x), y * L(1e-3));
  });
  expect_equal_bits("atan2", [](auto x, auto y) { return numerics::atan2(x, y); });
}

TEST(Lanes, TheComparisonSeesOneBit) {
  const std::array<double, 8> x{1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0};
  const auto wrong_in_lanes = [](auto a, auto) {
    using L = decltype(a);
    if constexpr (numerics::lane_width<L> == 1) {
      return a;
    } else {
      return numerics::from_bits<L>(numerics::bits_of(a) ^ 1ULL);
    }
  };
  EXPECT_EQ(differences<2>(wrong_in_lanes, x, x), 8);
  EXPECT_EQ(differences<4>(wrong_in_lanes, x, x), 8);
  EXPECT_EQ(differences<8>(wrong_in_lanes, x, x), 8);
}

/// Solves 8 tridiagonal and 8 banded systems with lanes of this type; returns every bit of every unknown.
template <class L>
std::vector<std::uint64_t> solve_eight() {
  constexpr int width = numerics::lane_width<L>;
  constexpr std::size_t n = 40;
  std::vector<std::uint64_t> all(8 * (3 * n + 7));
  for (int start = 0; start < 8; start += width) {
    std::vector<L> below(n), diagonal(n), above(n), right(n), multiplier(n), inverse_pivot(n), scaled_above(n);
    std::vector<L> by_first(n), by_last(n);
    numerics::Banded<L, 7, 3> banded;
    std::array<L, 7> x{};
    for (int j = 0; j < width; ++j) {
      std::mt19937_64 bits(static_cast<std::uint64_t>(start + j));
      const auto number = [&bits] { return static_cast<double>(bits() >> 11) * 0x1p-53; };
      for (std::size_t i = 0; i < n; ++i) {
        numerics::set_lane(below[i], j, -number());
        numerics::set_lane(above[i], j, -number());
        numerics::set_lane(diagonal[i], j, 2.0 + number());
        numerics::set_lane(right[i], j, number());
      }
      for (int row = 0; row < 7; ++row) {
        for (int column = std::max(0, row - 3); column <= std::min(6, row + 3); ++column) {
          numerics::set_lane(banded.at(row, column), j, row == column ? 8.0 + number() : number());
        }
        numerics::set_lane(x[static_cast<std::size_t>(row)], j, number());
      }
    }
    numerics::factor_and_solve_sides<L>({below, diagonal, above}, {multiplier, inverse_pivot, scaled_above},
                                        {right, by_first, by_last, L(1.5), L(2.5)});
    numerics::factor_all_but_last(banded);
    numerics::solve_banded(banded, x);
    for (int j = 0; j < width; ++j) {
      std::size_t place = static_cast<std::size_t>(start + j) * (3 * n + 7);
      for (const auto* column : {&right, &by_first, &by_last}) {
        for (const L& value : *column) all[place++] = std::bit_cast<std::uint64_t>(numerics::lane_at(value, j));
      }
      for (const L& value : x) all[place++] = std::bit_cast<std::uint64_t>(numerics::lane_at(value, j));
    }
  }
  return all;
}

TEST(Lanes, LinearSystemsGiveEqualBits) {
  const std::vector<std::uint64_t> alone = solve_eight<double>();
  EXPECT_EQ(alone, solve_eight<Lane<2>>());
  EXPECT_EQ(alone, solve_eight<Lane<4>>());
  EXPECT_EQ(alone, solve_eight<Lane<8>>());
}

}  // namespace
}  // namespace houseleek
