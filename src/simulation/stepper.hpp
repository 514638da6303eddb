// The stepper behind run_group, compiled once for each set of instructions in use.
#pragma once
#include "simulation/run.hpp"

namespace houseleek::simulation {

/// As run_group, with the instructions that this code was compiled for. The lane width must be given; `instructions` is
/// not read.
[[nodiscard]] results::GroupYear step_group(const Group& group, const climate::ForcingSource& weather,
                                            const RunOptions& options, const Context& context);

#ifdef HOUSELEEK_HAS_AVX2_STEPPER
/// step_group compiled for processors with AVX2: the build gives it this name and hides everything else in it.
[[nodiscard]] results::GroupYear step_group_avx2(const Group& group, const climate::ForcingSource& weather,
                                                 const RunOptions& options, const Context& context);
#endif

}  // namespace houseleek::simulation
