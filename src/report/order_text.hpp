// What to build next for a terminal: a step a line, with its reason.
#pragma once
#include <string>

#include "report/order_answer.hpp"

namespace houseleek::report {

[[nodiscard]] std::string text_from(const OrderAnswer& answer);

}  // namespace houseleek::report
