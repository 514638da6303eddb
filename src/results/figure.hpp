// A figure as answers give it: a value with its range, or a value and why it has no range, or no value and why.
#pragma once
#include <optional>
#include <string>
#include <utility>

#include "base/contract.hpp"

namespace houseleek::results {

struct Range {
  double low = 0.0;
  double high = 0.0;
  std::string from;  // what the range was made of
  bool operator==(const Range&) const = default;
};

struct Figure {
  std::optional<double> value;
  std::optional<Range> range;
  std::string because;  // why there is no range; without a value: why there is none
  bool operator==(const Figure&) const = default;
};

[[nodiscard]] inline Figure figure_with_range(double value, double low, double high, std::string from) {
  expects(low <= value && value <= high, "a value within its range");
  return {.value = value, .range = Range{low, high, std::move(from)}, .because = ""};
}

[[nodiscard]] inline Figure figure_without_range(double value, std::string no_range_because) {
  return {.value = value, .range = std::nullopt, .because = std::move(no_range_because)};
}

[[nodiscard]] inline Figure figure_missing(std::string why) {
  return {.value = std::nullopt, .range = std::nullopt, .because = std::move(why)};
}

}  // namespace houseleek::results
