// What goes out and what need no longer be paid, month by month: modules as they were built, and rivals the same way.
#include "money/cash_flow.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "base/contract.hpp"
#include "base/nearest_name.hpp"
#include "stats/weibull_lives.hpp"

namespace houseleek::money {
namespace {

constexpr int months_in_year = 12;
constexpr double days_in_month = 30.4375;

double product_of(double amount, const std::vector<Factor>& factors, const FigureOf& figure) {
  for (const Factor& factor : factors) amount *= figure(factor);
  return amount;
}

double mass_kg(const CostPart& part, const FigureOf& figure) {
  return product_of(part.mass_amount, part.mass_factors, figure);
}

double at_shop(const CostPart& part, const FigureOf& figure) {
  return product_of(part.amount, part.factors, figure) * figure(part.price);
}

/// What is left of each item in stock.
using Shed = std::map<std::string, double>;

Shed full_shed(const Terms& terms) {
  Shed shed;
  for (const Stock& item : terms.stock) shed[item.name] += item.amount;
  return shed;
}

/// Stock of one item in the order of the list, each entry at its own price.
double taken_from_stock(const Terms& terms, const FigureOf& figure, const std::string& name, double used_before,
                        double quantity) {
  double cost = 0.0;
  double begin = 0.0;
  for (const Stock& item : terms.stock) {
    if (item.name != name) continue;
    const double from = std::max(begin, used_before);
    const double to = std::min(begin + item.amount, used_before + quantity);
    if (to > from) cost += (to - from) * figure(item.price);
    begin += item.amount;
  }
  return cost;
}

double outlay_of_part(const CostPart& part, double n_units, const Terms& terms, const FigureOf& figure, Shed& used,
                      const Shed& full) {
  const double quantity = n_units * product_of(part.amount, part.factors, figure);
  const auto in_stock = full.find(part.name);
  if (in_stock == full.end()) return quantity * figure(part.price);
  double& used_here = used[part.name];
  const double from_stock = std::min(quantity, in_stock->second - used_here);
  const double cost = taken_from_stock(terms, figure, part.name, used_here, from_stock);
  used_here += from_stock;
  return cost + (quantity - from_stock) * figure(part.price);
}

double sum_of(const std::array<double, 12>& months) { return std::accumulate(months.begin(), months.end(), 0.0); }

std::array<double, 12> prices_of(const std::array<Factor, 12>& by_month, const FigureOf& figure) {
  std::array<double, 12> prices{};
  for (std::size_t month = 0; month < prices.size(); ++month) prices[month] = figure(by_month[month]);
  return prices;
}

std::array<double, 12> same_price(double price) {
  std::array<double, 12> prices{};
  prices.fill(price);
  return prices;
}

struct Bill {
  const std::optional<Factor>& kwh;
  const std::optional<Factor>& paid;
};

/// Saved by calendar month, in kWh and in money.
struct MonthlySaving {
  std::array<double, 12> kwh{};
  std::array<double, 12> money{};
};

MonthlySaving saving_of(const Bill& bill, const std::array<double, 12>& bare_kwh,
                        const std::array<double, 12>& covered_kwh, const std::array<double, 12>& prices,
                        const FigureOf& figure) {
  MonthlySaving saving;
  const double all_kwh = sum_of(bare_kwh);
  if ((!bill.kwh && !bill.paid) || all_kwh <= 0.0) return saving;
  double worth = 0.0;
  for (std::size_t month = 0; month < prices.size(); ++month) worth += bare_kwh[month] * prices[month];
  // A bill of money over a price of nothing says no kWh; what was paid is saved by the share of heat all the same.
  const double bill_kwh = bill.kwh ? figure(*bill.kwh) : worth > 0.0 ? figure(*bill.paid) * all_kwh / worth : 0.0;
  for (std::size_t month = 0; month < prices.size(); ++month) {
    const double share = (bare_kwh[month] - covered_kwh[month]) / all_kwh;
    saving.kwh[month] = bill_kwh * share;
    saving.money[month] = bill.paid && worth <= 0.0 ? figure(*bill.paid) * share : saving.kwh[month] * prices[month];
  }
  return saving;
}

MonthlySaving cooling_saving(const YearOfUse& use, const Terms& terms, const FigureOf& figure) {
  return saving_of({terms.cooling_kwh, terms.cooling_paid}, use.bare.remove_kwh, use.covered.remove_kwh,
                   prices_of(terms.electricity_per_kwh, figure), figure);
}

MonthlySaving heating_saving(const YearOfUse& use, const Terms& terms, const FigureOf& figure) {
  return saving_of({terms.heating_kwh, terms.heating_paid}, use.bare.add_kwh, use.covered.add_kwh,
                   same_price(figure(terms.heating_per_kwh)), figure);
}

std::size_t n_rows(const Terms& terms) { return static_cast<std::size_t>(months_in_year * terms.years_counted) + 1; }

double hours_of(const Lot& lot, const Terms& terms, const FigureOf& figure) {
  return lot.is_module ? lot.n_units * figure(terms.own_hours_per_module)
                       : lot.area_m2 * figure(terms.own_hours_per_m2);
}

void add_renewals(const Lot& lot, const FigureOf& figure, double disposal_per_kg, RenewalTable& renewals,
                  CashFlow& flow) {
  for (const CostPart& part : lot.per_unit.parts) {
    if (!part.life_years) continue;
    const double bought = lot.n_units * at_shop(part, figure);
    const double thrown_away = lot.n_units * mass_kg(part, figure) * disposal_per_kg;
    if (bought == 0.0 && thrown_away == 0.0) continue;
    const std::span<const double> expected = renewals.of_new(*part.life_years);
    const std::size_t first = static_cast<std::size_t>(lot.month) + 1;
    for (std::size_t row = first; row < flow.renewal.size(); ++row) {
      flow.renewal[row] += bought * expected[row - first];
      flow.disposal[row] += thrown_away * expected[row - first];
    }
  }
}

Alternative one_lot(Cost per_m2, double area_m2) {
  Alternative alternative;
  alternative.lots.push_back({.per_unit = std::move(per_m2),
                              .n_units = area_m2,
                              .month = 0,
                              .area_m2 = area_m2,
                              .is_module = false,
                              .recipe = -1,
                              .is_built = false});
  return alternative;
}

}  // namespace

Alternative modules_of(const design::ValidDesign& design) {
  Alternative modules;
  std::optional<std::int64_t> first_day;
  for (const design::Patch& patch : design->patches) {
    if (patch.built_day && (!first_day || *patch.built_day < *first_day)) first_day = patch.built_day;
  }
  const std::vector<PatchCost> costs = patch_costs(design);
  for (std::size_t i = 0; i < costs.size(); ++i) {
    const design::Recipe& recipe = design->recipes[static_cast<std::size_t>(costs[i].recipe)];
    const std::optional<std::int64_t>& day = design->patches[i].built_day;
    modules.lots.push_back(
        {.per_unit = costs[i].per_module,
         .n_units = static_cast<double>(costs[i].n_modules),
         .month = day ? static_cast<int>(std::lround(static_cast<double>(*day - *first_day) / days_in_month)) : 0,
         .area_m2 = costs[i].n_modules * 1e-6 * recipe.length_mm * recipe.width_mm,
         .is_module = true,
         .recipe = costs[i].recipe,
         .is_built = day.has_value()});
  }
  std::stable_sort(modules.lots.begin(), modules.lots.end(),
                   [](const Lot& a, const Lot& b) { return a.month < b.month; });
  return modules;
}

Alternative white_of(const design::ValidDesign& design, double area_m2) {
  Alternative white = one_lot(cost_of_white_per_m2(design), area_m2);
  white.can_leak = false;
  white.is_lifted = false;
  white.is_lost_with_membrane = true;
  return white;
}

Alternative net_of(const design::ValidDesign& design, double area_m2) {
  return one_lot(cost_of_net_per_m2(design), area_m2);
}

Alternative board_of(const design::ValidDesign& design, double area_m2) {
  return one_lot(cost_of_board_per_m2(design), area_m2);
}

RenewalTable::RenewalTable(const Terms& terms, const FigureOf& figure)
    : terms_(terms), figure_(figure), shape_(figure(terms.life_shape)) {}

std::span<const double> RenewalTable::of_new(const Factor& life_years) {
  const auto found = by_path_.find(life_years.path);
  if (found != by_path_.end() && !life_years.path.empty()) return found->second;
  const double median_years = figure_(life_years);
  const stats::Weibull law{shape_, median_years / std::pow(std::numbers::ln2, 1.0 / shape_)};
  const std::array<stats::PartsInUse, 1> one{{{.age_years = 0.0, .n_parts = 1.0}}};
  return by_path_[life_years.path] =
             stats::expected_replacements(law, one, static_cast<std::size_t>(months_in_year * terms_.years_counted));
}

std::span<const double> RenewalTable::of_membrane() {
  constexpr const char* path = "the membrane from today";
  const auto found = by_path_.find(path);
  if (found != by_path_.end()) return found->second;
  const double median_years = figure_(terms_.membrane_life_years);
  const stats::Weibull law{shape_, median_years / std::pow(std::numbers::ln2, 1.0 / shape_)};
  const std::array<stats::PartsInUse, 1> one{{{.age_years = figure_(terms_.membrane_age_years), .n_parts = 1.0}}};
  return by_path_[path] =
             stats::expected_replacements(law, one, static_cast<std::size_t>(months_in_year * terms_.years_counted));
}

std::vector<double> outlay_of_lots(const Alternative& alternative, const Terms& terms, const FigureOf& figure) {
  const Shed full = full_shed(terms);
  Shed used;
  std::vector<double> outlays;
  for (const Lot& lot : alternative.lots) {
    expects(lot.per_unit.unpriced.empty(), "a price of everything");
    double outlay = 0.0;
    for (const CostPart& part : lot.per_unit.parts) {
      outlay += lot.is_built ? lot.n_units * at_shop(part, figure)
                             : outlay_of_part(part, lot.n_units, terms, figure, used, full);
    }
    outlays.push_back(outlay);
  }
  return outlays;
}

CashFlow flow_of(const Alternative& alternative, const YearOfUse& use, const Terms& terms, const FigureOf& figure,
                 RenewalTable& renewals) {
  expects(terms.unpriced.empty(), "a price of repairs, lifting and disposal");
  const std::size_t rows = n_rows(terms);
  CashFlow flow;
  for (std::vector<double>* column : {&flow.outlay, &flow.own_hours, &flow.renewal, &flow.water, &flow.leaks,
                                      &flow.lifting, &flow.disposal, &flow.cooling_saved, &flow.heating_saved}) {
    column->assign(rows, 0.0);
  }
  const double disposal_per_kg = figure(*terms.disposal_per_kg);
  const double wage = figure(terms.wage_per_h);
  const double leak =
      alternative.can_leak ? figure(terms.leak_per_year_frac) / months_in_year * figure(*terms.leak_repair) : 0.0;
  const double lifting_per_m2 = alternative.is_lifted ? figure(*terms.lifting_per_m2) : 0.0;
  const std::span<const double> membranes = renewals.of_membrane();
  const MonthlySaving cooling = cooling_saving(use, terms, figure);
  const MonthlySaving heating = heating_saving(use, terms, figure);
  const double water_a_month = use.watering_m3 * figure(terms.water_per_m3) / months_in_year;
  const double energy_step = figure(terms.energy_price_step);
  const std::vector<double> outlays = outlay_of_lots(alternative, terms, figure);
  double area_m2 = 0.0;
  for (const Lot& lot : alternative.lots) area_m2 += lot.area_m2;
  for (std::size_t i = 0; i < alternative.lots.size(); ++i) {
    const Lot& lot = alternative.lots[i];
    const std::size_t laid = static_cast<std::size_t>(lot.month);
    if (laid >= rows) continue;
    flow.outlay[laid] += outlays[i];
    if (wage > 0.0) flow.own_hours[laid] += wage * hours_of(lot, terms, figure);
    add_renewals(lot, figure, disposal_per_kg, renewals, flow);
    const double share = area_m2 > 0.0 ? lot.area_m2 / area_m2 : 0.0;
    double mass = 0.0;
    double anew = 0.0;
    for (const CostPart& part : lot.per_unit.parts) {
      mass += lot.n_units * mass_kg(part, figure);
      if (alternative.is_lost_with_membrane) anew += lot.n_units * at_shop(part, figure);
    }
    double energy_prices = 1.0;
    for (std::size_t row = 1; row < rows; ++row) {
      const std::size_t month = (row - 1) % months_in_year;
      if (month == 0 && row > 1) energy_prices *= energy_step;
      if (row <= laid) continue;
      flow.water[row] += share * water_a_month;
      flow.leaks[row] += share * leak;
      flow.lifting[row] += membranes[row - 1] * (lot.area_m2 * lifting_per_m2 + anew);
      flow.cooling_saved[row] += share * energy_prices * cooling.money[month];
      flow.heating_saved[row] += share * energy_prices * heating.money[month];
    }
    flow.disposal[rows - 1] += mass * disposal_per_kg;
  }
  return flow;
}

std::vector<double> by_year(std::span<const double> months) {
  expects(!months.empty() && (months.size() - 1) % months_in_year == 0, "month 0 and whole years");
  std::vector<double> years((months.size() - 1) / months_in_year + 1, 0.0);
  for (std::size_t row = 0; row < months.size(); ++row) {
    years[(row + months_in_year - 1) / months_in_year] += months[row];
  }
  return years;
}

std::vector<double> out_by_year(const CashFlow& flow) {
  std::vector<double> years(by_year(flow.outlay).size(), 0.0);
  for (const std::vector<double>* column :
       {&flow.outlay, &flow.own_hours, &flow.renewal, &flow.water, &flow.leaks, &flow.lifting, &flow.disposal}) {
    const std::vector<double> of_column = by_year(*column);
    for (std::size_t year = 0; year < years.size(); ++year) years[year] += of_column[year];
  }
  return years;
}

std::vector<double> saved_by_year(const CashFlow& flow) {
  std::vector<double> years = by_year(flow.cooling_saved);
  const std::vector<double> heating = by_year(flow.heating_saved);
  for (std::size_t year = 0; year < years.size(); ++year) years[year] += heating[year];
  return years;
}

std::vector<double> net_by_year(const CashFlow& flow) {
  std::vector<double> years = saved_by_year(flow);
  const std::vector<double> out = out_by_year(flow);
  for (std::size_t year = 0; year < years.size(); ++year) years[year] -= out[year];
  return years;
}

YearlySaving saving_of_year(const YearOfUse& use, const Terms& terms, const FigureOf& figure) {
  const MonthlySaving cooling = cooling_saving(use, terms, figure);
  const MonthlySaving heating = heating_saving(use, terms, figure);
  return {.cooling = sum_of(cooling.money),
          .heating = sum_of(heating.money),
          .cooling_kwh = sum_of(cooling.kwh),
          .heating_kwh = sum_of(heating.kwh)};
}

double saved_per_cooling_kwh(const YearOfUse& use, const Terms& terms, const FigureOf& figure) {
  const std::optional<Factor> one_kwh = Factor{"", results::exactly(1.0)};
  const std::optional<Factor> none;
  return sum_of(saving_of({one_kwh, none}, use.bare.remove_kwh, use.covered.remove_kwh,
                          prices_of(terms.electricity_per_kwh, figure), figure)
                    .money);
}

}  // namespace houseleek::money
