// Twenty kills during writes; two hundred in the long tests.
#include <gtest/gtest.h>

#include <iostream>

#include "store/kill_loops.hpp"

namespace houseleek::tests {
namespace {

TEST(Kill, TwentyKillsLoseNoAcknowledgedEvent) {
  const KillCounts counts = kill_while_writing({.n_kills = 20, .seed = 20261130, .longest_s = 0.15});
  std::cout << counts.n_acknowledged << " events acknowledged, " << counts.n_after_acknowledging
            << " on the disk before they were, " << counts.n_with_journal << " kills in the middle of a change\n";
  EXPECT_GT(counts.n_acknowledged, 20);
  EXPECT_GT(counts.n_with_journal, 0) << "no kill fell into a change; this test has shown nothing";
}

}  // namespace
}  // namespace houseleek::tests
