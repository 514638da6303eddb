// Where more modules could lie, and the roof with them laid, ready to be run.
#include "studies/order_places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "base/contract.hpp"
#include "checks/clear_strips.hpp"
#include "plan/squares.hpp"
#include "report/issue_json.hpp"
#include "studies/roof_squares.hpp"

namespace houseleek::studies {
namespace {

using geometry::RectangleM;

constexpr double usual_gap_m = 0.02;  // between neighbours, where the recipe is laid nowhere yet
constexpr double grid_step_m = 0.05;  // of the search for places

double gap_of(const design::ValidDesign& design, int recipe) {
  for (const design::Patch& patch : design->patches) {
    if (patch.recipe == recipe) return 0.001 * patch.spacing_mm;
  }
  return usual_gap_m;
}

/// From today to so few modules more a straight line tells enough of a room's response; a run half-way costs seconds.
constexpr std::size_t most_places_by_straight_line = 4;

/// The first half of the places over each room, so that each is about half full.
std::vector<RectangleM> first_halves(const design::ValidDesign& design, const std::vector<RectangleM>& places) {
  std::vector<std::vector<RectangleM>> by_room(design->rooms.size() + 1);  // the last: over none
  for (const RectangleM& place : places) {
    std::size_t most = design->rooms.size();
    double most_m2 = 0.0;
    for (std::size_t room = 0; room < design->rooms.size(); ++room) {
      const double area_m2 = geometry::overlap_area_m2(design->rooms[room].outline, place);
      if (area_m2 <= most_m2) continue;
      most = room;
      most_m2 = area_m2;
    }
    by_room[most].push_back(place);
  }
  std::vector<RectangleM> half;
  for (const std::vector<RectangleM>& room : by_room) {
    half.insert(half.end(), room.begin(), room.begin() + static_cast<std::ptrdiff_t>((room.size() + 1) / 2));
  }
  return half;
}

std::unique_ptr<LongerRoof> extend(const OrderInputs& inputs, int recipe, std::span<const RectangleM> places) {
  auto roof = std::make_unique<LongerRoof>();
  const std::string& name = inputs.year.design->recipes[static_cast<std::size_t>(recipe)].name;
  const std::string text = text_with_modules(inputs.description.text, name, places);
  Result<design::ValidDesign> read = design::read_design(text, inputs.description.file_name, inputs.catalogue);
  expects(static_cast<bool>(read), "a description that stands with modules on free places");
  roof->design = std::move(read).value();
  roof->layout = plan::make_layout(*roof->design);
  roof->year.emplace(RunInputs{.design = *roof->design,
                               .layout = *roof->layout,
                               .weather = inputs.year.weather,
                               .limits = inputs.year.limits,
                               .seasons = inputs.year.seasons,
                               .thresholds_frac = inputs.year.thresholds_frac,
                               .options = inputs.year.options,
                               .has_fine_strips = inputs.year.has_fine_strips});
  return roof;
}

}  // namespace

bool is_over(const RectangleM& place, geometry::PointM point) {
  return place.left_m <= point.x_m && point.x_m <= place.right_m && place.bottom_m <= point.y_m &&
         point.y_m <= place.top_m;
}

bool has_any(const RectangleM& place, const std::vector<geometry::PointM>& points) {
  return std::any_of(points.begin(), points.end(), [&place](geometry::PointM one) { return is_over(place, one); });
}

geometry::PointM middle_of(const RectangleM& place) {
  return {0.5 * (place.left_m + place.right_m), 0.5 * (place.bottom_m + place.top_m)};
}

std::vector<RectangleM> candidate_places(const design::ValidDesign& design, int recipe) {
  const design::Recipe& of = design->recipes[static_cast<std::size_t>(recipe)];
  const double gap_m = gap_of(design, recipe);
  std::vector<geometry::Outline> kept_free = checks::check_clear_strips(design).kept_free;
  // A module in a hollow stands in water for days.
  for (const design::Hollow& hollow : design->roof.hollows) kept_free.push_back(hollow.outline);
  const plan::FreePlaces wanted{
      .width_m = 0.001 * of.length_mm, .height_m = 0.001 * of.width_mm, .step_m = grid_step_m, .gap_m = gap_m};
  std::vector<RectangleM> places;
  for (const RectangleM& place : plan::find_free_places(design, wanted, kept_free)) {
    const RectangleM with_gap{place.left_m - gap_m, place.bottom_m - gap_m, place.right_m + gap_m, place.top_m + gap_m};
    const bool is_taken = std::any_of(places.begin(), places.end(), [&with_gap](const RectangleM& one) {
      return geometry::is_overlapping(one, with_gap);
    });
    if (!is_taken) places.push_back(place);
  }
  return places;
}

std::optional<geometry::PointM> point_from_words(const design::ValidDesign& design, const std::string& words) {
  const report::SquareGrid grid = make_square_grid(design->roof);
  std::optional<geometry::PointM> point;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      if (square_name(column, row) == words) point = middle_of(square_rectangle(grid, column, row));
    }
  }
  if (!point) {
    const std::size_t comma = words.find(',');
    const auto number = [](const std::string& text) -> std::optional<double> {
      char* end = nullptr;
      const double value = std::strtod(text.c_str(), &end);
      return end == text.c_str() || *end != '\0' ? std::nullopt : std::optional(value);
    };
    if (comma == std::string::npos) return std::nullopt;
    const std::optional<double> x_m = number(words.substr(0, comma));
    const std::optional<double> y_m = number(words.substr(comma + 1));
    if (!x_m || !y_m) return std::nullopt;
    point = geometry::PointM{*x_m, *y_m};
  }
  constexpr double half_m = 0.005;
  const RectangleM spot{point->x_m - half_m, point->y_m - half_m, point->x_m + half_m, point->y_m + half_m};
  if (!geometry::is_inside(design->roof.outline, spot)) return std::nullopt;
  return point;
}

