// The rooms under the roof: air, surfaces and mass of each, joined by partitions, solved with their ceilings.
#pragma once
#include <span>
#include <vector>

#include "climate/year.hpp"
#include "simulation/group.hpp"
#include "simulation/stack_batch.hpp"

namespace houseleek::simulation {

struct RoomState {
  double air_c = 20.0;
  double surface_c = 20.0;
  double mass_c = 20.0;
  bool operator==(const RoomState&) const = default;
};

/// What a stage knows of a room before Newton's method starts.
struct RoomStage {
  double outside_c = 20.0;
  double internal_gain_w = 0.0;
  double solar_gain_w = 0.0;
  double window_per_h = 0.0;  // what the rule may add at this hour
  double mass_known_c = 20.0;
  double mass_rate_w_per_k = 0.0;  // C/(gamma h)
};

/// Heat to the air of a held room: what machines add (positive) or remove (negative).
struct HeldHeat {
  double value_w = 0.0;
  double slope_w_per_k = 0.0;
};
[[nodiscard]] HeldHeat held_heat(const Room& room, double air_c);

/// Heat that outside air brings.
struct AirExchange {
  double value_w = 0.0;
  double slope_w_per_k = 0.0;  // by the room's air temperature
};
[[nodiscard]] AirExchange air_exchange(const Room& room, const RoomStage& stage, double air_c);

[[nodiscard]] RoomStage make_room_stage(const Room& room, const climate::Forcing& forcing, int hour_of_year,
                                        double mass_known_c, double gamma_step_s);

/// Where a ceiling hangs.
struct CeilingPlace {
  std::size_t room = 0;
  double area_m2 = 0.0;
};

/// What the stacks tell the rooms: one report a place.
struct Ceilings {
  std::vector<CeilingPlace> places;
  std::vector<CeilingReport> reports;
};

/// Residuals of all rooms, W; three a room (air, surfaces, mass), into the node positive.
void room_residuals(const Group& group, std::span<const RoomStage> stages, std::span<const RoomState> states,
                    const Ceilings& ceilings, std::span<double> residual_w);

/// Working space of solve_rooms, kept by the caller between calls.
struct RoomSolver {
  std::vector<double> slope, right;
  std::vector<int> exchanged;
};

/// One Newton step of all rooms with their ceilings eliminated; fills the changes.
/// Errors:   throws ContractViolation if the system is singular.
void solve_rooms(const Group& group, std::span<const RoomStage> stages, std::span<const RoomState> states,
                 const Ceilings& ceilings, std::span<const double> residual_w, RoomSolver& solver,
                 std::span<RoomState> changes);

/// The part of phi_int and phi_sol that reaches each node [iso13790, Annex C].
struct GainShares {
  double air_w = 0.0, surface_w = 0.0, mass_w = 0.0;
};
[[nodiscard]] GainShares gain_shares(const Room& room, double internal_w, double solar_w);

/// Heat balance of one room over one stage, found by other sums: everything that crosses its boundary and what its mass takes up, W.
struct RoomBooks {
  double net_w = 0.0;
  double gross_w = 0.0;
};
[[nodiscard]] RoomBooks room_books(const Group& group, int room, const RoomStage& stage,
                                   std::span<const RoomState> states, double ceiling_w);

}  // namespace houseleek::simulation
