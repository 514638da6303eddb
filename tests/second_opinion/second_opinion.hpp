// A second program for the year of stacks and rooms, to judge the first one with: the same semi-discrete system, built
// from docs/equations/stack.md alone and solved by CVODE.
#pragma once
#include <string>
#include <vector>

#include "climate/year.hpp"
#include "simulation/group.hpp"

namespace houseleek::tests::second_opinion {

// Shared with the judged program: the structs of simulation/group.hpp, and the weather (climate::ForcingSource, and
// whatever stands behind it). Everything else is separate: saturation pressure, latent heat, films, canopy, gap, rooms,
// slicing, water, and exp, pow, cbrt (the C library's).

/// Values at each hour's end, seen from inside that hour.
struct HourMarks {
  std::vector<double> surface_c;
  std::vector<double> membrane_c;
  std::vector<double> ceiling_c;
  std::vector<double> room_air_c;
  std::vector<double> foliage_c;  // empty without a canopy
  std::vector<double> water_mm;   // all stores of the module; empty without one
  // For this program's own checks:
  std::vector<double> canopy_air_c;
  std::vector<double> room_surface_c;
  std::vector<double> room_mass_c;
  std::vector<double> drained_mm_per_h;  // rates at the mark
  std::vector<double> run_off_mm_per_h;
};

/// What CVODE had to do, and where the run ended.
struct Work {
  long n_steps = 0;
  long n_derivatives = 0;
  long n_jacobians = 0;
  long n_restarts = 0;
  long n_failed_tests = 0;
  long n_failed_newton = 0;
  std::vector<double> final_state;  // in the order of System
};

/// Solves the group from its initial state over `n_hours` from `first_hour`; one entry a stack.
/// Method:   CVODE, variable-order BDF, restarted at each hour, where a ten-minute slot changes the rain, where watering
///           ends, and where a store fills or stops being full; massless nodes by Newton inside the right-hand side.
/// Errors:   throws std::runtime_error where CVODE gives up, ContractViolation for a design it does not know
///           (watering by the store, deck layers that hold water).
/// Tolerance: `rtol` relative, plus rtol * 10 K for temperatures and rtol * 0.1 for water by volume.
[[nodiscard]] std::vector<HourMarks> second_opinion_run(const simulation::Group& group,
                                                        const climate::ForcingSource& forcing, int first_hour,
                                                        int n_hours, double rtol, int slice_refinement,
                                                        Work* work = nullptr);

}  // namespace houseleek::tests::second_opinion
