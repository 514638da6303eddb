// [money], [bills], [carbon], [[stock]] and [order]: what was paid before, what is in the shed, how money is counted.
#include <fmt/format.h>

#include <algorithm>

#include "base/nearest_name.hpp"
#include "catalogue/read_figure.hpp"
#include "design/limits.hpp"
#include "design/money_limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

const catalogue::FigureContext own_context{};

/// The figure with its range, or the default and a row in `assumed`.
catalogue::Spread spread_or_default(DesignReader& reader, const TableView& table, const NumberRule& rule,
                                    const Default& fallback) {
  if (find_member(*table.node, rule.key) != nullptr) {
    const std::optional<catalogue::Spread> own = catalogue::read_spread(reader.fields, table, rule, own_context);
    if (own) return *own;
  } else {
    assume(reader, path_from(table, rule.key), rule.unit, fallback);
  }
  return {fallback.low, fallback.likely, fallback.high, std::string(fallback.source), fallback.certainty};
}

catalogue::Spread nothing() {
  return {0.0, 0.0, 0.0, "nothing unless somebody says so", catalogue::Certainty::own_figure};
}

/// `empty` stands for a table that is not there.
TableView table_or_nothing(DesignReader& reader, const TableView& root, std::string_view key, const TomlNode& empty) {
  return read_table(reader.fields, root, key).value_or(TableView{&empty, std::string(key)});
}

struct StockKey {
  catalogue::PricePer per;
  NumberRule amount;
  NumberRule price;
};
constexpr StockKey stock_keys[] = {{catalogue::PricePer::kg, limits::with_key(limits::stock_amount, "amount_kg"),
                                    limits::with_key(limits::stock_price, "price_per_kg")},
                                   {catalogue::PricePer::m2, limits::with_key(limits::stock_amount, "amount_m2"),
                                    limits::with_key(limits::stock_price, "price_per_m2")},
                                   {catalogue::PricePer::m3, limits::with_key(limits::stock_amount, "amount_m3"),
                                    limits::with_key(limits::stock_price, "price_per_m3")},
                                   {catalogue::PricePer::each, limits::with_key(limits::stock_amount, "amount_pieces"),
                                    limits::with_key(limits::stock_price, "price_each")}};

const StockKey& key_of(catalogue::PricePer per) { return stock_keys[static_cast<std::size_t>(per)]; }

StockItem read_stock_item(DesignReader& reader, const TableView& table, const Prices& prices) {
  StockItem item;
  item.price = nothing();
  const std::string name = read_required_text(reader.fields, table, "name", "add name = \"something with a price\"");
  const auto priced = std::find_if(prices.items.begin(), prices.items.end(), [&name](const catalogue::PriceItem& one) {
    return folded_name(one.name) == folded_name(name);
  });
  if (priced == prices.items.end()) {
    if (name.empty()) return item;
    std::vector<std::string> known;
    for (const catalogue::PriceItem& one : prices.items) known.push_back(one.name);
    add_unknown_name(reader.fields, *find_member(*table.node, "name"), path_from(table, "name"), "item with a price",
                     known);
    return item;
  }
  item.name = priced->name;
  item.per = priced->per;
  const StockKey& own = key_of(item.per);
  for (const StockKey& other : stock_keys) {
    if (other.per == item.per) continue;
    for (const std::string_view key : {other.amount.key, other.price.key}) {
      if (find_member(*table.node, key) == nullptr) continue;
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, key), path_from(table, key),
                std::string(own.amount.key),
                fmt::format("{} does not go with the price of \"{}\"", path_from(table, key), item.name),
                fmt::format("give {} and, if it cost something, {}", own.amount.key, own.price.key));
      return item;
    }
  }
  item.amount = read_required_number(reader.fields, table, own.amount);
  item.price = catalogue::read_spread(reader.fields, table, own.price, own_context).value_or(nothing());
  return item;
}

std::vector<geometry::PointM> read_places(DesignReader& reader, const TableView& order, std::string_view key,
                                          const Roof& roof) {
  std::vector<geometry::PointM> places;
  for (const TableView& table : read_counted_tables(reader, order, key, limits::most_wishes)) {
    constexpr std::string_view known[] = {"at"};
    check_keys(reader.fields, table, known);
    if (!has_field(reader.fields, table, "at", "add at = [x, y], in metres on the plan")) continue;
    const std::optional<geometry::PointM> at = read_point(reader, table, "at");
    if (!at) continue;
    constexpr double half_m = 0.005;
    const geometry::RectangleM spot{at->x_m - half_m, at->y_m - half_m, at->x_m + half_m, at->y_m + half_m};
    if (!roof.outline.empty() && !geometry::is_inside(roof.outline, spot)) {
      add_issue(reader.fields, IssueCode::inconsistent, *find_member(*table.node, "at"), path_from(table, "at"),
                "inside roof.outline", fmt::format("{} is not on the roof", path_from(table, "at")), "");
    }
    places.push_back(*at);
  }
  return places;
}

}  // namespace

