// Cash flows of modules and rivals in many draws: present value, payback, rates, the balance of every year; carbon.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "money/cash_flow.hpp"
#include "report/study_answer.hpp"
#include "studies/draws.hpp"
#include "studies/ranges.hpp"

namespace houseleek::studies {

struct CashDraws {
  report::CashAnswer cash;
  report::InternalRates rates;
  std::vector<report::CashYear> flow;
  report::CashSums sums;
  report::Figure own_hours;  // h
};

struct CashDrawInputs {
  const design::ValidDesign& design;
  const money::Terms& terms;
  std::span<const YearAnswer> years;
  int n_draws = 0;
};

/// One alternative, draw by draw; the year of weather goes round as in draw_money, and every figure is drawn by its
/// place, so that modules and rivals meet the same prices, lives, interest and weather in a draw.
/// Shape:    pure.
/// Source:   docs/equations/money.md.   Checked by: tests/studies/cash_draws_test.cpp.
[[nodiscard]] CashDraws draw_cash(const CashDrawInputs& inputs, const money::Alternative& alternative,
                                  report::CoverKind cover);

[[nodiscard]] report::CarbonAnswer draw_carbon(const CashDrawInputs& inputs, const money::Alternative& modules);

/// Heat and water of one year under a cover.
[[nodiscard]] money::YearOfUse use_of(const YearAnswer& year, report::CoverKind cover);

/// Middle of all years, month by month.
[[nodiscard]] money::YearOfUse likely_use(std::span<const YearAnswer> years, report::CoverKind cover);

/// Why there is no cash flow; empty where there is one.
[[nodiscard]] std::string missing_prices(const money::Terms& terms, const money::Alternative& alternative);

}  // namespace houseleek::studies
