// What it costs, what comes back, and whether a plain rival does more for its money.
#include "studies/money_answers.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/contract.hpp"
#include "checks/weights.hpp"
#include "money/break_even.hpp"
#include "money/interest.hpp"
#include "money/plain_sums.hpp"
#include "studies/cash_words.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using report::Figure;
using report::RoomFigures;

const RoomFigures& under(const report::RoomAnswer& house, CoverKind cover) {
  return house.covers[report::index_of(cover)];
}

double value_of(const Figure& figure) {
  expects(figure.value.has_value(), "a figure that every run has");
  return *figure.value;
}

/// The same figure counted the other way round.
Figure negated(const Figure& figure) {
  if (!figure.value) return figure;
  if (!figure.range) return results::figure_without_range(-*figure.value, figure.because);
  return results::figure_with_range(-*figure.value, -figure.range->high, -figure.range->low, figure.range->from);
}

Figure mass_of(const design::ValidDesign& design, std::string_view rival) {
  if (rival == "net") return checks::figure_from_weight(checks::compute_net_weights(design).soaked_kg_per_m2);
  if (rival == "board") return checks::figure_from_weight(checks::compute_board_weights(design).soaked_kg_per_m2);
  return results::figure_missing("a coat of paint is not weighed");
}

std::vector<std::string> better_fields(const RoomFigures& rival, const RoomFigures& planted) {
  struct Field {
    std::string_view name;
    Figure RoomFigures::*figure;
  };
  // Of all these less is better.
  const Field fields[] = {{"operative_max_c", &RoomFigures::operative_max_c},
                          {"hours_above_limit", &RoomFigures::hours_above_limit},
                          {"hours_above_limit_with_fan", &RoomFigures::hours_above_limit_with_fan},
                          {"degree_hours_above_k_h", &RoomFigures::degree_hours_above_k_h},
                          {"heat_to_add_kwh", &RoomFigures::heat_to_add_kwh},
                          {"heat_to_remove_kwh", &RoomFigures::heat_to_remove_kwh}};
  std::vector<std::string> better;
  for (const Field& field : fields) {
    const std::optional<double>& here = (rival.*field.figure).value;
    const std::optional<double>& there = (planted.*field.figure).value;
    if (here && there && *here < *there) better.emplace_back(field.name);
  }
  return better;
}

std::string money_words(const Figure& figure, const std::string& currency) {
  return figure.value ? fmt::format("{:.0f} {}", *figure.value, currency) : "a price that is not known";
}

Figure nothing_saved() {
  return results::figure_without_range(0.0, "nothing was bought before that is not bought now");
}

/// Years that people ask for.
constexpr std::array<int, 2> asked_years = {3, 10};

void add_what_it_hangs_on(const design::ValidDesign& design, const money::Alternative& modules,
                          const money::YearOfUse& use, const money::Terms& terms, report::MoneyAnswer& answer) {
  const money::FigureOf figure = money::likely_of;
  money::RenewalTable renewals(terms, figure);
  const double likely = money::net_present_value(
      money::net_by_year(money::flow_of(modules, use, terms, figure, renewals)), figure(terms.interest_step) - 1.0);
  for (const money::Sensitivity& one : money::sensitivities(modules, use, terms)) {
    answer.sensitivities.push_back({.path = one.path,
                                    .name = name_of_path(design, one.path),
                                    .low_gives = one.low_gives,
                                    .likely_gives = likely,
                                    .high_gives = one.high_gives});
  }
  for (const int n_years : asked_years) {
    if (n_years > terms.years_counted) continue;
    answer.break_even.push_back(
        break_even_answer(money::break_even(modules, use, terms, n_years), terms, answer.currency));
  }
  for (const money::QuickPayback& row : money::quick_paybacks(modules, use, terms)) {
    answer.quick_paybacks.push_back({.cost_per_m2 = row.cost_per_m2,
                                     .electricity_per_kwh = row.electricity_per_kwh,
                                     .kwh_for_one_year = row.kwh_for_one_year,
                                     .kwh_for_two_years = row.kwh_for_two_years});
  }
}

}  // namespace

