// What goes out and what need no longer be paid, month by month: modules as they were built, and rivals the same way.
#pragma once
#include <array>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "money/terms.hpp"

namespace houseleek::money {

/// Units of one kind that were built in one month.
struct Lot {
  Cost per_unit;
  double n_units = 0.0;
  int month = 0;  // since the first of all lots
  double area_m2 = 0.0;
  bool is_module = false;  // counted in hours a module, else a square metre
  int recipe = -1;         // of modules
  bool is_built = false;   // on a day that is known: what is in stock now is not in it
};

/// One way to cover the roof.
struct Alternative {
  std::vector<Lot> lots;
  bool can_leak = true;                // something stands or lies on the membrane
  bool is_lifted = true;               // comes off for a new membrane and is laid again
  bool is_lost_with_membrane = false;  // paint: bought anew with a new membrane
};

/// The modules of the design, a lot a patch, in the month in which each was built.
[[nodiscard]] Alternative modules_of(const design::ValidDesign& design);
[[nodiscard]] Alternative white_of(const design::ValidDesign& design, double area_m2);
[[nodiscard]] Alternative net_of(const design::ValidDesign& design, double area_m2);
[[nodiscard]] Alternative board_of(const design::ValidDesign& design, double area_m2);

/// Heat that machines would move in each month of a year.
struct MonthlyHeat {
  std::array<double, 12> add_kwh{};
  std::array<double, 12> remove_kwh{};
};

/// What a year of weather says of an alternative.
struct YearOfUse {
  MonthlyHeat bare;
  MonthlyHeat covered;
  double watering_m3 = 0.0;
};

/// Renewals of parts are found once for each life: the same figures serve all alternatives of one look at the money.
class RenewalTable {
 public:
  RenewalTable(const Terms& terms, const FigureOf& figure);
  /// Renewals expected in month 1, 2, ... of a part that is new at month 0 (stats::expected_replacements).
  [[nodiscard]] std::span<const double> of_new(const Factor& life_years);
  /// New membranes expected in month 1, 2, ... from today.
  [[nodiscard]] std::span<const double> of_membrane();

 private:
  const Terms& terms_;
  const FigureOf& figure_;
  double shape_ = 1.0;
  std::map<std::string, std::vector<double>> by_path_;
};

/// Columns, a row a month: 0 is the day of the first lot, then the months that are counted.
struct CashFlow {
  std::vector<double> outlay;
  std::vector<double> own_hours;  // at the wage
  std::vector<double> renewal;
  std::vector<double> water;
  std::vector<double> leaks;
  std::vector<double> lifting;
  std::vector<double> disposal;
  std::vector<double> cooling_saved;
  std::vector<double> heating_saved;
};

/// Of one alternative, in one look at the money.
/// Equation: outlay: what stock has of each item at its own price, the rest at the shop's; renewal of a part in month k
///           after its lot: price times expected renewals m_k, the dry mass thrown away at the price of disposal;
///           leaks: chance / 12 times a repair; lifting: expected new membranes times area times price; saved of a bill
///           E of kWh: E sum_m (b_m - c_m) p_m / sum_m b_m, of a bill M of money: M sum_m (b_m - c_m) p_m /
///           sum_m b_m p_m, month by month, times (1 + rise)^year, times the share of the area that is laid
/// Symbols:  b, c: heat to move in a month, bare and covered; p: price of a kWh in the month
/// Shape:    pure; at the end of the months counted everything is thrown away.
/// Units:    money of the design, in prices of today.
/// Valid:    prices of everything (else a contract violation). What machines would move stands for what they moved.
/// Source:   definition; renewals [cox1962].   Checked by: tests/money/cash_flow_test.cpp.
[[nodiscard]] CashFlow flow_of(const Alternative& alternative, const YearOfUse& use, const Terms& terms,
                               const FigureOf& figure, RenewalTable& renewals);

/// Outlay of each lot; stock goes to the first lots that are not built yet.
[[nodiscard]] std::vector<double> outlay_of_lots(const Alternative& alternative, const Terms& terms,
                                                 const FigureOf& figure);

/// Sums of a column by years: year 0 is month 0 alone, year 1 the twelve months behind it.
[[nodiscard]] std::vector<double> by_year(std::span<const double> months);

/// What goes out, all columns together, and what is saved.
[[nodiscard]] std::vector<double> out_by_year(const CashFlow& flow);
[[nodiscard]] std::vector<double> saved_by_year(const CashFlow& flow);
/// Saved less what goes out.
[[nodiscard]] std::vector<double> net_by_year(const CashFlow& flow);

/// Saved in a year on bills with everything laid, at the prices of today.
struct YearlySaving {
  double cooling = 0.0;
  double heating = 0.0;
  double cooling_kwh = 0.0;  // of electricity; a bill in money by its mean price
  double heating_kwh = 0.0;  // of bought energy
};
[[nodiscard]] YearlySaving saving_of_year(const YearOfUse& use, const Terms& terms, const FigureOf& figure);

/// What a kWh of cooling a year, bought before, would save in a year; nothing where there was no heat to remove.
[[nodiscard]] double saved_per_cooling_kwh(const YearOfUse& use, const Terms& terms, const FigureOf& figure);

}  // namespace houseleek::money
