// A storm followed over the squares of a deck, and where it comes to rest; mirrored decks are one problem.
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

#include "base/contract.hpp"
#include "checks/drainage_flow.hpp"
#include "checks/ponding.hpp"

namespace houseleek::checks {
namespace {

constexpr double least_step_s = 1.0e-3;
constexpr double seconds_per_minute = 60.0;
// Steps of a minute and less are off by a hundredth themselves: a millionth of what passes, or a nanometre, leaves that.
constexpr StillWater still_in_a_storm = {.frac = 1.0e-6, .depth_m = 1.0e-9};

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// Which ways a plan is turned over.
struct Turned {
  bool x = false;
  bool y = false;
};

int turned_square(const FlowSquares& squares, Turned turned, int square) {
  const int i = square % squares.deck.columns;
  const int j = square / squares.deck.columns;
  return (turned.x ? squares.deck.columns - 1 - i : i) +
         (turned.y ? squares.deck.rows - 1 - j : j) * squares.deck.columns;
}

template <class T>
std::vector<T> turned_list(const FlowSquares& squares, Turned turned, const std::vector<T>& list) {
  std::vector<T> result(list.size());
  for (std::size_t k = 0; k < list.size(); ++k) {
    result[k] = list[at(turned_square(squares, turned, static_cast<int>(k)))];
  }
  return result;
}

FlowSquares turned_squares(const FlowSquares& squares, Turned turned) {
  FlowSquares result = squares;
  result.deck.area_m2 = turned_list(squares, turned, squares.deck.area_m2);
  result.deck.level_m = turned_list(squares, turned, squares.deck.level_m);
  result.cover = turned_list(squares, turned, squares.cover);
  const int columns = squares.deck.columns;
  const int rows = squares.deck.rows;
  for (int j = 0; j < rows; ++j) {
    for (int i = 0; i + 1 < columns; ++i) {
      const int from_i = turned.x ? columns - 2 - i : i;
      const int from_j = turned.y ? rows - 1 - j : j;
      result.deck.sill_x_m[at(i + j * (columns - 1))] = squares.deck.sill_x_m[at(from_i + from_j * (columns - 1))];
    }
  }
  for (int j = 0; j + 1 < rows; ++j) {
    for (int i = 0; i < columns; ++i) {
      const int from_i = turned.x ? columns - 1 - i : i;
      const int from_j = turned.y ? rows - 2 - j : j;
      result.deck.sill_y_m[at(i + j * columns)] = squares.deck.sill_y_m[at(from_i + from_j * columns)];
    }
  }
  for (Exit& exit : result.exits) exit.square = turned_square(squares, turned, exit.square);
  return result;
}

/// All that a deck's answer hangs on, as one list of numbers; `rates` adds what each square sheds.
std::vector<double> numbers_of(const FlowSquares& squares, const std::vector<double>& rates) {
  std::vector<double> numbers;
  for (const std::vector<double>* list :
       {&squares.deck.level_m, &squares.deck.area_m2, &squares.deck.sill_x_m, &squares.deck.sill_y_m, &rates}) {
    numbers.insert(numbers.end(), list->begin(), list->end());
  }
  for (const SquareCover& c : squares.cover) {
    numbers.insert(numbers.end(),
                   {c.open_frac, c.open_roughness_s_per_m13, c.gap_m, c.gap_frac, c.gap_roughness_s_per_m13, c.dam_x_m,
                    c.dam_y_m, c.module_m, c.pore_frac, c.layer_m, c.layer_conductivity_m_per_s});
  }
  std::vector<double> exit_at(squares.deck.level_m.size(), 0.0);
  for (std::size_t e = 0; e < squares.exits.size(); ++e) {
    exit_at[at(squares.exits[e].square)] += static_cast<double>(e + 1);
  }
  numbers.insert(numbers.end(), exit_at.begin(), exit_at.end());
  return numbers;
}

/// Of a deck and its mirror images, which is to be computed: the one whose list of numbers comes first.
Turned chosen_turn(const FlowSquares& squares, const std::vector<double>& rates) {
  Turned chosen;
  std::vector<double> first = numbers_of(squares, rates);
  for (const Turned turned : {Turned{true, false}, Turned{false, true}, Turned{true, true}}) {
    std::vector<double> numbers = numbers_of(turned_squares(squares, turned), turned_list(squares, turned, rates));
    if (numbers < first) {
      first.swap(numbers);
      chosen = turned;
    }
  }
  return chosen;
}

/// One step, halved as often as Newton asks for.
struct Advance {
  FlowStepper& stepper;
  std::span<const double> arriving_m3_per_s;
  Routed& routed;

