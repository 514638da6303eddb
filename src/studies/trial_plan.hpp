// `houseleek trial plan`: how many modules and days a wanted difference takes, and which side goes where.
#pragma once
#include <string>
#include <vector>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "report/trial_answer.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// A trial as it is said on the command line, before it stands in a design.
struct TrialWords {
  std::string name;
  std::vector<std::string> sides;   // recipes of the design by their names, or anything else
  std::vector<std::string> places;  // labels of modules
  std::string measure;              // empty: the usual
  double wanted_difference = 1.0;
  bool is_by_loggers = false;
};

/// The trial's tables as the design file has them.
[[nodiscard]] std::string tables_from(const design::Design& design, const TrialWords& words);

struct PlannedTrial {
  report::TrialPlanAnswer answer;
  std::string design_text;  // the description with the sides in it
};

struct PlanRequest {
  std::string trial;                  // its name; may be empty where there is one
  const TrialWords* words = nullptr;  // a trial that the design has not yet
  std::size_t modules_a_side = 0;     // 0: as few as will do
};

/// Plans a trial of the design, or one that `words` add to it. Sides go to places by lot unless some have theirs: then
/// they stand as they are, and a place without a side is not used.
/// Errors: issues of the design, of the words, or of a wish that cannot be met (see trials::plan_trial).
[[nodiscard]] Result<PlannedTrial> plan_trial(const NamedText& file, const catalogue::Catalogue& catalogue,
                                              const PlanRequest& request);

}  // namespace houseleek::studies
