// What to build next: places, what they gain by runs with more modules laid, what they cost, what the load allows.
#include "studies/build_order.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <memory>
#include <numeric>

#include "base/contract.hpp"
#include "buildorder/order.hpp"
#include "checks/allowance.hpp"
#include "checks/clear_strips.hpp"
#include "checks/place_trial.hpp"
#include "checks/uniform_load.hpp"
#include "money/cash_flow.hpp"
#include "plan/squares.hpp"
#include "report/issue_json.hpp"
#include "report/words.hpp"
#include "studies/roof_squares.hpp"
#include "studies/run_parts.hpp"

namespace houseleek::studies {
namespace {

using geometry::RectangleM;
using report::short_number;

const design::Recipe& recipe_of(const design::ValidDesign& design, int recipe) {
  return design->recipes[static_cast<std::size_t>(recipe)];
}

int usual_recipe(const design::ValidDesign& design) {
  std::vector<int> n_laid(design->recipes.size(), 0);
  for (const design::Patch& patch : design->patches) {
    n_laid[static_cast<std::size_t>(patch.recipe)] += static_cast<int>(design::module_count(patch));
  }
  return static_cast<int>(std::max_element(n_laid.begin(), n_laid.end()) - n_laid.begin());
}

double hot_k_h(const RunSums& run, std::size_t room) { return run.rooms[room].all.degree_hours_above_k_h; }

void add_point(report::RoomResponse& response, double covered_m2, double gain_k_h) {
  constexpr double least_step_m2 = 1e-6;
  if (!response.covered_m2.empty() && covered_m2 <= response.covered_m2.back() + least_step_m2) return;
  response.covered_m2.push_back(covered_m2);
  response.gain_k_h.push_back(gain_k_h);
}

/// Over the bare roof, from what is covered today.
std::vector<report::RoomResponse> responses_of(const OrderInputs& inputs, const RunSums& bare, const RunSums& planted,
                                               const std::vector<std::unique_ptr<LongerRoof>>& more) {
  std::vector<report::RoomResponse> responses;
  const design::ValidDesign& design = inputs.year.design;
  for (std::size_t room = 0; room < design->rooms.size(); ++room) {
    report::RoomResponse response;
    response.room = design->rooms[room].name;
    add_point(response, inputs.year.layout.rooms[room].covered_m2, hot_k_h(bare, room) - hot_k_h(planted, room));
    for (const auto& one : more) {
      add_point(response, one->layout->rooms[room].covered_m2, hot_k_h(bare, room) - hot_k_h(one->sums, room));
    }
    responses.push_back(std::move(response));
  }
  return responses;
}

std::vector<buildorder::RoomShare> rooms_below(const design::ValidDesign& design, const RectangleM& place) {
  std::vector<buildorder::RoomShare> over;
  for (std::size_t room = 0; room < design->rooms.size(); ++room) {
    const double area_m2 = geometry::overlap_area_m2(design->rooms[room].outline, place);
    if (area_m2 > geometry::least_area_m2) over.push_back({static_cast<int>(room), area_m2});
  }
  return over;
}

/// Cost of n more modules, what is planned already served first from the stock.
buildorder::CostFunction cost_function(const design::ValidDesign& design, int recipe, int n_most) {
  const money::Terms terms = money::terms_of(design);
  money::Alternative alternative = money::modules_of(design);
  const std::vector<double> today = money::outlay_of_lots(alternative, terms, money::likely_of);
  const double paid = std::accumulate(today.begin(), today.end(), 0.0);
  money::Lot more;
  more.per_unit = money::cost_of_module(design, recipe, recipe_of(design, recipe).placed);
  more.is_module = true;
  more.recipe = recipe;
  alternative.lots.push_back(more);
  std::vector<double> costs;
  for (int n = 0; n <= n_most; ++n) {
    alternative.lots.back().n_units = n;
    const std::vector<double> all = money::outlay_of_lots(alternative, terms, money::likely_of);
    costs.push_back(std::accumulate(all.begin(), all.end(), 0.0) - paid);
  }
  return [costs](std::span<const int> n_by_kind) { return costs[static_cast<std::size_t>(n_by_kind[0])]; };
}

/// Which tests of the load can be asked, in words; and the trial if they can.
struct LoadJudge {
  std::string statement;
  std::string forbids_all;  // may be empty
  std::shared_ptr<checks::PlaceTrial> trial;
};

LoadJudge load_judge(const design::ValidDesign& design, int recipe) {
  LoadJudge judge;
  const std::vector<std::string> missing = checks::missing_parts(design->roof);
  if (!missing.empty()) {
    judge.statement = fmt::format("Load: no verdict, nobody wrote down {}. Ask an engineer before anything is laid.",
                                  report::joined(missing));
    return judge;
  }
  if (!design->roof.structure || design->roof.structure->supports_at_m.empty()) {
    judge.statement = "Load: no verdict, how the deck carries is for an engineer. Ask before anything is laid.";
    return judge;
  }
  judge.trial = std::make_shared<checks::PlaceTrial>(
      design, checks::make_module_footprint(design, recipe, recipe_of(design, recipe).placed));
  if (!judge.trial->with({}).is_within) {
    judge.forbids_all = "what lies there now is not shown to stay within the engineer's figure";
    judge.statement = "Load: " + judge.forbids_all + ".";
    return judge;
  }
  judge.statement =
      fmt::format("Load: every step stays within {} in both tests; a screening.", checks::figure_words(design->roof));
  return judge;
}

std::string names_of_rooms(const design::ValidDesign& design, const std::vector<buildorder::RoomShare>& over) {
  std::vector<std::string> names;
  for (const buildorder::RoomShare& share : over)
    names.push_back(design->rooms[static_cast<std::size_t>(share.room)].name);
  return names.empty() ? "no room" : fmt::format("{}", fmt::join(names, " and "));
}

std::string reason_of(const buildorder::Problem& problem, const buildorder::Step& step, const std::string& rooms,
                      const std::string& currency, double shop_cost) {
  const buildorder::Place& place = problem.places[static_cast<std::size_t>(step.place)];
  if (place.is_pinned) return fmt::format("wanted by you; {} gains {} K h", rooms, short_number(step.gain));
  const std::string gain = fmt::format("{} gains {} K h", rooms, short_number(step.gain));
  if (step.cost <= 0.0) return gain + ", for nothing from the stock";
  if (step.cost < 0.999 * shop_cost) {
    return fmt::format("{} for {} {}, partly from the stock", gain, short_number(step.cost), currency);
  }
  return fmt::format("{}, {} K h for 1 {}: the most that is left", gain, short_number(step.gain / step.cost), currency);
}

std::string left_out_words(const design::ValidDesign& design, geometry::PointM at) {
  return fmt::format("{}: no module fits there beside clear strips, obstacles and what is laid",
                     square_name_at(make_square_grid(design->roof), at));
}

/// Why nothing can be laid, although the load of what lies there now is within the figure.
std::string none_left_words(const design::ValidDesign& design, int n_refused_by_load) {
  if (n_refused_by_load == 0) return "no place is left that clear strips, obstacles and bans allow";
  std::string words = fmt::format(
      "{} places are free, but with a module on any of them the load is not shown to stay "
      "within the engineer's figure",
      n_refused_by_load);
  const bool has_inner_support = design->roof.structure->supports_at_m.size() > 2;
  if (has_inner_support && !design->roof.allowable_load->is_by_turns) {
    words +=
        "; nobody wrote down whether that figure may stand on some spans and not on others (spans_by_turns), and a "
        "first module loads one span only";
  }
  return words;
}

std::string statement_of(const report::OrderAnswer& answer, bool is_exact) {
  const report::OrderAbout& about = answer.about;
  if (!about.because.empty()) return fmt::format("Nothing next: {}.", about.because);
  return fmt::format("{} modules of \"{}\" for {} {} take {} hot degree-hours a year away; {}.", answer.steps.size(),
                     about.recipe, short_number(about.cost), about.currency, short_number(about.gain_k_h),
                     is_exact ? "no order of these places does more"
                              : fmt::format("no order does more than {} better", short_number(about.most_loss_k_h)));
}

}  // namespace

OrderPlan plan_order(const OrderInputs& inputs, const OrderWanted& wanted) {
  const design::ValidDesign& design = inputs.year.design;
  OrderPlan plan;
  plan.wanted = wanted;
  plan.answer.design_name = design->name;
  plan.answer.is_invented = design->is_invented;
  report::OrderAbout& about = plan.answer.about;
  about.currency = design->prices.currency;
  about.budgets = wanted.budgets;
  about.load_statement = "Load: not asked, nothing is laid.";
  const auto none = [&plan, &about](std::string because) {
    about.because = std::move(because);
    about.is_exact = true;
    about.statement = statement_of(plan.answer, true);
    return std::move(plan);
  };
  if (design->recipes.empty()) return none("no recipe is described");
  plan.recipe = wanted.recipe.value_or(usual_recipe(design));
  const design::Recipe& recipe = recipe_of(design, plan.recipe);
  about.recipe = recipe.name;
  about.placed = recipe.placed == design::Placed::raised ? "raised" : "flat";
  const LoadJudge load = load_judge(design, plan.recipe);
  plan.trial = load.trial;
  about.load_statement = load.statement;
  if (!load.forbids_all.empty()) return none(load.forbids_all);
  const money::Cost one = money::cost_of_module(design, plan.recipe, recipe.placed);
  if (!one.unpriced.empty()) {
    return none(fmt::format("no price is known of {}", fmt::join(money::once_each(one.unpriced), ", ")));
  }
  plan.pins = design->order.pins;
  std::vector<geometry::PointM> bans = design->order.bans;
  plan.pins.insert(plan.pins.end(), wanted.pins.begin(), wanted.pins.end());
  bans.insert(bans.end(), wanted.bans.begin(), wanted.bans.end());
  int n_refused_by_load = 0;
  for (const RectangleM& place : candidate_places(design, plan.recipe)) {
    if (has_any(place, bans)) continue;
    if (plan.trial && !plan.trial->with(std::span(&place, 1)).is_within) {
      ++n_refused_by_load;
    } else {
      plan.places.push_back(place);
    }
  }
  for (const geometry::PointM pin : plan.pins) {
    if (std::none_of(plan.places.begin(), plan.places.end(),
                     [pin](const RectangleM& free) { return is_over(free, pin); })) {
      about.left_out.push_back(left_out_words(design, pin));
    }
  }
  about.n_places = static_cast<int>(plan.places.size());
  if (plan.places.empty()) {
    if (n_refused_by_load > 0) {
      about.load_statement = fmt::format("Load: no module more is shown to stay within {}; a screening.",
                                         checks::figure_words(design->roof));
    }
    return none(none_left_words(design, n_refused_by_load));
  }
  plan.roofs = longer_roofs(inputs, plan.recipe, plan.places);
  return plan;
}

std::vector<WantedRun> runs_of(const OrderPlan& plan) {
  std::vector<WantedRun> runs;
  for (const std::unique_ptr<LongerRoof>& roof : plan.roofs) {
    runs.push_back({.inputs = &*roof->year, .cover = report::CoverKind::planted, .result = &roof->sums});
  }
  return runs;
}

report::OrderAnswer make_order(const OrderInputs& inputs, OrderPlan plan, const RunSums& bare, const RunSums& planted) {
  report::OrderAnswer answer = std::move(plan.answer);
  if (plan.roofs.empty()) return answer;
  const design::ValidDesign& design = inputs.year.design;
  report::OrderAbout& about = answer.about;
  const std::vector<RectangleM>& places = plan.places;
  about.responses = responses_of(inputs, bare, planted, plan.roofs);

  buildorder::Problem problem;
  for (const RectangleM& place : places) {
    problem.places.push_back({.over = rooms_below(design, place), .kind = 0, .is_pinned = has_any(place, plan.pins)});
  }
  for (const report::RoomResponse& response : about.responses) {
    problem.responses.push_back({response.covered_m2, response.gain_k_h});
  }
  problem.cost_of = cost_function(design, plan.recipe, about.n_places);
  const std::vector<int> all{about.n_places};
  problem.budgets = plan.wanted.budgets.empty() ? std::vector<double>{problem.cost_of(all)} : plan.wanted.budgets;
  if (plan.trial) {
    problem.judge = [&places, trial = plan.trial](std::span<const int> chosen) {
      std::vector<RectangleM> laid;
      for (const int i : chosen) laid.push_back(places[static_cast<std::size_t>(i)]);
      const checks::PlaceOutcome outcome = trial->with(laid);
      buildorder::Judgement judgement{.is_within = outcome.is_within, .broken = std::nullopt};
      if (!outcome.is_within && (outcome.is_mean_broken || (outcome.is_section_broken && !trial->has_joists()))) {
        checks::Condition condition = trial->condition_from(outcome, places);
        judgement.broken = buildorder::Condition{std::move(condition.take), condition.room};
      }
      return judgement;
    };
  }
  const buildorder::Order found = buildorder::find_order(problem);
  about.is_exact = found.is_exact;
  about.most_loss_k_h = found.most_loss();
  const design::Recipe& recipe = recipe_of(design, plan.recipe);
  const double shop_cost = money::outlay_of(money::cost_of_module(design, plan.recipe, recipe.placed))->likely;
  const report::SquareGrid grid = make_square_grid(design->roof);
  for (const buildorder::Step& step : found.steps) {
    if (static_cast<int>(answer.steps.size()) == plan.wanted.n_most) break;
    const RectangleM& place = places[static_cast<std::size_t>(step.place)];
    const std::vector<buildorder::RoomShare>& over = problem.places[static_cast<std::size_t>(step.place)].over;
    report::OrderStep row{.square = square_name_at(grid, middle_of(place)),
                          .left_m = place.left_m,
                          .bottom_m = place.bottom_m,
                          .rooms = {},
                          .season = step.season + 1,
                          .cost = step.cost,
                          .gain_k_h = step.gain,
                          .reason = reason_of(problem, step, names_of_rooms(design, over), about.currency, shop_cost)};
    for (const buildorder::RoomShare& share : over) {
      row.rooms.push_back(design->rooms[static_cast<std::size_t>(share.room)].name);
    }
    about.cost += step.cost;
    about.gain_k_h += step.gain;
    answer.steps.push_back(std::move(row));
  }
  for (const int pin : found.pins_left_out) {
    about.left_out.push_back(fmt::format("{}: money or load does not reach for it",
                                         square_name_at(grid, middle_of(places[static_cast<std::size_t>(pin)]))));
  }
  if (answer.steps.empty()) {
    about.because = found.pins_left_out.empty() && problem.cost_of(std::vector<int>{1}) <= problem.budgets.front()
                        ? "no module more takes heat away"
                        : fmt::format("the first module costs {} {}",
                                      short_number(problem.cost_of(std::vector<int>{1})), about.currency);
  }
  about.statement = statement_of(answer, about.is_exact);
  return answer;
}

report::OrderAnswer order(const OrderInputs& inputs, const OrderWanted& wanted, const Executor& executor,
                          const Context& context) {
  OrderPlan plan = plan_order(inputs, wanted);
  RunSums bare;
  RunSums planted;
  std::vector<WantedRun> runs = runs_of(plan);
  if (runs.empty()) {
    if (context.on_progress) context.on_progress(1.0);
    return make_order(inputs, std::move(plan), bare, planted);
  }
  runs.push_back({.inputs = &inputs.year, .cover = report::CoverKind::planted, .result = &planted});
  runs.push_back({.inputs = &inputs.year, .cover = report::CoverKind::bare, .result = &bare});
  run_wanted(runs, executor, context);
  return make_order(inputs, std::move(plan), bare, planted);
}

}  // namespace houseleek::studies
