// The columns of every table of the catalogue, and which of them no answer reads yet.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/toml_fields.hpp"

namespace houseleek::catalogue {

/// A table's keys, for reading and for the list of columns.
[[nodiscard]] std::vector<std::string_view> material_keys();
[[nodiscard]] std::vector<std::string_view> part_keys();
[[nodiscard]] std::vector<std::string_view> group_keys();
[[nodiscard]] std::vector<std::string_view> plant_keys();
[[nodiscard]] std::span<const std::string_view> invasive_keys();
[[nodiscard]] std::vector<std::string_view> raising_keys();
[[nodiscard]] std::span<const std::string_view> finish_keys();
[[nodiscard]] std::span<const std::string_view> rivals_keys();
[[nodiscard]] std::span<const std::string_view> tariff_keys();
[[nodiscard]] std::span<const std::string_view> price_keys();
[[nodiscard]] std::span<const std::string_view> caution_keys();

struct CatalogueTable {
  std::string_view name;  // material, plant, ...
  std::vector<std::string_view> keys;
};

/// All tables.
[[nodiscard]] std::vector<CatalogueTable> catalogue_tables();

/// A column that waits for an answer which will read it: damp, fire, carbon ...
struct WaitingColumn {
  std::string table;
  std::string column;
  std::string waits_for;
  bool operator==(const WaitingColumn&) const = default;
};

/// The file's [waits_for]: one table for each table of the catalogue, column = "the answer that will read it".
[[nodiscard]] std::vector<WaitingColumn> read_waiting(FieldReader& reader, const TableView& root);

}  // namespace houseleek::catalogue
