// A study's answer for a terminal: cautions first, then every question within one screen of 24 lines and 80 columns.
#pragma once
#include <string>

#include "report/study_answer.hpp"

namespace houseleek::report {

inline constexpr std::size_t screen_lines = 24;

/// The cautions that apply and belong on a first page, cut to their first clause.
[[nodiscard]] std::string text_of_cautions(const StudyAnswer& answer);

/// The questions, within screen_lines however long the names of the design are.
[[nodiscard]] std::string text_of_questions(const StudyAnswer& answer);

/// Both, the cautions first.
[[nodiscard]] std::string text_from(const StudyAnswer& answer);

}  // namespace houseleek::report
