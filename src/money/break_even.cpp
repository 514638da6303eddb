// On what a payback hangs: each figure moved to its ends, and the tariff, the bill or the cost at which it would come.
#include "money/break_even.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "money/interest.hpp"

namespace houseleek::money {
namespace {

double present_value(const Alternative& alternative, const YearOfUse& use, const Terms& terms, const FigureOf& figure) {
  RenewalTable renewals(terms, figure);
  const CashFlow flow = flow_of(alternative, use, terms, figure, renewals);
  return net_present_value(net_by_year(flow), figure(terms.interest_step) - 1.0);
}

/// Sum of years 0 to n.
double until(const std::vector<double>& years, int n_years) {
  const auto end = std::min(years.size(), static_cast<std::size_t>(n_years) + 1);
  return std::accumulate(years.begin(), years.begin() + static_cast<std::ptrdiff_t>(end), 0.0);
}

/// How many years' savings n years hold, with energy growing dearer.
double years_of_saving(const Terms& terms, int n_years) {
  double sum = 0.0;
  double step = 1.0;
  for (int year = 0; year < n_years; ++year, step *= likely_of(terms.energy_price_step)) sum += step;
  return sum;
}

CashFlow likely_flow(const Alternative& alternative, const YearOfUse& use, const Terms& terms) {
  const FigureOf figure = likely_of;
  RenewalTable renewals(terms, figure);
  return flow_of(alternative, use, terms, figure, renewals);
}

}  // namespace

std::vector<Sensitivity> sensitivities(const Alternative& alternative, const YearOfUse& use, const Terms& terms) {
  std::map<std::string, results::Interval> read;
  const FigureOf noting = [&read](const Factor& factor) {
    if (factor.range.low < factor.range.high) read[factor.path] = factor.range;
    return factor.range.likely;
  };
  (void)present_value(alternative, use, terms, noting);
  std::vector<Sensitivity> all;
  for (const auto& [path, range] : read) {
    const auto with = [&, &moved = path](double value) {
      const FigureOf figure = [&](const Factor& factor) { return factor.path == moved ? value : likely_of(factor); };
      return present_value(alternative, use, terms, figure);
    };
    all.push_back({path, with(range.low), with(range.high)});
  }
  std::stable_sort(all.begin(), all.end(), [](const Sensitivity& a, const Sensitivity& b) {
    return std::fabs(a.high_gives - a.low_gives) > std::fabs(b.high_gives - b.low_gives);
  });
  return all;
}

BreakEven break_even(const Alternative& alternative, const YearOfUse& use, const Terms& terms, int n_years) {
  const CashFlow flow = likely_flow(alternative, use, terms);
  const double out = until(out_by_year(flow), n_years);
  const double cooling = until(by_year(flow.cooling_saved), n_years);
  const double heating = until(by_year(flow.heating_saved), n_years);
  const YearlySaving saving = saving_of_year(use, terms, likely_of);
  BreakEven answer;
  answer.n_years = n_years;
  answer.is_reached = cooling + heating >= out;
  if (cooling > 0.0 && saving.cooling_kwh > 0.0) {
    const double times = std::max(0.0, (out - heating) / cooling);
    answer.electricity_per_kwh = times * saving.cooling / saving.cooling_kwh;
  }
  const double of_a_kwh = saved_per_cooling_kwh(use, terms, likely_of) * years_of_saving(terms, n_years);
  if (of_a_kwh > 0.0) answer.cooling_kwh_per_year = std::max(0.0, (out - heating) / of_a_kwh);
  const double outlay = until(by_year(flow.outlay), n_years) + cooling + heating - out;
  if (outlay >= 0.0) answer.outlay = outlay;
  return answer;
}

std::vector<QuickPayback> quick_paybacks(const Alternative& modules, const YearOfUse& use, const Terms& terms) {
  const CashFlow flow = likely_flow(modules, use, terms);
  const std::vector<double> out = out_by_year(flow);
  const std::vector<double> outlay = by_year(flow.outlay);
  double area_m2 = 0.0;
  for (const Lot& lot : modules.lots) area_m2 += lot.area_m2;
  const auto sum = [](const std::array<double, 12>& months) {
    return std::accumulate(months.begin(), months.end(), 0.0);
  };
  const double bare_kwh = sum(use.bare.remove_kwh);
  const double share = bare_kwh > 0.0 ? (bare_kwh - sum(use.covered.remove_kwh)) / bare_kwh : 0.0;
  // Round figures from given materials to bought ones, and from cheap to dear electricity, in the design's own scale.
  const double own_price = likely_of(terms.electricity_per_kwh[6]);
  std::vector<QuickPayback> rows;
  for (const double cost_times : {0.25, 1.0, 4.0}) {
    for (const double price_times : {0.5, 1.0, 2.0}) {
      QuickPayback row;
      row.cost_per_m2 = area_m2 > 0.0 ? cost_times * until(outlay, terms.years_counted) / area_m2 : 0.0;
      row.electricity_per_kwh = price_times * own_price;
      const auto kwh_for = [&](int n_years) -> std::optional<double> {
        const double a_kwh = share * row.electricity_per_kwh * years_of_saving(terms, n_years);
        if (a_kwh <= 0.0) return std::nullopt;
        const double running = until(out, n_years) - until(outlay, n_years);
        return (row.cost_per_m2 * area_m2 + running) / a_kwh;
      };
      row.kwh_for_one_year = kwh_for(1);
      row.kwh_for_two_years = kwh_for(2);
      rows.push_back(row);
    }
  }
  return rows;
}

}  // namespace houseleek::money
