// A value for every day from twelve monthly means, without steps and with the same monthly means.
#pragma once
#include <array>

#include "climate/calendar.hpp"
#include "climate/normals.hpp"

namespace houseleek::climate {

using Days = std::array<double, n_days_in_year>;

/// Equation: straight lines between knots at the middles of the months, round the year's end; the knots solve the
///           twelve equations "mean of the month's days = monthly mean"
/// Symbols:  a day's value is the line's at its noon
/// Shape:    twelve in, 365 out; pure.
/// Units:    any, kept.
/// Valid:    any; the knots reach further than the means at turning points.
/// Errors:   none.
/// Source:   our own; the demand to keep means is that of [rymes2001] (from memory).
///           Checked by: SeasonalCurve.KeepsTheMonthsAndHasNoSteps.
[[nodiscard]] Days seasonal_curve(const Months& means);

}  // namespace houseleek::climate
