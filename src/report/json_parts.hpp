// Pieces that several JSON documents share: figures, fields that are not there yet, and the text of a document.
#pragma once
#include <optional>
#include <string>

#include "report/issue_json.hpp"
#include "results/figure.hpp"

namespace houseleek::report {

/// {value, low, high, from}, {value, no_range_because} or {value: null, why}.
[[nodiscard]] Json json_from(const results::Figure& figure);

/// null where there is none.
[[nodiscard]] Json json_from(const std::optional<double>& number);

/// A field that later work owns.
[[nodiscard]] Json not_yet();

/// What a command answers instead where the description is wrong: schema/issues.schema.json.
[[nodiscard]] Json json_of_refusal(std::string_view command, const Issues& issues);

/// The text of a document: indented by two, a line end at its end. Numbers that are not finite are our own mistake.
[[nodiscard]] std::string text_from(const Json& document);

}  // namespace houseleek::report
