// What a cash flow comes to, in sentences: what is saved and against what, when it comes back, on what that hangs.
#pragma once
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "money/break_even.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

/// 7.2, 4.1 to 15; an end beyond the years counted: "more than 20".
[[nodiscard]] std::string payback_words(const report::PaybackAnswer& payback, int years_counted);

/// What the saving is measured against.
[[nodiscard]] std::string saving_statement(const design::ValidDesign& design, const money::Terms& terms,
                                           const money::YearOfUse& use);

/// When the outlay comes back, or that it never does and why.
[[nodiscard]] std::string payback_statement(const money::Terms& terms, const report::CashAnswer& cash,
                                            bool has_modules);

[[nodiscard]] std::string own_hours_statement(const report::Figure& hours, double wage_per_h,
                                              const std::string& currency);

/// Pays back within so many years if ...
[[nodiscard]] report::BreakEvenAnswer break_even_answer(const money::BreakEven& found, const money::Terms& terms,
                                                        const std::string& currency);

/// The name under which a figure is listed among the assumptions; its path where the person gave it.
[[nodiscard]] std::string name_of_path(const design::ValidDesign& design, const std::string& path);

}  // namespace houseleek::studies
