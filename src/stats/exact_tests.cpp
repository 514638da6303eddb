// Exact tests for counts and grades: every arrangement that chance could have made is counted.
#include "stats/exact_tests.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/contract.hpp"
#include "base/random.hpp"
#include "stats/distributions.hpp"

namespace houseleek::stats {

namespace {

constexpr double most_arrangements = 200000.0;
constexpr std::uint32_t n_drawn = 20000;

double log_choose(double n, double k) { return log_gamma(n + 1.0) - log_gamma(k + 1.0) - log_gamma(n - k + 1.0); }

/// Scores of one block and how many of them belong to the first side.
struct Block {
  std::vector<double> scores;
  std::size_t n_first = 0;
};

std::vector<Block> blocks_of(const SideScores& sides) {
  std::map<int, Block> by_label;
  for (std::size_t i = 0; i < sides.scores.size(); ++i) {
    Block& block = by_label[sides.blocks.empty() ? 0 : sides.blocks[i]];
    block.scores.push_back(sides.scores[i]);
    if (sides.is_first[i]) ++block.n_first;
  }
  std::vector<Block> blocks;
  for (auto& [label, block] : by_label) blocks.push_back(std::move(block));
  return blocks;
}

/// Sums of the first side over every arrangement within one block.
std::vector<double> sums_of(const Block& block) {
  std::vector<char> is_chosen(block.scores.size(), 0);
  std::fill(is_chosen.begin(), is_chosen.begin() + static_cast<std::ptrdiff_t>(block.n_first), char{1});
  std::vector<double> sums;
  do {
    double sum = 0.0;
    for (std::size_t i = 0; i < is_chosen.size(); ++i) sum += is_chosen[i] != 0 ? block.scores[i] : 0.0;
    sums.push_back(sum);
  } while (std::prev_permutation(is_chosen.begin(), is_chosen.end()));
  return sums;
}

std::vector<double> every_sum(const std::vector<Block>& blocks) {
  std::vector<double> sums{0.0};
  for (const Block& block : blocks) {
    std::vector<double> more;
    for (const double sum : sums) {
      for (const double own : sums_of(block)) more.push_back(sum + own);
    }
    sums = std::move(more);
  }
  return sums;
}

std::vector<double> drawn_sums(const std::vector<Block>& blocks, std::uint64_t seed) {
  const RandomVariable variable = random_variable(seed, "permutation test");
  std::vector<double> sums;
  for (std::uint32_t draw = 0; draw < n_drawn; ++draw) {
    double sum = 0.0;
    std::uint32_t index = 0;
    for (const Block& block : blocks) {
      std::vector<double> left = block.scores;
      for (std::size_t i = 0; i < block.n_first; ++i) {
        const double u = random_uniform(variable, {.draw = draw, .day = 0, .index = index++});
        const auto which = static_cast<std::size_t>(u * static_cast<double>(left.size()));
        sum += left[which];
        left[which] = left.back();
        left.pop_back();
      }
    }
    sums.push_back(sum);
  }
  return sums;
}

}  // namespace

double fisher_two_sided_share(const TwoCounts& counts) {
  expects(counts.n_all_first > 0 && counts.n_all_second > 0, "at least one on each side");
  expects(counts.n_events_first <= counts.n_all_first && counts.n_events_second <= counts.n_all_second,
          "not more events than units");
  const auto n_first = static_cast<double>(counts.n_all_first);
  const auto n_second = static_cast<double>(counts.n_all_second);
  const std::size_t n_events = counts.n_events_first + counts.n_events_second;
  const auto probability = [&](std::size_t in_first) {
    const auto x = static_cast<double>(in_first);
    const auto rest = static_cast<double>(n_events - in_first);
    return std::exp(log_choose(n_first, x) + log_choose(n_second, rest) -
                    log_choose(n_first + n_second, static_cast<double>(n_events)));
  };
  const double seen = probability(counts.n_events_first);
  const std::size_t least = n_events > counts.n_all_second ? n_events - counts.n_all_second : 0;
  double share = 0.0;
  for (std::size_t x = least; x <= std::min(n_events, counts.n_all_first); ++x) {
    const double here = probability(x);
    if (here <= seen * (1.0 + 1e-7)) share += here;
  }
  return std::min(1.0, share);
}

PermutationAnswer permutation_test(const SideScores& sides, std::uint64_t seed) {
  const std::size_t n = sides.scores.size();
  expects(sides.is_first.size() == n && (sides.blocks.empty() || sides.blocks.size() == n),
          "a side and block for each");
  double seen = 0.0;
  double rest = 0.0;
  double size = 0.0;
  std::size_t n_first = 0;
  for (std::size_t i = 0; i < n; ++i) {
    expects(std::isfinite(sides.scores[i]), "finite scores");
    size = std::max(size, std::fabs(sides.scores[i]));
    (sides.is_first[i] ? seen : rest) += sides.scores[i];
    n_first += sides.is_first[i] ? 1U : 0U;
  }
  expects(n_first > 0 && n_first < n, "units on both sides");

  const std::vector<Block> blocks = blocks_of(sides);
  double log_arrangements = 0.0;
  double middle = 0.0;  // of the first side's sum over all arrangements
  for (const Block& block : blocks) {
    const auto n_block = static_cast<double>(block.scores.size());
    const auto n_own = static_cast<double>(block.n_first);
    log_arrangements += log_choose(n_block, n_own);
    double sum = 0.0;
    for (const double score : block.scores) sum += score;
    middle += sum * n_own / n_block;
  }
  PermutationAnswer answer;
  answer.difference = seen / static_cast<double>(n_first) - rest / static_cast<double>(n - n_first);
  answer.is_every_arrangement = log_arrangements <= std::log(most_arrangements) + 1e-9;
  const std::vector<double> sums = answer.is_every_arrangement ? every_sum(blocks) : drawn_sums(blocks, seed);
  const double tie = 1e-9 * size * static_cast<double>(n);
  const double own_distance = std::fabs(seen - middle);
  double farthest = own_distance;
  for (const double sum : sums) farthest = std::max(farthest, std::fabs(sum - middle));
  std::size_t n_reached = 0;
  std::size_t n_farthest = 0;
  for (const double sum : sums) {
    n_reached += std::fabs(sum - middle) >= own_distance - tie ? 1U : 0U;
    n_farthest += std::fabs(sum - middle) >= farthest - tie ? 1U : 0U;
  }
  if (answer.is_every_arrangement) {
    answer.two_sided_share = static_cast<double>(n_reached) / static_cast<double>(sums.size());
    answer.least_share = static_cast<double>(n_farthest) / static_cast<double>(sums.size());
  } else {
    answer.two_sided_share = static_cast<double>(n_reached + 1) / static_cast<double>(n_drawn + 1);
    answer.least_share = 1.0 / static_cast<double>(n_drawn + 1);
  }
  return answer;
}

}  // namespace houseleek::stats
