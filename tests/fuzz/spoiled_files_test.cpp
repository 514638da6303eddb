// Files with faults: issues or a design, never a crash. Seeds fixed; the long target tries many more.
#include "fuzz/spoiled_files.hpp"

#include <gtest/gtest.h>

namespace houseleek::tests {
namespace {

TEST(SpoiledFiles, DescriptionsAreReadOrRefused) {
  const SpoiledCounts counts = try_spoiled_designs(1, 3000);
  // Faults that hit a comment, or put one sensible figure in the place of another, are none; most are.
  EXPECT_GT(counts.n_accepted, 20);
  EXPECT_GT(counts.n_refused, 1500);
}

TEST(SpoiledFiles, WeatherIsReadOrRefused) {
  const SpoiledCounts counts = try_spoiled_weather(1, 40);
  EXPECT_GT(counts.n_accepted, 0);
  EXPECT_GT(counts.n_refused, 10);
}

}  // namespace
}  // namespace houseleek::tests