  void add(const FlowStep& step) {
    routed.arrived_m3 += step.arrived_m3;
    for (const double left : step.exit_m3) routed.left_m3 += left;
    const double scale_m3 = std::max(routed.arrived_m3, step.throughput_m3);
    if (scale_m3 > 0.0) {
      routed.worst_residual_frac = std::max(routed.worst_residual_frac, std::fabs(step.residual_m3) / scale_m3);
    }
    routed.worst_limit = std::max(routed.worst_limit, step.worst_limit);
    routed.n_newton_iterations += step.n_newton_iterations;
    ++routed.n_steps;
  }

  void by(double step_s, FlowState& state, std::vector<double>& exit_m3, std::span<const double> near_m = {}) {
    const std::optional<FlowStep> step = stepper.advance(arriving_m3_per_s, step_s, state, near_m);
    if (!step) {
      expects(step_s > least_step_s, "water on the roof to come to rest in a step of 1 ms, after " +
                                         std::to_string(routed.n_steps) + " steps");
      by(0.5 * step_s, state, exit_m3);
      by(0.5 * step_s, state, exit_m3);
      return;
    }
    add(*step);
    for (std::size_t e = 0; e < exit_m3.size(); ++e) exit_m3[e] += step->exit_m3[e];
    double stored_m3 = 0.0;
    for (std::size_t k = 0; k < state.depth_m.size(); ++k) {
      routed.max_depth_m[k] = std::max(routed.max_depth_m[k], state.depth_m[k]);
      stored_m3 += state.volume_m3[k];
    }
    routed.stored_m3 = stored_m3;
    routed.max_volume_m3 = std::max(routed.max_volume_m3, stored_m3);
  }
};

/// True if no square has lost more than this.
bool is_drained(const std::vector<double>& before_m, const std::vector<double>& after_m, double below_m) {
  for (std::size_t k = 0; k < before_m.size(); ++k) {
    if (before_m[k] - after_m[k] > below_m) return false;
  }
  return true;
}

/// True if no square has gained water beyond what steps may be off.
bool is_falling(const std::vector<double>& before_m, const std::vector<double>& after_m) {
  constexpr double risen_m = 1.0e-7;
  for (std::size_t k = 0; k < before_m.size(); ++k) {
    if (after_m[k] - before_m[k] > risen_m) return false;
  }
  return true;
}

/// How long the next step is: a share of a minute as asked for while things move, doubled while they hardly do.
class StepLength {
 public:
  StepLength(const RouteOptions& options, int n_rain_minutes)
      : options_(options),
        n_rain_minutes_(n_rain_minutes),
        n_rain_steps_(static_cast<int>(std::ceil(seconds_per_minute / options.step_s))) {}

  struct Next {
    int minutes = 1;  // of which it is made
    int n_steps = 1;
  };
  /// `same_minutes`: so many from now on have the same run-off.
  [[nodiscard]] Next next(int minute, int same_minutes) const {
    const int n_steps = minute < n_rain_minutes_ ? n_rain_steps_ : 1;
    if (doubled_ < n_steps) return {1, (n_steps + doubled_ - 1) / doubled_};
    const int since_rain = std::max(0, minute - n_rain_minutes_);
    const int most = minute < n_rain_minutes_ ? most_minutes : std::clamp(since_rain / 10, 1, most_minutes);
    return {std::min({doubled_ / n_steps, most, same_minutes}), 1};
  }

  void learn(double error_m) {
    doubled_ = error_m <= options_.growth_error_m ? std::min(2 * doubled_, most_doubled) : 1;
  }
  void begin_anew() { doubled_ = 1; }

 private:
  static constexpr int most_minutes = 10;
  static constexpr int most_doubled = 1024;
  const RouteOptions& options_;
  int n_rain_minutes_;
  int n_rain_steps_;
  int doubled_ = 1;
};

/// The straight line through the last two depths: where Newton begins, and how far a step is off it.
class Extrapolation {
 public:
  /// Depths after a step of this length; empty while nothing is known.
  [[nodiscard]] std::vector<double> depth_m(const std::vector<double>& now_m, double step_s) const {
    std::vector<double> ahead_m;
    if (last_step_s_ <= 0.0) return ahead_m;
    for (std::size_t k = 0; k < now_m.size(); ++k) {
      ahead_m.push_back(std::max(0.0, now_m[k] + (now_m[k] - before_m_[k]) * (step_s / last_step_s_)));
    }
    return ahead_m;
  }
  void learn(std::vector<double> before_m, double step_s) {
    before_m_ = std::move(before_m);
    last_step_s_ = step_s;
  }
  void forget() { last_step_s_ = 0.0; }

