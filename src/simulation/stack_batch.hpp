// A batch of stacks of the same make, stepped side by side in lanes; the interface the group's solver sees.
#pragma once
#include <memory>
#include <span>
#include <vector>

#include "climate/year.hpp"
#include "physics/film.hpp"
#include "results/group_year.hpp"
#include "simulation/group.hpp"
#include "simulation/mesh.hpp"

namespace houseleek::simulation {

/// What tells stacks of one batch from those of another: everything else may differ from lane to lane.
struct Topology {
  bool has_canopy = false;
  bool has_net = false;
  Under under = Under::nothing;
  std::vector<int> module_stores;  // store of each module slice
  int n_deck = 0;
  bool operator==(const Topology&) const = default;
};

struct StackMeshes {
  Mesh module;
  Mesh deck;
};

[[nodiscard]] Topology topology_of(const Stack& stack, const StackMeshes& meshes);

/// Films of one stage that some stack has needed already: most stacks of a house share one.
struct FilmMemo {
  struct Entry {
    OutsideFilm film;
    double wind_m_per_s = 0.0;
    physics::FilmLaw law;
  };
  std::vector<Entry> entries;
};

/// A room as its ceilings see it in a Newton iteration.
struct RoomTemperatures {
  double air_c = 0.0;
  double surface_c = 0.0;
};

/// What one ceiling tells its room in a Newton iteration, per m2 of ceiling.
struct CeilingReport {
  double convective_w_per_m2 = 0.0;
  double radiative_w_per_m2 = 0.0;
  double slope_w_per_m2_k = 0.0;  // of the convective flux by the ceiling's temperature
  double radiative_w_per_m2_k = 0.0;
  double reduced_slope_w_per_m2_k = 0.0;  // of the ceiling's balance with the rest of the stack eliminated
  double reduced_residual_w_per_m2 = 0.0;
};

/// Balances of one stack over one step, found from the stage states by separate code.
struct StepBalance {
  double heat_residual_frac = 0.0;
  double heat_residual_j_per_m2 = 0.0;
  double heat_throughput_j_per_m2 = 0.0;
  double water_residual_m = 0.0;
};

/// Stepping of stacks side by side. Lane i works on stacks[i] of the list the batch was made from; results do not depend on what shares a batch.
/// A class because it owns the working arrays of its lanes and their layout is known to one lane type only.
class StackBatch {
 public:
  virtual ~StackBatch() = default;
  [[nodiscard]] virtual int n_stacks() const = 0;
  /// Remembers the state, so that an hour can be done again; and returns to it.
  virtual void save() = 0;
  virtual void restore() = 0;
  /// The hour's start: decides whether watering begins (over the first 600 s); true if some stack is watered.
  virtual bool begin_hour(int hour_of_year) = 0;
  /// Starts a step: forecast of water. `is_after_jump`: the last step tells nothing about this one.
  virtual void begin_step(double step_s, double seconds_into_hour, const climate::Forcing& at_end,
                          bool is_after_jump) = 0;
  /// Stage 0 or 1. `sideways_w_per_m2`: explicit heat into the deck slices, one row a stack, mean over the stage's way;
  /// empty: none.
  virtual void prepare_stage(int stage, const climate::Forcing& forcing, std::span<const double> sideways_w_per_m2,
                             FilmMemo& films) = 0;
  /// Steepest conductance between neighbouring nodes at the stage prepared, W/m2K, of all its stacks.
  [[nodiscard]] virtual double steepest_w_per_m2_k() const = 0;
  /// Residuals at the present guess; returns the largest, W/m2, and fills the fluxes of one report a stack.
  virtual double evaluate(std::span<const RoomTemperatures> rooms, std::span<CeilingReport> reports) = 0;
  /// Eliminates all but the ceilings; fills the rest of the reports.
  virtual void eliminate(std::span<CeilingReport> reports) = 0;
  /// Finds the change of the whole stack that belongs to the change of the room's nodes; true if it had to be cut short.
  [[nodiscard]] virtual bool find_change(std::span<const RoomTemperatures> changes) = 0;
  /// Moves the guess by a share of the change last found; a negative share takes it back.
  virtual void move(double share) = 0;
  /// Ends a stage: slices placed, evaporation noted.
  virtual void finish_stage(int stage, std::span<const RoomTemperatures> rooms) = 0;
  /// Ends a step; false if it must be done finer (a store overdrawn, or the error estimate over the bound where it is judged).
  virtual bool finish_step(double error_bound_k, bool is_judged) = 0;
  [[nodiscard]] virtual double error_estimate_k() const = 0;
  /// Writes the hour's values at its end, its sums and its extremes.
  virtual void keep_hour(std::span<results::StackYear> columns) = 0;
  /// Ends the year: yearly residuals.
  virtual void keep_year(std::span<results::StackYear> columns) = 0;
  /// Deck slices at the step's start (stage -1) or a stage, one row a stack.
  virtual void deck_temperatures(int stage, std::span<double> temperature_c) const = 0;
  [[nodiscard]] virtual double ceiling_c(int stack) const = 0;
  [[nodiscard]] virtual long n_capped() const = 0;
};

/// Makes a batch of the given width (1, 2 or 4 lanes); `stacks` have one topology. Short batches repeat their last stack in the spare lanes.
[[nodiscard]] std::unique_ptr<StackBatch> make_batch(int width, std::span<const Stack* const> stacks,
                                                     std::span<const StackMeshes* const> meshes, double pressure_pa);

}  // namespace houseleek::simulation
