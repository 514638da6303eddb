// Damp in the deck as JSON.
#pragma once
#include "report/damp_answer.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

[[nodiscard]] Json json_from(const DampAnswer& damp);

}  // namespace houseleek::report
