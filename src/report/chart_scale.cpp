// Where values stand on an axis, and which round values are written beside it.
#include "report/chart_scale.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::report {

double nice_step(double low, double high, int most) {
  expects(std::isfinite(low) && std::isfinite(high) && low < high && most > 0, "a span to divide");
  const double least = (high - low) / most;
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0}) {
    // A hair's breadth: 0.3/3 is a step of 0.1.
    if (factor * power >= least * (1.0 - 1e-9)) return factor * power;
  }
  return 10.0 * power;
}

Ticks nice_ticks(double low, double high, int most) {
  expects(std::isfinite(low) && std::isfinite(high) && low <= high, "a span of values");
  if (low == high) {
    const double size = std::max(1.0, std::abs(low));
    return nice_ticks(low - 0.5 * size, high + 0.5 * size, most);
  }
  Ticks ticks;
  ticks.step = nice_step(low, high, most);
  const double first = std::floor(low / ticks.step + 1e-9);
  const double last = std::ceil(high / ticks.step - 1e-9);
  for (double i = first; i <= last; ++i) ticks.values.push_back(i * ticks.step);
  return ticks;
}

std::string tick_label(double value, double step) {
  const int decimals = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
  const std::string text = fmt::format("{:.{}f}", std::abs(value), decimals);
  const bool is_zero = text.find_first_not_of("0.") == std::string::npos;
  return value < 0.0 && !is_zero ? fmt::format("\u2212{}", text) : text;
}

std::string place_text(double place) {
  std::string text = fmt::format("{:.1f}", place);
  if (text.size() > 2 && text.substr(text.size() - 2) == ".0") text.resize(text.size() - 2);
  return text == "-0" ? "0" : text;
}

}  // namespace houseleek::report
