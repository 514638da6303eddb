// The answers in a sentence each, in the order in which a householder should read them.
#pragma once
#include <vector>

#include "design/design.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

/// What a question without an answer says.
inline constexpr std::string_view not_computed_yet = "not computed yet";
inline constexpr std::string_view unanswered_questions = "0 Sound? 10 Buy?";

/// A rival that does more for its money stands first, then questions 0 to 10 of a householder.
[[nodiscard]] std::vector<report::QuestionAnswer> answer_questions(const design::Design& design,
                                                                   const report::StudyAnswer& answer);

}  // namespace houseleek::studies
