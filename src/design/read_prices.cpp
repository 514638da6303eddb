// [prices], [tariff], [rivals] and [[material]]: what a design says instead of the catalogue.
#include "catalogue/read_prices.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest_name.hpp"
#include "catalogue/read_material.hpp"
#include "design/limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

const catalogue::FigureContext own_context{};

std::vector<catalogue::PriceItem> read_own_items(DesignReader& reader, const TableView& prices) {
  std::vector<catalogue::PriceItem> items;
  std::vector<std::string> names;
  for (const TableView& table : read_counted_tables(reader, prices, "item", limits::most_prices)) {
    catalogue::PriceItem item = catalogue::read_price_item(reader.fields, table, own_context);
    check_unique_name(reader, table, names, item.name);
    names.push_back(item.name);
    const catalogue::Material* material = find_material_named(reader, item.name);
    const catalogue::PriceItem* usual = catalogue::find_price(*reader.catalogue, item.name);
    // Spelled as elsewhere, whatever case was typed.
    if (material != nullptr) item.name = material->name;
    if (material == nullptr && usual != nullptr) item.name = usual->name;
    if (material == nullptr && usual == nullptr && !item.name.empty()) {
      std::vector<std::string> known;
      for (const catalogue::PriceItem& one : reader.catalogue->prices) known.push_back(one.name);
      for (const catalogue::Material& one : reader.own_materials) known.push_back(one.name);
      add_unknown_name(reader.fields, *find_member(*table.node, "name"), path_from(table, "name"), "item with a price",
                       known);
    }
    items.push_back(std::move(item));
  }
  return items;
}

void add_catalogue_items(const catalogue::Catalogue& catalogue, std::vector<catalogue::PriceItem>& items) {
  const std::vector<catalogue::PriceItem> own = items;
  for (const catalogue::PriceItem& item : catalogue.prices) {
    const auto same = [&item](const catalogue::PriceItem& one) {
      return folded_name(one.name) == folded_name(item.name);
    };
    if (std::none_of(own.begin(), own.end(), same)) items.push_back(item);
  }
}

void assume_tariff(DesignReader& reader, const std::string& currency, const catalogue::Tariff& tariff) {
  if (!tariff.electricity_by_month_per_kwh)
    assume(reader, "tariff.electricity_per_kwh", "price of electricity", currency + "/kWh", tariff.electricity_per_kwh);
  assume(reader, "tariff.heating_per_kwh", "price of energy for heating", currency + "/kWh", tariff.heating_per_kwh);
  assume(reader, "tariff.water_per_m3", "price of water", currency + "/m3", tariff.water_per_m3);
  assume(reader, "tariff.heating_efficiency", "heat given per energy bought", "", tariff.heating_efficiency);
  assume(reader, "tariff.cooling_efficiency", "heat removed per electricity bought", "", tariff.cooling_efficiency);
}

/// Catalogue prices in another currency are worth nothing: the design must bring its own.
void need_own_tariff(DesignReader& reader, const TableView& root, const std::string& currency) {
  const std::string hint =
      fmt::format("the catalogue's prices are in {}; give yours in {}", reader.catalogue->currency, currency);
  if (!has_field(reader.fields, root, "tariff", hint)) return;
  if (const std::optional<TableView> table = read_table(reader.fields, root, "tariff")) {
    const bool is_by_month = find_member(*table->node, "electricity_by_month_per_kwh") != nullptr;
    for (const std::string_view key : {"electricity_per_kwh", "heating_per_kwh", "water_per_m3"}) {
      if (is_by_month && key == "electricity_per_kwh") continue;
      (void)has_field(reader.fields, *table, key, hint);
    }
  }
}

double number_or_catalogue(DesignReader& reader, const TableView& table, const NumberRule& rule, std::string_view words,
                           const catalogue::Spread& figure) {
  if (find_member(*table.node, rule.key) != nullptr) {
    return read_number(reader.fields, table, rule).value_or(figure.likely);
  }
  assume(reader, path_from(table, rule.key), words, rule.unit, figure);
  return figure.likely;
}

const catalogue::Material* rival_material(DesignReader& reader, const TableView& table, std::string_view key,
                                          const std::string& fallback) {
  if (find_member(*table.node, key) != nullptr) return find_material_at(reader, table, key);
  const catalogue::Material* material = find_material_named(reader, fallback);
  expects(material != nullptr, "the catalogue to hold the materials of its rivals");
  return material;
}

}  // namespace

void read_own_materials(DesignReader& reader, const TableView& root) {
  std::vector<std::string> names;
  for (const TableView& table : read_counted_tables(reader, root, "material", limits::most_materials)) {
    const TomlNode* name = find_member(*table.node, "name");
    const catalogue::Material* base = name != nullptr && name->kind == TomlKind::text
                                          ? catalogue::find_material(*reader.catalogue, name->text)
                                          : nullptr;
    catalogue::Material material = catalogue::read_material(reader.fields, table, own_context, base);
    check_unique_name(reader, table, names, material.name);
    names.push_back(material.name);
    reader.own_materials.push_back(std::move(material));
  }
}

