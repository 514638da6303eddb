// Which few kinds of plants keep something in bloom in every month that any of them can.
#pragma once
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace houseleek::planting {

/// Months as bits: bit 0 is January.
using MonthSet = std::uint16_t;
inline constexpr MonthSet all_months = 0x0FFF;

/// A plant that may go into the mix.
struct BloomChoice {
  MonthSet blooms = 0;
  int worth = 0;  // of two mixes with as few kinds, the one with more of it in all
};

/// "May to August and October"; "all year"; runs go over the turn of the year. Empty for none.
[[nodiscard]] std::string months_in_words(MonthSet months);
/// The same for a span that may go over the turn of the year.
[[nodiscard]] std::string months_in_words(int first_month, int last_month);

struct BloomMix {
  std::vector<std::size_t> chosen;  // indexes into the choices, rising
  MonthSet in_bloom = 0;            // with what is there already
  MonthSet never = 0;               // no choice and nothing that is there blooms then
  bool operator==(const BloomMix&) const = default;
};

/// The fewest kinds that, with what is there already, have something in bloom in every month in which any of them has;
/// among those the most worth, then the earliest in the list.
/// Equation: least (number of kinds, -sum of worth) over all sets whose months hold every reachable month
/// Shape:    n choices and the months already in bloom in, a mix out; pure. No kind is in it that could be left away.
/// Cost:     n times 4096 sets of months, exact.
/// Source:   dynamic programming over sets (definition).   Checked by: BloomMix.IsThatOfEveryTrial.
[[nodiscard]] BloomMix find_bloom_mix(std::span<const BloomChoice> choices, MonthSet already = 0);

}  // namespace houseleek::planting
