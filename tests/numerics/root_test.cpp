// Bracketed roots.
#include "numerics/root.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace houseleek {
namespace {

template <class F>
numerics::Root expect_root(const F& f, numerics::Bracket bracket, double expected) {
  const std::optional<numerics::Root> root = numerics::find_root(f, bracket);
  EXPECT_TRUE(root.has_value());
  if (!root) return {};
  EXPECT_NEAR(root->x, expected, bracket.tolerance);
  EXPECT_LE(root->half_width, bracket.tolerance);
  const double halvings = std::ceil(std::log2((bracket.high - bracket.low) / (2.0 * bracket.tolerance)));
  EXPECT_LE(root->calls, static_cast<int>(halvings) + 4);
  return *root;
}

TEST(FindRoot, WithinToleranceAndCalls) {
  // Lambert: x exp(x) = 1 at the omega constant.
  const numerics::Root smooth =
      expect_root([](double x) { return x * std::exp(x) - 1.0; }, {0.0, 1.0, 1e-14}, 0.56714329040978387);
  EXPECT_LE(smooth.calls, 16);  // bisection would need 49
  expect_root([](double x) { return 1.0 - x * std::exp(x); }, {0.0, 1.0, 1e-14}, 0.56714329040978387);
  expect_root([](double x) { return x * x - 2.0; }, {0.0, 1000.0, 1e-10}, 1.4142135623730951);
  expect_root([](double x) { return std::pow(x - 0.3, 9); }, {0.0, 1.0, 1e-10}, 0.3);
  expect_root([](double x) { return x < 0.7 ? -1.0 : 1e6; }, {0.0, 1.0, 1e-10}, 0.7);
  expect_root([](double x) { return std::exp(50.0 * (x - 0.9)) - 1.0; }, {-1.0, 1.0, 1e-12}, 0.9);
}

TEST(FindRoot, AnEndMayBeTheRoot) {
  EXPECT_EQ(numerics::find_root([](double x) { return x; }, {0.0, 1.0, 1e-6})->x, 0.0);
  EXPECT_EQ(numerics::find_root([](double x) { return x - 1.0; }, {0.0, 1.0, 1e-6})->x, 1.0);
}

TEST(FindRoot, NothingWithoutAChangeOfSign) {
  EXPECT_FALSE(numerics::find_root([](double x) { return x * x + 1.0; }, {-1.0, 1.0, 1e-6}).has_value());
  EXPECT_FALSE(numerics::find_root([](double) { return std::nan(""); }, {-1.0, 1.0, 1e-6}).has_value());
  const auto nan_inside = [](double x) { return x > -0.9 && x < 0.9 ? std::nan("") : x; };
  EXPECT_FALSE(numerics::find_root(nan_inside, {-1.0, 1.0, 1e-6}).has_value());
}

TEST(FindRoot, StopsAtNeighbouringDoubles) {
  const std::optional<numerics::Root> root =
      numerics::find_root([](double x) { return x * x - 2.0; }, {1.0, 2.0, 1e-300});
  ASSERT_TRUE(root.has_value());
  EXPECT_NEAR(root->x, 1.4142135623730951, 2.3e-16);
}

TEST(FindRoot, ABadBracketIsAContractViolation) {
  const auto f = [](double x) { return x; };
  EXPECT_THROW((void)numerics::find_root(f, {1.0, -1.0, 1e-6}), ContractViolation);
  EXPECT_THROW((void)numerics::find_root(f, {-1.0, 1.0, 0.0}), ContractViolation);
  EXPECT_THROW((void)numerics::find_root(f, {std::nan(""), 1.0, 1e-6}), ContractViolation);
}

}  // namespace
}  // namespace houseleek
