// Errors of our elementary functions: dense sweeps against 64-bit long doubles, digits made elsewhere, ends of ranges.
#include "numerics/elementary.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>
#include <random>
#include <string>
#include <vector>

namespace houseleek {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr int n_sweep = 400000;

/// |got - exact| in units of the last place of the double nearest to `exact`.
double ulp_error(double got, long double exact) {
  if (exact == 0.0L) return got == 0.0 ? 0.0 : infinity;
  int exponent = 0;
  (void)std::frexp(static_cast<double>(exact), &exponent);
  return static_cast<double>(std::fabs((static_cast<long double>(got) - exact) / std::ldexp(1.0L, exponent - 53)));
}

/// The largest of the errors; not a number counts as infinitely wrong.
struct Largest {
  double ulp = 0.0;
  double at = 0.0;
  void take(double got, long double exact, double argument) {
    const double error = ulp_error(got, exact);
    if (error <= ulp) return;
    ulp = std::isnan(error) ? infinity : error;
    at = argument;
  }
};

struct Sweep {
  const char* name;
  std::function<double(double)> ours;
  std::function<long double(long double)> exact;
  double low;
  double high;
  bool is_logarithmic;
  double bar_ulp;  // what the function's comment states
};

#define OURS(name) [](double x) { return numerics::name(x); }
#define EXACT(name) [](long double x) { return std::name(x); }

std::vector<Sweep> sweeps() {
  return {
      {"exp", OURS(exp), EXACT(exp), -708.0, 709.7, false, 0.93},
      {"exp", OURS(exp), EXACT(exp), -1.0, 1.0, false, 0.93},
      {"exp", OURS(exp), EXACT(exp), 1e-9, 1.0, true, 0.93},
      {"log", OURS(log), EXACT(log), 1e-300, 1e300, true, 0.9},
      {"log", OURS(log), EXACT(log), 0.5, 2.0, false, 0.9},
      {"log", OURS(log), EXACT(log), 0.999, 1.001, false, 0.9},
      {"cbrt", OURS(cbrt), EXACT(cbrt), 1e-290, 1e300, true, 0.56},
      {"cbrt", OURS(cbrt), EXACT(cbrt), 1.0, 8.0, false, 0.56},
      {"x^0.8", OURS(power_four_fifths), [](long double x) { return std::pow(x, 0.8L); }, 1e-300, 1e300, true, 1.6},
      {"x^0.8", OURS(power_four_fifths), [](long double x) { return std::pow(x, 0.8L); }, 1.0, 32.0, false, 1.6},
      {"x^0.25", OURS(fourth_root), [](long double x) { return std::pow(x, 0.25L); }, 1e-300, 1e300, true, 0.85},
      {"sin", OURS(sin), EXACT(sin), -2e5, 2e5, false, 0.8},
      {"sin", OURS(sin), EXACT(sin), -10.0, 10.0, false, 0.8},
      {"sin", OURS(sin), EXACT(sin), 1e-9, 1.0, true, 0.8},
      {"cos", OURS(cos), EXACT(cos), -2e5, 2e5, false, 0.8},
      {"cos", OURS(cos), EXACT(cos), -10.0, 10.0, false, 0.8},
      {"tan", OURS(tan), EXACT(tan), -2e5, 2e5, false, 2.4},
      {"tan", OURS(tan), EXACT(tan), -2.0, 2.0, false, 2.4},
      {"atan", OURS(atan), EXACT(atan), -5.0, 5.0, false, 2.4},
      {"atan", OURS(atan), EXACT(atan), 1e-9, 1e9, true, 2.4},
      {"asin", OURS(asin), EXACT(asin), -1.0, 1.0, false, 3.0},
      {"asin", OURS(asin), EXACT(asin), 1e-9, 1.0, true, 3.0},
      {"acos", OURS(acos), EXACT(acos), -1.0, 1.0, false, 3.0},
      {"acos", OURS(acos), EXACT(acos), 0.999, 1.0, false, 3.0},
  };
}

/// Evenly spread over (0, 1).
double share(std::mt19937_64& bits) { return (static_cast<double>(bits() >> 12) + 0.5) * 0x1p-52; }

class Elementary : public ::testing::Test {
 protected:
  void SetUp() override {
    if (std::numeric_limits<long double>::digits < 64) GTEST_SKIP() << "long double is no wider than double here";
  }
};

TEST_F(Elementary, DenseSweepsStayBelowTheStatedErrors) {
  for (const Sweep& sweep : sweeps()) {
    std::mt19937_64 bits(20240101);
    Largest largest;
    for (int i = 0; i < n_sweep; ++i) {
      const double u = share(bits);
      const double x = sweep.is_logarithmic
                           ? std::exp(std::log(sweep.low) + u * (std::log(sweep.high) - std::log(sweep.low)))
                           : sweep.low + u * (sweep.high - sweep.low);
      largest.take(sweep.ours(x), sweep.exact(x), x);
    }
    EXPECT_LE(largest.ulp, sweep.bar_ulp) << sweep.name << " at " << largest.at;
    RecordProperty(std::string(sweep.name) + " " + std::to_string(sweep.low), std::to_string(largest.ulp));
  }
}

TEST_F(Elementary, TheMeterSeesOneUnitInTheLastPlace) {
  Largest largest;
  largest.take(std::nextafter(numerics::exp(0.3), 2.0), std::exp(static_cast<long double>(0.3)), 0.3);
  EXPECT_GT(largest.ulp, 0.93);
  largest.take(not_a_number, 1.0L, 7.0);
  EXPECT_EQ(largest.ulp, infinity);
  EXPECT_EQ(largest.at, 7.0);
}

TEST_F(Elementary, SineAndCosineNextToEveryMultipleOfHalfPi) {
  Largest sine;
  Largest cosine;
  const long double half_pi = 1.57079632679489661923132169163975144L;
  for (int n = 1; n <= 127323; ++n) {
    const double near = static_cast<double>(half_pi * n);
    for (const double x : {std::nextafter(near, 0.0), near, std::nextafter(near, 1e9)}) {
      sine.take(numerics::sin(x), std::sin(static_cast<long double>(x)), x);
      cosine.take(numerics::cos(-x), std::cos(static_cast<long double>(x)), x);
    }
  }
  EXPECT_LE(sine.ulp, 0.8) << sine.at;
  EXPECT_LE(cosine.ulp, 0.8) << cosine.at;
}

TEST_F(Elementary, PowersStayBelowTheStatedErrors) {
  for (const auto& [reach, bar_ulp] : {std::pair{2.0, 0.93}, {20.0, 0.93}, {200.0, 0.93}, {700.0, 1.3}}) {
    std::mt19937_64 bits(7);
    Largest largest;
    for (int i = 0; i < n_sweep; ++i) {
      const double x = std::exp((2.0 * share(bits) - 1.0) * (i % 2 == 0 ? 0.3 : 30.0));
      const double y = (2.0 * share(bits) - 1.0) * reach / std::fabs(std::log(x));
      largest.take(numerics::pow(x, y), std::pow(static_cast<long double>(x), static_cast<long double>(y)), x);
    }
    EXPECT_LE(largest.ulp, bar_ulp) << "reach " << reach << " at " << largest.at;
  }
}

TEST_F(Elementary, AnglesOfPoints) {
  std::mt19937_64 bits(7);
  Largest largest;
  for (int i = 0; i < n_sweep; ++i) {
    const double x = 2.0 * share(bits) - 1.0;
    const double y = (2.0 * share(bits) - 1.0) * (i % 2 == 0 ? 1.0 : std::exp(40.0 * share(bits) - 20.0));
    largest.take(numerics::atan2(y, x), std::atan2(static_cast<long double>(y), static_cast<long double>(x)), y / x);
  }
  EXPECT_LE(largest.ulp, 2.4) << largest.at;
}

struct Digits {
  double x;
  double expected;
};

void expect_digits(const char* name, double (*ours)(double), double bar_ulp, const std::vector<Digits>& table) {
  for (const Digits& row : table) {
    EXPECT_LE(ulp_error(ours(row.x), static_cast<long double>(row.expected)), bar_ulp) << name << " at " << row.x;
  }
}

// Digits recomputed with mpmath 1.3 (40 digits, for the double nearest to each argument); the bars are the stated errors
// plus the half unit by which a literal is rounded.
TEST(ElementaryDigits, AgreeWithArithmeticOfFortyDigits) {
  expect_digits("exp", OURS(exp), 1.43,
                {{-700.25, 7.6787238131108722116e-305},
                 {-17.3, 3.0669412945635550553e-8},
                 {-0.3, 0.74081822068171787429},
                 {0.1, 1.1051709180756476309},
                 {1.0, 2.7182818284590452354},
                 {5.5, 244.69193226422038792},
                 {700.7, 2.0424125462260527460e+304}});
  expect_digits("log", OURS(log), 1.4,
                {{1e-300, -690.77552789821370518},
                 {0.01, -4.6051701859880913472},
                 {0.71, -0.34249030894677599674},
                 {0.999, -0.0010005003335835343892},
                 {1.001, 0.00099950033308342314271},
                 {2.0, 0.69314718055994530942},
                 {273.15, 5.6100210948417265683},
                 {1e300, 690.77552789821370526}});
  expect_digits("cbrt", OURS(cbrt), 1.06,
                {{-2.0, -1.2599210498948731648},
                 {1e-200, 2.1544346900318837089e-67},
                 {0.037, 0.33322218516459532051},
                 {3.0, 1.4422495703074083823},
                 {5830.0, 17.997942151576900515},
                 {1e300, 1.0000000000000000175e+100}});
  expect_digits("x^0.8", OURS(power_four_fifths), 2.1,
                {{1e-200, 9.9999999999999998568e-161},
                 {0.037, 0.071542049799235474039},
                 {3.0, 2.4082246852806920463},
                 {5830.0, 1029.2831041206238365},
                 {1e300, 1.0000000000000000420e+240}});
  expect_digits("sin", OURS(sin), 1.3,
                {{0.5, 0.47942553860420300027},
                 {2.0, 0.90929742682568169540},
                 {22.0, -0.0088513092904038759217},
                 {355.0, -0.000030144353359488449214},
                 {-99999.5, -0.51049161507477981364},
                 {199999.0, -0.87792584816684494120}});
  expect_digits("cos", OURS(cos), 1.3,
                {{0.5, 0.87758256189037271612},
                 {2.0, -0.41614683654714238700},
                 {11.0, 0.0044256979880507857484},
                 {344.0, -0.0043955539278977173650},
                 {-99999.5, -0.85988273092227107438},
                 {199999.0, 0.47879662187668567864}});
  expect_digits("tan", OURS(tan), 2.9,
                {{0.5, 0.54630248984379051326},
                 {1.57, 1255.7655915007896475},
                 {-3.0, 0.14254654307427780530},
                 {355.0, 0.000030144353373184265468}});
  expect_digits("asin", OURS(asin), 3.5,
                {{-1.0, -1.5707963267948966192},
                 {0.1, 0.10016742116155980192},
                 {0.5, 0.52359877559829887308},
                 {0.99, 1.4292568534704693375}});
  expect_digits("acos", OURS(acos), 3.5,
                {{-0.99, 3.0000531802653659568},
                 {0.1, 1.4706289056333368173},
                 {0.5, 1.0471975511965977462},
                 {0.9999, 0.014142253477512098811}});
  expect_digits("atan", OURS(atan), 2.9,
                {{-3.0, -1.2490457723982544258},
                 {0.1, 0.099668652491162032875},
                 {0.42, 0.39762799152212930079},
                 {1.0, 0.78539816339744830962},
                 {2.5, 1.1902899496825317329},
                 {1e6, 1.5707953267948966196}});
}

TEST(ElementaryDigits, OfTwoArguments) {
  struct Row {
    double a;
    double b;
    double expected;
  };
  for (const Row& row : std::vector<Row>{{0.3, 7.5, 0.00011978692332637979577},
                                         {0.01, -3.0, 999999.99999999993755},
                                         {1.0001, 50000.0, 148.37606292299292081},
                                         {2.5, 0.5, 1.5811388300841896660},
                                         {101325.0, 0.19, 8.9348271735117492313},
                                         {0.999, -200000.0, 7.9864688764391332878e+86}}) {
    EXPECT_LE(ulp_error(numerics::pow(row.a, row.b), static_cast<long double>(row.expected)), 1.8) << row.a;
  }
  for (const Row& row : std::vector<Row>{{1.0, -1.0, 2.3561944901923449288},
                                         {-1.0, -2.0, -2.6779450445889871222},
                                         {3.0, 0.5, 1.4056476493802697810},
                                         {0.1, 7.0, 0.014284742587396631229},
                                         {-2.0, 0.0, -1.5707963267948966192}}) {
    EXPECT_LE(ulp_error(numerics::atan2(row.a, row.b), static_cast<long double>(row.expected)), 2.9) << row.a;
  }
}

TEST(ElementaryEnds, ExactValues) {
  EXPECT_EQ(numerics::exp(0.0), 1.0);
  EXPECT_EQ(numerics::exp(-0.0), 1.0);
  EXPECT_EQ(numerics::log(1.0), 0.0);
  EXPECT_EQ(numerics::pow(3.7, 0.0), 1.0);
  EXPECT_EQ(numerics::pow(1.0, 12345.678), 1.0);
  EXPECT_EQ(numerics::cbrt(27.0), 3.0);
  EXPECT_EQ(numerics::cbrt(-1000.0), -10.0);
  EXPECT_EQ(numerics::cbrt(0.0), 0.0);
  EXPECT_TRUE(std::signbit(numerics::cbrt(-0.0)));
  EXPECT_EQ(numerics::power_four_fifths(0.0), 0.0);
  EXPECT_EQ(numerics::power_four_fifths(1.0), 1.0);
  EXPECT_EQ(numerics::fourth_root(81.0), 3.0);
  EXPECT_EQ(numerics::sin(0.0), 0.0);
  EXPECT_EQ(numerics::cos(0.0), 1.0);
  EXPECT_EQ(numerics::tan(0.0), 0.0);
  EXPECT_EQ(numerics::atan(0.0), 0.0);
  EXPECT_EQ(numerics::atan2(0.0, 0.0), 0.0);
  EXPECT_EQ(numerics::atan2(0.0, -1.0), numerics::pi);
  EXPECT_EQ(numerics::acos(1.0), 0.0);
  EXPECT_EQ(numerics::acos(-1.0), numerics::pi);
}

TEST(ElementaryEnds, OutsideTheRangeIsLoudAndDefined) {
  EXPECT_GT(numerics::exp(-708.39), 0.0);
  EXPECT_EQ(numerics::exp(-708.4), 0.0);
  EXPECT_EQ(numerics::exp(-infinity), 0.0);
  EXPECT_LT(numerics::exp(709.78), infinity);
  EXPECT_EQ(numerics::exp(709.79), infinity);
  EXPECT_EQ(numerics::exp(infinity), infinity);
  EXPECT_TRUE(std::isnan(numerics::exp(not_a_number)));
  for (const double x : {0.0, -0.0, -1.0, 1e-310, infinity, -infinity, not_a_number}) {
    EXPECT_TRUE(std::isnan(numerics::log(x))) << x;
  }
  for (const double x : {-1.0, 1e-310, infinity, not_a_number}) EXPECT_TRUE(std::isnan(numerics::pow(x, 2.0))) << x;
  EXPECT_TRUE(std::isnan(numerics::pow(0.0, 0.0)));
  EXPECT_TRUE(std::isnan(numerics::pow(0.0, -1.0)));
  EXPECT_EQ(numerics::pow(0.0, 0.3), 0.0);
  EXPECT_EQ(numerics::pow(10.0, 400.0), infinity);
  EXPECT_EQ(numerics::pow(10.0, -400.0), 0.0);
  EXPECT_TRUE(std::isnan(numerics::pow(2.0, not_a_number)));
  EXPECT_TRUE(std::isnan(numerics::cbrt(infinity)));
  EXPECT_TRUE(std::isnan(numerics::cbrt(not_a_number)));
  EXPECT_LT(numerics::cbrt(1e-310), 1e-96);
  EXPECT_TRUE(std::isnan(numerics::power_four_fifths(-1.0)));
  EXPECT_TRUE(std::isnan(numerics::power_four_fifths(not_a_number)));
  EXPECT_TRUE(std::isnan(numerics::fourth_root(-1.0)));
  for (const double x : {200001.0, -1e18, infinity, not_a_number}) {
    EXPECT_TRUE(std::isnan(numerics::sin(x))) << x;
    EXPECT_TRUE(std::isnan(numerics::cos(x))) << x;
    EXPECT_TRUE(std::isnan(numerics::tan(x))) << x;
  }
  for (const double x : {1.0000000000000002, -2.0, infinity, not_a_number}) {
    EXPECT_TRUE(std::isnan(numerics::asin(x))) << x;
    EXPECT_TRUE(std::isnan(numerics::acos(x))) << x;
  }
  EXPECT_TRUE(std::isnan(numerics::atan(infinity)));
  EXPECT_TRUE(std::isnan(numerics::atan2(not_a_number, 1.0)));
  EXPECT_TRUE(std::isnan(numerics::atan2(1.0, not_a_number)));
}

// Neighbouring pieces of a reduction must meet: a step downwards would stop a solver that follows a slope.
TEST(ElementaryEnds, GrowsAcrossTheJoinsOfItsPieces) {
  constexpr double before = 1.0 - 1e-14;
  constexpr double after = 1.0 + 1e-14;
  for (int k = -20; k <= 20; ++k) {
    const double join = (k + 0.5) * 0.69314718055994531;
    const double gap = 4e-15 * std::fabs(join) + 1e-15;
    EXPECT_LT(numerics::exp(join - gap), numerics::exp(join + gap)) << k;
    const double root_two = std::ldexp(1.4142135623730951, k);
    EXPECT_LT(numerics::log(root_two * before), numerics::log(root_two * after)) << k;
    const double octave = std::ldexp(1.0, k);
    EXPECT_LT(numerics::cbrt(octave * before), numerics::cbrt(octave * after)) << k;
    EXPECT_LT(numerics::power_four_fifths(octave * before), numerics::power_four_fifths(octave * after)) << k;
  }
}

}  // namespace
}  // namespace houseleek
