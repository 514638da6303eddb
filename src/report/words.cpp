// Figures in words for a narrow page: few digits, the range behind them.
#include "report/words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/utf8.hpp"

namespace houseleek::report {
namespace {

int decimals_of(double value) {
  const double size = std::abs(value);
  if (size < 9.995) return 2;
  return size < 99.95 ? 1 : 0;
}

}  // namespace

std::string short_number(double value) {
  const int decimals = decimals_of(value);
  const std::string text = fmt::format("{:.{}f}", value, decimals);
  const bool is_zero = text.find_first_not_of("-0.") == std::string::npos;
  return is_zero ? "0" : text;
}

std::string number_in_print(double value) {
  const std::string text = short_number(value);
  return text.front() == '-' ? fmt::format("\u2212{}", text.substr(1)) : text;
}

std::string short_figure(const results::Figure& figure) {
  if (!figure.value) return "not known";
  if (!figure.range) return short_number(*figure.value);
  return fmt::format("{} ({} to {})", short_number(*figure.value), short_number(figure.range->low),
                     short_number(figure.range->high));
}

std::string short_name(std::string_view name, std::size_t most_characters) {
  if (count_characters(name) <= most_characters) return std::string(name);
  return std::string(name.substr(0, offset_of_character(name, most_characters - 3))) + "...";
}

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
    text += parts[i];
  }
  return text;
}

}  // namespace houseleek::report
