// Prices and tariff, as both the catalogue and a design write them.
#pragma once
#include <optional>

#include "catalogue/catalogue.hpp"
#include "catalogue/read_material.hpp"

namespace houseleek::catalogue {

/// One price: a name and exactly one of price_per_kg, price_per_m2, price_per_m3, price_each.
[[nodiscard]] PriceItem read_price_item(FieldReader& reader, const TableView& table, const FigureContext& context);

/// Each figure that is there replaces the one in `before`; the catalogue must give all.
[[nodiscard]] Tariff read_tariff(FieldReader& reader, const TableView& table, const FigureContext& context,
                                 const Tariff& before);

/// Three letters, as in ISO 4217.
[[nodiscard]] std::string read_currency(FieldReader& reader, const TableView& table);

}  // namespace houseleek::catalogue
