// Issues, assumptions and cautions as JSON: the same three in every answer.
#pragma once
#include <nlohmann/json.hpp>
#include <span>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "design/assumption.hpp"

namespace houseleek::report {

/// Keys keep the order in which they are written here.
using Json = nlohmann::ordered_json;

/// {code, severity, path, file, line, column, value, limit, message, hint}; line and column null without a place.
[[nodiscard]] Json json_from_issues(const Issues& issues);

/// {path, name, unit, low, likely, high, source, certainty, from}.
[[nodiscard]] Json json_from_assumptions(std::span<const design::Assumption> assumed);

/// {id, text, source}.
[[nodiscard]] Json json_from_cautions(std::span<const catalogue::Caution> cautions);

}  // namespace houseleek::report
