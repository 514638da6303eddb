// Drives CVODE through the hours, restarting it wherever the right-hand side jumps.
#include "second_opinion.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sundials/sundials_context.h>
#include <sunlinsol/sunlinsol_band.h>
#include <sunmatrix/sunmatrix_band.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <stdexcept>

#include "base/contract.hpp"
#include "system.hpp"

namespace houseleek::tests::second_opinion {
namespace {

constexpr double hour_s = 3600.0;

void check(int flag, const char* what) {
  if (flag < 0) throw std::runtime_error(std::string("CVODE: ") + what + " gave " + std::to_string(flag));
}

int derivative_callback(realtype time, N_Vector state, N_Vector slope, void* data) {
  auto& system = *static_cast<System*>(data);
  return system.derivative(time, N_VGetArrayPointer(state), N_VGetArrayPointer(slope)) ? 0 : 1;
}

int event_callback(realtype time, N_Vector state, realtype* values, void* data) {
  auto& system = *static_cast<System*>(data);
  return system.events(time, N_VGetArrayPointer(state), values) ? 0 : -1;
}

/// Slopes by differences: heat unknowns act on their neighbours (with one stack and one room on no others), so every
/// third one is moved at once; stores one by one, within the band. What lies outside the band is weak and left out (water
/// on heat; other stacks' ceilings, masses and decks): the matrix only steers CVODE's Newton, whose residual is exact.
int band_callback(realtype time, N_Vector state_vector, N_Vector slope_vector, SUNMatrix matrix, void* data,
                  N_Vector work_state, N_Vector work_slope, N_Vector /*unused*/) {
  auto& system = *static_cast<System*>(data);
  const double* state = N_VGetArrayPointer(state_vector);
  const double* slope = N_VGetArrayPointer(slope_vector);
  double* moved = N_VGetArrayPointer(work_state);
  double* moved_slope = N_VGetArrayPointer(work_slope);
  const std::size_t n = system.size();
  const std::size_t n_heat = system.n_heat();
  constexpr double step_k = 1e-5;
  constexpr double step_frac = 1e-8;
  std::copy(state, state + n, moved);
  const auto put = [&](std::size_t column, std::size_t from, std::size_t end, double step) {
    for (std::size_t row = from; row < end; ++row) {
      SM_ELEMENT_B(matrix, static_cast<sunindextype>(row), static_cast<sunindextype>(column)) =
          (moved_slope[row] - slope[row]) / step;
    }
  };
  for (std::size_t first = 0; first < std::min<std::size_t>(3, n_heat); ++first) {
    for (std::size_t i = first; i < n_heat; i += 3) moved[i] = state[i] + step_k;
    if (!system.derivative(time, moved, moved_slope)) return 1;
    for (std::size_t i = first; i < n_heat; i += 3) {
      moved[i] = state[i];
      put(i, i == 0 ? 0 : i - 1, std::min(i + 2, n_heat), step_k);
    }
  }
  for (std::size_t i = n_heat; i < n; ++i) {
    moved[i] = state[i] + step_frac;
    if (!system.derivative(time, moved, moved_slope)) return 1;
    moved[i] = state[i];
    put(i, i == n_heat ? i : i - 1, std::min(i + 2, n), step_frac);
  }
  return 0;
}

/// All that CVODE hands out, freed in one place.
class Solver {
 public:
  Solver(System& system, double rtol) : system_(system) {
    check(SUNContext_Create(nullptr, &context_), "SUNContext_Create");
    const auto n = static_cast<sunindextype>(system.size());
    state_ = N_VNew_Serial(n, context_);
    N_Vector absolute = N_VNew_Serial(n, context_);
    double* tolerance = N_VGetArrayPointer(absolute);
    for (std::size_t i = 0; i < system.size(); ++i) tolerance[i] = rtol * (i < system.n_heat() ? 10.0 : 0.1);
    const std::vector<double> start = system.initial_state();
    std::copy(start.begin(), start.end(), N_VGetArrayPointer(state_));
    cvode_ = CVodeCreate(CV_BDF, context_);
    check(CVodeInit(cvode_, derivative_callback, 0.0, state_), "CVodeInit");
    check(CVodeSVtolerances(cvode_, rtol, absolute), "CVodeSVtolerances");
    N_VDestroy(absolute);
    check(CVodeSetUserData(cvode_, &system), "CVodeSetUserData");
    check(CVodeSetMaxNumSteps(cvode_, 100000), "CVodeSetMaxNumSteps");
    matrix_ = SUNBandMatrix(n, 1, 1, context_);
    linear_ = SUNLinSol_Band(state_, matrix_, context_);
    check(CVodeSetLinearSolver(cvode_, linear_, matrix_), "CVodeSetLinearSolver");
    check(CVodeSetJacFn(cvode_, band_callback), "CVodeSetJacFn");
    if (system.n_stores() > 0) {
      check(CVodeRootInit(cvode_, static_cast<int>(system.n_stores()), event_callback), "CVodeRootInit");
      check(CVodeSetNoInactiveRootWarn(cvode_), "CVodeSetNoInactiveRootWarn");  // a just full store passes on nothing
    }
  }
  ~Solver() {
    CVodeFree(&cvode_);
    SUNLinSolFree(linear_);
    SUNMatDestroy(matrix_);
    N_VDestroy(state_);
    SUNContext_Free(&context_);
  }
  Solver(const Solver&) = delete;
  Solver& operator=(const Solver&) = delete;

