// Two hundred kills during writes.
#include <gtest/gtest.h>

#include <iostream>

#include "store/kill_loops.hpp"

namespace houseleek::tests {
namespace {

TEST(Kill, TwoHundredKillsLoseNoAcknowledgedEvent) {
  const KillCounts counts = kill_while_writing({.n_kills = 200, .seed = 20261201, .longest_s = 0.15});
  std::cout << counts.n_acknowledged << " events acknowledged, " << counts.n_after_acknowledging
            << " on the disk before they were, " << counts.n_with_journal << " kills in the middle of a change\n";
  EXPECT_GT(counts.n_acknowledged, 200);
  EXPECT_GT(counts.n_with_journal, 10) << "hardly a kill fell into a change; this test has shown nothing";
}

}  // namespace
}  // namespace houseleek::tests
