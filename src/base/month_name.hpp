// Months by their names.
#pragma once
#include <array>
#include <string_view>

#include "base/contract.hpp"

namespace houseleek {

/// "July" for 7. Errors: ContractViolation outside 1 to 12.
[[nodiscard]] inline std::string_view month_name(int month) {
  constexpr std::array<std::string_view, 12> names = {"January",   "February", "March",    "April",
                                                      "May",       "June",     "July",     "August",
                                                      "September", "October",  "November", "December"};
  expects(month >= 1 && month <= 12, "a month from 1 to 12");
  return names[static_cast<std::size_t>(month) - 1];
}

}  // namespace houseleek
