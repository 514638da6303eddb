// Steps a group of stacks and rooms through a span of hours.
#include "simulation/stepper.hpp"

#include <array>
#include <cstdio>
#include <memory>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "numerics/lane.hpp"
#include "simulation/rooms.hpp"
#include "simulation/scheme.hpp"
#include "simulation/sideways.hpp"
#include "simulation/stack_batch.hpp"

namespace houseleek::simulation {

namespace {

constexpr double ten_minutes_s = 600.0;
constexpr int most_newton_iterations = 100;

/// Stacks of one topology, and where they stand among all stacks, which a run keeps batch by batch.
struct BatchPlace {
  std::unique_ptr<StackBatch> batch;
  std::size_t first = 0;
  std::size_t count = 0;
  std::vector<std::size_t> rooms;  // of each stack
};

/// Batches, and the stack of the group that stands at each place.
struct Batches {
  std::vector<BatchPlace> places;
  std::vector<std::size_t> stacks;
};

std::vector<StackMeshes> make_meshes(const Group& group, int refinement) {
  std::vector<StackMeshes> meshes;
  for (const Stack& stack : group.stacks) {
    expects(!stack.deck.empty(), "a deck under every stack");
    expects(stack.module.empty() == (stack.under == Under::nothing),
            "a module exactly where something lies on the deck");
    expects(!stack.has_canopy || !stack.module.empty(), "plants only on a module");
    expects(stack.area_m2 > 0.0 && stack.room >= 0 && stack.room < static_cast<int>(group.rooms.size()),
            "a stack with area over a room");
    StackMeshes mesh;
    if (!stack.module.empty()) mesh.module = make_mesh(stack.module, refinement);
    mesh.deck = make_mesh(stack.deck, refinement);
    for (const WaterStore& store : mesh.deck.stores) {
      expects(store.depth_m < 0.0, "no water-holding layers in a deck");
    }
    meshes.push_back(std::move(mesh));
  }
  return meshes;
}

Batches make_batches(const Group& group, std::span<const StackMeshes> meshes, int width) {
  expects(width == 1 || width == 2 || width == 4, "a width of 1, 2 or 4 lanes");
  std::vector<Topology> kinds;
  std::vector<std::vector<std::size_t>> members;
  for (std::size_t i = 0; i < group.stacks.size(); ++i) {
    const Topology topology = topology_of(group.stacks[i], meshes[i]);
    std::size_t kind = 0;
    while (kind < kinds.size() && !(kinds[kind] == topology)) ++kind;
    if (kind == kinds.size()) {
      kinds.push_back(topology);
      members.emplace_back();
    }
    members[kind].push_back(i);
  }
  Batches batches;
  for (const auto& list : members) {
    for (std::size_t from = 0; from < list.size(); from += static_cast<std::size_t>(width)) {
      BatchPlace place;
      place.first = batches.stacks.size();
      std::vector<const Stack*> stacks;
      std::vector<const StackMeshes*> own;
      for (std::size_t i = from; i < list.size() && i < from + static_cast<std::size_t>(width); ++i) {
        batches.stacks.push_back(list[i]);
        place.rooms.push_back(static_cast<std::size_t>(group.stacks[list[i]].room));
        stacks.push_back(&group.stacks[list[i]]);
        own.push_back(&meshes[list[i]]);
      }
      place.count = stacks.size();
      // What is left over at a kind's end needs no more lanes than it has stacks.
      int own_width = width;
      while (own_width / 2 >= static_cast<int>(place.count)) own_width /= 2;
      place.batch = make_batch(own_width, stacks, own, group.pressure_pa);
      batches.places.push_back(std::move(place));
    }
  }
  return batches;
}

/// All that a run works on.
struct Run {
  Run(const Group& g, const climate::ForcingSource& w, const RunOptions& o) : group(g), weather(w), options(o) {}
  const Group& group;
  const climate::ForcingSource& weather;
  const RunOptions& options;
  std::vector<StackMeshes> meshes;
  std::vector<BatchPlace> batches;
  std::vector<std::size_t> order;  // the group's stack at each place of the batches
  Sideways sideways;               // stacks in the batches' order
  std::vector<RoomState> rooms;    // at the step's start
  std::vector<RoomState> guess;    // in Newton's method
  std::array<std::vector<RoomState>, 2> stage_rooms;
  std::array<std::vector<RoomStage>, 2> room_stages;
  std::array<std::vector<double>, 2> ceiling_w;  // into each room
  Ceilings ceilings;                             // in the batches' order
  std::vector<double> residual_w;
  std::vector<RoomState> changes;
  std::vector<RoomTemperatures> seen;   // by the batch at work
  std::vector<double> ceiling_area_m2;  // of each room
  std::vector<double> ceiling_k_m2;     // sum of temperature times area, of each room
  RoomSolver solver;
  FilmMemo films;             // of the stage at work
  results::GroupYear result;  // stacks in the batches' order until the end
  double largest_residual = 0.0;
  bool is_newton_settled = true;  // in the stage last solved
  bool is_first_hour = true;      // what a run starts from is a jump of its own: not judged
  bool is_watering = false;       // some stack is watered in the first ten minutes of this hour
  // Sums over the hour.
  std::vector<double> operative_c_s, added_j, removed_j, hour_residual_frac;
};

std::span<const RoomTemperatures> rooms_of(Run& run, const BatchPlace& place, std::span<const RoomState> states) {
  run.seen.resize(place.count);
  for (std::size_t i = 0; i < place.count; ++i) {
    const RoomState& room = states[place.rooms[i]];
    run.seen[i] = {room.air_c, room.surface_c};
  }
  return run.seen;
}

std::span<CeilingReport> reports_of(Run& run, const BatchPlace& place) {
  return std::span(run.ceilings.reports).subspan(place.first, place.count);
}

/// The rows of one batch in a table by stack and deck slice; empty where the table is.
std::span<double> deck_rows_of(const Run& run, const BatchPlace& place, std::vector<double>& by_slice) {
  const std::size_t n = static_cast<std::size_t>(run.sideways.n_deck);
  return std::span(by_slice).subspan(place.first * n, place.count * n);
}

/// Moves the guess of all stacks and rooms by a share of the step last found.
void move_guess(Run& run, double share) {
  for (BatchPlace& place : run.batches) place.batch->move(share);
  for (std::size_t i = 0; i < run.guess.size(); ++i) {
    run.guess[i].air_c += share * run.changes[i].air_c;
    run.guess[i].surface_c += share * run.changes[i].surface_c;
    run.guess[i].mass_c += share * run.changes[i].mass_c;
  }
}

/// Newton's method on all stacks and rooms of one stage. False if it does not converge.
bool solve_stage(Run& run, std::size_t stage) {
  // Below this, residuals are rounding: a node's temperature is a few 1e-15 K coarse, and a thin sheet of metal passes 1e5 W/m2K,
  // a room's mass takes up as much in a step of a second.
  constexpr double rounding_k = 2e-14;
  double tolerance_w_per_m2 = run.options.newton_w_per_m2;
  for (const BatchPlace& place : run.batches)
    tolerance_w_per_m2 = larger(rounding_k * place.batch->steepest_w_per_m2_k(), tolerance_w_per_m2);
  for (std::size_t i = 0; i < run.group.rooms.size(); ++i) {
    const double rate_w_per_m2_k = run.room_stages[stage][i].mass_rate_w_per_k / run.group.rooms[i].floor_area_m2;
    tolerance_w_per_m2 = larger(rounding_k * rate_w_per_m2_k, tolerance_w_per_m2);
  }
  double last_worst = 1.0e300;
  double share = 0.0;  // of the last step that was kept so far
  for (int iteration = 0; iteration < most_newton_iterations; ++iteration) {
    double worst = 0.0;
    for (BatchPlace& place : run.batches) {
      worst = larger(place.batch->evaluate(rooms_of(run, place, run.guess), reports_of(run, place)), worst);
    }
    room_residuals(run.group, run.room_stages[stage], run.guess, run.ceilings, run.residual_w);
    for (std::size_t k = 0; k < run.residual_w.size(); ++k) {
      worst = larger(numerics::abs(run.residual_w[k]) / run.group.rooms[k / 3].floor_area_m2, worst);
    }
    run.largest_residual = worst;
    if (worst <= tolerance_w_per_m2) return true;
    // Rules with kinks (windows, machines) can send whole steps to and fro between two pieces: a step that makes things worse is halved.
    constexpr double least_share = 1.0 / 64.0;
    if (!(worst < last_worst) && share > least_share) {
      share *= 0.5;
      move_guess(run, -share);
      continue;
    }
    last_worst = worst;
    if (!(worst < 1.0e200)) return false;
    ++run.result.tally.n_newton_iterations;
    for (BatchPlace& place : run.batches) place.batch->eliminate(reports_of(run, place));
    solve_rooms(run.group, run.room_stages[stage], run.guess, run.ceilings, run.residual_w, run.solver, run.changes);
    bool is_cut = false;
    for (BatchPlace& place : run.batches) {
      is_cut = place.batch->find_change(rooms_of(run, place, run.changes)) || is_cut;
    }
    move_guess(run, 1.0);
    // A step that was cut node by node has not Newton's direction any more: a shorter one need not be better.
    share = is_cut ? 0.0 : 1.0;
  }
  return false;
}

struct StepTime {
  int hour_of_year = 0;
  double start_frac = 0.0;  // of the hour
  double end_frac = 1.0;
  bool is_after_jump = true;
};

/// The steps of one hour: ten minutes over `split`; after a jump of the weather the first of them is cut dyadically, because what follows a jump
/// dies away fast, and a step with sunrise or sunset inside is cut in four.
std::vector<StepTime> plan_hour(const Run& run, int hour_of_year, int split) {
  constexpr double sun_jump_w_per_m2 = 50.0;
  const int n = 6 * split;
  const int hours = run.options.hours_in_year;
  const double sun_before = run.weather((hour_of_year + hours - 1) % hours, 1.0).global_w_per_m2;
  const bool is_sun_jumping =
      numerics::abs(run.weather(hour_of_year, 0.0).global_w_per_m2 - sun_before) > sun_jump_w_per_m2;
  double rain_before = run.weather((hour_of_year + hours - 1) % hours, 1.0).rain_kg_per_m2_s;
  bool is_watering_before = false;
  std::vector<StepTime> steps;
  for (int i = 0; i < n; ++i) {
    const double start = static_cast<double>(i) / n;
    const double end = (i + 1.0) / n;
    const double rain = run.weather(hour_of_year, end).rain_kg_per_m2_s;
    const bool is_watering = i < split && run.is_watering;
    const bool is_jump = rain != rain_before || is_watering != is_watering_before || (i == 0 && is_sun_jumping);
    rain_before = rain;
    is_watering_before = is_watering;
    // At sunrise and sunset radiation bends sharply somewhere inside the step.
    const bool is_bend = (run.weather(hour_of_year, start).global_w_per_m2 > 0.0) !=
                         (run.weather(hour_of_year, end).global_w_per_m2 > 0.0);
    double from = start;
    if (is_jump || is_bend) {
      constexpr std::array<double, 3> dyadic{0.125, 0.25, 0.5}, even{0.25, 0.5, 0.75};
      for (const double part : is_jump ? dyadic : even) {
        const double to = start + part * (end - start);
        steps.push_back({hour_of_year, from, to, from == start});
        from = to;
      }
    }
    steps.push_back({hour_of_year, from, end, from == start && (is_jump || i == 0)});
  }
  return steps;
}

/// One step; false if it has to be done finer.
bool take_step(Run& run, const StepTime& time) {
  const double length_frac = time.end_frac - time.start_frac;
  const double step_s = 3600.0 * length_frac;
  const climate::Forcing at_end = run.weather(time.hour_of_year, time.end_frac);
  const climate::Forcing at_first = run.weather(time.hour_of_year, time.start_frac + scheme::gamma * length_frac);
  for (BatchPlace& place : run.batches)
    place.batch->begin_step(step_s, 3600.0 * time.start_frac, at_end, time.is_after_jump);
  const double ratio = (1.0 - scheme::gamma) / scheme::gamma;
  for (std::size_t stage = 0; stage < 2; ++stage) {
    const climate::Forcing& forcing = stage == 0 ? at_first : at_end;
    run.films.entries.clear();
    if (run.sideways.n_deck > 0) {
      for (BatchPlace& place : run.batches) {
        place.batch->deck_temperatures(stage == 0 ? -1 : 0, deck_rows_of(run, place, run.sideways.temperature_c));
      }
      run.sideways.find_explicit(static_cast<int>(stage));
    }
    for (BatchPlace& place : run.batches) {
      place.batch->prepare_stage(static_cast<int>(stage), forcing,
                                 deck_rows_of(run, place, run.sideways.explicit_w_per_m2), run.films);
    }
    for (std::size_t i = 0; i < run.group.rooms.size(); ++i) {
      const double known_c = stage == 0
                                 ? run.rooms[i].mass_c
                                 : run.rooms[i].mass_c + ratio * (run.stage_rooms[0][i].mass_c - run.rooms[i].mass_c);
      run.room_stages[stage][i] =
          make_room_stage(run.group.rooms[i], forcing, time.hour_of_year, known_c, scheme::gamma * step_s);
    }
    run.is_newton_settled = solve_stage(run, stage);
    if (!run.is_newton_settled) return false;
    run.stage_rooms[stage] = run.guess;
    for (double& w : run.ceiling_w[stage]) w = 0.0;
    for (std::size_t k = 0; k < run.ceilings.places.size(); ++k) {
      const CeilingReport& report = run.ceilings.reports[k];
      run.ceiling_w[stage][run.ceilings.places[k].room] +=
          run.ceilings.places[k].area_m2 * (report.convective_w_per_m2 + report.radiative_w_per_m2);
    }
    for (BatchPlace& place : run.batches)
      place.batch->finish_stage(static_cast<int>(stage), rooms_of(run, place, run.guess));
  }
  bool is_accepted = true;
  for (BatchPlace& place : run.batches)
    is_accepted = place.batch->finish_step(run.options.error_bound_k, !run.is_first_hour) && is_accepted;
  return is_accepted;
}

/// Books and sums of the step just accepted, for rooms; then the rooms move on.
void keep_room_step(Run& run, double step_s) {
  constexpr std::array<double, 2> weight{scheme::first_weight, scheme::second_weight};
  for (double& k_m2 : run.ceiling_k_m2) k_m2 = 0.0;
  for (const BatchPlace& place : run.batches) {
    for (std::size_t i = 0; i < place.count; ++i) {
      const CeilingPlace& ceiling = run.ceilings.places[place.first + i];
      run.ceiling_k_m2[ceiling.room] += ceiling.area_m2 * place.batch->ceiling_c(static_cast<int>(i));
    }
  }
  for (std::size_t i = 0; i < run.rooms.size(); ++i) {
    const Room& room = run.group.rooms[i];
    double net_j = 0.0, gross_j = 0.0;
    for (std::size_t stage = 0; stage < 2; ++stage) {
      const RoomBooks books = room_books(run.group, static_cast<int>(i), run.room_stages[stage][i],
                                         run.stage_rooms[stage], run.ceiling_w[stage][i]);
      net_j += weight[stage] * books.net_w * step_s;
      gross_j += weight[stage] * books.gross_w * step_s;
      const double held_w = held_heat(room, run.stage_rooms[stage][i].air_c).value_w;
      (held_w > 0.0 ? run.added_j[i] : run.removed_j[i]) += weight[stage] * numerics::abs(held_w) * step_s;
    }
    const double stored_j = room.heat_capacity_j_per_k * (run.stage_rooms[1][i].mass_c - run.rooms[i].mass_c);
    if (!room.is_prescribed && !(gross_j <= 0.0)) {
      run.hour_residual_frac[i] = larger(numerics::abs(stored_j - net_j) / gross_j, run.hour_residual_frac[i]);
    }
    const RoomState& end = run.stage_rooms[1][i];
    const double radiant_c = ((room.total_surface_m2 - run.ceiling_area_m2[i]) * end.surface_c + run.ceiling_k_m2[i]) /
                             room.total_surface_m2;
    run.operative_c_s[i] += step_s * (0.3 * end.air_c + 0.7 * radiant_c);
  }
  run.rooms = run.stage_rooms[1];
}

/// Written so that NaN is refused too.
void expect_in_range(const results::StackYear& stack, int hour_of_year) {
  const double surface_c = stack.surface_c.back();
  if (surface_c >= lowest_surface_c && surface_c <= highest_surface_c) return;
  std::array<char, 32> words{};
  std::snprintf(words.data(), words.size(), "%.1f", surface_c);
  throw NumericalFailure("hour " + std::to_string(hour_of_year) + " of the year: the surface of " + stack.name +
                         " at " + words.data() + " degC, beyond the -60 to 120 degC in which its equations hold");
}

void keep_hour(Run& run, int hour_of_year) {
  for (BatchPlace& place : run.batches) {
    place.batch->keep_hour(std::span(run.result.stacks).subspan(place.first, place.count));
    for (std::size_t i = 0; i < place.count; ++i) expect_in_range(run.result.stacks[place.first + i], hour_of_year);
    if (place.batch->error_estimate_k() > run.result.tally.largest_error_k)
      run.result.tally.largest_error_k = place.batch->error_estimate_k();
  }
  for (std::size_t i = 0; i < run.rooms.size(); ++i) {
    results::RoomYear& out = run.result.rooms[i];
    out.air_c.push_back(run.rooms[i].air_c);
    out.heat_residual_max_frac = larger(run.hour_residual_frac[i], out.heat_residual_max_frac);
    const double mean_c = run.operative_c_s[i] / 3600.0;
    out.operative_c.push_back(mean_c);
    out.operative_max_c = larger(mean_c, out.operative_max_c);
    if (run.group.rooms[i].is_held) {
      out.heat_added_w.push_back(run.added_j[i] / 3600.0);
      out.heat_removed_w.push_back(run.removed_j[i] / 3600.0);
    }
  }
}

/// One hour, done again with half the step until it holds.
void take_hour(Run& run, int hour_of_year, int least_split) {
  run.is_watering = false;
  for (BatchPlace& place : run.batches) {
    run.is_watering = place.batch->begin_hour(hour_of_year) || run.is_watering;
    place.batch->save();
  }
  const std::vector<RoomState> rooms_before = run.rooms;
  const std::vector<RoomState> guess_before = run.guess;
  for (int split = least_split;; split *= 2) {
    bool is_done = true;
    run.operative_c_s.assign(run.rooms.size(), 0.0);
    run.added_j.assign(run.rooms.size(), 0.0);
    run.removed_j.assign(run.rooms.size(), 0.0);
    run.hour_residual_frac.assign(run.rooms.size(), 0.0);
    const std::vector<StepTime> steps = plan_hour(run, hour_of_year, split);
    std::size_t step = 0;
    for (; step < steps.size(); ++step) {
      if (!take_step(run, steps[step])) {
        is_done = false;
        break;
      }
      ++run.result.tally.n_steps;
      keep_room_step(run, 3600.0 * (steps[step].end_frac - steps[step].start_frac));
    }
    if (is_done) {
      if (split > run.result.tally.largest_split) run.result.tally.largest_split = split;
      return;
    }
    ++run.result.tally.n_hours_redone;
    if (split * 2 > run.options.largest_split) {
      std::array<char, 32> residual{};
      std::snprintf(residual.data(), residual.size(), "%.3g", run.largest_residual);
      throw NumericalFailure("hour " + std::to_string(hour_of_year) + " of the year, step " + std::to_string(step) +
                             " of " + std::to_string(steps.size()) + ", the finest: " +
                             (run.is_newton_settled ? "a store overdrawn or the error estimate over its bound"
                                                    : "Newton's method does not settle") +
                             "; largest residual " + residual.data() + " W/m2");
    }
    for (BatchPlace& place : run.batches) place.batch->restore();
    run.rooms = rooms_before;
    run.guess = guess_before;
  }
}

}  // namespace

results::GroupYear step_group(const Group& group, const climate::ForcingSource& weather, const RunOptions& options,
                              const Context& context) {
  expects(!group.rooms.empty() && options.n_hours >= 1 && options.spin_up_hours >= 0 && options.steps_per_10_min >= 1,
          "at least one room, one hour and one step");
  Run run(group, weather, options);
  run.meshes = make_meshes(group, options.refinement);
  Batches batches = make_batches(group, run.meshes, options.lane_width);
  run.batches = std::move(batches.places);
  run.order = std::move(batches.stacks);
  run.sideways = make_sideways(group, run.meshes, run.order);
  for (const Room& room : group.rooms) {
    const double start_c = room.is_prescribed ? room.prescribed_c : room.initial_temperature_c;
    run.rooms.push_back({start_c, start_c, start_c});
    results::RoomYear year;
    year.name = room.name;
    run.result.rooms.push_back(std::move(year));
  }
  run.guess = run.rooms;
  const std::size_t n_rooms = group.rooms.size();
  for (std::size_t stage = 0; stage < 2; ++stage) {
    run.stage_rooms[stage] = run.rooms;
    run.room_stages[stage].resize(n_rooms);
    run.ceiling_w[stage].assign(n_rooms, 0.0);
  }
  run.ceilings.reports.resize(group.stacks.size());
  run.ceiling_area_m2.assign(n_rooms, 0.0);
  run.ceiling_k_m2.assign(n_rooms, 0.0);
  run.residual_w.assign(3 * n_rooms, 0.0);
  run.changes.resize(n_rooms);
  for (const std::size_t i : run.order) {
    const Stack& stack = group.stacks[i];
    const std::size_t room = static_cast<std::size_t>(stack.room);
    run.ceilings.places.push_back({.room = room, .area_m2 = stack.area_m2});
    run.ceiling_area_m2[room] += stack.area_m2;
    results::StackYear year;
    year.name = stack.name;
    year.room = stack.room;
    year.area_m2 = stack.area_m2;
    run.result.stacks.push_back(std::move(year));
    run.result.tally.n_slices +=
        static_cast<int>(run.meshes[i].module.slices.size() + run.meshes[i].deck.slices.size());
  }

  // The explicit sideways terms bound the step: |z| at most 2 [ascher1997].
  int split = options.steps_per_10_min;
  while (run.sideways.largest_z(ten_minutes_s / split) > 2.0) split *= 2;
  run.result.tally.largest_sideways_z = run.sideways.largest_z(ten_minutes_s / split);

  const int total = options.spin_up_hours + options.n_hours;
  for (int i = 0; i < total; ++i) {
    if (i % 24 == 0) {
      check_cancelled(context);
      if (context.on_progress) context.on_progress(static_cast<double>(i) / total);
    }
    const int hour = options.first_hour - options.spin_up_hours + i;
    const int hour_of_year = (hour % options.hours_in_year + options.hours_in_year) % options.hours_in_year;
    const bool is_kept = i >= options.spin_up_hours;
    take_hour(run, hour_of_year, split);
    run.is_first_hour = false;
    if (is_kept) keep_hour(run, hour_of_year);
  }
  for (BatchPlace& place : run.batches) {
    place.batch->keep_year(std::span(run.result.stacks).subspan(place.first, place.count));
    run.result.tally.n_capped_stages += place.batch->n_capped();
  }
  std::vector<results::StackYear> in_order(group.stacks.size());
  for (std::size_t k = 0; k < in_order.size(); ++k) in_order[run.order[k]] = std::move(run.result.stacks[k]);
  run.result.stacks = std::move(in_order);
  return std::move(run.result);
}

}  // namespace houseleek::simulation