Prices read_prices(DesignReader& reader, const TableView& root) {
  Prices prices;
  prices.currency = reader.catalogue->currency;
  prices.tariff = reader.catalogue->tariff;
  if (const std::optional<TableView> table = read_table(reader.fields, root, "prices")) {
    constexpr std::string_view known[] = {"currency", "item"};
    check_keys(reader.fields, *table, known);
    if (find_member(*table->node, "currency") != nullptr) {
      prices.currency = catalogue::read_currency(reader.fields, *table);
    }
    prices.items = read_own_items(reader, *table);
  }
  constexpr std::size_t currency_letters = 3;  // anything else has its own issue already
  if (prices.currency == reader.catalogue->currency) {
    add_catalogue_items(*reader.catalogue, prices.items);
  } else if (prices.currency.size() == currency_letters) {
    need_own_tariff(reader, root, prices.currency);
  }
  if (const std::optional<TableView> table = read_table(reader.fields, root, "tariff")) {
    prices.tariff = catalogue::read_tariff(reader.fields, *table, own_context, prices.tariff);
  }
  std::sort(prices.items.begin(), prices.items.end(),
            [](const catalogue::PriceItem& a, const catalogue::PriceItem& b) { return a.name < b.name; });
  assume_tariff(reader, prices.currency, prices.tariff);
  return prices;
}

Rivals read_rivals(DesignReader& reader, const TableView& root) {
  const catalogue::RivalDefaults& usual = reader.catalogue->rivals;
  const TomlNode nothing;
  std::optional<TableView> table = read_table(reader.fields, root, "rivals");
  if (!table) table = TableView{&nothing, "rivals"};
  constexpr std::string_view known[] = {"white_albedo_new",   "white_albedo_aged", "white_emissivity",
                                        "net_material",       "net_height_mm",     "board_material",
                                        "board_thickness_mm", "ballast_material",  "ballast_thickness_mm"};
  check_keys(reader.fields, *table, known);
  Rivals rivals;
  const auto albedo_key = [](std::string_view key) { return limits::with_key(limits::albedo, key); };
  rivals.white_albedo_new = number_or_catalogue(reader, *table, albedo_key("white_albedo_new"),
                                                "sun thrown back by fresh white paint", usual.white_albedo_new);
  rivals.white_albedo_aged =
      number_or_catalogue(reader, *table, albedo_key("white_albedo_aged"),
                          "sun thrown back by white paint after some years", usual.white_albedo_aged);
  rivals.white_emissivity =
      number_or_catalogue(reader, *table, limits::with_key(limits::emissivity, "white_emissivity"),
                          "emissivity of white paint", usual.white_emissivity);
  if (const catalogue::Material* net = rival_material(reader, *table, "net_material", usual.net_material)) {
    rivals.net.material_name = net->name;
    rivals.net.material = *net;
    if (!net->solar_transmittance_frac || !net->solar_reflectance_frac || !net->open_area_frac || !net->emissivity) {
      const TomlNode* node = find_member(*table->node, "net_material");
      add_issue(
          reader.fields, IssueCode::inconsistent, node == nullptr ? *root.node : *node, "rivals.net_material",
          "a material that is known as a screen",
          fmt::format("rivals.net_material is \"{}\", of which it is not known how much sun and air it lets through",
                      net->name),
          "give solar_transmittance_frac, solar_reflectance_frac, open_area_frac and emissivity in [[material]]");
    }
  }
  rivals.net.height_mm =
      number_or_catalogue(reader, *table, limits::rival_net_height_mm, "height of the net alone", usual.net_height_mm);
  rivals.net.thickness_mm = defaults::sheet_thickness_mm.likely;
  rivals.net.wind_below_frac = defaults::wind_below_net.likely;
  assume(reader, "rivals.net.thickness_mm", "mm", defaults::sheet_thickness_mm);
  assume(reader, "rivals.net.wind_below_frac", "", defaults::wind_below_net);
  const auto layer = [&](std::string_view material_key, const std::string& fallback, const NumberRule& thickness,
                         std::string_view words, const catalogue::Spread& usual_mm) {
    Layer made;
    if (const catalogue::Material* material = rival_material(reader, *table, material_key, fallback)) {
      made.material_name = material->name;
      made.material = *material;
    }
    made.thickness_mm = number_or_catalogue(reader, *table, thickness, words, usual_mm);
    return made;
  };
  rivals.board = layer("board_material", usual.board_material, limits::board_thickness_mm,
                       "thickness of the insulation board alone", usual.board_thickness_mm);
  rivals.ballast = layer("ballast_material", usual.ballast_material, limits::ballast_thickness_mm,
                         "thickness of the ballast on the board", usual.ballast_thickness_mm);
  const catalogue::Material& ballast = rivals.ballast.material;
  if (!rivals.ballast.material_name.empty() && (!ballast.albedo_dry || !ballast.emissivity)) {
    const TomlNode* node = find_member(*table->node, "ballast_material");
    add_issue(
        reader.fields, IssueCode::inconsistent, node == nullptr ? *root.node : *node, "rivals.ballast_material",
        "a material with albedo_dry and emissivity",
        fmt::format("rivals.ballast_material is \"{}\", whose albedo or emissivity is not known; sun and sky meet it",
                    ballast.name),
        "give the figures in a table [[material]]");
  }
  return rivals;
}

}  // namespace houseleek::design