Money read_money(DesignReader& reader, const TableView& root) {
  Money money;
  const TomlNode empty;
  const TableView table = table_or_nothing(reader, root, "money", empty);
  constexpr std::string_view known[] = {
      "years_counted",    "real_interest_frac", "energy_price_rise_frac", "wage_per_h",         "own_hours_per_module",
      "own_hours_per_m2", "leak_per_year_frac", "membrane_life_years",    "membrane_age_years", "life_shape"};
  check_keys(reader.fields, table, known);
  money.years_counted =
      static_cast<int>(read_integer(reader.fields, table, limits::years_counted).value_or(defaults::years_counted));
  const auto figure = [&](const NumberRule& rule, const Default& fallback) {
    return spread_or_default(reader, table, rule, fallback);
  };
  money.real_interest_frac = figure(limits::real_interest_frac, defaults::real_interest);
  money.energy_price_rise_frac = figure(limits::energy_price_rise_frac, defaults::energy_price_rise);
  money.wage_per_h = catalogue::read_spread(reader.fields, table, limits::wage_per_h, own_context).value_or(nothing());
  money.own_hours_per_module = figure(limits::own_hours_per_module, defaults::own_hours_per_module);
  money.own_hours_per_m2 = figure(limits::own_hours_per_m2, defaults::own_hours_per_m2);
  money.leak_per_year_frac = figure(limits::leak_per_year_frac, defaults::leak_per_year);
  money.membrane_life_years = figure(limits::membrane_life_years, defaults::membrane_life);
  money.membrane_age_years = figure(limits::membrane_age_years, defaults::membrane_age);
  money.life_shape = figure(limits::life_shape, defaults::life_shape);
  const TableView carbon = table_or_nothing(reader, root, "carbon", empty);
  constexpr std::string_view carbon_keys[] = {"electricity_kg_per_kwh", "heating_kg_per_kwh"};
  check_keys(reader.fields, carbon, carbon_keys);
  money.electricity_kg_per_kwh =
      spread_or_default(reader, carbon, limits::electricity_kg_per_kwh, defaults::electricity_carbon);
  money.heating_kg_per_kwh = spread_or_default(reader, carbon, limits::heating_kg_per_kwh, defaults::heating_carbon);
  return money;
}

Bills read_bills(DesignReader& reader, const TableView& root) {
  Bills bills;
  const std::optional<TableView> table = read_table(reader.fields, root, "bills");
  if (!table) return bills;
  constexpr std::string_view known[] = {"cooling_kwh_per_year", "cooling_per_year", "heating_kwh_per_year",
                                        "heating_per_year"};
  check_keys(reader.fields, *table, known);
  const auto figure = [&](const NumberRule& rule) {
    return catalogue::read_spread(reader.fields, *table, rule, own_context);
  };
  bills.cooling_kwh_per_year = figure(limits::with_key(limits::bill_kwh, "cooling_kwh_per_year"));
  bills.cooling_per_year = figure(limits::with_key(limits::bill_money, "cooling_per_year"));
  bills.heating_kwh_per_year = figure(limits::with_key(limits::bill_kwh, "heating_kwh_per_year"));
  bills.heating_per_year = figure(limits::with_key(limits::bill_money, "heating_per_year"));
  for (const auto& [kwh, paid] :
       {std::pair{"cooling_kwh_per_year", "cooling_per_year"}, std::pair{"heating_kwh_per_year", "heating_per_year"}}) {
    const TomlNode* second = find_member(*table->node, paid);
    if (second == nullptr || find_member(*table->node, kwh) == nullptr) continue;
    add_issue(reader.fields, IssueCode::inconsistent, *second, path_from(*table, paid), "one of the two",
              fmt::format("bills has both {} and {}; one bill is given once", kwh, paid),
              fmt::format("leave {} or {} out", kwh, paid));
  }
  return bills;
}

std::vector<StockItem> read_stock(DesignReader& reader, const TableView& root, const Prices& prices) {
  std::vector<StockItem> stock;
  for (const TableView& table : read_counted_tables(reader, root, "stock", limits::most_stock)) {
    constexpr std::string_view known[] = {"name",         "amount_kg",    "amount_m2",    "amount_m3", "amount_pieces",
                                          "price_per_kg", "price_per_m2", "price_per_m3", "price_each"};
    check_keys(reader.fields, table, known);
    stock.push_back(read_stock_item(reader, table, prices));
  }
  return stock;
}

OrderWishes read_order(DesignReader& reader, const TableView& root, const Roof& roof) {
  const std::optional<TableView> table = read_table(reader.fields, root, "order");
  if (!table) return {};
  constexpr std::string_view known[] = {"pin", "ban"};
  check_keys(reader.fields, *table, known);
  return {.pins = read_places(reader, *table, "pin", roof), .bans = read_places(reader, *table, "ban", roof)};
}

}  // namespace houseleek::design
