// A look at the bytes of a TOML text before any parser sees them: size, control bytes, line length, nesting.
#pragma once
#include <optional>
#include <string_view>

#include "base/result.hpp"
#include "base/toml_tree.hpp"

namespace houseleek {

/// The first reason not to hand the text to a parser, with its place.
[[nodiscard]] std::optional<Issue> find_unreadable(std::string_view text, std::string_view file_name,
                                                   const TomlLimits& limits);

}  // namespace houseleek
