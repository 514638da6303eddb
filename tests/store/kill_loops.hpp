// A process that writes is killed at a random moment, again and again: what it had acknowledged must be there.
#pragma once
#include <cstdint>

namespace houseleek::tests {

struct KillLoop {
  int n_kills = 0;
  std::uint64_t seed = 0;
  double longest_s = 0.0;  // a moment is drawn evenly up to it
};

/// What was seen; failures are said through GoogleTest.
struct KillCounts {
  int n_acknowledged = 0;
  int n_after_acknowledging = 0;  // events that were in the file without having been acknowledged yet
  int n_with_journal = 0;         // kills that left a change half done
};

[[nodiscard]] KillCounts kill_while_writing(const KillLoop& loop);

}  // namespace houseleek::tests
