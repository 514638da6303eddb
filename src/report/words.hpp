// Figures in words for a narrow page: few digits, the range behind them.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "results/figure.hpp"

namespace houseleek::report {

/// About three digits and never an exponent: 0.42, 3.61, 34.1, 512, 5210; zero as 0.
[[nodiscard]] std::string short_number(double value);

/// The same with a true minus sign, for pages.
[[nodiscard]] std::string number_in_print(double value);

/// 34.1, or "not known". With a range: 1.01 (0.90 to 1.12).
[[nodiscard]] std::string short_figure(const results::Figure& figure);

/// A name cut to so many characters, with three dots where something is missing.
[[nodiscard]] std::string short_name(std::string_view name, std::size_t most_characters);

/// a; a and b; a, b and c.
[[nodiscard]] std::string joined(const std::vector<std::string>& parts);

}  // namespace houseleek::report
