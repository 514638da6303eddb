// One stack's share of a step that needs no lanes: its water, watering, resistances and films.
#pragma once
#include <array>
#include <vector>

#include "climate/year.hpp"
#include "physics/canopy.hpp"
#include "physics/film.hpp"
#include "simulation/stack_batch.hpp"
#include "simulation/water_step.hpp"

namespace houseleek::simulation {

inline constexpr double air_heat_j_per_kg_k = 1010.0;
inline constexpr double water_heat_j_per_kg_k = 4190.0;
inline constexpr double water_density_kg_per_m3 = 1000.0;
inline constexpr double dry_air_gas_constant_j_per_kg_k = 287.05;
inline constexpr double watering_time_s = 600.0;

/// What a stage needs to know before Newton's method starts; names as in NodeStage.
struct LaneStage {
  double air_c = 0.0, sun_w_per_m2 = 0.0, sky_w_per_m2 = 0.0, air_vapour_k = 0.0, pressure_per_k = 1.0;
  physics::FilmLaw film, net_film;
  double boundary_w_per_m2_k = 0.0, ground_air_w_per_m2_k = 0.0, leaf_vapour_w_per_m2_k = 0.0,
         ground_vapour_w_per_m2_k = 0.0;
  double ground_open_frac = 0.0, ground_resistance_m2_k_per_w = 1.0;
  double leaf_cap_w_per_m2 = 1.0e9, ground_cap_w_per_m2 = 1.0e9;
  double rain_w_per_m2_k = 0.0, rain_w_per_m2 = 0.0;
  double gap_wall_w_per_m2_k = 0.0, gap_entering_frac = 0.0;
  double latent_j_per_kg = 2.5e6;
  std::vector<double> water_frac;    // by store
  std::vector<double> uptake_share;  // by store; sums to 1 or is all 0
};

/// Sums over the hour, per m2.
struct HourSums {
  double ceiling_j_per_m2 = 0.0;
  double evaporated_kg_per_m2 = 0.0;
  double drained_kg_per_m2 = 0.0;
  double runoff_kg_per_m2 = 0.0;
  double watered_kg_per_m2 = 0.0;
};

/// Extremes over the steps of the hour.
struct HourExtremes {
  double membrane_max_c = -1.0e9, membrane_min_c = 1.0e9, ceiling_max_c = -1.0e9;
  double heat_residual_frac = 0.0, water_residual_m = 0.0;
};

struct StackLane {
  const Stack* spec = nullptr;
  const StackMeshes* meshes = nullptr;
  double pressure_pa = 101325.0;
  physics::ShortwaveShares sun_shares;
  double boundary_resistance_s_per_m = 0.0;
  std::vector<double> water_frac;  // by store, at the step's start
  std::array<LaneStage, 2> stage;
  WaterStep forecast, accepted;
  std::vector<double> last_uptake_kg_per_m2_s;  // by store, of the last step
  std::vector<double> last_rate_per_s;          // by store: change of water_frac in the last step
  double last_top_kg_per_m2_s = 0.0;
  double step_s = 0.0;
  double rain_kg_per_m2_s = 0.0;              // in this step
  double watering_kg_per_m2_s = 0.0;          // in this step
  double planned_watering_kg_per_m2_s = 0.0;  // over the first 600 s of this hour
  std::array<double, 2> leaf_kg_per_m2_s{};   // by stage
  std::array<double, 2> ground_kg_per_m2_s{};
  std::vector<double> uptake_kg_per_m2_s;  // by store, stage-weighted
  double top_exchange_kg_per_m2_s = 0.0;   // stage-weighted
  HourSums sums;
  HourExtremes extremes;
  // The audit's findings.
  StepBalance balance;
  double year_heat_residual_j_per_m2 = 0.0;
  double year_heat_throughput_j_per_m2 = 0.0;
  double year_water_residual_m = 0.0;

  void begin_hour(int hour_of_year);
  void begin_step(double step_s, double seconds_into_hour, const climate::Forcing& at_end, bool is_after_jump);
  /// Takes over the accepted water; what it did is the next step's forecast unless something jumps.
  void settle();
  /// `films`: the stage's films found so far; one that fits is taken, a new one is added.
  void prepare_stage(int stage, const climate::Forcing& forcing, FilmMemo& films);
  void note_evaporation(int stage, double leaf_w_per_m2, double ground_w_per_m2);
  /// Advances the water with exactly the stage-weighted evapotranspiration; false if a store would be overdrawn.
  [[nodiscard]] bool advance();
  [[nodiscard]] bool has_stores() const { return !meshes->module.stores.empty(); }
  /// Mean water flux down through the top of module slice k (k = n: out of the module), kg/m2s, in a forecast or an accepted step;
  /// what evaporates rises from the first store through the faces above it.
  void slice_faces(const WaterStep& step, double top_exchange_kg_per_m2_s, std::vector<double>& face_kg_per_m2_s) const;
  /// Root zone's water between wilting (0) and field capacity (1); may lie outside that. 1 without roots.
  [[nodiscard]] double root_store_frac(const std::vector<double>& water_frac) const;
  [[nodiscard]] double water_kg_per_m2(const std::vector<double>& water_frac) const;
};

[[nodiscard]] StackLane make_stack_lane(const Stack& stack, const StackMeshes& meshes, double pressure_pa);

}  // namespace houseleek::simulation
