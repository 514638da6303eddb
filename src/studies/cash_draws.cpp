// Cash flows of modules and rivals in many draws: present value, payback, rates, the balance of every year; carbon.
#include "studies/cash_draws.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "money/carbon.hpp"
#include "money/draws.hpp"
#include "money/interest.hpp"
#include "stats/quantile.hpp"
#include "studies/cash_words.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using report::Figure;

// Stands for "not within the years counted": far beyond them, so that no quantile beside it looks like a year.
constexpr double never_years = 1e12;

std::string words_of_draws(const CashDrawInputs& inputs) {
  const std::string draws = fmt::format("{} draws from assumed spreads of prices, lives, interest", inputs.n_draws);
  return inputs.years.size() == 1 ? fmt::format("{}; {}", draws, report::one_year_only)
                                  : fmt::format("{} and of {} made years", draws, inputs.years.size());
}

const YearAnswer& year_of(const CashDrawInputs& inputs, int draw) {
  return inputs.years[static_cast<std::size_t>(draw) % inputs.years.size()];
}

money::FigureOf figure_in(const CashDrawInputs& inputs, int draw) {
  return [at = money::Draw{inputs.design->climate.seed, static_cast<std::uint32_t>(draw)}](
             const money::Factor& factor) { return money::drawn(factor, at); };
}

/// Quantiles over draws of years that some draws never see.
class Paybacks {
 public:
  explicit Paybacks(int years_counted) : years_counted_(years_counted) {}
  void add(const std::optional<double>& years) { sample_.push_back(years.value_or(never_years)); }
  [[nodiscard]] report::PaybackAnswer answer() const {
    report::PaybackAnswer payback;
    payback.comes_back.n_all = static_cast<int>(sample_.size());
    payback.comes_back.n_draws = static_cast<int>(
        std::count_if(sample_.begin(), sample_.end(), [](double years) { return years < never_years; }));
    payback.low = at(low_share_frac);
    payback.likely = at(likely_share_frac);
    payback.high = at(high_share_frac);
    return payback;
  }

 private:
  [[nodiscard]] std::optional<double> at(double share_frac) const {
    const double years = stats::quantile(sample_, share_frac);
    return years <= years_counted_ ? std::optional(years) : std::nullopt;
  }
  int years_counted_;
  std::vector<double> sample_;
};

/// One sample a year.
class YearSamples {
 public:
  explicit YearSamples(int n_draws) : n_draws_(static_cast<std::size_t>(n_draws)) {}
  void add(const std::vector<double>& years) {
    if (samples_.empty()) samples_.resize(years.size());
    for (std::size_t year = 0; year < years.size(); ++year) {
      samples_[year].reserve(n_draws_);
      samples_[year].push_back(years[year]);
    }
  }
  [[nodiscard]] std::size_t n_years() const { return samples_.size(); }
  [[nodiscard]] Figure at(std::size_t year, const std::string& words) const {
    return figure_of_sample(samples_[year], words);
  }

 private:
  std::size_t n_draws_;
  std::vector<std::vector<double>> samples_;
};

struct SumColumn {
  std::vector<double> money::CashFlow::*column;
  Figure report::CashSums::*figure;
};
constexpr SumColumn sum_columns[] = {{&money::CashFlow::outlay, &report::CashSums::outlay},
                                     {&money::CashFlow::own_hours, &report::CashSums::own_hours},
                                     {&money::CashFlow::renewal, &report::CashSums::renewal},
                                     {&money::CashFlow::water, &report::CashSums::water},
                                     {&money::CashFlow::leaks, &report::CashSums::leaks},
                                     {&money::CashFlow::lifting, &report::CashSums::lifting},
                                     {&money::CashFlow::disposal, &report::CashSums::disposal}};

CashDraws missing_because(const std::string& why) {
  CashDraws none;
  const Figure missing = results::figure_missing(why);
  none.cash.cash_saving_per_year = missing;
  none.cash.net_present_value = missing;
  none.rates.rate_frac = missing;
  for (const SumColumn& one : sum_columns) none.sums.*one.figure = missing;
  none.own_hours = missing;
  return none;
}

