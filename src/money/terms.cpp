// What a cash flow is counted with: interest, tariffs, bills paid before, chances, lives, stock; each with its range.
#include "money/terms.hpp"

#include <fmt/format.h>

#include "base/nearest_name.hpp"
#include "plan/assumed_interval.hpp"

namespace houseleek::money {
namespace {

Factor factor_of(std::string path, const catalogue::Spread& figure) {
  return {std::move(path), plan::interval_from(figure)};
}

/// A share a year as what a year multiplies by: never negative, so that it can be drawn like any other figure.
Factor step_of(std::string path, const catalogue::Spread& share) {
  return {std::move(path), {1.0 + share.low, 1.0 + share.likely, 1.0 + share.high}};
}

std::optional<Factor> bill_of(std::string path, const std::optional<catalogue::Spread>& bill) {
  if (!bill) return std::nullopt;
  return factor_of(std::move(path), *bill);
}

std::optional<Factor> price_of(const design::Prices& prices, std::string_view name, catalogue::PricePer per,
                               std::vector<std::string>& unpriced) {
  for (const catalogue::PriceItem& item : prices.items) {
    if (folded_name(item.name) == folded_name(name) && item.per == per) {
      return factor_of(fmt::format("prices[{}]", item.name), item.price);
    }
  }
  unpriced.emplace_back(name);
  return std::nullopt;
}

}  // namespace

Terms terms_of(const design::ValidDesign& design) {
  const design::Money& money = design->money;
  const catalogue::Tariff& tariff = design->prices.tariff;
  const design::Bills& bills = design->bills;
  Terms terms;
  terms.years_counted = money.years_counted;
  terms.interest_step = step_of("money.real_interest_frac", money.real_interest_frac);
  terms.energy_price_step = step_of("money.energy_price_rise_frac", money.energy_price_rise_frac);
  terms.wage_per_h = factor_of("money.wage_per_h", money.wage_per_h);
  terms.own_hours_per_module = factor_of("money.own_hours_per_module", money.own_hours_per_module);
  terms.own_hours_per_m2 = factor_of("money.own_hours_per_m2", money.own_hours_per_m2);
  terms.leak_per_year_frac = factor_of("money.leak_per_year_frac", money.leak_per_year_frac);
  terms.membrane_life_years = factor_of("money.membrane_life_years", money.membrane_life_years);
  terms.membrane_age_years = factor_of("money.membrane_age_years", money.membrane_age_years);
  terms.life_shape = factor_of("money.life_shape", money.life_shape);
  for (std::size_t month = 0; month < terms.electricity_per_kwh.size(); ++month) {
    terms.electricity_per_kwh[month] = tariff.electricity_by_month_per_kwh
                                           ? Factor{"", results::exactly((*tariff.electricity_by_month_per_kwh)[month])}
                                           : factor_of("tariff.electricity_per_kwh", tariff.electricity_per_kwh);
  }
  terms.heating_per_kwh = factor_of("tariff.heating_per_kwh", tariff.heating_per_kwh);
  terms.water_per_m3 = factor_of("tariff.water_per_m3", tariff.water_per_m3);
  terms.cooling_kwh = bill_of("bills.cooling_kwh_per_year", bills.cooling_kwh_per_year);
  terms.cooling_paid = bill_of("bills.cooling_per_year", bills.cooling_per_year);
  terms.heating_kwh = bill_of("bills.heating_kwh_per_year", bills.heating_kwh_per_year);
  terms.heating_paid = bill_of("bills.heating_per_year", bills.heating_per_year);
  using catalogue::PricePer;
  terms.leak_repair = price_of(design->prices, "leak repair", PricePer::each, terms.unpriced);
  terms.lifting_per_m2 = price_of(design->prices, "lifting", PricePer::m2, terms.unpriced);
  terms.disposal_per_kg = price_of(design->prices, "disposal", PricePer::kg, terms.unpriced);
  for (std::size_t i = 0; i < design->stock.size(); ++i) {
    const design::StockItem& item = design->stock[i];
    terms.stock.push_back({item.name, item.amount, factor_of(fmt::format("stock[{}].price", i), item.price)});
  }
  terms.electricity_kg_per_kwh = factor_of("carbon.electricity_kg_per_kwh", money.electricity_kg_per_kwh);
  terms.heating_kg_per_kwh = factor_of("carbon.heating_kg_per_kwh", money.heating_kg_per_kwh);
  return terms;
}

}  // namespace houseleek::money
