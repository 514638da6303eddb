// Runs a group of stacks and rooms through a span of hours.
#pragma once
#include <stdexcept>

#include "base/context.hpp"
#include "climate/year.hpp"
#include "results/group_year.hpp"
#include "simulation/group.hpp"

namespace houseleek::simulation {

/// Which instructions of the processor a run may use: changes speed, never a bit of the result.
enum class Instructions {
  widest,    // the widest that this processor and this build have
  baseline,  // those that every x86-64 (or whatever the build is for) has
  avx2
};
[[nodiscard]] bool has_instructions(Instructions instructions);

struct RunOptions {
  int first_hour = 0;  // of the year
  int n_hours = 8760;
  int hours_in_year = 8760;     // hours wrap: spin-up takes the hours before first_hour
  int spin_up_hours = 24 * 30;  // run before the kept hours, not kept
  int steps_per_10_min = 1;
  int refinement = 1;  // slices
  int lane_width = 0;  // 1, 2 or 4: changes speed, never a bit of the result; 0: the fastest for the instructions
  Instructions instructions = Instructions::widest;
  double newton_w_per_m2 = 1e-9;
  double error_bound_k = 0.1;  // estimated error of one step in the deck
  int largest_split = 512;     // steps in 10 minutes at the finest
};

/// Between these the equations of a surface hold. A dark dry roof over insulation comes near the upper end in a desert.
inline constexpr double lowest_surface_c = -60.0;
inline constexpr double highest_surface_c = 120.0;

/// The solver could not finish a step at the finest split, or a surface left the range in which its equations hold.
class NumericalFailure : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Steps the group through its hours.
/// Shape:    columns in the order of group.stacks and group.rooms, one value a kept hour.
/// Order:    2 in time and in the slices' thickness.
/// Conserves: heat and water of every stack; the audit's residuals are part of the result.
/// Cost:     about 6 steps an hour, two stages each, one linear sweep of every stack a stage and a few Newton iterations.
/// Errors:   throws NumericalFailure with hour and residual where Newton's method or the error bound cannot be met at the finest split, or with the surface
///           that left its range, and ContractViolation for a group that is not well formed.
[[nodiscard]] results::GroupYear run_group(const Group& group, const climate::ForcingSource& weather,
                                           const RunOptions& options, const Context& context = {});

}  // namespace houseleek::simulation
