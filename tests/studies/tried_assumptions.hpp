// A study of the small house that tries its assumptions, and the way to one of them in the answer.
#pragma once
#include <string>
#include <string_view>

#include "design/parse.hpp"
#include "studies/small_study.hpp"

namespace houseleek::tests {

[[nodiscard]] design::RawDesign raw_of(const std::string& text);

/// The small house with some of its figures left out.
[[nodiscard]] std::string open_text();

/// Four days in its hot quarter.
[[nodiscard]] report::StudyAnswer tried(const std::string& text,
                                        const studies::Executor& executor = studies::run_in_turn,
                                        const Context& context = {});

/// What hangs on the assumption at this path; one that is not there stops the test program.
[[nodiscard]] const report::AssumedEffect& effect_on(const report::StudyAnswer& answer, std::string_view path);

}  // namespace houseleek::tests
