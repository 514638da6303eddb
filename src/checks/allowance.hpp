// What an engineer wrote down, and the words in which anything is compared with it.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "design/roof.hpp"

namespace houseleek::checks {

inline constexpr double standard_gravity_m_per_s2 = 9.80665;  // by definition, CGPM 1901

enum class LoadVerdict {
  none,       // something the engineer should have written down is missing
  within,     // the high end of the weights is not above the figure
  not_shown,  // the high end is above the figure, the likely weight is not
  above       // the likely weight is above the figure
};

/// What of the engineer's figure is not there, in words: the figure itself, who, when, what it includes. The averaging
/// area has a meaning when it is left out: every square stands on its own.
[[nodiscard]] std::vector<std::string> missing_parts(const design::Roof& roof);

/// "a, b and c".
[[nodiscard]] std::string joined_words(const std::vector<std::string>& parts);

/// "the 2 kN/m2 that NAME wrote down on DATE"; the allowance is complete.
[[nodiscard]] std::string figure_words(const design::Roof& roof);

/// The verdict's words before the figure: ": within ", ": not shown to stay within ", ": above ".
[[nodiscard]] std::string_view words_from(LoadVerdict verdict);

}  // namespace houseleek::checks
