// Random designs: eighteen through a month, two through the year.
#include <gtest/gtest.h>

#include <string>

#include "climate/calendar.hpp"
#include "property/random_design_runs.hpp"
#include "property/random_designs.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {
namespace {

TEST(RandomDesigns, TheSameSeedGivesTheSameText) {
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const std::string first = random_design_text(1, 0, catalogue);
  EXPECT_EQ(first, random_design_text(1, 0, catalogue));
  EXPECT_NE(first, random_design_text(2, 0, catalogue));
  EXPECT_NE(first, random_design_text(1, 1, catalogue));
}

class RandomDesign : public ::testing::TestWithParam<int> {};

TEST_P(RandomDesign, KeepsItsBooksForAMonth) {
  const int number = GetParam();
  const int first_day = climate::first_day_of_month[static_cast<std::size_t>(number % climate::n_months)];
  expect_books_of_design(static_cast<std::uint32_t>(number),
                         {.first_hour = 24 * first_day, .n_hours = 24 * 30, .spin_up_hours = 24 * 3});
}
INSTANTIATE_TEST_SUITE_P(Number, RandomDesign, ::testing::Range(0, 18), ::testing::PrintToStringParamName());

TEST(RandomDesigns, KeepTheirBooksForAYear) {
  for (const std::uint32_t number : {18U, 19U}) expect_books_of_design(number, {});
}

}  // namespace
}  // namespace houseleek::tests
