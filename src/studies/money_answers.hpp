// What it costs, what comes back, and whether a plain rival does more for its money.
#pragma once
#include <vector>

#include "design/parse.hpp"
#include "plan/layout.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

/// `house` and the year's watering come from the runs.
[[nodiscard]] report::MoneyAnswer answer_money(const design::ValidDesign& design, const report::RoomAnswer& house,
                                               double water_m3);

/// The plain rivals on the squares of the modules and on the whole roof over rooms, beside the modules as laid out.
/// "Better for its money": more degree-hours above the limit taken away, compared with the bare roof, to a unit of
/// outlay.
[[nodiscard]] std::vector<report::RivalAnswer> answer_rivals(const design::ValidDesign& design,
                                                             const plan::Layout& layout,
                                                             const report::RoomAnswer& house,
                                                             const report::MoneyAnswer& money);

/// Degree-hours above the limit taken away by the modules to a unit of outlay.
[[nodiscard]] report::Figure planted_degree_hours_less_per_outlay(const report::RoomAnswer& house,
                                                                  const report::MoneyAnswer& money);

/// Figures of costs that only this answer assumes.
[[nodiscard]] std::vector<design::Assumption> assumed_costs(const design::ValidDesign& design);

}  // namespace houseleek::studies
