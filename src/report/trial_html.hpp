// A trial as a page of its own, or as a section of a study's report.
#pragma once
#include <string>
#include <vector>

#include "report/page_frame.hpp"
#include "report/trial_answer.hpp"

namespace houseleek::report {

/// Verdicts in sentences, paired days, differences with intervals, what was left out and flagged.
/// `id` begins the ids of its charts and must be its own in the page.
[[nodiscard]] Html trial_section(const TrialJudgeAnswer& answer, const std::string& id);

/// Values fitted, and fitted against measured.
[[nodiscard]] Html fit_section(const TrialFitAnswer& answer, const std::string& id);

/// All of a report's trials under one heading; empty without any.
[[nodiscard]] Html trials_section(const std::vector<TrialJudgeAnswer>& answers);

[[nodiscard]] std::string page_of_trial(const TrialJudgeAnswer& answer, const ReportHead& head);
[[nodiscard]] std::string page_of_fit(const TrialFitAnswer& answer, const ReportHead& head);

}  // namespace houseleek::report
