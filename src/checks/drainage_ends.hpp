// The three ends of all that is not known well about a roof's drainage, and the ranges they make.
#pragma once
#include <algorithm>
#include <array>

#include "checks/drainage.hpp"

namespace houseleek::checks {

inline constexpr std::array drainage_ends = {DrainageEnd::easy, DrainageEnd::likely, DrainageEnd::hard};

[[nodiscard]] constexpr std::size_t at(int index) { return static_cast<std::size_t>(index); }
[[nodiscard]] constexpr std::size_t at(DrainageEnd end) { return static_cast<std::size_t>(end); }

using Decks = std::array<DrainageDeck, 3>;  // by DrainageEnd

[[nodiscard]] inline double end_of(const results::Interval& figure, DrainageEnd end) {
  return end == DrainageEnd::easy ? figure.low : end == DrainageEnd::hard ? figure.high : figure.likely;
}

/// The likely figure with whatever the ends turned out to be on either side of it.
[[nodiscard]] inline SignedRange hull(const std::array<double, 3>& by_end) {
  return {std::min({by_end[0], by_end[1], by_end[2]}), by_end[at(DrainageEnd::likely)],
          std::max({by_end[0], by_end[1], by_end[2]})};
}
[[nodiscard]] inline results::Interval hull_of_sizes(const std::array<double, 3>& by_end) {
  const SignedRange range = hull(by_end);
  return {range.low, range.likely, range.high};
}

}  // namespace houseleek::checks
