// A text with some of its bytes, numbers and lines spoiled.
#include "fuzz/spoil.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <random>
#include <string_view>
#include <vector>

namespace houseleek::tests {
namespace {

// The sequence of std::mt19937_64 is fixed by the C++ standard [rand.predef]; its distributions are not, hence `below`.
using Engine = std::mt19937_64;

std::size_t below(Engine& engine, std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(engine() % n); }

struct Span {
  std::size_t first = 0;
  std::size_t size = 0;
};

bool is_of_number(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '-' || c == 'e';
}

std::vector<Span> spans_of_numbers(const std::string& text) {
  std::vector<Span> spans;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (std::isdigit(static_cast<unsigned char>(text[i])) == 0) continue;
    std::size_t end = i;
    while (end < text.size() && is_of_number(text[end])) ++end;
    spans.push_back({i, end - i});
    i = end;
  }
  return spans;
}

std::vector<Span> spans_of_strings(const std::string& text) {
  std::vector<Span> spans;
  for (std::size_t open = text.find('"'); open != std::string::npos;) {
    const std::size_t close = text.find('"', open + 1);
    if (close == std::string::npos) break;
    spans.push_back({open, close + 1 - open});
    open = text.find('"', close + 1);
  }
  return spans;
}

std::vector<Span> spans_of_lines(const std::string& text) {
  std::vector<Span> spans;
  for (std::size_t first = 0; first < text.size();) {
    const std::size_t end = std::min(text.find('\n', first), text.size() - 1);
    spans.push_back({first, end + 1 - first});
    first = end + 1;
  }
  return spans;
}

std::string replaced(const std::string& text, Span span, std::string_view by) {
  return text.substr(0, span.first) + std::string(by) + text.substr(span.first + span.size);
}

constexpr std::array<std::string_view, 20> odd_numbers = {"0",
                                                          "-1",
                                                          "nan",
                                                          "inf",
                                                          "-inf",
                                                          "1e308",
                                                          "-1e308",
                                                          "1e-308",
                                                          "9223372036854775807",
                                                          "99999999999999999999",
                                                          "1e15",
                                                          "0.001",
                                                          "true",
                                                          "\"\"",
                                                          "[]",
                                                          "{}",
                                                          "[1, 2]",
                                                          "''",
                                                          "0x7f",
                                                          "2024-02-30"};
constexpr std::array<std::string_view, 10> odd_bytes = {
    "\xff", "\xc3", std::string_view("\0", 1), "\r", "\t", "\"", "'''", "\xe2\x80\xae", ",", "#"};

std::string with_one_fault(const std::string& text, Engine& engine) {
  if (text.empty()) return "=";
  const std::vector<Span> numbers = spans_of_numbers(text);
  const std::vector<Span> strings = spans_of_strings(text);
  const std::vector<Span> lines = spans_of_lines(text);
  const Span line = lines[below(engine, lines.size())];
  const std::string words = text.substr(line.first, line.size);
  const std::size_t at = below(engine, text.size());
  switch (below(engine, 10)) {
    case 0: {
      std::string turned = text;
      turned[at] = static_cast<char>(engine());
      return turned;
    }
    case 1:
      return replaced(text, {at, 0}, odd_bytes[below(engine, odd_bytes.size())]);
    case 2:
      return replaced(text, {at, std::min(text.size() - at, 1 + below(engine, 40))}, "");
    case 3:
      return replaced(text, line, "");
    case 4:
      return replaced(text, line, words + words);
    case 5: {
      const Span other = lines[below(engine, lines.size())];
      return replaced(text, line, text.substr(other.first, other.size));
    }
    case 6:
      return text.substr(0, at);
    case 7:
      if (strings.empty()) return text;
      {
        const Span other = strings[below(engine, strings.size())];
        return replaced(text, strings[below(engine, strings.size())], text.substr(other.first, other.size));
      }
    default:  // most often, because these get furthest
      if (numbers.empty()) return text;
      return replaced(text, numbers[below(engine, numbers.size())], odd_numbers[below(engine, odd_numbers.size())]);
  }
}

}  // namespace

std::string spoiled(const std::string& text, std::uint64_t seed) {
  Engine engine(seed);
  std::string result = text;
  const std::size_t n_faults = 1 + below(engine, 6);
  for (std::size_t i = 0; i < n_faults; ++i) result = with_one_fault(result, engine);
  return result;
}

}  // namespace houseleek::tests
