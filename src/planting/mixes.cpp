// Which few kinds of plants keep something in bloom in every month that any of them can.
#include "planting/mixes.hpp"

#include <fmt/format.h>

#include <limits>

#include "base/month_name.hpp"

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

std::string months_in_words(MonthSet months) {
  months &= all_months;
  if (months == all_months) return "all year";
  const auto has = [&](int month) { return (months >> (month - 1) & 1) != 0; };  // 1 to 12
  std::vector<std::string> runs;
  for (int month = 1; month <= 12; ++month) {
    if (!has(month) || has(month == 1 ? 12 : month - 1)) continue;
    int last = month;
    while (has(last % 12 + 1)) last = last % 12 + 1;
    runs.push_back(last == month ? std::string(month_name(month))
                                 : fmt::format("{} to {}", month_name(month), month_name(last)));
  }
  std::string text;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == runs.size() ? " and " : ", ") + runs[i];
  }
  return text;
}

std::string months_in_words(int first_month, int last_month) {
  MonthSet months = 0;
  for (int month = first_month;; month = month % 12 + 1) {
    months = static_cast<MonthSet>(months | (1U << (month - 1)));
    if (month == last_month) break;
  }
  return months_in_words(months);
}

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
