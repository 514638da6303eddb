// Prices and tariff, as both the catalogue and a design write them.
#include "catalogue/read_prices.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "catalogue/columns.hpp"

namespace houseleek::catalogue {
namespace {

// Zero is a price: found and given things. The top lets any currency's small unit through.
constexpr double highest_price = 1e8;

struct PriceKey {
  PricePer per;
  NumberRule rule;
};
constexpr PriceKey price_rules[] = {
    {PricePer::kg, {.key = "price_per_kg", .least = 0, .most = highest_price, .unit = "a kg"}},
    {PricePer::m2, {.key = "price_per_m2", .least = 0, .most = highest_price, .unit = "a m2"}},
    {PricePer::m3, {.key = "price_per_m3", .least = 0, .most = highest_price, .unit = "a m3"}},
    {PricePer::each, {.key = "price_each", .least = 0, .most = highest_price, .unit = "a piece"}}};

struct TariffKey {
  NumberRule rule;
  Spread Tariff::*figure;
};
constexpr TariffKey tariff_rules[] = {
    {{.key = "electricity_per_kwh", .least = 0, .most = highest_price, .unit = "a kWh"}, &Tariff::electricity_per_kwh},
    {{.key = "heating_per_kwh", .least = 0, .most = highest_price, .unit = "a kWh"}, &Tariff::heating_per_kwh},
    {{.key = "water_per_m3", .least = 0, .most = highest_price, .unit = "a m3"}, &Tariff::water_per_m3},
    // A wood stove loses nine tenths at worst; no heat pump reaches ten.
    {{.key = "heating_efficiency", .least = 0.1, .most = 10}, &Tariff::heating_efficiency},
    {{.key = "cooling_efficiency", .least = 0.5, .most = 10}, &Tariff::cooling_efficiency}};

}  // namespace

PriceItem read_price_item(FieldReader& reader, const TableView& table, const FigureContext& context) {
  check_keys(reader, table, price_keys());
  PriceItem item;
  item.name = read_required_text(reader, table, "name", "add name = \"a material or another item with a price\"");
  int n_prices = 0;
  for (const PriceKey& key : price_rules) {
    if (find_member(*table.node, key.rule.key) == nullptr) continue;
    ++n_prices;
    if (const std::optional<Spread> price = read_spread(reader, table, key.rule, context)) {
      item.per = key.per;
      item.price = *price;
    }
  }
  if (n_prices != 1) {
    add_issue(reader, n_prices == 0 ? IssueCode::missing_field : IssueCode::inconsistent, *table.node, table.path,
              "one price",
              fmt::format("{} has {}; it must have one", table.path, n_prices == 0 ? "no price" : "several prices"),
              "give one of price_per_kg, price_per_m2, price_per_m3, price_each");
  }
  constexpr NumberRule life{
      .key = "service_life_years", .least = 0, .most = 200, .unit = "years", .is_least_open = true};
  item.service_life_years = read_spread(reader, table, life, context);
  return item;
}

Tariff read_tariff(FieldReader& reader, const TableView& table, const FigureContext& context, const Tariff& before) {
  constexpr NumberRule by_month{
      .key = "electricity_by_month_per_kwh", .least = 0, .most = highest_price, .unit = "a kWh"};
  std::vector<std::string_view> known(tariff_keys().begin(), tariff_keys().end());
  if (context.entry == Entry::own) known.push_back(by_month.key);
  check_keys(reader, table, known);
  Tariff tariff = before;
  if (context.entry == Entry::own) {
    if (const auto months = read_numbers(reader, table, by_month, 12)) {
      tariff.electricity_by_month_per_kwh.emplace();
      std::copy(months->begin(), months->end(), tariff.electricity_by_month_per_kwh->begin());
    }
  }
  for (const TariffKey& key : tariff_rules) {
    if (context.entry == Entry::catalogue) {
      tariff.*key.figure = read_required_spread(reader, table, key.rule, context);
    } else if (const std::optional<Spread> figure = read_spread(reader, table, key.rule, context)) {
      tariff.*key.figure = *figure;
    }
  }
  return tariff;
}

std::string read_currency(FieldReader& reader, const TableView& table) {
  const std::string currency =
      read_required_text(reader, table, "currency", "add currency = \"EUR\" or another three letters");
  bool is_code = currency.size() == 3;
  for (const char c : currency) is_code = is_code && c >= 'A' && c <= 'Z';
  if (!currency.empty() && !is_code) {
    const std::string path = path_from(table, "currency");
    add_issue(reader, IssueCode::out_of_range, *find_member(*table.node, "currency"), path, "three capital letters",
              fmt::format("{} is {}; it must be three capital letters", path,
                          written_text(reader, *find_member(*table.node, "currency"))),
              "the code of ISO 4217: EUR, GBP, INR");
  }
  return currency;
}

}  // namespace houseleek::catalogue