 private:
  std::vector<double> before_m_;
  double last_step_s_ = 0.0;
};

double largest_difference(const std::vector<double>& a, const std::vector<double>& b) {
  double largest = 0.0;
  for (std::size_t k = 0; k < a.size(); ++k) largest = std::max(largest, std::fabs(a[k] - b[k]));
  return largest;
}

/// So many minutes from this one on shed the same; after the rain, all that are left.
int same_minutes_from(const RunOff& runoff, int minute, int n_rain_minutes, int all_minutes) {
  if (minute >= n_rain_minutes) return all_minutes - minute;
  int end = minute + 1;
  const auto is_same = [&](const std::vector<double>& column) { return column[at(end)] == column[at(minute)]; };
  while (end < n_rain_minutes &&
         std::all_of(runoff.columns_mm_per_min.begin(), runoff.columns_mm_per_min.end(), is_same)) {
    ++end;
  }
  return end - minute;
}

Routed route_as_given(const FlowSquares& squares, const RunOff& runoff, const RouteOptions& options, Routed routed) {
  const std::size_t n = squares.deck.level_m.size();
  const int n_rain_minutes =
      runoff.columns_mm_per_min.empty() ? 0 : static_cast<int>(runoff.columns_mm_per_min.front().size());
  FlowState state = dry_state(squares);
  if (routed.minutes > 0) state = {.volume_m3 = routed.end_volume_m3, .depth_m = routed.end_depth_m};
  routed.max_depth_m.resize(n, 0.0);
  routed.exit_m3_per_s.resize(squares.exits.size());
  FlowStepper stepper(squares, still_in_a_storm);
  StepLength length(options, n_rain_minutes);
  Extrapolation line;
  std::vector<double> arriving(n);
  const int all_minutes = n_rain_minutes + options.minutes_after;
  int same_minutes = 0;
  while (routed.minutes < all_minutes) {
    const int minute = routed.minutes;
    if (same_minutes == 0) {
      same_minutes = same_minutes_from(runoff, minute, n_rain_minutes, all_minutes);
      length.begin_anew();
      line.forget();
      for (std::size_t k = 0; k < n; ++k) {
        const int column = runoff.column_of_square[k];
        arriving[k] = column >= 0 && minute < n_rain_minutes ? 0.001 / seconds_per_minute * squares.deck.area_m2[k] *
                                                                   runoff.columns_mm_per_min[at(column)][at(minute)]
                                                             : 0.0;
      }
    }
    const std::vector<double> before_m = state.depth_m;
    std::vector<double> exit_m3(squares.exits.size(), 0.0);
    Advance advance{stepper, arriving, routed};
    const StepLength::Next next = length.next(minute, same_minutes);
    const double step_s = seconds_per_minute * next.minutes / next.n_steps;
    double off_m = std::numeric_limits<double>::infinity();
    for (int step = 0; step < next.n_steps; ++step) {
      const std::vector<double> ahead_m = line.depth_m(state.depth_m, step_s);
      std::vector<double> last_m = state.depth_m;
      advance.by(step_s, state, exit_m3, ahead_m);
      line.learn(std::move(last_m), step_s);
      if (!ahead_m.empty()) off_m = largest_difference(state.depth_m, ahead_m);
    }
    length.learn(off_m);
    for (std::size_t e = 0; e < exit_m3.size(); ++e) {
      routed.exit_m3_per_s[e].insert(routed.exit_m3_per_s[e].end(), at(next.minutes),
                                     exit_m3[e] / (seconds_per_minute * next.minutes));
    }
    routed.minutes += next.minutes;
    same_minutes -= next.minutes;
    if (minute < n_rain_minutes) continue;
    if (options.ends_at_peak && is_falling(before_m, state.depth_m)) break;
    if (options.drained_below_m > 0.0 && is_drained(before_m, state.depth_m, options.drained_below_m * next.minutes)) {
      break;
    }
  }
  routed.end_depth_m = state.depth_m;
  routed.end_volume_m3 = state.volume_m3;
  return routed;
}

/// These depths, or every hollow full and nothing on the rest: no steady rain leaves less.
FlowState first_state(const FlowSquares& squares, const std::vector<double>& near_m) {
  FlowState state = dry_state(squares);
  state.depth_m = near_m.empty() ? find_still_pool(squares).depth_m : near_m;
  for (std::size_t k = 0; k < state.depth_m.size(); ++k) {
    state.volume_m3[k] = volume_m3(squares.cover[k], squares.deck.area_m2[k], state.depth_m[k]);
  }
  return state;
}

/// To a hundred-thousandth of it: a pool that fills by less takes months to rise by a millimetre.
bool is_leaving_what_arrives(const FlowStep& step) {
  constexpr double close_frac = 1.0e-5;
  const double left_m3 = std::accumulate(step.exit_m3.begin(), step.exit_m3.end(), 0.0);
  return std::fabs(step.arrived_m3 - left_m3) <= close_frac * step.arrived_m3;
}

std::vector<double> steady_as_given(const FlowSquares& squares, std::span<const double> arriving_m3_per_s,
                                    const std::vector<double>& near_m) {
  const bool can_leave =
      std::any_of(squares.exits.begin(), squares.exits.end(), [](const Exit& exit) { return exit.clear_frac > 0.0; });
  expects(can_leave, "an exit that takes water");
  const double first_step_s = near_m.empty() ? 10.0 : 160.0;
  constexpr double last_step_s = 1.0e4;
  constexpr double longest_step_s = 1.0e6;
  constexpr double at_rest_m = 1.0e-7;
  constexpr int most_steps = 400;
  FlowStepper stepper(squares, {});
  FlowState state = first_state(squares, near_m);
  double step_s = first_step_s;
  double change_before_m = 0.0;
  for (int step = 0; step < most_steps; ++step) {
    const std::vector<double> before_m = state.depth_m;
    const std::optional<FlowStep> done = stepper.advance(arriving_m3_per_s, step_s, state);
    if (!done) {
      step_s *= 0.25;
      expects(step_s > least_step_s, "steady water on the roof to come to rest");
      continue;
    }
    double change_m = 0.0;
    for (std::size_t k = 0; k < before_m.size(); ++k) {
      change_m = std::max(change_m, std::fabs(state.depth_m[k] - before_m[k]));
    }
    // Levels of a deep still pool are never quieter than their last bits: there the books of the roof say whether it fills.
    const bool is_at_rest = change_m < at_rest_m || (change_m < stepper.blur_m() && is_leaving_what_arrives(*done));
    if (step_s == last_step_s && is_at_rest) return state.depth_m;
    // A little more rain than a pipe takes fills a pool for weeks: let them go by, then look again in steps as usual.
    const bool is_filling = step_s >= last_step_s && !is_at_rest && change_m > 0.9 * change_before_m;
    step_s = is_filling ? std::min(longest_step_s, 10.0 * step_s) : std::min(last_step_s, 4.0 * step_s);
    change_before_m = change_m;
  }
  expects(false, "a steady state after 400 steps");
  return {};
}

}  // namespace

Routed continue_runoff(const FlowSquares& squares, const RunOff& runoff, const RouteOptions& options,
                       const Routed& until_now) {
  expects(options.step_s > 0.0 && options.step_s <= seconds_per_minute && options.minutes_after >= 0,
          "a step of a minute or finer");
  expects(runoff.column_of_square.size() == squares.deck.level_m.size(), "a column for each square");
  for (const std::vector<double>& column : runoff.columns_mm_per_min) {
    expects(column.size() == runoff.columns_mm_per_min.front().size(), "columns of one length");
    for (const double value : column) expects(value >= 0.0 && value < 1.0e3, "run-off in mm by the minute");
  }
  for (const int column : runoff.column_of_square) {
    expects(column >= -1 && column < static_cast<int>(runoff.columns_mm_per_min.size()), "a column that is there");
  }
  const std::vector<double> which(runoff.column_of_square.begin(), runoff.column_of_square.end());
  const Turned turned = chosen_turn(squares, which);
  RunOff chosen_runoff = runoff;
  chosen_runoff.column_of_square = turned_list(squares, turned, runoff.column_of_square);
  // Turned over twice is as before.
  const auto turn = [&](Routed routed) {
    for (std::vector<double>* list : {&routed.max_depth_m, &routed.end_depth_m, &routed.end_volume_m3}) {
      *list = turned_list(squares, turned, *list);
    }
    return routed;
  };
  Routed begun = until_now;
  if (begun.minutes > 0) begun = turn(std::move(begun));
  return turn(route_as_given(turned_squares(squares, turned), chosen_runoff, options, std::move(begun)));
}

Routed route_runoff(const FlowSquares& squares, const RunOff& runoff, const RouteOptions& options) {
  return continue_runoff(squares, runoff, options, {});
}

std::vector<double> steady_depths_m(const FlowSquares& squares, std::span<const double> arriving_m3_per_s,
                                    std::span<const double> near_m) {
  const std::size_t n = squares.deck.level_m.size();
  expects(arriving_m3_per_s.size() == n && (near_m.empty() || near_m.size() == n), "a run-off for each square");
  const std::vector<double> rates(arriving_m3_per_s.begin(), arriving_m3_per_s.end());
  const std::vector<double> first_m(near_m.begin(), near_m.end());
  const Turned turned = chosen_turn(squares, rates);
  const std::vector<double> chosen_rates = turned_list(squares, turned, rates);
  const std::vector<double> chosen_first_m = turned_list(squares, turned, first_m);
  return turned_list(squares, turned, steady_as_given(turned_squares(squares, turned), chosen_rates, chosen_first_m));
}

}  // namespace houseleek::checks
