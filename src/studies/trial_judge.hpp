// `houseleek trial judge`: the verdict of a trial from what a project holds of it.
#pragma once
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/design.hpp"
#include "report/trial_answer.hpp"
#include "store/format.hpp"
#include "studies/trial_readings.hpp"

namespace houseleek::studies {

/// Everything that was read or noted in a project. Errors: StoreError.
[[nodiscard]] ProjectReadings readings_of(const store::Project& project, const std::string& zone);

/// What of some sensors looks wrong in a stretch of time, as a file just brought it in.
struct ImportedReadings {
  std::vector<std::string> sensors;
  std::int64_t first_utc_s = 0;
  std::int64_t last_utc_s = 0;
};
/// Errors: StoreError.
[[nodiscard]] std::vector<trials::LoggerFlag> flags_of_import(const store::Project& project,
                                                              const catalogue::Catalogue& catalogue,
                                                              const std::string& zone,
                                                              const ImportedReadings& imported);

/// The verdict on every measure that the readings give, the one written down beforehand first, and on every grade and
/// count that was noted. Nothing is judged of a side that has no readings; a note says so.
/// Shape: pure; the same answer for the same readings.
[[nodiscard]] report::TrialJudgeAnswer judge_trial(const ProjectReadings& all, const design::Design& design,
                                                   std::size_t trial);

}  // namespace houseleek::studies
