// What a cash flow comes to, in sentences: what is saved and against what, when it comes back, on what that hangs.
#include "studies/cash_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "report/words.hpp"

namespace houseleek::studies {
namespace {

using report::short_number;

std::string years_or_more(const std::optional<double>& years, int years_counted) {
  return years ? fmt::format("{:.1f}", *years) : fmt::format("more than {}", years_counted);
}

double sum_of(const std::array<double, 12>& months) { return std::accumulate(months.begin(), months.end(), 0.0); }

bool has_fan(const design::ValidDesign& design) {
  return std::any_of(design->rooms.begin(), design->rooms.end(),
                     [](const design::Room& room) { return room.fan.has_value(); });
}

std::string bill_words(const money::Terms& terms) {
  if (terms.has_cooling_bill() && terms.has_heating_bill()) return "the bills for cooling and heating";
  return terms.has_cooling_bill() ? "the bill for cooling" : "the bill for heating";
}

/// What a payback would need, one clause each.
std::vector<std::string> conditions(const money::BreakEven& found, const money::Terms& terms,
                                    const std::string& currency) {
  std::vector<std::string> clauses;
  if (found.electricity_per_kwh) {
    clauses.push_back(fmt::format("the tariff of the months that are cooled is above {} {}/kWh",
                                  short_number(*found.electricity_per_kwh), currency));
  }
  if (found.cooling_kwh_per_year) {
    clauses.push_back(fmt::format("cooling took more than {} kWh of electricity a year before",
                                  short_number(*found.cooling_kwh_per_year)));
  }
  if (found.outlay && terms.has_cooling_bill()) {
    clauses.push_back(fmt::format("all modules together cost less than {} {}", short_number(*found.outlay), currency));
  }
  return clauses;
}

}  // namespace

std::string payback_words(const report::PaybackAnswer& payback, int years_counted) {
  return fmt::format("{}, {} to {}", years_or_more(payback.likely, years_counted),
                     years_or_more(payback.low, years_counted), years_or_more(payback.high, years_counted));
}

std::string saving_statement(const design::ValidDesign& design, const money::Terms& terms,
                             const money::YearOfUse& use) {
  if (!terms.has_cooling_bill() && !terms.has_heating_bill()) {
    return has_fan(design) ? "Zero: there were only fans before, and no bill for cooling or heating is described."
                           : "Zero: no bill for cooling or heating is described.";
  }
  std::string text = fmt::format(
      "Against {} as really paid before: the share of the heat that machines would no "
      "longer move, month by month.",
      bill_words(terms));
  if (terms.has_cooling_bill() && sum_of(use.bare.remove_kwh) <= 0.0) {
    text +=
        " There is a bill for cooling, but no heat to remove is found under the bare roof: nothing of it is shown "
        "to be saved.";
  }
  if (terms.has_heating_bill() && sum_of(use.bare.add_kwh) <= 0.0) {
    text +=
        " There is a bill for heating, but no heat to add is found under the bare roof: nothing of it is shown to "
        "be saved.";
  }
  return text;
}

std::string payback_statement(const money::Terms& terms, const report::CashAnswer& cash, bool has_modules) {
  if (!has_modules) return "no modules are laid yet";
  if (!cash.net_present_value.value) return cash.net_present_value.because;
  if (!terms.has_cooling_bill() && !terms.has_heating_bill()) {
    return "the cash saved is zero, so the outlay never comes back in cash; the comfort gained is a figure of its own";
  }
  const report::DrawCount& count = cash.payback.comes_back;
  if (count.n_draws == 0) {
    return fmt::format("it never pays back: in none of {} draws has the outlay come back within the {} years counted",
                       count.n_all, terms.years_counted);
  }
  const std::string draws = fmt::format("in {} of {} draws the outlay has come back within the {} years counted",
                                        count.n_draws, count.n_all, terms.years_counted);
  return cash.payback.likely ? draws : "it likely never pays back: only " + draws;
}

std::string own_hours_statement(const report::Figure& hours, double wage_per_h, const std::string& currency) {
  if (!hours.value) return hours.because;
  if (wage_per_h == 0.0) {
    return fmt::format("About {} own hours are counted at nothing; money.wage_per_h sets a wage.",
                       report::short_figure(hours));
  }
  return fmt::format("About {} own hours are counted at {} {} an hour.", report::short_figure(hours),
                     short_number(wage_per_h), currency);
}

report::BreakEvenAnswer break_even_answer(const money::BreakEven& found, const money::Terms& terms,
                                          const std::string& currency) {
  report::BreakEvenAnswer answer{.n_years = found.n_years,
                                 .is_reached = found.is_reached,
                                 .electricity_per_kwh = found.electricity_per_kwh,
                                 .cooling_kwh_per_year = found.cooling_kwh_per_year,
                                 .outlay = found.outlay,
                                 .statement = ""};
  const std::vector<std::string> clauses = conditions(found, terms, currency);
  if (clauses.empty()) {
    answer.statement = fmt::format(
        "No tariff and no earlier use of cooling would pay it back within {} years: it leaves no less heat to remove.",
        found.n_years);
    return answer;
  }
  answer.statement =
      fmt::format("With likely figures it pays back within {} years if {}{}.", found.n_years,
                  fmt::join(clauses, ", or if "), clauses.size() == 1 ? "" : " (each with the others as they are)");
  if (found.is_reached) answer.statement += " That is so.";
  return answer;
}

std::string name_of_path(const design::ValidDesign& design, const std::string& path) {
  for (const design::Assumption& one : design.assumed()) {
    if (one.path == path) return one.name;
  }
  if (path == "money.cuttings_per_m2") return std::string(money::cuttings_per_m2.words);
  // A price of the description itself: prices[coir].
  constexpr std::string_view prices = "prices[";
  if (path.starts_with(prices) && path.ends_with(']')) {
    return fmt::format("price of {}", path.substr(prices.size(), path.size() - prices.size() - 1));
  }
  std::string words = path;
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

}  // namespace houseleek::studies
