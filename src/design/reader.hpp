// The state of one reading of a design: fields, catalogue, own materials, and what had to be assumed.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "base/toml_fields.hpp"
#include "catalogue/catalogue.hpp"
#include "design/assumption.hpp"
#include "design/defaults.hpp"
#include "design/design.hpp"

namespace houseleek::design {

struct DesignReader {
  FieldReader fields;
  const catalogue::Catalogue* catalogue = nullptr;
  std::vector<catalogue::Material> own_materials;
  std::vector<Assumption> assumed;
};

/// The number of the file, or the default and a row in `assumed`.
[[nodiscard]] double number_or_default(DesignReader& reader, const TableView& table, const NumberRule& rule,
                                       const Default& fallback);

/// A number, or a figure with its range and source: { low = , likely = , high = , source = , certainty = }. One that is
/// measured on this roof gets a row in `assumed`, so that its own range stands behind the answers.
struct FigureWords {
  std::string_view words;
  double otherwise = 0.0;  // carries the reading on after an issue
};
[[nodiscard]] double figure_from(DesignReader& reader, const TableView& table, const NumberRule& rule,
                                 const FigureWords& words);

/// The same where the figure may be left away.
[[nodiscard]] double figure_or_default(DesignReader& reader, const TableView& table, const NumberRule& rule,
                                       const Default& fallback);

/// A row in `assumed` for a default.
void assume(DesignReader& reader, std::string path, std::string_view unit, const Default& fallback);

/// A row in `assumed` for a figure of the catalogue; an owner's own figure is no assumption.
void assume(DesignReader& reader, std::string path, std::string_view words, std::string_view unit,
            const catalogue::Spread& figure);

/// A material by name, the design's own first; an issue if there is none (at this key of the table).
[[nodiscard]] const catalogue::Material* find_material_at(DesignReader& reader, const TableView& table,
                                                          std::string_view key);
/// The same without a place: nullptr if there is none.
[[nodiscard]] const catalogue::Material* find_material_named(const DesignReader& reader, std::string_view name);

/// A list of points; empty after an issue. Simple, at least three corners, coordinates in their limits.
[[nodiscard]] geometry::Outline read_outline(DesignReader& reader, const TableView& table, std::string_view key,
                                             double least_m2);

/// [x, y] in metres.
[[nodiscard]] std::optional<geometry::PointM> read_point(DesignReader& reader, const TableView& table,
                                                         std::string_view key);

/// [[x, y], ...] in metres, at least one; empty after an issue.
[[nodiscard]] std::vector<geometry::PointM> read_points(DesignReader& reader, const TableView& table,
                                                        std::string_view key, std::size_t most);

/// The tables of a list, and an issue if there are too many.
[[nodiscard]] std::vector<TableView> read_counted_tables(DesignReader& reader, const TableView& table,
                                                         std::string_view key, std::size_t most);

/// An issue at the second of two equal names (case and doubled spaces do not count).
void check_unique_name(DesignReader& reader, const TableView& table, const std::vector<std::string>& names_before,
                       const std::string& name);

/// A date, or the same as text; absent or wrong: nullopt (wrong: with an issue).
[[nodiscard]] std::optional<std::int64_t> read_day(DesignReader& reader, const TableView& table, std::string_view key);

}  // namespace houseleek::design
