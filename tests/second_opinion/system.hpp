// The semi-discrete system of docs/equations/stack.md as an ordinary differential equation: slices, foliage, rooms'
// masses and stores are its unknowns, all massless nodes are solved inside the right-hand side.
#pragma once
#include <cstddef>
#include <vector>

#include "climate/year.hpp"
#include "faces.hpp"
#include "mesh.hpp"
#include "rooms.hpp"
#include "simulation/group.hpp"

namespace houseleek::tests::second_opinion {

/// What one stack looks like after the last call of derivative().
struct StackNow {
  SurfaceNodes nodes;
  SurfaceFluxes fluxes;
  GapNodes gap;
  double surface_c = 0.0;
  double membrane_c = 0.0;
  double run_off_kg_per_m2_s = 0.0;
  double drained_kg_per_m2_s = 0.0;
  double evaporated_kg_per_m2_s = 0.0;
  std::vector<double> excess_kg_per_m2_s;  // by store: what a full store could not hold
};

class System {
 public:
  System(const simulation::Group& group, int slice_refinement);
  System(const System&) = delete;  // parts of it point at its own copy of the group
  System& operator=(const System&) = delete;

  [[nodiscard]] std::size_t size() const { return size_; }
  /// Unknowns before the first store: stack by stack foliage and slices top down, then the rooms' masses.
  [[nodiscard]] std::size_t n_heat() const { return n_heat_; }
  [[nodiscard]] std::size_t n_stores() const { return size_ - n_heat_; }
  [[nodiscard]] std::vector<double> initial_state() const;

  /// Rain, watering and gains stay as they are within a segment; `fraction` counts in the hour.
  void begin_segment(const climate::ForcingSource& forcing, int hour, double from_fraction, double to_fraction);
  /// For tests: one unchanging moment.
  void begin_moment(const climate::Forcing& forcing, int hour);

  /// False where a massless node could not be found.
  [[nodiscard]] bool derivative(double time_in_hour_s, const double* state, double* slope);

  /// A full store's theta stays; what it cannot hold passes on. False where a massless node could not be found.
  [[nodiscard]] bool mark_full_stores(double time_in_hour_s, double* state);
  /// Events by store: its distance from full, or of a full one the excess it passes on.
  [[nodiscard]] bool events(double time_in_hour_s, const double* state, double* values);
  void switch_store(std::size_t store, double* state);

  [[nodiscard]] const StackNow& now(std::size_t stack) const { return stacks_[stack].now; }
  [[nodiscard]] const RoomNodes& room_nodes() const { return room_nodes_; }
  [[nodiscard]] const Mesh& mesh(std::size_t stack) const { return stacks_[stack].mesh; }
  [[nodiscard]] std::size_t foliage_at(std::size_t stack) const { return stacks_[stack].foliage; }
  [[nodiscard]] std::size_t slices_at(std::size_t stack) const { return stacks_[stack].first_slice; }
  [[nodiscard]] std::size_t mass_at(std::size_t room) const { return first_mass_ + room; }
  [[nodiscard]] std::size_t stores_at(std::size_t stack) const { return stacks_[stack].first_store; }
  [[nodiscard]] double water_mm(std::size_t stack, const double* state) const;

 private:
  struct OneStack {
    const simulation::Stack* design = nullptr;
    Mesh mesh;
    SunShares sun;
    std::size_t foliage = 0;
    std::size_t first_slice = 0;
    std::size_t first_store = 0;
    std::vector<bool> is_full;
    StackNow now;
    std::vector<double> half_resistance_m2_k_per_w;  // by slice, module then deck
    std::vector<double> uptake_kg_per_m2_s;          // by store
    double watering_kg_per_m2_s = 0.0;
  };
  struct Moment;

  void set_hour(int hour);
  [[nodiscard]] climate::Forcing forcing_now(double time_in_hour_s) const;
  [[nodiscard]] bool solve_top(OneStack& stack, const Moment& moment, const double* state);
  void conduct(OneStack& stack, const double* state, double* slope) const;
  [[nodiscard]] bool cross_gap(OneStack& stack, const Moment& moment, const double* state, double* slope) const;
  void move_water(OneStack& stack, const Moment& moment, const double* state, double* slope) const;
  void conduct_sideways(const double* state, double* slope) const;
  void divide_by_capacity(const OneStack& stack, const double* state, double* slope) const;

  simulation::Group group_;
  std::vector<OneStack> stacks_;
  Rooms rooms_;
  RoomNodes room_nodes_;
  std::vector<RoomNow> rooms_now_;
  std::vector<CeilingNow> ceilings_;
  std::size_t first_mass_ = 0;
  std::size_t n_heat_ = 0;
  std::size_t size_ = 0;
  climate::ForcingSource forcing_;
  int hour_ = 0;
  double rain_kg_per_m2_s_ = 0.0;
};

/// Watering given during the first 600 s of an hour; throws for the rule by the store, which this program lacks.
[[nodiscard]] double watering_kg_per_m2_s(const simulation::Watering& rule, int hour);
/// All rules of a stack; what falls in the same hour adds up.
[[nodiscard]] double watering_kg_per_m2_s(const simulation::Stack& stack, int hour);

}  // namespace houseleek::tests::second_opinion
