// A year of planted stacks, heat and water: time and accuracy beside a general-purpose integrator in the same run.
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "second_opinion/comparison.hpp"
#include "second_opinion/second_opinion.hpp"
#include "second_opinion/synthetic_weather.hpp"
#include "second_opinion/test_groups.hpp"
#include "simulation/run.hpp"

namespace {

using namespace houseleek;
using tests::second_opinion::HourMarks;
using tests::second_opinion::StackDifference;

/// Processor time of this process: other work on the machine does not count.
double now_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

struct Timed {
  double median_s = 0.0;
  results::GroupYear year;
};

Timed timed_run(const simulation::Group& group, const simulation::RunOptions& options, int n_repeats) {
  Timed out;
  std::vector<double> seconds;
  for (int i = 0; i < n_repeats; ++i) {
    const double start = now_s();
    out.year = simulation::run_group(group, tests::second_opinion::synthetic_weather(), options);
    seconds.push_back(now_s() - start);
  }
  std::sort(seconds.begin(), seconds.end());
  out.median_s = seconds[seconds.size() / 2];
  return out;
}

/// Several stacks alike but for what makes each differ a little, over one room.
simulation::Group planted_group(int n_stacks) {
  simulation::Group group = tests::second_opinion::one_stack_group(tests::second_opinion::Kind::ventilated);
  const simulation::Stack first = group.stacks[0];
  for (int i = 1; i < n_stacks; ++i) {
    simulation::Stack stack = first;
    stack.canopy.cover_frac = first.canopy.cover_frac - 0.02 * i;
    group.stacks.push_back(stack);
  }
  for (simulation::Stack& stack : group.stacks) stack.area_m2 = first.area_m2 / n_stacks;
  return group;
}

void print_differences(const StackDifference& d) {
  std::printf(
      "    largest hourly difference from CVODE at 1e-8: surface %.4f K, membrane %.4f K, ceiling %.4f K, water %.4f "
      "mm\n",
      d.surface_k.largest, d.membrane_k.largest, d.ceiling_k.largest, d.water_mm.largest);
}

}  // namespace

int main() {
  constexpr double bar_s = 0.250;
  simulation::RunOptions options;
  options.spin_up_hours = 0;
  const simulation::Group one = planted_group(1);
  const simulation::Group several = planted_group(8);

  std::printf("A year of one planted stack on a ventilated gap, heat and water, default mesh and step.\n");
  const Timed single = timed_run(one, options, 5);
  const Timed together = timed_run(several, options, 3);
  simulation::RunOptions plain = options;
  plain.instructions = simulation::Instructions::baseline;
  const Timed baseline = timed_run(several, plain, 3);
  plain.lane_width = 1;
  const Timed one_lane = timed_run(several, plain, 3);
  const double per_stack_s = together.median_s / 8.0;
  const auto& tally = together.year.tally;
  std::printf("  alone %.0f ms; as one of 8: %.0f ms each (bar %.0f ms) with %s\n", 1e3 * single.median_s,
              1e3 * per_stack_s, 1e3 * bar_s,
              simulation::has_instructions(simulation::Instructions::avx2) ? "AVX2" : "baseline instructions");
  std::printf(
      "  with the instructions of every processor %.0f ms each, ratio %.2f; in single lanes %.0f ms each, ratio %.2f\n",
      1e3 * baseline.median_s / 8.0, baseline.median_s / together.median_s, 1e3 * one_lane.median_s / 8.0,
      one_lane.median_s / together.median_s);
  std::printf(
      "  slices %d a stack, steps %ld, Newton iterations %.2f a stage, hours redone %ld, largest error estimate %.3f "
      "K\n",
      tally.n_slices / 8, tally.n_steps,
      static_cast<double>(tally.n_newton_iterations) / (2.0 * static_cast<double>(tally.n_steps)), tally.n_hours_redone,
      tally.largest_error_k);

  const auto judge = [&](double rtol, double& seconds) {
    const double start = now_s();
    auto marks =
        tests::second_opinion::second_opinion_run(one, tests::second_opinion::synthetic_weather(), 0, 8760, rtol, 1);
    seconds = now_s() - start;
    return marks[0];
  };
  double fine_s = 0.0, coarse_s = 0.0;
  const HourMarks fine = judge(1e-8, fine_s);
  print_differences(difference(single.year.stacks[0], single.year.rooms[0], fine));
  const HourMarks coarse = judge(1e-4, coarse_s);
  const auto apart = [](const std::vector<double>& a, const std::vector<double>& b) {
    return tests::second_opinion::difference(a, b).largest;
  };
  std::printf("  CVODE on the same system, 1e-4: %.2f s (%.1f times ours), surface %.4f K, membrane %.4f K from 1e-8\n",
              coarse_s, coarse_s / single.median_s, apart(coarse.surface_c, fine.surface_c),
              apart(coarse.membrane_c, fine.membrane_c));
  std::printf("  CVODE on the same system, 1e-8: %.2f s (%.1f times ours)\n", fine_s, fine_s / single.median_s);

  if (per_stack_s > bar_s) {
    std::printf("MISSED: a stack-year over %.0f ms\n", 1e3 * bar_s);
    return 1;
  }
  return 0;
}
