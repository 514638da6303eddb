// Numbers as sentences carry them.
#pragma once
#include <string>

namespace houseleek {

/// 0.42, 3.1, 34: two digits that count, at least one place where below ten.
[[nodiscard]] std::string two_digits(double value);

/// "95 %", "98.3 %".
[[nodiscard]] std::string percent(double share_frac);

/// "1 failure", "3 failures".
[[nodiscard]] std::string counted(double count, const std::string& one, const std::string& many);

}  // namespace houseleek
