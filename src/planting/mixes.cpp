// Which few kinds of plants keep something in bloom in every month that any of them can.
#include "planting/mixes.hpp"

#include <array>
#include <limits>

namespace houseleek::planting {
namespace {

constexpr std::size_t n_sets = std::size_t{all_months} + 1;

/// A way to reach a set of months.
struct Reached {
  int n_kinds = std::numeric_limits<int>::max();  // never reached
  int worth = 0;
  std::vector<std::size_t> chosen;
};

bool is_better(int n_kinds, int worth, const Reached& than) {
  return n_kinds < than.n_kinds || (n_kinds == than.n_kinds && worth > than.worth);
}

}  // namespace

BloomMix find_bloom_mix(std::span<const BloomChoice> choices, MonthSet already) {
  std::vector<Reached> sets(n_sets);
  sets[already & all_months] = {0, 0, {}};
  MonthSet reachable = already & all_months;
  for (std::size_t i = 0; i < choices.size(); ++i) {
    const MonthSet months = choices[i].blooms & all_months;
    reachable |= months;
    // Larger sets first: a kind is not used twice. Where it adds no month it would only add itself.
    for (std::size_t set = n_sets; set-- > 0;) {
      const Reached& from = sets[set];
      const std::size_t to = set | months;
      if (from.n_kinds == std::numeric_limits<int>::max() || to == set) continue;
      if (!is_better(from.n_kinds + 1, from.worth + choices[i].worth, sets[to])) continue;
      Reached next = from;
      next.n_kinds += 1;
      next.worth += choices[i].worth;
      next.chosen.push_back(i);
      sets[to] = std::move(next);
    }
  }
  BloomMix mix;
  mix.chosen = sets[reachable].chosen;
  mix.in_bloom = reachable;
  mix.never = static_cast<MonthSet>(all_months & ~reachable);
  return mix;
}

}  // namespace houseleek::planting
