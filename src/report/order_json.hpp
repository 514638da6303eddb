// What to build next as JSON: two fields of a study, and the document of its own command.
#pragma once
#include "report/issue_json.hpp"
#include "report/order_answer.hpp"

namespace houseleek::report {

[[nodiscard]] Json json_from_steps(const OrderAnswer& answer);
[[nodiscard]] Json json_from(const OrderAbout& about);

/// schema/order.schema.json
[[nodiscard]] Json json_from(const OrderAnswer& answer, const std::string& engine_version,
                             const std::string& input_hash);

}  // namespace houseleek::report
