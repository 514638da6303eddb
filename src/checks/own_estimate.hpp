// An assumption of ours that no source stands behind: a default with a range.
#pragma once
#include "design/assumption.hpp"
#include "results/interval.hpp"

namespace houseleek::checks {

[[nodiscard]] inline design::Assumption own_estimate(const char* path, const char* name, const char* unit,
                                                     const results::Interval& range) {
  return {.path = path,
          .name = name,
          .unit = unit,
          .low = range.low,
          .likely = range.likely,
          .high = range.high,
          .source = "our own estimate",
          .certainty = catalogue::Certainty::estimate,
          .from = design::AssumedFrom::default_value};
}

}  // namespace houseleek::checks