std::string text_with_modules(const std::string& text, const std::string& recipe, std::span<const RectangleM> places) {
  constexpr double rounding_m = 1e-6;
  std::string longer = text + "\n";
  for (std::size_t first = 0; first < places.size();) {
    // Neighbours in a row at one distance are one patch, so that the deck between them counts as between.
    const RectangleM& one = places[first];
    const double width_m = one.right_m - one.left_m;
    double pitch_m = 0.0;
    std::size_t end = first + 1;
    for (; end < places.size(); ++end) {
      const double here_m = places[end].left_m - places[end - 1].left_m;
      if (std::fabs(places[end].bottom_m - one.bottom_m) > rounding_m || here_m <= 0.0) break;
      if (end == first + 1 && here_m < 1.5 * width_m) pitch_m = here_m;
      if (pitch_m == 0.0 || std::fabs(here_m - pitch_m) > rounding_m) break;
    }
    longer +=
        fmt::format("[[patch]]\nrecipe = {}\ncolumns = {}\nrows = 1\norigin = [{:.6f}, {:.6f}]\nspacing_mm = {:.3f}\n",
                    report::Json(recipe).dump(), end - first, one.left_m, one.bottom_m,
                    pitch_m > 0.0 ? 1000.0 * (pitch_m - width_m) : 0.0);
    first = end;
  }
  return longer;
}

std::vector<std::unique_ptr<LongerRoof>> longer_roofs(const OrderInputs& inputs, int recipe,
                                                      const std::vector<RectangleM>& places) {
  std::vector<std::unique_ptr<LongerRoof>> roofs;
  if (places.empty()) return roofs;
  if (places.size() > most_places_by_straight_line) {
    roofs.push_back(extend(inputs, recipe, first_halves(inputs.year.design, places)));
  }
  roofs.push_back(extend(inputs, recipe, places));
  return roofs;
}

}  // namespace houseleek::studies
