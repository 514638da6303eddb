// Files with faults, many of them.
#include <gtest/gtest.h>

#include "fuzz/spoiled_files.hpp"

namespace houseleek::tests {
namespace {

TEST(SpoiledFiles, ManyDescriptions) { EXPECT_GT(try_spoiled_designs(1'000'000, 400'000).n_accepted, 1000); }

TEST(SpoiledFiles, ADayOfWhatIsAccepted) { EXPECT_GT(try_days_of_spoiled_designs(2'000'000, 20'000).n_accepted, 300); }

TEST(SpoiledFiles, ManyWeatherFiles) { EXPECT_GT(try_spoiled_weather(1'000'000, 2'000).n_accepted, 20); }

}  // namespace
}  // namespace houseleek::tests
