// The charts of a trial: paired days, differences with intervals, fitted against measured.
#pragma once
#include <string>

#include "report/html.hpp"
#include "report/trial_answer.hpp"

namespace houseleek::report {

/// Side means on the days that every module has, and their differences. Empty where there are no such days.
[[nodiscard]] Html paired_days_chart(const MeasureAnswer& measure, const std::string& id);

/// One panel for each unit. Empty where nothing has an interval.
[[nodiscard]] Html differences_chart(const TrialJudgeAnswer& answer, const std::string& id);

/// Measured, before and fitted, a panel a place; at most the first days of each.
[[nodiscard]] Html fitted_chart(const TrialFitAnswer& answer, const std::string& id);

}  // namespace houseleek::report