Figure rate_figure(std::vector<double> single, int n_draws, const std::string& words) {
  const auto n_single = static_cast<int>(single.size());
  if (2 * n_single <= n_draws) {
    return results::figure_missing(fmt::format("only {} of {} draws have one rate alone", n_single, n_draws));
  }
  return figure_of_sample(std::move(single),
                          n_single == n_draws ? words : fmt::format("{}; the {} with one rate alone", words, n_single));
}

std::vector<double> summed_up(std::vector<double> years) {
  std::partial_sum(years.begin(), years.end(), years.begin());
  return years;
}

double own_hours_h(const money::Alternative& alternative, const money::Terms& terms, const money::FigureOf& figure) {
  double hours = 0.0;
  for (const money::Lot& lot : alternative.lots) {
    hours +=
        lot.is_module ? lot.n_units * figure(terms.own_hours_per_module) : lot.area_m2 * figure(terms.own_hours_per_m2);
  }
  return hours;
}

}  // namespace

money::YearOfUse use_of(const YearAnswer& year, CoverKind cover) {
  return {.bare = year.heat[report::index_of(CoverKind::bare)],
          .covered = year.heat[report::index_of(cover)],
          .watering_m3 = cover == CoverKind::planted ? year.watering_m3 : 0.0};
}

money::YearOfUse likely_use(std::span<const YearAnswer> years, CoverKind cover) {
  const auto middle = [&years](auto&& value_of) {
    std::vector<double> values;
    for (const YearAnswer& year : years) values.push_back(value_of(year));
    return stats::quantile(std::move(values), likely_share_frac);
  };
  money::YearOfUse use;
  const auto fill = [&](money::MonthlyHeat& heat, CoverKind of) {
    for (std::size_t month = 0; month < 12; ++month) {
      heat.add_kwh[month] =
          middle([&](const YearAnswer& year) { return year.heat[report::index_of(of)].add_kwh[month]; });
      heat.remove_kwh[month] =
          middle([&](const YearAnswer& year) { return year.heat[report::index_of(of)].remove_kwh[month]; });
    }
  };
  fill(use.bare, CoverKind::bare);
  fill(use.covered, cover);
  if (cover == CoverKind::planted) use.watering_m3 = middle([](const YearAnswer& year) { return year.watering_m3; });
  return use;
}

std::string missing_prices(const money::Terms& terms, const money::Alternative& alternative) {
  std::vector<std::string> names = terms.unpriced;
  for (const money::Lot& lot : alternative.lots) {
    names.insert(names.end(), lot.per_unit.unpriced.begin(), lot.per_unit.unpriced.end());
  }
  if (names.empty()) return "";
  return fmt::format("no price is known of {}: add it under [[prices.item]]", fmt::join(money::once_each(names), ", "));
}

