// The sentences of a verdict: each says what was seen, how sure that is, and what it is about.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "trials/judge.hpp"

namespace houseleek::trials {

/// Measured in tests/stats/long_run_long_test.cpp; below 60 days every verdict of days carries it.
inline constexpr std::string_view few_days_note =
    "With fewer than 60 days a 95 % interval of days holds the truth somewhat less often than it says: at 14 days in "
    "92 "
    "to 95 of 100 trials while neighbouring days correlate by up to 0.5, in 87 where by 0.7; at 28 days in 94 to 95, "
    "and in 92. Below 14 days it holds it less often still.";

[[nodiscard]] std::string sentence_of(const SideComparison& comparison, const JudgeOptions& options);

/// What the reader of any of these comparisons has to know besides.
[[nodiscard]] std::vector<std::string> notes_of(const std::vector<SideComparison>& comparisons);

/// 0.42, 3.1, 34: two digits that count, at least one place where below ten.
[[nodiscard]] std::string two_digits(double value);

/// "95 %", "98.3 %".
[[nodiscard]] std::string percent(double share_frac);

}  // namespace houseleek::trials