report::MoneyAnswer answer_money(const CashDrawInputs& inputs, const report::RoomAnswer& house,
                                 const MoneyDraws& drawn) {
  const design::ValidDesign& design = inputs.design;
  const money::PlantedOutlay planted = money::planted_outlay(design);
  const money::Alternative modules = money::modules_of(design);
  const money::YearOfUse use = likely_use(inputs.years, CoverKind::planted);
  const money::Terms& terms = inputs.terms;
  const bool has_bill = terms.has_cooling_bill() || terms.has_heating_bill();
  CashDraws cash = draw_cash(inputs, modules, CoverKind::planted);
  report::MoneyAnswer answer;
  answer.currency = design->prices.currency;
  answer.outlay = drawn.outlay;
  answer.replacement_per_year = drawn.replacement_per_year;
  answer.water_per_year = drawn.water_per_year;
  answer.cash_saving_statement = saving_statement(design, terms, use);
  answer.comfort_kwh_per_year = negated(house.planted_minus_bare.heat_to_remove_kwh);
  answer.heating_less_kwh_per_year = negated(house.planted_minus_bare.heat_to_add_kwh);
  answer.cash = std::move(cash.cash);
  if (!has_bill) answer.cash.cash_saving_per_year = nothing_saved();
  answer.payback_why = payback_statement(terms, answer.cash, !modules.lots.empty());
  answer.years_counted = terms.years_counted;
  const double wage_per_h = money::likely_of(terms.wage_per_h);
  answer.own_hours = {cash.own_hours, wage_per_h, own_hours_statement(cash.own_hours, wage_per_h, answer.currency)};
  answer.rates = std::move(cash.rates);
  answer.flow = std::move(cash.flow);
  answer.sums = std::move(cash.sums);
  if (missing_prices(terms, modules).empty() && !modules.lots.empty())
    add_what_it_hangs_on(design, modules, use, terms, answer);
  expects(planted.recipes.size() == drawn.recipes.size(), "the recipes that are laid");
  for (std::size_t i = 0; i < drawn.recipes.size(); ++i) {
    const DrawnRecipe& row = drawn.recipes[i];
    answer.recipes.push_back({.name = design->recipes[static_cast<std::size_t>(row.recipe)].name,
                              .n_modules = planted.recipes[i].n_modules,
                              .per_module = row.per_module,
                              .outlay = row.outlay,
                              .replacement_per_year = row.replacement_per_year});
  }
  answer.unpriced = planted.unpriced;
  answer.without_life = planted.without_life;
  return answer;
}

std::vector<report::RivalAnswer> answer_rivals(const CashDrawInputs& inputs, const report::RoomAnswer& house,
                                               const report::MoneyAnswer& money, const MoneyDraws& drawn) {
  const RoomFigures& planted = under(house, CoverKind::planted);
  const bool has_bill = inputs.terms.has_cooling_bill() || inputs.terms.has_heating_bill();
  std::vector<report::RivalAnswer> answers;
  for (std::size_t i = 0; i < rival_places.size(); ++i) {
    const RivalPlace& place = rival_places[i];
    const DrawnRival& costs = drawn.rivals[i];
    const RoomFigures& figures = under(house, place.cover);
    report::RivalAnswer answer;
    answer.name = place.name;
    answer.extent = place.extent;
    answer.area_m2 = costs.area_m2;
    answer.outlay = costs.outlay;
    answer.replacement_per_year = costs.replacement_per_year;
    const money::Alternative alternative = rival_of(inputs.design, place.name, costs.area_m2);
    answer.cash = draw_cash(inputs, alternative, place.cover).cash;
    if (!has_bill) answer.cash.cash_saving_per_year = nothing_saved();
    answer.mass_soaked_kg_per_m2 = mass_of(inputs.design, place.name);
    answer.degree_hours_less_per_outlay_k_h = costs.degree_hours_less_per_outlay_k_h;
    answer.better_in = better_fields(figures, planted);
    answer.better_for_its_money = costs.better_for_its_money;
    std::string how_often;
    if (const std::optional<report::DrawCount>& count = costs.better_for_its_money) {
      answer.is_better_for_its_money = 2 * count->n_draws > count->n_all;
      how_often = fmt::format(" More for its money than the modules in {} of {} draws.", count->n_draws, count->n_all);
    }
    answer.statement = fmt::format(
        "{}: {:.0f} K h above the limit (modules {:.0f}, bare {:.0f}), {:.0f} kWh of heat to add ({:.0f}, {:.0f}), for "
        "{} ({}).{}",
        place.words, value_of(figures.degree_hours_above_k_h), value_of(planted.degree_hours_above_k_h),
        value_of(under(house, CoverKind::bare).degree_hours_above_k_h), value_of(figures.heat_to_add_kwh),
        value_of(planted.heat_to_add_kwh), value_of(under(house, CoverKind::bare).heat_to_add_kwh),
        money_words(answer.outlay, money.currency), money_words(money.outlay, money.currency), how_often);
    answers.push_back(std::move(answer));
  }
  return answers;
}

std::vector<design::Assumption> assumed_costs(const design::ValidDesign& design) {
  const bool has_plants = std::any_of(design->recipes.begin(), design->recipes.end(),
                                      [](const design::Recipe& recipe) { return recipe.canopy.cover_frac > 0.0; });
  if (!has_plants) return {};
  const design::Default& cuttings = money::cuttings_per_m2;
  return {{.path = "money.cuttings_per_m2",
           .name = std::string(cuttings.words),
           .unit = "1/m2",
           .low = cuttings.low,
           .likely = cuttings.likely,
           .high = cuttings.high,
           .source = std::string(cuttings.source),
           .certainty = cuttings.certainty,
           .from = design::AssumedFrom::default_value}};
}

}  // namespace houseleek::studies
