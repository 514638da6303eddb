// Quadrature and bracketed roots.
#include <gtest/gtest.h>

#include <cmath>

#include "numerics/quadrature.hpp"
#include "numerics/root.hpp"

namespace houseleek {
namespace {

double power(double x, int n) {
  double product = 1.0;
  for (int i = 0; i < n; ++i) product *= x;
  return product;
}

/// Error of the integral of x^n over (0, 1), which is 1 / (n + 1).
template <int order>
double error_of_power(int n) {
  return numerics::integrate<order>([n](double x) { return power(x, n); }, 0.0, 1.0) - 1.0 / (n + 1.0);
}

template <int order>
void expect_exact_to_its_degree() {
  for (int n = 0; n < 2 * order; ++n) EXPECT_NEAR(error_of_power<order>(n), 0.0, 4e-16) << order << " " << n;
  // The first degree it cannot do: (order!)^4 / ((2 order + 1) ((2 order)!)^2).
  double expected = 1.0 / (2.0 * order + 1.0);
  for (int i = 1; i <= order; ++i) expected *= power(i / (order + static_cast<double>(i)), 2);
  if (expected > 1e-13) {
    EXPECT_NEAR(-error_of_power<order>(2 * order), expected, 1e-3 * expected + 4e-16) << order;
  }
}

TEST(Quadrature, ExactForPolynomialsOfItsDegreeAndNoFurther) {
  expect_exact_to_its_degree<2>();
  expect_exact_to_its_degree<3>();
  expect_exact_to_its_degree<4>();
  expect_exact_to_its_degree<5>();
  expect_exact_to_its_degree<6>();
  expect_exact_to_its_degree<8>();
  expect_exact_to_its_degree<10>();
  expect_exact_to_its_degree<16>();
}

TEST(Quadrature, SmoothFunction) {
  // The integral of 1 / (1 + x^2) over (0, 1) is pi / 4.
  EXPECT_NEAR(numerics::integrate<16>([](double x) { return 1.0 / (1.0 + x * x); }, 0.0, 1.0), 0.78539816339744831,
              1e-15);
  EXPECT_NEAR(numerics::integrate<4>([](double x) { return x; }, 3.0, 1.0), -4.0, 1e-15);
}

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
  expect_root([](double x) { return power(x - 0.3, 9); }, {0.0, 1.0, 1e-10}, 0.3);
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
