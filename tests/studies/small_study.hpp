// A study of the small house over eight days, four of its hot quarter and four of its cold one.
#pragma once
#include <functional>
#include <string>

#include "report/study_answer.hpp"
#include "studies/study.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {

/// 28 March to 4 April, three days before them to settle.
[[nodiscard]] studies::StudyOptions short_options();

/// The small design with all that the checks of the roof read.
[[nodiscard]] std::string checked_design_text();

[[nodiscard]] report::StudyAnswer study_of(const std::string& toml_text,
                                           const studies::StudyOptions& options = short_options(),
                                           const studies::Executor& executor = studies::run_in_turn,
                                           const Context& context = {});

}  // namespace houseleek::tests
