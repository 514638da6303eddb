// The roof in squares: a number written in each, tinted by one ramp.
#include "report/chart_map.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "report/palette.hpp"

namespace houseleek::report {
namespace {

constexpr double cell = 42.0;
constexpr double margin = 24.0;
constexpr int widest_columns = 10;  // more scroll by themselves on a narrow screen
constexpr int n_letters = 26;

struct GridPlace {
  int column = 0;
  int row = 0;
};

GridPlace place_of(const std::string& name) {
  GridPlace place;
  std::size_t at = 0;
  for (; at < name.size() && name[at] >= 'A' && name[at] <= 'Z'; ++at) {
    place.column = n_letters * place.column + (name[at] - 'A' + 1);
  }
  for (; at < name.size() && name[at] >= '0' && name[at] <= '9'; ++at) place.row = 10 * place.row + (name[at] - '0');
  expects(at == name.size() && place.column >= 1 && place.row >= 1, "letters and a number");
  return {place.column - 1, place.row - 1};
}

std::string letters_of(int column) {
  std::string letters;
  for (int rest = column; rest >= 0; rest = rest / n_letters - 1) {
    letters.insert(letters.begin(), static_cast<char>('A' + rest % n_letters));
  }
  return letters;
}

}  // namespace

int ramp_step(double depth_frac) {
  const int last = static_cast<int>(n_ramp_steps) - 1;
  return static_cast<int>(
      std::clamp(std::floor(depth_frac * static_cast<double>(n_ramp_steps)), 0.0, static_cast<double>(last)));
}

Html html_from(SquareMap map) {
  map.drawing.width = margin + cell * map.columns + 2.0;
  map.drawing.height = cell * map.rows + margin + 2.0;
  map.drawing.is_wide = map.columns > widest_columns;
  const auto box_of = [&map](const GridPlace& place) {
    return Box{margin + cell * place.column, 1.0 + cell * (map.rows - 1 - place.row), cell, cell};
  };
  Html content;
  for (int row = 0; row < map.rows; ++row) {
    for (int column = 0; column < map.columns; ++column) content += svg_box(box_of({column, row}), "cell");
  }
  for (const MapSquare& square : map.squares) {
    const GridPlace place = place_of(square.name);
    expects(place.column < map.columns && place.row < map.rows, "a square of the grid");
    const Box box = box_of(place);
    const int step = ramp_step(square.depth_frac);
    content += svg_box(box, fmt::format("cell tinted ramp{}", step), square.hover);
    content +=
        svg_text(box.x + 0.5 * cell, box.y + 0.5 * cell + 4.0, square.text, fmt::format("on{}", step), Anchor::middle);
  }
  for (int column = 0; column < map.columns; ++column) {
    content +=
        svg_text(margin + cell * (column + 0.5), cell * map.rows + 17.0, letters_of(column), "tick", Anchor::middle);
  }
  for (int row = 0; row < map.rows; ++row) {
    content += svg_text(margin - 7.0, 1.0 + cell * (map.rows - row - 0.5) + 4.0, fmt::format("{}", row + 1), "tick",
                        Anchor::end);
  }
  return drawing_from(map.drawing, content);
}

}  // namespace houseleek::report
