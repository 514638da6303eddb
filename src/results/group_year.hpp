// What a simulated year returns: plain columns by stack and by room, and what the solver had to do.
#pragma once
#include <string>
#include <vector>

namespace houseleek::results {

/// Columns of one stack. "At marks": the value at each hour's end; "means" and "sums" are over the hour.
struct StackYear {
  std::string name;
  int room = 0;
  double area_m2 = 0.0;
  std::vector<double> surface_c;        // at marks
  std::vector<double> foliage_c;        // at marks; empty without plants
  std::vector<double> membrane_c;       // at marks
  std::vector<double> ceiling_c;        // at marks
  std::vector<double> water_mm;         // at marks; in the whole module
  std::vector<double> root_store_frac;  // at marks; water between wilting (0) and field capacity (1) in the root zone
  std::vector<double> ceiling_flux_w_per_m2;  // means; into the room positive
  std::vector<double> evapotranspiration_mm;  // sums
  std::vector<double> drainage_mm;            // sums; through the module
  std::vector<double> runoff_mm;              // sums; off its surface
  std::vector<double> watering_mm;            // sums
  double membrane_max_c = -1.0e9;             // at step ends
  double membrane_min_c = 1.0e9;
  double ceiling_max_c = -1.0e9;
  double heat_residual_max_frac = 0.0;  // worst step: residual over the step's throughput
  double heat_residual_year_frac = 0.0;
  double water_residual_max_m = 0.0;  // worst step
  double water_residual_year_m = 0.0;
};

struct RoomYear {
  std::string name;
  std::vector<double> air_c;           // at marks
  std::vector<double> operative_c;     // means
  std::vector<double> heat_added_w;    // means; only where the room is held
  std::vector<double> heat_removed_w;  // means; only where the room is held
  double operative_max_c = -1.0e9;     // of the hourly means
  double heat_residual_max_frac = 0.0;
};

/// What the solver did.
struct SolverTally {
  int n_slices = 0;  // of all stacks
  long n_steps = 0;
  long n_newton_iterations = 0;
  long n_hours_redone = 0;
  int largest_split = 1;            // steps in ten minutes at the finest
  double largest_error_k = 0.0;     // of the accepted steps' estimates
  long n_capped_stages = 0;         // evaporation held back by the water left
  double largest_sideways_z = 0.0;  // stability number of the explicit sideways terms
};

struct GroupYear {
  std::vector<StackYear> stacks;
  std::vector<RoomYear> rooms;
  SolverTally tally;
};

}  // namespace houseleek::results
