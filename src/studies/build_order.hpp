// What to build next: places, what they gain by runs with more modules laid, what they cost, what the load allows.
#pragma once
#include <memory>
#include <optional>
#include <vector>

#include "base/context.hpp"
#include "checks/place_trial.hpp"
#include "report/order_answer.hpp"
#include "studies/cover_runs.hpp"
#include "studies/executor.hpp"
#include "studies/order_places.hpp"

namespace houseleek::studies {

struct OrderWanted {
  std::optional<int> recipe;           // absent: the one that is laid most, else the first
  std::vector<double> budgets;         // of each season; empty: no limit of money, one season
  int n_most = 60;                     // steps
  std::vector<geometry::PointM> pins;  // beside those of the design
  std::vector<geometry::PointM> bans;
};

/// An order on the way: all that is known before the longer roofs have run.
struct OrderPlan {
  OrderWanted wanted;
  report::OrderAnswer answer;  // what is said already
  int recipe = 0;
  std::vector<geometry::PointM> pins;
  std::vector<geometry::RectangleM> places;
  std::vector<std::unique_ptr<LongerRoof>> roofs;  // none where nothing can be laid
  std::shared_ptr<checks::PlaceTrial> trial;       // absent: the load cannot be judged
};

/// Finds the places and the roofs to run. `inputs` has to stay as long as the plan.
/// Errors:   throws ContractViolation.
/// Source:   docs/equations/order.md.   Checked by: tests/studies/build_order_test.cpp.
[[nodiscard]] OrderPlan plan_order(const OrderInputs& inputs, const OrderWanted& wanted);

/// The runs that a plan waits for.
[[nodiscard]] std::vector<WantedRun> runs_of(const OrderPlan& plan);

/// Chooses (buildorder/order.hpp) once these runs are done. `bare` and `planted` are free runs of the same year.
[[nodiscard]] report::OrderAnswer make_order(const OrderInputs& inputs, OrderPlan plan, const RunSums& bare,
                                             const RunSums& planted);

/// The same with all runs of its own.
/// Shape:    pure but for progress; the same answer for every executor.
/// Errors:   throws simulation::NumericalFailure, ContractViolation, Cancelled.
[[nodiscard]] report::OrderAnswer order(const OrderInputs& inputs, const OrderWanted& wanted, const Executor& executor,
                                        const Context& context);

}  // namespace houseleek::studies
