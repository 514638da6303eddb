// On what a payback hangs: each figure moved to its ends, and the tariff, the bill or the cost at which it would come.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "money/cash_flow.hpp"

namespace houseleek::money {

/// What the present value becomes with one figure at its low and its high end, all others as likely.
struct Sensitivity {
  std::string path;
  double low_gives = 0.0;
  double high_gives = 0.0;
};

/// Every figure with a range that the flow reads, the one that moves the present value most first.
[[nodiscard]] std::vector<Sensitivity> sensitivities(const Alternative& alternative, const YearOfUse& use,
                                                     const Terms& terms);

/// With likely figures: at which value of one of them, all others kept, the outlay has come back within some years.
/// Equation: sums of years 0 to N: out = x cooling + heating for a tariff x times as high; out - heating = E k for an
///           earlier use of E kWh, k: what a kWh of before saves; outlay + saved - out for the outlay
/// Source:   definition.   Checked by: tests/money/break_even_test.cpp.
struct BreakEven {
  int n_years = 0;
  bool is_reached = false;                     // as things are
  std::optional<double> electricity_per_kwh;   // at least; mean over the cooling saved; absent: no tariff would do
  std::optional<double> cooling_kwh_per_year;  // bought before, at least; absent: no use would do
  std::optional<double> outlay;                // at most; absent: not even for nothing
};
[[nodiscard]] BreakEven break_even(const Alternative& alternative, const YearOfUse& use, const Terms& terms,
                                   int n_years);

/// Which earlier use of cooling pays modules of a cost back within one and within two years.
struct QuickPayback {
  double cost_per_m2 = 0.0;
  double electricity_per_kwh = 0.0;
  std::optional<double> kwh_for_one_year;  // a year before; absent: the modules leave no less heat to remove
  std::optional<double> kwh_for_two_years;
};
[[nodiscard]] std::vector<QuickPayback> quick_paybacks(const Alternative& modules, const YearOfUse& use,
                                                       const Terms& terms);

}  // namespace houseleek::money