CashDraws draw_cash(const CashDrawInputs& inputs, const money::Alternative& alternative, CoverKind cover) {
  const std::string missing = missing_prices(inputs.terms, alternative);
  if (!missing.empty()) return missing_because(missing);
  const std::string words = words_of_draws(inputs);
  CashDraws drawn;
  std::vector<double> savings, present_values, rates, hours;
  std::vector<std::vector<double>> sums(std::size(sum_columns));
  Paybacks simple(inputs.terms.years_counted), discounted(inputs.terms.years_counted);
  YearSamples out(inputs.n_draws), saved(inputs.n_draws), balance(inputs.n_draws);
  for (int draw = 0; draw < inputs.n_draws; ++draw) {
    const money::FigureOf figure = figure_in(inputs, draw);
    money::RenewalTable renewals(inputs.terms, figure);
    const money::YearOfUse use = use_of(year_of(inputs, draw), cover);
    const money::CashFlow flow = money::flow_of(alternative, use, inputs.terms, figure, renewals);
    const std::vector<double> net = money::net_by_year(flow);
    const double interest_frac = figure(inputs.terms.interest_step) - 1.0;
    const money::YearlySaving saving = money::saving_of_year(use, inputs.terms, figure);
    savings.push_back(saving.cooling + saving.heating);
    present_values.push_back(money::net_present_value(net, interest_frac));
    simple.add(money::payback_periods(net, 0.0));
    discounted.add(money::payback_periods(net, interest_frac));
    const std::vector<double> found = money::internal_rates(net);
    (found.empty() ? drawn.rates.n_none : found.size() == 1 ? drawn.rates.n_one : drawn.rates.n_several) += 1;
    if (found.size() == 1) rates.push_back(found.front());
    out.add(money::out_by_year(flow));
    saved.add(money::saved_by_year(flow));
    balance.add(summed_up(net));
    for (std::size_t i = 0; i < sums.size(); ++i) {
      const std::vector<double>& column = flow.*sum_columns[i].column;
      sums[i].push_back(std::accumulate(column.begin(), column.end(), 0.0));
    }
    hours.push_back(own_hours_h(alternative, inputs.terms, figure));
  }
  drawn.cash.cash_saving_per_year = figure_of_sample(std::move(savings), words);
  drawn.cash.net_present_value = figure_of_sample(std::move(present_values), words);
  drawn.cash.payback = simple.answer();
  drawn.cash.discounted_payback = discounted.answer();
  drawn.rates.rate_frac = rate_figure(std::move(rates), inputs.n_draws, words);
  for (std::size_t year = 0; year < out.n_years(); ++year) {
    drawn.flow.push_back({.year = static_cast<int>(year),
                          .out = out.at(year, words),
                          .saved = saved.at(year, words),
                          .balance = balance.at(year, words)});
  }
  for (std::size_t i = 0; i < sums.size(); ++i) {
    drawn.sums.*sum_columns[i].figure = figure_of_sample(std::move(sums[i]), words);
  }
  drawn.own_hours = figure_of_sample(std::move(hours), words);
  const money::FigureOf likely = money::likely_of;
  money::RenewalTable renewals(inputs.terms, likely);
  drawn.rates.likely_frac = money::internal_rates(
      money::net_by_year(money::flow_of(alternative, likely_use(inputs.years, cover), inputs.terms, likely, renewals)));
  return drawn;
}

report::CarbonAnswer draw_carbon(const CashDrawInputs& inputs, const money::Alternative& modules) {
  const std::string words = words_of_draws(inputs);
  report::CarbonAnswer answer;
  std::vector<double> made, renewed, saved, left;
  Paybacks years(inputs.terms.years_counted);
  for (int draw = 0; draw < inputs.n_draws; ++draw) {
    const money::FigureOf figure = figure_in(inputs, draw);
    money::RenewalTable renewals(inputs.terms, figure);
    const money::CarbonLook look =
        money::carbon_of(modules, use_of(year_of(inputs, draw), CoverKind::planted), inputs.terms, figure, renewals);
    made.push_back(look.made_kg);
    renewed.push_back(look.renewed_kg_per_year);
    saved.push_back(look.saved_kg_per_year);
    left.push_back(look.left_kg);
    years.add(look.years);
  }
  answer.made_kg = figure_of_sample(std::move(made), words);
  answer.renewed_kg_per_year = figure_of_sample(std::move(renewed), words);
  answer.saved_kg_per_year = figure_of_sample(std::move(saved), words);
  answer.left_kg = figure_of_sample(std::move(left), words);
  answer.years = years.answer();
  answer.not_counted = money::not_counted_in_carbon(modules);
  const results::Range& range = *answer.left_kg.range;
  answer.sign = range.low > 0.0 ? "saves" : range.high < 0.0 ? "costs" : "not_told_apart";
  const int counted = inputs.terms.years_counted;
  const std::string made_words = fmt::format("{:.0f} kg of CO2 to make, {:.0f} kg a year to renew",
                                             *answer.made_kg.value, *answer.renewed_kg_per_year.value);
  if (!inputs.terms.has_cooling_bill() && !inputs.terms.has_heating_bill()) {
    answer.statement = fmt::format(
        "{}; nothing was bought for cooling or heating before, so none is saved: over {} years it costs carbon",
        made_words, counted);
  } else if (answer.sign == "not_told_apart") {
    answer.statement = fmt::format(
        "{}; whether the energy no longer bought saves more within {} years is not told apart", made_words, counted);
  } else if (answer.sign == "saves") {
    answer.statement = answer.years.likely ? fmt::format("{}; saved again after {} years", made_words,
                                                         payback_words(answer.years, counted))
                                           : fmt::format("{}; more is saved over {} years", made_words, counted);
  } else {
    answer.statement =
        fmt::format("{}; the energy no longer bought does not save that within {} years", made_words, counted);
  }
  return answer;
}

}  // namespace houseleek::studies
