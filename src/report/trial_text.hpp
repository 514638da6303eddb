// What the commands of trials answer, on a terminal of 80 columns.
#pragma once
#include <string>

#include "report/trial_answer.hpp"

namespace houseleek::report {

/// What to do, in sentences; what stands behind it where an adviser asks.
[[nodiscard]] std::string text_from(const TrialPlanAnswer& answer, bool is_for_adviser);
/// What was noted, what is missing by day, what of the loggers looks wrong.
[[nodiscard]] std::string text_from(const TrialReadAnswer& answer);
[[nodiscard]] std::string text_from(const TrialJudgeAnswer& answer);
[[nodiscard]] std::string text_from(const TrialFitAnswer& answer);

/// Flags of loggers, a line each, at most so many; then how many more.
[[nodiscard]] std::string text_from_flags(const std::vector<trials::LoggerFlag>& flags, std::size_t most);

/// "the day's maximum" with a capital, for headings.
[[nodiscard]] std::string heading_of(trials::Measure measure);

/// 2026-06-01 to 2026-06-14; "no day yet".
[[nodiscard]] std::string days_in_words(std::optional<std::int64_t> first_day, std::optional<std::int64_t> last_day);

/// What a fit's answer says of one property: its value before, now, with the interval.
[[nodiscard]] std::string sentence_of(const FittedFigure& figure);

}  // namespace houseleek::report
