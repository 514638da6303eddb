// Changes to a description that a page asks for: each one a small edit of its text, the whole read again at the end.
#pragma once
#include <string>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "report/json_parts.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// The description with a list of changes made, one after the other. A change is one of
///   {"set": "recipe[0].layer[1].thickness_mm", "value": 60}            null takes the key out
///   {"insert": "recipe[0].layer", "before": 1, "fields": {...}}        without "before": behind the last
///   {"remove": "recipe[0].layer[1]"}
///   {"move": "recipe[0].layer", "from": 0, "to": 2}
///   {"modules": [3, 4], "shift_m": [0.1, 0]}                           numbered over all patches, as they are drawn
///   {"modules": [3], "recipe": "deeper herbs"}, {"modules": [3], "placed": "flat"}, {"modules": [3], "remove": true}
/// Modules that are changed one by one are written down one by one: their block becomes a list of places.
/// Shape:    pure; every byte that no change is about stays as it was.
/// Errors:   issues of the changes, whose path is theirs ("changes[0].set"); else all issues of the changed description.
[[nodiscard]] Result<std::string> edit_description(const NamedText& file, const report::Json& changes,
                                                   const catalogue::Catalogue& catalogue);

}  // namespace houseleek::studies
