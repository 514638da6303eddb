// The sections of a study's report, one for each question of a householder, and those behind the answers.
#pragma once
#include <array>
#include <string_view>

#include "report/study_charts.hpp"

namespace houseleek::report {

/// A question of the householder, in the order of the report.
struct Question {
  int number = 0;
  std::string_view words;
};
inline constexpr std::array<Question, 11> questions = {{
    {0, "May I, and is it sound?"},
    {1, "Can this roof carry it, and where?"},
    {2, "What should a module be made of?"},
    {3, "How much cooler and warmer will each room be?"},
    {4, "Are fans enough?"},
    {5, "Will it drain?"},
    {6, "When and how much do I water?"},
    {7, "What will live there?"},
    {8, "What does it cost, and when is it paid back?"},
    {9, "What do I build next?"},
    {10, "What do I buy, cut and do?"},
}};

/// The question under which a caution stands again, by what it stands beside (catalogue::caution_places).
/// Errors: ContractViolation for any other place.
[[nodiscard]] int question_of_place(std::string_view place);

/// Figures and charts of one question.
[[nodiscard]] Html answer_to(int question, const ChartSource& source);

[[nodiscard]] Html assumptions_section(const Json& document);
[[nodiscard]] Html weather_section(const Json& document);
[[nodiscard]] Html engine_section(const Json& document);

}  // namespace houseleek::report
