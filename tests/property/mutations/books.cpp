// Runs a few stormy summer days and says whether the books of every step close; tools/mutate_fluxes.py builds it from spoiled copies.
#include <cstdio>
#include <exception>

#include "second_opinion/synthetic_weather.hpp"
#include "second_opinion/test_groups.hpp"
#include "simulation/run.hpp"

namespace {

using houseleek::simulation::Group;
using houseleek::tests::second_opinion::Kind;
using houseleek::tests::second_opinion::linked_group;
using houseleek::tests::second_opinion::one_stack_group;
using houseleek::tests::second_opinion::synthetic_weather;

struct Worst {
  double heat_frac = 0.0, room_frac = 0.0, water_m = 0.0;
};

void take(double candidate, double& worst) {
  if (!(candidate <= worst)) worst = candidate;
}

Worst worst_residuals() {
  Group soaked = linked_group();
  for (auto& stack : soaked.stacks) {
    for (auto& layer : stack.module) layer.initial_water_frac = 0.9 * layer.saturated_frac;
  }
  Worst worst;
  for (const Group& group : {soaked, one_stack_group(Kind::closed), one_stack_group(Kind::ventilated)}) {
    houseleek::simulation::RunOptions options;
    options.first_hour = 180 * 24;
    options.n_hours = 24 * 4;
    options.spin_up_hours = 0;
    options.lane_width = 1;
    options.error_bound_k = 10.0;  // a spoiled flux may not be smooth; the books are judged, not the step
    const auto result = houseleek::simulation::run_group(
        group, synthetic_weather({.wet_hours_frac = 0.2, .shower_mm_per_10_min = 3.0}), options);
    for (const auto& stack : result.stacks) {
      take(stack.heat_residual_max_frac, worst.heat_frac);
      take(stack.water_residual_max_m, worst.water_m);
    }
    for (const auto& room : result.rooms) take(room.heat_residual_max_frac, worst.room_frac);
  }
  return worst;
}

}  // namespace

/// Exit code: 0 the books close, 1 they are open, 2 there is no result.
int main() {
  try {
    const Worst worst = worst_residuals();
    std::printf("heat %.1e  rooms %.1e  water %.1e m", worst.heat_frac, worst.room_frac, worst.water_m);
    return worst.heat_frac < 1e-8 && worst.room_frac < 1e-8 && worst.water_m < 1e-9 ? 0 : 1;
  } catch (const std::exception& stop) {
    std::printf("%s", stop.what());
    return 2;
  }
}
