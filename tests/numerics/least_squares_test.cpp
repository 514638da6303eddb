// Least squares against certified values of the Statistical Reference Datasets, and at bounds.
#include "numerics/least_squares.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::numerics {
namespace {

using tests::check_reference;

using Model = std::function<double(std::span<const double>, double)>;

LeastSquaresProblem problem_of(const Model& model, const std::vector<double>& x, const std::vector<double>& y,
                               const std::vector<double>& start) {
  LeastSquaresProblem problem;
  problem.residuals = [model, x, y](std::span<const double> parameters, std::span<double> residuals) {
    for (std::size_t i = 0; i < x.size(); ++i) residuals[i] = model(parameters, x[i]) - y[i];
  };
  problem.n_residuals = x.size();
  problem.start = start;
  return problem;
}

struct Certified {
  std::string id;
  std::string what;
  double expected;
};

constexpr const char* strd = "[nist_strd] certified value (text seen in public copies of the data file)";

void check(const Certified& certified, double got, double tolerance) {
  check_reference({.id = certified.id,
                   .what = certified.what,
                   .source = strd,
                   .expected = certified.expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = "slopes by differences of 1e-6; the sum is flat at its least",
                   .function = "numerics::fit_least_squares"});
}

/// Two parameters of an easy problem: sigma^2 (J'J)^-1 by hand.
TEST(LeastSquares, MisraDental) {
  const std::vector<double> x{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                              378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
  const std::vector<double> y{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                              44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
  const Model model = [](std::span<const double> b, double at) { return b[0] * (1.0 - std::exp(-b[1] * at)); };
  for (const std::vector<double>& start : {std::vector<double>{500.0, 1e-4}, std::vector<double>{250.0, 5e-4}}) {
    const LeastSquaresFit fit = fit_least_squares(problem_of(model, x, y, start));
    EXPECT_TRUE(fit.is_converged);
    EXPECT_NEAR(fit.sum_of_squares, 1.2455138894e-01, 1e-10);
    EXPECT_NEAR(fit.parameters[0], 2.3894212918e+02, 2e-4);
    EXPECT_NEAR(fit.parameters[1], 5.5015643181e-04, 1e-9);
    if (start[0] > 300.0)
      check({"LSQ-01", "Misra1a, b1 from the far start", 2.3894212918e+02}, fit.parameters[0], 2e-4);
    double aa = 0.0;
    double bb = 0.0;
    double ab = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
      aa += fit.slopes[2 * i] * fit.slopes[2 * i];
      bb += fit.slopes[2 * i + 1] * fit.slopes[2 * i + 1];
      ab += fit.slopes[2 * i] * fit.slopes[2 * i + 1];
    }
    const double error = std::sqrt(fit.sum_of_squares / 12.0 * bb / (aa * bb - ab * ab));
    if (start[0] > 300.0) check({"LSQ-02", "Misra1a, standard deviation of b1", 2.7070075241e+00}, error, 3e-5);
  }
}

TEST(LeastSquares, KowalikAndOsborne) {
  const std::vector<double> x{4.0, 2.0, 1.0, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625};
  const std::vector<double> y{0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246};
  const Model model = [](std::span<const double> b, double at) {
    return b[0] * (at * at + at * b[1]) / (at * at + at * b[2] + b[3]);
  };
  const LeastSquaresFit fit = fit_least_squares(problem_of(model, x, y, {0.25, 0.39, 0.415, 0.39}));
  EXPECT_TRUE(fit.is_converged);
  check({"LSQ-03", "MGH09, b1 from the near start", 1.9280693458e-01}, fit.parameters[0], 2e-6);
  check({"LSQ-04", "MGH09, residual sum of squares", 3.0750560385e-04}, fit.sum_of_squares, 3e-13);
  EXPECT_NEAR(fit.parameters[1], 1.9128232873e-01, 2e-5);
  EXPECT_NEAR(fit.parameters[2], 1.2305650693e-01, 2e-5);
  EXPECT_NEAR(fit.parameters[3], 1.3606233068e-01, 2e-5);
}

TEST(LeastSquares, ThurberMobility) {
  const std::vector<double> x{-3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699, -2.633, -2.481,
                              -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915, -0.714,
                              -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010,  0.119,  0.377,  0.790,
                              0.963,  1.006,  1.115,  1.572,  1.841,  2.047,  2.200};
  const std::vector<double> y{80.574,   84.248,   87.264,   87.195,   89.076,   89.608,   89.868,   90.101,
                              92.405,   95.854,   100.696,  101.060,  401.672,  390.724,  567.534,  635.316,
                              733.054,  759.087,  894.206,  990.785,  1090.109, 1080.914, 1122.643, 1178.351,
                              1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384,
                              1442.962, 1464.350, 1468.705, 1447.894, 1457.628};
  const Model model = [](std::span<const double> b, double at) {
    return (b[0] + at * (b[1] + at * (b[2] + at * b[3]))) / (1.0 + at * (b[4] + at * (b[5] + at * b[6])));
  };
  const LeastSquaresFit fit = fit_least_squares(problem_of(model, x, y, {1000.0, 1000.0, 400.0, 40.0, 0.7, 0.3, 0.03}));
  EXPECT_TRUE(fit.is_converged);
  check({"LSQ-05", "Thurber, b1 from the far start", 1.2881396800e+03}, fit.parameters[0], 1e-3);
  check({"LSQ-06", "Thurber, residual sum of squares", 5.6427082397e+03}, fit.sum_of_squares, 1e-5);
  EXPECT_NEAR(fit.parameters[6], 4.9727297349e-02, 1e-6);
}

TEST(LeastSquares, StopsAtABoundAndLeavesTheOthersFree) {
  const std::vector<double> x{0.0, 1.0, 2.0, 3.0};
  const std::vector<double> y{1.0, 3.0, 5.0, 7.0};
  LeastSquaresProblem line =
      problem_of([](std::span<const double> b, double at) { return b[0] + b[1] * at; }, x, y, {0.0, 0.5});
  line.low = {-10.0, 0.0};
  line.high = {10.0, 1.5};
  const LeastSquaresFit fit = fit_least_squares(line);
  EXPECT_TRUE(fit.is_converged);
  EXPECT_EQ(fit.parameters[1], 1.5);
  EXPECT_TRUE(fit.is_at_bound[1]);
  EXPECT_FALSE(fit.is_at_bound[0]);
  EXPECT_NEAR(fit.parameters[0], 1.75, 1e-7);  // mean of y - 1.5 x
}

TEST(LeastSquares, RefusesBadQuestionsAndSurvivesBadPlaces) {
  const std::vector<double> x{1.0, 2.0, 3.0};
  const std::vector<double> y{std::log(2.0), std::log(3.0), std::log(4.0)};
  // Not a number left of -1: the first full step from 30 would land there.
  const Model model = [](std::span<const double> b, double at) { return std::log(at + b[0]); };
  EXPECT_NEAR(fit_least_squares(problem_of(model, x, y, {30.0})).parameters[0], 1.0, 1e-8);
  EXPECT_THROW((void)fit_least_squares(problem_of(model, x, y, {-5.0})), ContractViolation);
  EXPECT_THROW((void)fit_least_squares(problem_of(model, {1.0}, {1.0}, {1.0, 2.0})), ContractViolation);
  LeastSquaresProblem outside = problem_of(model, x, y, {3.0});
  outside.high = {2.0};
  EXPECT_THROW((void)fit_least_squares(outside), ContractViolation);
}

}  // namespace
}  // namespace houseleek::numerics
