// Figures with their ranges, and materials, as both the catalogue and a design's own entries write them.
#pragma once
#include <map>
#include <optional>
#include <string>

#include "base/toml_fields.hpp"
#include "catalogue/material.hpp"

namespace houseleek::catalogue {

/// Who speaks: the catalogue must say source and certainty of every figure; a person may write a number alone.
enum class Entry { catalogue, own };

struct FigureContext {
  Entry entry = Entry::own;
  std::map<std::string, std::string> sources;  // the file's [source]: short word to full reference
};

/// Short words of the file's table [source].
[[nodiscard]] FigureContext read_figure_context(FieldReader& reader, const TableView& root);

/// Absent: nullopt and no issue.
[[nodiscard]] std::optional<Spread> read_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                                                const FigureContext& context);
/// Absent: an issue.
[[nodiscard]] Spread read_required_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                                          const FigureContext& context);

/// One [[material]]: every figure in its limits, and the figures in order with each other.
/// With a `base` what is left out stays as it is there (a weighed bucket changes the density alone).
[[nodiscard]] Material read_material(FieldReader& reader, const TableView& table, const FigureContext& context,
                                     const Material* base = nullptr);

}  // namespace houseleek::catalogue
