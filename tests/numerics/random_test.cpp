// Counter-based random numbers: published answers, frozen numbers, and what independence must look like.
#include "base/random.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include "support/reference_check.hpp"

namespace houseleek {
namespace {

struct KnownAnswer {
  const char* id;
  std::array<std::uint32_t, 4> counter;
  std::array<std::uint32_t, 2> key;
  std::array<double, 4> expected;
};

// The lines "philox4x32 10" of the vectors published with [salmon2011] (text seen, as quoted in several public copies).
constexpr KnownAnswer known_answers[] = {
    {"RND-01", {0, 0, 0, 0}, {0, 0}, {0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}},
    {"RND-02",
     {0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff},
     {0xffffffff, 0xffffffff},
     {0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}},
    {"RND-03",
     {0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
     {0xa4093822, 0x299f31d0},
     {0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}},
};

TEST(Random, PhiloxGivesThePublishedAnswers) {
  for (const KnownAnswer& answer : known_answers) {
    const std::array<std::uint32_t, 4> got = philox4x32_10(answer.counter, answer.key);
    for (std::size_t word = 0; word < 4; ++word) {
      tests::check_reference({.id = std::string(answer.id) + " word " + std::to_string(word),
                              .what = "word of ten rounds of Philox 4x32",
                              .source = "[salmon2011] known-answer vectors (text seen)",
                              .expected = answer.expected[word],
                              .got = static_cast<double>(got[word]),
                              .tolerance = 0.0,
                              .reason = "whole numbers",
                              .function = "philox4x32_10"});
    }
  }
}

// Frozen: made by a separate program in Python. A change here changes every generated year.
TEST(Random, StoredSeedsKeepTheirNumbers) {
  EXPECT_EQ(random_bits(random_variable(1, "rain"), {0, 0, 0}), 0xe860d3706867ff5bULL);
  EXPECT_EQ(random_bits(random_variable(1, "rain"), {0, -1, 0}), 0x70bdabb36a7dad88ULL);
  EXPECT_EQ(random_bits(random_variable(1, "rain"), {7, 364, 23}), 0x14fbe941dea13713ULL);
  EXPECT_EQ(random_bits(random_variable(2, "rain"), {0, 0, 0}), 0xa917648c26f3773eULL);
  EXPECT_EQ(random_bits(random_variable(1, "wind"), {0, 0, 0}), 0xfd47a6220758ec45ULL);
  EXPECT_EQ(random_bits(random_variable(~0ULL, "a long name, with blanks"), {0xffffffffU, 2147483647, 0xffffffffU}),
            0x31748c283a1053f1ULL);
  static_assert(random_bits(random_variable(1, "rain"), {0, 0, 0}) == 0xe860d3706867ff5bULL);
}

TEST(Random, EveryPartOfTheKeyMatters) {
  const RandomVariable rain = random_variable(1, "rain");
  const std::uint64_t number = random_bits(rain, {3, 4, 5});
  EXPECT_NE(number, random_bits(rain, {4, 4, 5}));
  EXPECT_NE(number, random_bits(rain, {3, 5, 5}));
  EXPECT_NE(number, random_bits(rain, {3, 4, 6}));
  EXPECT_NE(number, random_bits(rain, {4, 3, 5}));
  EXPECT_NE(number, random_bits(random_variable(2, "rain"), {3, 4, 5}));
  EXPECT_NE(number, random_bits(random_variable(1, "rains"), {3, 4, 5}));
  EXPECT_NE(number, random_bits(random_variable(1, ""), {3, 4, 5}));
  EXPECT_EQ(number, random_bits(rain, {3, 4, 5}));
}

TEST(Random, UniformNumbersStayInsideTheOpenInterval) {
  // The ends that 52 bits can reach.
  EXPECT_GT((static_cast<double>(0ULL >> 12) + 0.5) * 0x1p-52, 0.0);
  EXPECT_LT((static_cast<double>(~0ULL >> 12) + 0.5) * 0x1p-52, 1.0);
  const RandomVariable variable = random_variable(5, "u");
  for (std::uint32_t i = 0; i < 1000; ++i) {
    const double u = random_uniform(variable, {0, 0, i});
    const double again = (static_cast<double>(random_bits(variable, {0, 0, i}) >> 12) + 0.5) / 4503599627370496.0;
    EXPECT_EQ(u, again);
  }
}

constexpr int n_numbers = 1000000;
// Each statistic below is standard normal if the numbers are independent and uniform; |z| > 5 comes by chance in 6e-7.
constexpr double bar_z = 5.0;

struct Moments {
  double mean_z = 0.0;
  double variance_z = 0.0;
};

Moments moments_of(const std::vector<double>& u) {
  double sum = 0.0;
  double sum_of_squares = 0.0;
  for (const double x : u) {
    sum += x - 0.5;
    sum_of_squares += (x - 0.5) * (x - 0.5);
  }
  const double n = static_cast<double>(u.size());
  // Mean 1/2, variance 1/12; (x - 1/2)^2 has mean 1/12 and variance 1/180.
  return {sum / std::sqrt(n / 12.0), (sum_of_squares - n / 12.0) / std::sqrt(n / 180.0)};
}

double correlation_z(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += (a[i] - 0.5) * (b[i] - 0.5);
  return sum * 12.0 / std::sqrt(static_cast<double>(a.size()));
}

template <class Place>
std::vector<double> uniforms(const RandomVariable& variable, const Place& place) {
  std::vector<double> u(n_numbers);
  for (int i = 0; i < n_numbers; ++i) u[static_cast<std::size_t>(i)] = random_uniform(variable, place(i));
  return u;
}

RandomPlace by_index(int i) { return {0, 0, static_cast<std::uint32_t>(i)}; }
RandomPlace by_day(int i) { return {0, i, 0}; }
RandomPlace by_draw(int i) { return {static_cast<std::uint32_t>(i), 0, 0}; }

TEST(Random, MeanAndVarianceAlongEachPartOfTheKey) {
  const RandomVariable variable = random_variable(2024, "rain");
  for (const auto place : {by_index, by_day, by_draw}) {
    const Moments moments = moments_of(uniforms(variable, place));
    EXPECT_LT(std::fabs(moments.mean_z), bar_z);
    EXPECT_LT(std::fabs(moments.variance_z), bar_z);
  }
}

TEST(Random, NeighboursAreNotCorrelated) {
  const RandomVariable variable = random_variable(2024, "rain");
  for (const auto place : {by_index, by_day, by_draw}) {
    const std::vector<double> u = uniforms(variable, place);
    for (const int lag : {1, 2, 7, 365}) {
      const std::vector<double> early(u.begin(), u.end() - lag);
      const std::vector<double> late(u.begin() + lag, u.end());
      EXPECT_LT(std::fabs(correlation_z(early, late)), bar_z) << lag;
    }
  }
}

TEST(Random, VariablesSeedsAndDrawsAreNotCorrelated) {
  const std::vector<double> rain = uniforms(random_variable(2024, "rain"), by_day);
  EXPECT_LT(std::fabs(correlation_z(rain, uniforms(random_variable(2024, "wind"), by_day))), bar_z);
  EXPECT_LT(std::fabs(correlation_z(rain, uniforms(random_variable(2025, "rain"), by_day))), bar_z);
  EXPECT_LT(std::fabs(correlation_z(rain, uniforms(random_variable(2024, "rain"), by_draw))), bar_z);
  const auto next_draw = [](int i) { return RandomPlace{1, i, 0}; };
  EXPECT_LT(std::fabs(correlation_z(rain, uniforms(random_variable(2024, "rain"), next_draw))), bar_z);
}

TEST(Random, TheStatisticsSeeACorrelationOfOneHundredth) {
  const std::vector<double> rain = uniforms(random_variable(2024, "rain"), by_day);
  std::vector<double> mixed = uniforms(random_variable(2024, "wind"), by_day);
  for (std::size_t i = 0; i < mixed.size(); ++i) mixed[i] = 0.99 * mixed[i] + 0.01 * rain[i];
  EXPECT_GT(std::fabs(correlation_z(rain, mixed)), bar_z);
  std::vector<double> shifted = rain;
  for (double& u : shifted) u += 0.002;
  EXPECT_GT(std::fabs(moments_of(shifted).mean_z), bar_z);
}

// Chi-squared over 256 equal classes: mean 255, variance 510; nearly normal.
TEST(Random, EveryByteIsEvenlySpread) {
  const RandomVariable variable = random_variable(2024, "rain");
  for (int byte = 0; byte < 8; ++byte) {
    std::array<int, 256> counts{};
    for (int i = 0; i < n_numbers; ++i) ++counts[(random_bits(variable, by_day(i)) >> (8 * byte)) & 255U];
    const double expected = n_numbers / 256.0;
    double chi_squared = 0.0;
    for (const int count : counts) chi_squared += (count - expected) * (count - expected) / expected;
    EXPECT_LT(std::fabs(chi_squared - 255.0) / std::sqrt(510.0), bar_z) << byte;
  }
}

}  // namespace
}  // namespace houseleek
