// Values of a JSON document as TOML writes them.
#pragma once
#include <optional>
#include <string>

#include "report/json_parts.hpp"

namespace houseleek::studies {

/// Numbers, texts, flags, lists, and tables in braces. Errors: nullopt for null, numbers that are not finite, names that
/// are no plain key, nesting beyond a few levels.
[[nodiscard]] std::optional<std::string> toml_from(const report::Json& value);

/// key = value, a line each. Errors: nullopt where it is no table, or as above. A key whose value is null is left away.
[[nodiscard]] std::optional<std::string> toml_lines_from(const report::Json& table);

}  // namespace houseleek::studies
