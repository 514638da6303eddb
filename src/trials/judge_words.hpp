// The sentences of a verdict: each says what was seen, how sure that is, and what it is about.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/number_words.hpp"
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

}  // namespace houseleek::trials
