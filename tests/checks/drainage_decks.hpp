// Plain decks for tests of water on a roof.
#pragma once
#include <functional>
#include <limits>
#include <vector>

#include "checks/drainage_flow.hpp"

namespace houseleek::tests {

struct DeckSize {
  int columns = 1;
  int rows = 1;
  double width_m = 1.0;
  double height_m = 1.0;
};

/// A bare deck with this level at the middle of each square, all faces open, no exit.
inline checks::FlowSquares bare_deck(const DeckSize& size, const std::function<double(double x_m, double y_m)>& level_m,
                                     double roughness_s_per_m13 = 0.02) {
  checks::FlowSquares made;
  plan::DeckShape& deck = made.deck;
  deck.columns = size.columns;
  deck.rows = size.rows;
  deck.width_m = size.width_m;
  deck.height_m = size.height_m;
  checks::SquareCover cover;
  cover.open_roughness_s_per_m13 = roughness_s_per_m13;
  for (int j = 0; j < size.rows; ++j) {
    for (int i = 0; i < size.columns; ++i) {
      deck.area_m2.push_back(size.width_m * size.height_m);
      deck.level_m.push_back(level_m((i + 0.5) * size.width_m, (j + 0.5) * size.height_m));
      made.cover.push_back(cover);
    }
  }
  const auto level = [&deck](int i, int j) { return deck.level_m[static_cast<std::size_t>(i + j * deck.columns)]; };
  for (int j = 0; j < size.rows; ++j) {
    for (int i = 0; i + 1 < size.columns; ++i) deck.sill_x_m.push_back(std::max(level(i, j), level(i + 1, j)));
  }
  for (int j = 0; j + 1 < size.rows; ++j) {
    for (int i = 0; i < size.columns; ++i) deck.sill_y_m.push_back(std::max(level(i, j), level(i, j + 1)));
  }
  return made;
}

/// Takes whatever comes to this square once water stands on it.
inline checks::Exit wide_exit(const checks::FlowSquares& deck, int square, double lip_above_deck_m = 0.0) {
  checks::Exit exit;
  exit.name = "edge";
  exit.square = square;
  exit.lip_m = deck.deck.level_m[static_cast<std::size_t>(square)] + lip_above_deck_m;
  exit.opening = physics::Opening{.width_mm = 1.0e6, .height_mm = std::nullopt};
  return exit;
}

inline checks::Exit round_exit(const checks::FlowSquares& deck, int square, double diameter_mm, bool has_grate) {
  checks::Exit exit;
  exit.name = "outlet";
  exit.square = square;
  exit.lip_m = deck.deck.level_m[static_cast<std::size_t>(square)];
  exit.outlet = physics::RoundOutlet{.diameter_mm = diameter_mm, .has_grate = has_grate};
  return exit;
}

/// A strip that falls along x and drops off its end: `squares` of the strip, then one that takes all.
inline checks::FlowSquares falling_strip(int squares, double length_m, double slope, double roughness_s_per_m13) {
  const double width_m = length_m / squares;
  checks::FlowSquares deck = bare_deck(
      {.columns = squares + 1, .rows = 1, .width_m = width_m, .height_m = 1.0},
      [=](double x_m, double) { return x_m < length_m ? 1.0 - slope * x_m : 0.8 - slope * x_m; }, roughness_s_per_m13);
  deck.exits.push_back(wide_exit(deck, squares));
  return deck;
}

/// The same rain on every square but the last of a falling strip.
inline std::vector<double> steady_rain_m3_per_s(const checks::FlowSquares& deck, double rain_mm_per_h) {
  std::vector<double> arriving;
  for (const double area_m2 : deck.deck.area_m2) arriving.push_back(area_m2 * rain_mm_per_h / 3.6e6);
  return arriving;
}

/// Steady rain for so many minutes, the same everywhere.
inline checks::RunOff rain_for(const checks::FlowSquares& deck, double rain_mm_per_h, int minutes) {
  return {.columns_mm_per_min = {std::vector<double>(static_cast<std::size_t>(minutes), rain_mm_per_h / 60.0)},
          .column_of_square = std::vector<int>(deck.deck.level_m.size(), 0)};
}

}  // namespace houseleek::tests
