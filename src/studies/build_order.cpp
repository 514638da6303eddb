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

constexpr double usual_gap_m = 0.02;  // between neighbours, where the recipe is laid nowhere yet
constexpr double grid_step_m = 0.05;  // of the search for places

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

double gap_of(const design::ValidDesign& design, int recipe) {
  for (const design::Patch& patch : design->patches) {
    if (patch.recipe == recipe) return 0.001 * patch.spacing_mm;
  }
  return usual_gap_m;
}

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

/// One hypothetical roof to run.
struct Extended {
  std::optional<design::ValidDesign> design;
  std::optional<plan::Layout> layout;
  RunSums sums;
  std::atomic<double> done_frac = 0.0;
  [[nodiscard]] static double weight() { return 1.0; }
};

std::unique_ptr<Extended> extend(const OrderInputs& inputs, int recipe, std::span<const RectangleM> places) {
  auto extended = std::make_unique<Extended>();
  const std::string text =
      text_with_modules(inputs.description.text, recipe_of(inputs.year.design, recipe).name, places);
  Result<design::ValidDesign> read = design::read_design(text, inputs.description.file_name, inputs.catalogue);
  expects(static_cast<bool>(read), "a description that stands with modules on free places");
  extended->design = std::move(read).value();
  extended->layout = plan::make_layout(*extended->design);
  return extended;
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

double hot_k_h(const RunSums& run, std::size_t room) { return run.rooms[room].all.degree_hours_above_k_h; }

void add_point(report::RoomResponse& response, double covered_m2, double gain_k_h) {
  constexpr double least_step_m2 = 1e-6;
  if (!response.covered_m2.empty() && covered_m2 <= response.covered_m2.back() + least_step_m2) return;
  response.covered_m2.push_back(covered_m2);
  response.gain_k_h.push_back(gain_k_h);
}

/// Over the bare roof, from what is covered today.
std::vector<report::RoomResponse> responses_of(const OrderInputs& inputs, const RunSums& bare, const RunSums& planted,
                                               const std::vector<std::unique_ptr<Extended>>& more) {
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

std::string statement_of(const report::OrderAnswer& answer, bool is_exact) {
  const report::OrderAbout& about = answer.about;
  if (!about.because.empty()) return fmt::format("Nothing next: {}.", about.because);
  return fmt::format("{} modules of \"{}\" for {} {} take {} hot degree-hours a year away; {}.", answer.steps.size(),
                     about.recipe, short_number(about.cost), about.currency, short_number(about.gain_k_h),
                     is_exact ? "no order of these places does more"
                              : fmt::format("no order does more than {} better", short_number(about.most_loss_k_h)));
}

}  // namespace

std::vector<RectangleM> candidate_places(const design::ValidDesign& design, int recipe) {
  const design::Recipe& of = recipe_of(design, recipe);
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

report::OrderAnswer make_order(const OrderInputs& inputs, const OrderWanted& wanted, const RunSums& bare,
                               const RunSums& planted, const Executor& executor, const Context& context) {
  const design::ValidDesign& design = inputs.year.design;
  report::OrderAnswer answer;
  answer.design_name = design->name;
  answer.is_invented = design->is_invented;
  report::OrderAbout& about = answer.about;
  about.currency = design->prices.currency;
  about.budgets = wanted.budgets;
  const auto none = [&](std::string because) {
    about.because = std::move(because);
    about.statement = statement_of(answer, true);
    about.is_exact = true;
    if (about.load_statement.empty()) about.load_statement = "Load: not asked, nothing is laid.";
    if (context.on_progress) context.on_progress(1.0);
    return answer;
  };
  if (design->recipes.empty()) return none("no recipe is described");
  const int recipe = wanted.recipe.value_or(usual_recipe(design));
  about.recipe = recipe_of(design, recipe).name;
  about.placed = recipe_of(design, recipe).placed == design::Placed::raised ? "raised" : "flat";
  const LoadJudge load = load_judge(design, recipe);
  about.load_statement = load.statement;
  if (!load.forbids_all.empty()) return none(load.forbids_all);
  const money::Cost one = money::cost_of_module(design, recipe, recipe_of(design, recipe).placed);
  if (!one.unpriced.empty()) {
    return none(fmt::format("no price is known of {}", fmt::join(money::once_each(one.unpriced), ", ")));
  }
  const std::vector<RectangleM> free = candidate_places(design, recipe);
  std::vector<geometry::PointM> pins = design->order.pins;
  std::vector<geometry::PointM> bans = design->order.bans;
  pins.insert(pins.end(), wanted.pins.begin(), wanted.pins.end());
  bans.insert(bans.end(), wanted.bans.begin(), wanted.bans.end());
  std::vector<RectangleM> places;
  for (const RectangleM& place : free) {
    if (has_any(place, bans)) continue;
    if (load.trial && !load.trial->with(std::span(&place, 1)).is_within) continue;
    places.push_back(place);
  }
  for (const geometry::PointM pin : pins) {
    if (std::none_of(places.begin(), places.end(), [pin](const RectangleM& place) { return is_over(place, pin); })) {
      about.left_out.push_back(left_out_words(design, pin));
    }
  }
  about.n_places = static_cast<int>(places.size());
  if (places.empty()) return none("no place is left that clear strips, obstacles, bans and load allow");

  std::vector<std::unique_ptr<Extended>> more;
  if (places.size() > most_places_by_straight_line) {
    more.push_back(extend(inputs, recipe, first_halves(design, places)));
  }
  more.push_back(extend(inputs, recipe, places));
  run_parts(
      more,
      [&inputs](Extended& roof, const Context& of_run) {
        const RunInputs year{.design = *roof.design,
                             .layout = *roof.layout,
                             .weather = inputs.year.weather,
                             .limits = inputs.year.limits,
                             .seasons = inputs.year.seasons,
                             .thresholds_frac = inputs.year.thresholds_frac,
                             .options = inputs.year.options,
                             .has_fine_strips = inputs.year.has_fine_strips};
        roof.sums = run_cover(year, report::CoverKind::planted, false, of_run);
      },
      executor, context);
  about.responses = responses_of(inputs, bare, planted, more);

  buildorder::Problem problem;
  for (const RectangleM& place : places) {
    problem.places.push_back({.over = rooms_below(design, place), .kind = 0, .is_pinned = has_any(place, pins)});
  }
  for (const report::RoomResponse& response : about.responses) {
    problem.responses.push_back({response.covered_m2, response.gain_k_h});
  }
  problem.cost_of = cost_function(design, recipe, about.n_places);
  const std::vector<int> all{about.n_places};
  problem.budgets = wanted.budgets.empty() ? std::vector<double>{problem.cost_of(all)} : wanted.budgets;
  if (load.trial) {
    problem.judge = [&places, trial = load.trial](std::span<const int> chosen) {
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
  const double shop_cost = money::outlay_of(one)->likely;
  const report::SquareGrid grid = make_square_grid(design->roof);
  for (const buildorder::Step& step : found.steps) {
    if (static_cast<int>(answer.steps.size()) == wanted.n_most) break;
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
  constexpr double two_of_four = 0.5;
  std::vector<std::unique_ptr<Extended>> today;
  today.push_back(std::make_unique<Extended>());
  today.push_back(std::make_unique<Extended>());
  run_parts(
      today,
      [&inputs, &today](Extended& one, const Context& of_run) {
        const bool is_first = &one == today.front().get();
        one.sums =
            run_cover(inputs.year, is_first ? report::CoverKind::bare : report::CoverKind::planted, false, of_run);
      },
      executor, part_of(context, 0.0, two_of_four));
  return make_order(inputs, wanted, today[0]->sums, today[1]->sums, executor, part_of(context, two_of_four, 1.0));
}

}  // namespace houseleek::studies
