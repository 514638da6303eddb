// A design's trial as src/trials takes it, and which trial is meant.
#pragma once
#include <string>

#include "base/result.hpp"
#include "design/parse.hpp"
#include "report/trial_answer.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// The index of the trial of this name, or of the only one where no name is given.
/// Errors: issues: the design has none, several and no name, or none of that name.
[[nodiscard]] Result<std::size_t> find_trial(const design::Design& design, const std::string& name);

[[nodiscard]] trials::Measure measure_from(design::TrialMeasure measure);

/// Sides, squares and options of a trial; those of its places that have no side yet, or all.
[[nodiscard]] trials::TrialWish wish_from(const design::Trial& trial);

[[nodiscard]] report::TrialHead head_of(const NamedText& file, const design::Design& design,
                                        const design::Trial& trial);

}  // namespace houseleek::studies
