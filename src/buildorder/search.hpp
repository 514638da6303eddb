// The two ways to find an order: every one of a few places, or step by step and by swaps.
#pragma once
#include <optional>

#include "buildorder/order.hpp"

namespace houseleek::buildorder {

/// Places in the order in which they are laid, those of each season together.
struct Sequence {
  std::vector<std::vector<int>> seasons;
};

/// Exact; nothing where judging does not come to an end within the rounds. Conditions that judging names are added.
[[nodiscard]] std::optional<Sequence> search_all(Problem& problem, const OrderOptions& options);

/// Greedy, then swaps. Conditions that judging names are added.
[[nodiscard]] Sequence search_stepwise(Problem& problem, const OrderOptions& options);

/// Sum over seasons of the gain at their ends.
[[nodiscard]] double value_of(const Problem& problem, const Sequence& sequence);

/// Never less than the value of any allowed order, whatever the pins.
[[nodiscard]] double most_possible(const Problem& problem, const Sequence& found);

}  // namespace houseleek::buildorder
