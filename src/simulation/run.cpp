// Chooses the instructions and the lane width of a run.
#include "simulation/run.hpp"

#include "base/contract.hpp"
#include "simulation/stepper.hpp"

namespace houseleek::simulation {

namespace {

// Measured on the terrace house: two lanes fill the registers that every x86-64 has, four those of AVX2; more lanes than a
// register holds cost more in moves than they save.
constexpr int baseline_lane_width = 2;
constexpr int avx2_lane_width = 4;

}  // namespace

bool has_instructions(Instructions instructions) {
  if (instructions != Instructions::avx2) return true;
#ifdef HOUSELEEK_HAS_AVX2_STEPPER
  return __builtin_cpu_supports("avx2") != 0;
#else
  return false;
#endif
}

results::GroupYear run_group(const Group& group, const climate::ForcingSource& weather, const RunOptions& options,
                             const Context& context) {
  expects(has_instructions(options.instructions), "instructions that this processor and this build have");
  const bool is_avx2 = options.instructions != Instructions::baseline && has_instructions(Instructions::avx2);
  RunOptions with_width = options;
  if (options.lane_width == 0) with_width.lane_width = is_avx2 ? avx2_lane_width : baseline_lane_width;
#ifdef HOUSELEEK_HAS_AVX2_STEPPER
  if (is_avx2) return step_group_avx2(group, weather, with_width, context);
#endif
  return step_group(group, weather, with_width, context);
}

}  // namespace houseleek::simulation
