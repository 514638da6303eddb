// Runs of random designs through the same path as answers take, and what must hold of every one of them.
#pragma once
#include <cstdint>

namespace houseleek::tests {

// Chosen before the first run, and kept.
inline constexpr std::uint64_t random_designs_seed = 20260117;

struct Span {
  int first_hour = 0;
  int n_hours = 8760;
  int spin_up_hours = 720;
};

/// One design through a span of hours, planted and under one rival: every design is accepted, areas of a room's stacks
/// sum to its own, books of heat and water close in every step and over the span, columns stay in their bounds. Seven
/// numbers in a row meet every rival, fourteen each of them free and held; the planted roof is held where the rival is
/// free.
void expect_books_of_design(std::uint32_t number, const Span& span);

}  // namespace houseleek::tests
