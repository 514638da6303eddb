// Where more modules could lie, and the roof with them laid, ready to be run.
#pragma once
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "geometry/outline.hpp"
#include "plan/layout.hpp"
#include "studies/cover_runs.hpp"

namespace houseleek::studies {

struct OrderInputs {
  const design::RawDesign& description;
  const catalogue::Catalogue& catalogue;
  const RunInputs& year;  // with the design as it is
};

/// Where modules of the recipe could come to lie: none touches another, all off clear strips and hollows.
/// Equation: row by row from the lower left, a module wherever one fits beside those before it
/// Source:   definition.   Checked by: tests/studies/build_order_test.cpp.
[[nodiscard]] std::vector<geometry::RectangleM> candidate_places(const design::ValidDesign& design, int recipe);

[[nodiscard]] bool is_over(const geometry::RectangleM& place, geometry::PointM point);
[[nodiscard]] bool has_any(const geometry::RectangleM& place, const std::vector<geometry::PointM>& points);
[[nodiscard]] geometry::PointM middle_of(const geometry::RectangleM& place);

/// A square of the plan (B4) as its middle, or x,y in metres; nothing where it is neither or not on the roof.
[[nodiscard]] std::optional<geometry::PointM> point_from_words(const design::ValidDesign& design,
                                                               const std::string& words);

/// The description with a module laid at each of these places.
[[nodiscard]] std::string text_with_modules(const std::string& text, const std::string& recipe,
                                            std::span<const geometry::RectangleM> places);

/// A roof with more modules than today's, and what its run leaves. Stays where it was made: `year` points into it.
struct LongerRoof {
  std::optional<design::ValidDesign> design;
  std::optional<plan::Layout> layout;
  std::optional<RunInputs> year;
  RunSums sums;
};

/// The roofs to run for these places: with all of them and, where they are more than four, with half before.
/// Errors: ContractViolation where a place is not free.
[[nodiscard]] std::vector<std::unique_ptr<LongerRoof>> longer_roofs(const OrderInputs& inputs, int recipe,
                                                                    const std::vector<geometry::RectangleM>& places);

}  // namespace houseleek::studies
