// The range of a figure of the design: as assumed where the person left it out, none where the person gave it.
#pragma once
#include <string_view>

#include "catalogue/spread.hpp"
#include "design/parse.hpp"
#include "results/interval.hpp"

namespace houseleek::plan {

[[nodiscard]] inline results::Interval interval_from(const catalogue::Spread& spread) {
  return {spread.low, spread.likely, spread.high};
}

/// `value` is the design's figure at this path; its range is that of the assumption with the same path, if there is
/// one.
[[nodiscard]] inline results::Interval assumed_interval(const design::ValidDesign& design, std::string_view path,
                                                        double value) {
  for (const design::Assumption& one : design.assumed()) {
    if (one.path == path) return {one.low, one.likely, one.high};
  }
  return results::exactly(value);
}

}  // namespace houseleek::plan
