// Money, carbon and rivals of a study as JSON.
#include "report/money_json.hpp"

#include "report/json_parts.hpp"

namespace houseleek::report {
namespace {

using report::json_from;

Json json_from(const DrawCount& count) { return {{"draws", count.n_draws}, {"of", count.n_all}}; }

Json json_from(const std::optional<DrawCount>& count) { return count ? json_from(*count) : Json(nullptr); }

/// Null where the likely end lies beyond the years counted: then there are no years to name.
Json json_from(const PaybackAnswer& payback) {
  if (!payback.likely) return nullptr;
  return {{"low", json_from(payback.low)}, {"likely", *payback.likely}, {"high", json_from(payback.high)}};
}

void add_cash(Json& json, const CashAnswer& cash) {
  json["cash_saving_per_year"] = json_from(cash.cash_saving_per_year);
  json["net_present_value"] = json_from(cash.net_present_value);
  json["payback_years"] = json_from(cash.payback);
  json["discounted_payback_years"] = json_from(cash.discounted_payback);
  json["pays_back"] = cash.payback.comes_back.n_all == 0 ? Json(nullptr) : json_from(cash.payback.comes_back);
}

Json json_from(const CashYear& year) {
  return {{"year", year.year},
          {"out", json_from(year.out)},
          {"saved", json_from(year.saved)},
          {"balance", json_from(year.balance)}};
}

Json json_from(const CashSums& sums) {
  return {{"outlay", json_from(sums.outlay)},    {"own_hours", json_from(sums.own_hours)},
          {"renewal", json_from(sums.renewal)},  {"water", json_from(sums.water)},
          {"leaks", json_from(sums.leaks)},      {"lifting", json_from(sums.lifting)},
          {"disposal", json_from(sums.disposal)}};
}

Json json_from(const InternalRates& rates) {
  return {{"rate_frac", json_from(rates.rate_frac)},
          {"draws_without", rates.n_none},
          {"draws_with_one", rates.n_one},
          {"draws_with_several", rates.n_several},
          {"likely_frac", rates.likely_frac}};
}

Json json_from(const CashSensitivity& one) {
  return {{"path", one.path},
          {"name", one.name},
          {"low_gives", one.low_gives},
          {"likely_gives", one.likely_gives},
          {"high_gives", one.high_gives}};
}

Json json_from(const BreakEvenAnswer& one) {
  return {{"years", one.n_years},
          {"is_reached", one.is_reached},
          {"electricity_per_kwh", json_from(one.electricity_per_kwh)},
          {"cooling_kwh_per_year", json_from(one.cooling_kwh_per_year)},
          {"outlay", json_from(one.outlay)},
          {"statement", one.statement}};
}

Json json_from(const QuickPaybackRow& row) {
  return {{"cost_per_m2", row.cost_per_m2},
          {"electricity_per_kwh", row.electricity_per_kwh},
          {"cooling_kwh_for_one_year", json_from(row.kwh_for_one_year)},
          {"cooling_kwh_for_two_years", json_from(row.kwh_for_two_years)}};
}

Json json_from(const RecipeMoney& recipe) {
  return {{"name", recipe.name},
          {"modules", recipe.n_modules},
          {"per_module", json_from(recipe.per_module)},
          {"outlay", json_from(recipe.outlay)},
          {"replacement_per_year", json_from(recipe.replacement_per_year)}};
}

template <class T>
Json list_from(const std::vector<T>& items) {
  Json list = Json::array();
  for (const T& item : items) list.push_back(json_from(item));
  return list;
}

}  // namespace

Json json_from(const MoneyAnswer& money) {
  Json json = {{"currency", money.currency},
               {"outlay", json_from(money.outlay)},
               {"replacement_per_year", json_from(money.replacement_per_year)},
               {"water_per_year", json_from(money.water_per_year)}};
  add_cash(json, money.cash);
  json["cash_saving_statement"] = money.cash_saving_statement;
  json["comfort_kwh_per_year"] = json_from(money.comfort_kwh_per_year);
  json["heating_less_kwh_per_year"] = json_from(money.heating_less_kwh_per_year);
  json["payback_why"] = money.payback_why;
  json["years_counted"] = money.years_counted;
  json["own_hours"] = {{"hours", json_from(money.own_hours.hours)},
                       {"wage_per_h", money.own_hours.wage_per_h},
                       {"statement", money.own_hours.statement}};
  json["internal_rates"] = json_from(money.rates);
  json["flow"] = list_from(money.flow);
  json["over_all_years"] = json_from(money.sums);
  json["sensitivities"] = list_from(money.sensitivities);
  json["break_even"] = list_from(money.break_even);
  json["quick_payback"] = {{"note", quick_payback_note}, {"rows", list_from(money.quick_paybacks)}};
  json["recipes"] = list_from(money.recipes);
  json["unpriced"] = money.unpriced;
  json["without_life"] = money.without_life;
  return json;
}

Json json_from(const CarbonAnswer& carbon) {
  return {{"sign", carbon.sign},
          {"made_kg", json_from(carbon.made_kg)},
          {"renewed_kg_per_year", json_from(carbon.renewed_kg_per_year)},
          {"saved_kg_per_year", json_from(carbon.saved_kg_per_year)},
          {"left_kg", json_from(carbon.left_kg)},
          {"years", json_from(carbon.years)},
          {"pays_back", json_from(carbon.years.comes_back)},
          {"statement", carbon.statement},
          {"not_counted", carbon.not_counted}};
}

Json json_from(const RivalAnswer& rival) {
  Json json = {{"name", rival.name},
               {"extent", rival.extent},
               {"area_m2", rival.area_m2},
               {"outlay", json_from(rival.outlay)},
               {"replacement_per_year", json_from(rival.replacement_per_year)},
               {"mass_soaked_kg_per_m2", json_from(rival.mass_soaked_kg_per_m2)},
               {"degree_hours_less_per_outlay_k_h", json_from(rival.degree_hours_less_per_outlay_k_h)},
               {"better_in", rival.better_in},
               {"is_better_for_its_money", rival.is_better_for_its_money},
               {"better_for_its_money", json_from(rival.better_for_its_money)},
               {"statement", rival.statement}};
  add_cash(json, rival.cash);
  return json;
}

}  // namespace houseleek::report
