// Pieces that several JSON documents share: figures, fields that are not there yet, and the text of a document.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "report/issue_json.hpp"
#include "results/figure.hpp"

namespace houseleek::report {

/// {value, low, high, from}, {value, no_range_because} or {value: null, why}.
[[nodiscard]] Json json_from(const results::Figure& figure);

/// null where there is none.
[[nodiscard]] Json json_from(const std::optional<double>& number);

/// null for an empty one.
[[nodiscard]] Json text_or_null(const std::string& text);

/// A list with what `make` makes of each item.
template <class T, class Make>
[[nodiscard]] Json list_of(const std::vector<T>& items, const Make& make) {
  Json list = Json::array();
  for (const T& item : items) list.push_back(make(item));
  return list;
}

/// A field that later work owns.
[[nodiscard]] Json not_yet();

/// What a command answers instead where the description is wrong: schema/issues.schema.json.
[[nodiscard]] Json json_of_refusal(std::string_view command, const Issues& issues);

/// The text of a document: indented by two, a line end at its end. Numbers that are not finite are our own mistake.
[[nodiscard]] std::string text_from(const Json& document);

}  // namespace houseleek::report
