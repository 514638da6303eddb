// Numbers as sentences carry them.
#include "base/number_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace houseleek {

std::string two_digits(double value) {
  const double size = std::fabs(value);
  if (size < 0.005) return "0.0";
  if (size < 0.095) return fmt::format("{:.2f}", value);
  return size < 9.95 ? fmt::format("{:.1f}", value) : fmt::format("{:.0f}", value);
}

std::string percent(double share_frac) {
  const double value = 100.0 * share_frac;
  return std::fabs(value - std::round(value)) < 0.05 ? fmt::format("{:.0f} %", value) : fmt::format("{:.1f} %", value);
}

std::string counted(double count, const std::string& one, const std::string& many) {
  return fmt::format("{:.0f} {}", count, count == 1.0 ? one : many);
}

}  // namespace houseleek
