// What it costs, what comes back, and whether a plain rival does more for its money.
#pragma once
#include <vector>

#include "design/parse.hpp"
#include "report/study_answer.hpp"
#include "studies/cash_draws.hpp"
#include "studies/draws.hpp"

namespace houseleek::studies {

/// `house` comes from the runs. Cash and comfort are two figures, never added.
[[nodiscard]] report::MoneyAnswer answer_money(const CashDrawInputs& inputs, const report::RoomAnswer& house,
                                               const MoneyDraws& drawn);

/// The plain rivals on the squares of the modules and on the whole roof over rooms, beside the modules as laid out.
/// "Better for its money": more degree-hours above the limit taken away, compared with the bare roof, to a unit of
/// outlay; in most of the draws.
[[nodiscard]] std::vector<report::RivalAnswer> answer_rivals(const CashDrawInputs& inputs,
                                                             const report::RoomAnswer& house,
                                                             const report::MoneyAnswer& money, const MoneyDraws& drawn);

/// Figures of costs that only this answer assumes.
[[nodiscard]] std::vector<design::Assumption> assumed_costs(const design::ValidDesign& design);

}  // namespace houseleek::studies
