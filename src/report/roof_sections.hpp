// What a report says of load, wind, water and fire: figures, maps of the roof, and what they assume.
#pragma once
#include "report/html.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

[[nodiscard]] Html load_section(const Json& document);
[[nodiscard]] Html wind_section(const Json& document);
[[nodiscard]] Html drainage_section(const Json& document);
[[nodiscard]] Html fire_section(const Json& document);

/// Cautions that stand beside one part of the answer (catalogue::caution_places), each in its box.
[[nodiscard]] Html cautions_beside(const Json& document, std::string_view place);

/// A caution with its source, without a box.
[[nodiscard]] Html caution_from(const Json& caution);

}  // namespace houseleek::report
