// Bills before and after: energy against one's own weather, and what the covering of the roof changed, with its interval.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace houseleek::money {

/// One bill, with what its days were like; all means over its days.
struct BillPeriod {
  std::int64_t first_day = 0;  // since 1970
  std::int64_t last_day = 0;
  double energy_kwh = 0.0;
  double cold_k = 0.0;        // below the heating limit, of daily means
  double warm_k = 0.0;        // above the cooling limit, of daily means
  double covered_frac = 0.0;  // of the modules that lie there in the end
  std::vector<double> steps;  // for each change of use or tariff the share of the days after it
};

struct BillQuestion {
  std::string item;
  std::vector<BillPeriod> bills;
  std::vector<std::string> step_names;
  double confidence_frac = 0.95;
};

/// Limits of degree-days, ours: a house like these is heated on days colder than this in the mean, and cooled on warmer.
inline constexpr double cold_below_c = 16.0;
inline constexpr double warm_above_c = 24.0;
/// Bills with hardly a module, and with at least half of them, that are wanted to say anything.
inline constexpr int least_bills = 3;
inline constexpr double hardly_frac = 0.05;
inline constexpr double mostly_frac = 0.5;

enum class BillOutcome { too_few, not_separable, not_told_apart, less, more };

struct BillAnswer {
  std::string item;
  BillOutcome outcome = BillOutcome::too_few;
  int n_bills = 0;
  int n_before = 0;
  int n_after = 0;
  // Energy that a year of the bills' mean weather takes less with all modules; less than zero: more.
  std::optional<double> less_kwh_per_year;
  double low_kwh_per_year = 0.0;
  double high_kwh_per_year = 0.0;
  std::string sentence;
};

/// Equation: kWh a day = b + h cold + c warm + covered (g_h cold + g_c warm) + sum of steps, least squares weighted by
///           days; less in a year = -365.25 (g_h mean cold + g_c mean warm) -+ t times its standard error
/// Symbols:  a column that is the same in every bill, or nothing, is left out
/// Shape:    bills in any order; pure.
/// Units:    kWh; K as mean over the days.
/// Valid:    days of every bill in order. Errors of bills are taken as independent; neighbouring bills that are read by
///           guess are not.
/// Errors:   none; where columns undo one another the answer says so.
/// Source:   weighted least squares, definition; checked against R's lm in tests/money.
/// Checked by: BILL-01, BILL-02, Bills.*
[[nodiscard]] BillAnswer judge_bills(const BillQuestion& question);

}  // namespace houseleek::money
