// What the commands of trials answer, as documents for other programs.
#pragma once
#include "report/issue_json.hpp"
#include "report/trial_answer.hpp"

namespace houseleek::report {

/// schema/trial_plan.schema.json and so on.
[[nodiscard]] Json json_from(const TrialPlanAnswer& answer);
[[nodiscard]] Json json_from(const TrialReadAnswer& answer);
[[nodiscard]] Json json_from(const TrialJudgeAnswer& answer);
[[nodiscard]] Json json_from(const TrialFitAnswer& answer);

/// {kind, column, from, to, size, sentence}; times are of the place's standard time.
[[nodiscard]] Json json_from_flags(const std::vector<trials::LoggerFlag>& flags);

}  // namespace houseleek::report