  /// From one moment of an hour to another within which nothing jumps but stores that fill.
  void advance(double from_s, double to_s) {
    double time_s = from_s;
    if (!system_.mark_full_stores(from_s, state())) throw std::runtime_error("no massless nodes at a restart");
    int n_switches = 0;
    while (time_s < to_s) {
      restart(time_s, to_s);
      const int flag = CVode(cvode_, to_s, state_, &time_s, CV_NORMAL);
      check(flag, "CVode");
      count();
      if (flag != CV_ROOT_RETURN) return;
      if (++n_switches > 1000) throw std::runtime_error("a store switches between full and not full without end");
      std::vector<int> found(system_.n_stores());
      check(CVodeGetRootInfo(cvode_, found.data()), "CVodeGetRootInfo");
      for (std::size_t j = 0; j < found.size(); ++j) {
        if (found[j] != 0) system_.switch_store(j, state());
      }
    }
  }
  [[nodiscard]] double* state() { return N_VGetArrayPointer(state_); }
  [[nodiscard]] const Work& work() const { return work_; }

 private:
  void restart(double from_s, double to_s) {
    check(CVodeReInit(cvode_, from_s, state_), "CVodeReInit");
    check(CVodeSetStopTime(cvode_, to_s), "CVodeSetStopTime");
    ++work_.n_restarts;
  }
  void count() {
    const auto add = [&](int (*get)(void*, long*), long& total) {
      long part = 0;
      check(get(cvode_, &part), "a counter");
      total += part;
    };
    add(CVodeGetNumSteps, work_.n_steps);
    add(CVodeGetNumRhsEvals, work_.n_derivatives);
    add(CVodeGetNumJacEvals, work_.n_jacobians);
    add(CVodeGetNumErrTestFails, work_.n_failed_tests);
    add(CVodeGetNumNonlinSolvConvFails, work_.n_failed_newton);
  }

  System& system_;
  SUNContext context_ = nullptr;
  void* cvode_ = nullptr;
  N_Vector state_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver linear_ = nullptr;
  Work work_;
};

/// Fractions of an hour between which rain and watering stay as they are.
std::vector<double> jumps_within(const simulation::Group& group, const climate::ForcingSource& forcing, int hour) {
  constexpr int n_slots = 6;
  std::vector<double> edges{0.0};
  const auto rain = [&](int slot) { return forcing(hour, (slot + 0.5) / n_slots).rain_kg_per_m2_s; };
  bool is_watered = false;
  for (const simulation::Stack& stack : group.stacks) {
    for (const simulation::Watering& rule : stack.waterings) {
      is_watered = is_watered || watering_kg_per_m2_s(rule, hour) > 0.0;
    }
  }
  for (int slot = 1; slot < n_slots; ++slot) {
    const bool is_watering_end = slot == 1 && is_watered;
    if (is_watering_end || rain(slot) != rain(slot - 1)) edges.push_back(static_cast<double>(slot) / n_slots);
  }
  edges.push_back(1.0);
  return edges;
}

void write_marks(const simulation::Group& group, System& system, const double* state, std::vector<HourMarks>& marks) {
  std::vector<double> unused(system.size());
  if (!system.derivative(hour_s, state, unused.data())) throw std::runtime_error("no massless nodes at an hour's end");
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const auto room = static_cast<std::size_t>(group.stacks[i].room);
    const StackNow& now = system.now(i);
    HourMarks& m = marks[i];
    m.surface_c.push_back(now.surface_c);
    m.membrane_c.push_back(now.membrane_c);
    m.ceiling_c.push_back(system.room_nodes().ceiling_c[i]);
    m.room_air_c.push_back(system.room_nodes().air_c[room]);
    m.room_surface_c.push_back(system.room_nodes().surface_c[room]);
    m.room_mass_c.push_back(state[system.mass_at(room)]);
    if (group.stacks[i].has_canopy) {
      m.foliage_c.push_back(state[system.foliage_at(i)]);
      m.canopy_air_c.push_back(now.nodes.canopy_air_c);
    }
    if (!system.mesh(i).stores.empty()) {
      m.water_mm.push_back(system.water_mm(i, state));
      m.drained_mm_per_h.push_back(now.drained_kg_per_m2_s * hour_s);
      m.run_off_mm_per_h.push_back(now.run_off_kg_per_m2_s * hour_s);
    }
  }
}

}  // namespace

std::vector<HourMarks> second_opinion_run(const simulation::Group& group, const climate::ForcingSource& forcing,
                                          int first_hour, int n_hours, double rtol, int slice_refinement, Work* work) {
  expects(first_hour >= 0 && n_hours >= 0 && rtol > 0.0, "hours from 0 and a positive tolerance");
  System system(group, slice_refinement);
  system.begin_segment(forcing, first_hour, 0.0, 1.0);
  Solver solver(system, rtol);
  std::vector<HourMarks> marks(group.stacks.size());
  for (int hour = first_hour; hour < first_hour + n_hours; ++hour) {
    const std::vector<double> edges = jumps_within(group, forcing, hour);
    for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
      system.begin_segment(forcing, hour, edges[i], edges[i + 1]);
      solver.advance(edges[i] * hour_s, edges[i + 1] * hour_s);
    }
    write_marks(group, system, solver.state(), marks);
  }
  if (work != nullptr) {
    *work = solver.work();
    work->final_state.assign(solver.state(), solver.state() + system.size());
  }
  return marks;
}

}  // namespace houseleek::tests::second_opinion
