// Values of a JSON document as TOML writes them.
#include "studies/toml_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "design/edit_text.hpp"

namespace houseleek::studies {
namespace {

using report::Json;

constexpr int deepest = 4;

bool is_plain_key(const std::string& key) {
  return !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
  });
}

std::string words_of(double number) {
  std::string text = fmt::format("{}", number);
  // A float of TOML has a point or an exponent.
  if (text.find_first_of(".e") == std::string::npos) text += ".0";
  return text;
}

// NOLINTNEXTLINE(misc-no-recursion): the depth is limited
std::optional<std::string> toml_at(const Json& value, int depth) {
  if (depth > deepest) return std::nullopt;
  if (value.is_boolean()) return value.get<bool>() ? "true" : "false";
  if (value.is_number_integer()) return value.dump();
  if (value.is_number()) {
    const double number = value.get<double>();
    if (!std::isfinite(number)) return std::nullopt;
    return words_of(number);
  }
  if (value.is_string()) return design::toml_text_from(value.get<std::string>());
  if (!value.is_array() && !value.is_object()) return std::nullopt;
  std::string words;
  for (const auto& [key, item] : value.items()) {
    const std::optional<std::string> inner = toml_at(item, depth + 1);
    if (!inner || (value.is_object() && !is_plain_key(key))) return std::nullopt;
    words += (words.empty() ? "" : ", ") + (value.is_object() ? key + " = " : std::string()) + *inner;
  }
  if (value.is_array()) return "[" + words + "]";
  return words.empty() ? "{}" : "{ " + words + " }";
}

}  // namespace

std::optional<std::string> toml_from(const Json& value) { return toml_at(value, 0); }

std::optional<std::string> toml_lines_from(const Json& table) {
  if (!table.is_object()) return std::nullopt;
  std::string lines;
  for (const auto& [key, value] : table.items()) {
    if (value.is_null()) continue;
    const std::optional<std::string> words = toml_from(value);
    if (!words || !is_plain_key(key)) return std::nullopt;
    lines += key + " = " + *words + "\n";
  }
  return lines;
}

}  // namespace houseleek::studies
