// The loop with a hidden truth: a house that somebody else describes simulates readings, they go through a project's
// logbook, a fit takes them up, and the study is made again. Readings, noise and truth are invented.
#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "report/study_answer.hpp"
#include "report/trial_answer.hpp"
#include "store/records.hpp"

namespace houseleek::tests {

struct HiddenTruth {
  std::uint64_t seed = 0;          // of the noise
  double gap_wind_frac = 0.1;      // what the truth has, and the description does not say
  double conductivity_factor = 1;  // of the core, likewise
  int n_days = 14;
  double noise_k = 0.3;  // of a reading; correlation 0.6 from hour to hour
  bool is_by_hand = false;
  bool has_outdoor_logger = true;
};

/// What the household believes: the small house, its trial, nothing said of the gap.
[[nodiscard]] std::string believed_text(const HiddenTruth& truth);
/// The same with the truth in it.
[[nodiscard]] std::string true_text(const HiddenTruth& truth);

/// A project of the believed house with the readings that the true one gives: by loggers' files, or as events.
/// `path`: its file, which must not exist yet.
[[nodiscard]] store::Project project_with_readings(const HiddenTruth& truth, const std::string& path = ":memory:");

struct Loop {
  report::TrialFitAnswer fit;
  std::string fitted_text;  // the newest revision; empty where nothing was offered
};
/// `words`: what is fitted; empty: what the program chooses.
[[nodiscard]] Loop run_loop(const HiddenTruth& truth, const std::vector<std::string>& words = {});

/// How far a study is from the true one: the worst of membrane, ceiling and heat gain under the modules, each over its
/// own size of change between flat believed figures of 1 K and 1 kWh/m2.
[[nodiscard]] double error_of(const report::StudyAnswer& study, const report::StudyAnswer& truth);

}  // namespace houseleek::tests
