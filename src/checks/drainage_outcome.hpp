// What the depths of a case mean: figures for the roof and each square, and their words.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "checks/drainage_ends.hpp"

namespace houseleek::checks {

[[nodiscard]] bool is_raised(const SquareModule& module);

/// Least distance from water to the undersides of raised modules, leaving out squares that `is_counted` leaves out.
[[nodiscard]] double least_freeboard_m(const DrainageDeck& deck, const std::vector<double>& depth_m,
                                       const std::vector<bool>& is_counted);

/// The same of all squares.
[[nodiscard]] double least_freeboard_m(const DrainageDeck& deck, const std::vector<double>& depth_m);

/// Steady run-off of every square, m3/s.
[[nodiscard]] std::vector<double> steady_runoff(const DrainageDeck& deck, double rain_mm_per_h);

/// The deck with one outlet blocked, or all (-1).
[[nodiscard]] FlowSquares with_blocked(const DrainageDeck& deck, int only);

/// Depths and weights of a case for the three ends.
struct Outcome {
  std::array<std::vector<double>, 3> depth_m;
  std::array<double, 3> minutes_to_drain{};
};

/// Fills in the figures of a case from its depths, with what lies on the water besides.
void put_outcome(const design::ValidDesign& design, const Decks& decks, const Outcome& outcome,
                 const results::Interval& extra_kn_per_m2, DrainageCase& result);

[[nodiscard]] std::string range_words(const results::Interval& range, const char* unit);
[[nodiscard]] std::string freeboard_words(const DrainageCase& one);
[[nodiscard]] std::string floating_words(const DrainageCase& one);

}  // namespace houseleek::checks
