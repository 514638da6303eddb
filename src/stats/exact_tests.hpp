// Exact tests for counts and grades: every arrangement that chance could have made is counted, none is assumed away.
#pragma once
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace houseleek::stats {

/// Counts of two sides: how many of how many.
struct TwoCounts {
  std::size_t n_events_first = 0;
  std::size_t n_all_first = 0;
  std::size_t n_events_second = 0;
  std::size_t n_all_second = 0;
};

/// Two-sided share of the tables with the same margins that are no likelier than the one seen (p).
/// Equation: sum of hypergeometric probabilities <= that of the table seen
/// Symbols:  ties within a relative 1e-7 count as equal
/// Shape:    four counts in, scalar out; pure.
/// Units:    pure numbers.
/// Valid:    both sides at least one, events not more than all (else a contract violation).
/// Errors:   relative 1e-10; exact in the sense that no large-sample law is used.
/// Source:   [fisher1935].
/// Checked by: FSH-01, FSH-02
[[nodiscard]] double fisher_two_sided_share(const TwoCounts& counts);

/// Two sides' scores, one score a unit (module), and blocks within which chance could have swapped the sides.
struct SideScores {
  std::vector<double> scores;
  std::vector<bool> is_first;  // the side of each
  std::vector<int> blocks;     // empty: no blocks
};

struct PermutationAnswer {
  double difference = 0.0;       // mean of the first side less mean of the second
  double two_sided_share = 1.0;  // p
  double least_share = 1.0;  // what the clearest possible result of this layout would have had: above 5 %, no result
                             // of it can be told apart at 95 %
  bool is_every_arrangement = true;  // false: 20,000 drawn arrangements and the one seen
  bool operator==(const PermutationAnswer&) const = default;
};

/// How often a random assignment of the same units (within blocks) gives a difference of sums at least as far from its
/// middle as the one seen.
/// Equation: p = #{|S - E S| >= |s - E S|} / #arrangements, S the sum of the first side's scores, E S the mean over all
///           arrangements of S; drawn: (1 + #) / (1 + 20000)
/// Symbols:  ties within 1e-9 of the scores' size count as reached; scores may be ranks or grades
/// Shape:    n scores, sides and blocks; pure; a drawn answer depends on the seed.
/// Units:    those of the scores.
/// Valid:    both sides present, blocks as long as scores or empty (else a contract violation).
/// Errors:   none up to 200,000 arrangements; above, the error of 20,000 drawings.
/// Source:   [fisher1935] section 21.
/// Checked by: PRM-01, PRM-02, PRM-03
[[nodiscard]] PermutationAnswer permutation_test(const SideScores& sides, std::uint64_t seed);

}  // namespace houseleek::stats
