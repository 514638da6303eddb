// Two hundred random designs through the year, none of them among those of the shorter test.
#include <gtest/gtest.h>

#include "property/random_design_runs.hpp"

namespace houseleek::tests {
namespace {

class RandomDesignYear : public ::testing::TestWithParam<int> {};

// Ten designs a test: planted every one through the year, and its rival.
TEST_P(RandomDesignYear, KeepsItsBooks) {
  const int first = 100 + 10 * GetParam();
  for (int number = first; number < first + 10; ++number)
    expect_books_of_design(static_cast<std::uint32_t>(number), {});
}
INSTANTIATE_TEST_SUITE_P(Ten, RandomDesignYear, ::testing::Range(0, 20), ::testing::PrintToStringParamName());

}  // namespace
}  // namespace houseleek::tests
