// What to build next: places, what they gain by runs with more modules laid, what they cost, what the load allows.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/context.hpp"
#include "catalogue/catalogue.hpp"
#include "report/order_answer.hpp"
#include "studies/cover_runs.hpp"
#include "studies/executor.hpp"

namespace houseleek::studies {

struct OrderWanted {
  std::optional<int> recipe;           // absent: the one that is laid most, else the first
  std::vector<double> budgets;         // of each season; empty: no limit of money, one season
  int n_most = 60;                     // steps
  std::vector<geometry::PointM> pins;  // beside those of the design
  std::vector<geometry::PointM> bans;
};

struct OrderInputs {
  const design::RawDesign& description;
  const catalogue::Catalogue& catalogue;
  const RunInputs& year;  // with the design as it is
};

/// Where modules of the recipe could come to lie: none touches another, all off clear strips and hollows.
/// Equation: row by row from the lower left, a module wherever one fits beside those before it
/// Source:   definition.   Checked by: tests/studies/build_order_test.cpp.
[[nodiscard]] std::vector<geometry::RectangleM> candidate_places(const design::ValidDesign& design, int recipe);

/// A square of the plan (B4) as its middle, or x,y in metres; nothing where it is neither or not on the roof.
[[nodiscard]] std::optional<geometry::PointM> point_from_words(const design::ValidDesign& design,
                                                               const std::string& words);

/// The description with a module laid at each of these places.
[[nodiscard]] std::string text_with_modules(const std::string& text, const std::string& recipe,
                                            std::span<const geometry::RectangleM> places);

/// Runs the house with all of the places laid and, where they are more than four, with half, then chooses
/// (buildorder/order.hpp). `bare` and `planted` are free runs of the same year.
/// Shape:    pure but for progress; the same answer for every executor.
/// Errors:   throws simulation::NumericalFailure, ContractViolation, Cancelled.
/// Source:   docs/equations/order.md.   Checked by: tests/studies/build_order_test.cpp.
[[nodiscard]] report::OrderAnswer make_order(const OrderInputs& inputs, const OrderWanted& wanted, const RunSums& bare,
                                             const RunSums& planted, const Executor& executor, const Context& context);

/// The same with the two runs of its own.
[[nodiscard]] report::OrderAnswer order(const OrderInputs& inputs, const OrderWanted& wanted, const Executor& executor,
                                        const Context& context);

}  // namespace houseleek::studies
