// Loads against an allowance at every section: exact against dense samples and against all patterns one by one.
#include "checks/sections.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "base/contract.hpp"

namespace houseleek::checks {
namespace {

using physics::Beam;
using physics::solve_beam;

ChangingLoad load_at(const Beam& beam, double from_m, double to_m, double least_kn, double greatest_kn) {
  return {solve_beam(beam, {from_m, to_m, 1.0}), least_kn, greatest_kn};
}

const Section& of(const std::array<Section, 6>& sections, Effect effect) {
  return *std::find_if(sections.begin(), sections.end(), [effect](const Section& s) { return s.effect == effect; });
}

TEST(Sections, TheWholeFigureOnOneSpanIsJustReached) {
  const Beam beam{{0.0, 4.0}, false};
  const std::vector<ChangingLoad> loads = {load_at(beam, 0.0, 4.0, 0.0, 8.0)};
  const auto sections = compare_sections(beam, loads, make_even_allowance(beam, 2.0, false));
  for (const Section& one : sections) EXPECT_FALSE(is_beyond(one)) << words_from(one.effect) << " " << one.excess;
  const std::vector<ChangingLoad> heavier = {load_at(beam, 0.0, 4.0, 0.0, 8.001)};
  const auto beyond = compare_sections(beam, heavier, make_even_allowance(beam, 2.0, false));
  EXPECT_TRUE(is_beyond(of(beyond, Effect::sagging)));
  EXPECT_TRUE(is_beyond(of(beyond, Effect::reaction)));
  EXPECT_FALSE(is_beyond(of(beyond, Effect::hogging)));
}

TEST(Sections, ALoadInTheMiddleBreaksBendingAtItsPlace) {
  // 2 kN/m on 4 m: 4 kNm in the middle. 5 kN there: 5 kNm; the excess 2.5 x - (4 x - x2) is greatest in the middle.
  const Beam beam{{0.0, 4.0}, false};
  const std::vector<ChangingLoad> loads = {load_at(beam, 2.0, 2.0, 0.0, 5.0)};
  const auto sections = compare_sections(beam, loads, make_even_allowance(beam, 2.0, false));
  const Section& sagging = of(sections, Effect::sagging);
  EXPECT_NEAR(sagging.at_m, 2.0, 1e-9);
  EXPECT_NEAR(sagging.demand, 5.0, 1e-12);
  EXPECT_NEAR(sagging.allowance, 4.0, 1e-12);
  // Shear 2.5 kN up to the load; the figure right of the middle alone brings 2 x 2 x 1/4 = 1 kN there.
  const Section& shear = of(sections, Effect::shear_up);
  EXPECT_NEAR(shear.at_m, 2.0, 1e-9);
  EXPECT_NEAR(shear.excess, 1.5, 1e-9);
}

TEST(Sections, ByTurnsIsTheWorstOfAllPatterns) {
  const Beam beam{{0.0, 3.0, 7.0, 9.0}, false};
  const SpanAllowance by_turns = make_even_allowance(beam, 1.5, true);
  // A load so large that demand is the same for both: only the allowance is judged.
  const std::vector<ChangingLoad> loads = {load_at(beam, 1.0, 2.5, 0.0, 3.0), load_at(beam, 4.0, 6.0, 1.0, 6.0)};
  const auto sections = compare_sections(beam, loads, by_turns);
  for (const Section& one : sections) {
    if (one.effect != Effect::sagging && one.effect != Effect::hogging) continue;
    const double sign = one.effect == Effect::sagging ? 1.0 : -1.0;
    double best = 0.0;
    for (int pattern = 0; pattern < 8; ++pattern) {
      double sum = 0.0;
      for (std::size_t k = 0; k < 3; ++k) {
        if ((pattern >> k) & 1) sum += sign * physics::beam_moment_knm(beam, by_turns.spans[k], one.at_m);
      }
      best = std::max(best, sum);
    }
    // Parts of spans bring no less than whole ones, and no more than the figure wherever it does harm, by thin slices.
    EXPECT_GE(one.allowance, best - 1e-9) << words_from(one.effect);
    double thin = 0.0;
    const double slice_m = 0.005;
    for (double s_m = 0.5 * slice_m; s_m < 9.0; s_m += slice_m) {
      const double m = sign * physics::beam_moment_knm(beam, solve_beam(beam, {s_m, s_m, 1.5 * slice_m}), one.at_m);
      thin += std::max(0.0, m);
    }
    EXPECT_LE(one.allowance, thin + 1e-3) << words_from(one.effect);
  }
}

TEST(Sections, NeverBelowDenseSamples) {
  std::mt19937_64 random(20240511);
  const auto draw = [&random](double low, double high) {
    return low + (high - low) * static_cast<double>(random() >> 11) * 0x1p-53;
  };
  for (int trial = 0; trial < 40; ++trial) {
    Beam beam;
    beam.is_built_in = trial % 3 == 0;
    beam.supports_m = {draw(-2.0, 0.0)};
    const int n_spans = 1 + trial % 4;
    for (int k = 0; k < n_spans; ++k) beam.supports_m.push_back(beam.supports_m.back() + draw(1.5, 6.0));
    const SpanAllowance allowance = make_even_allowance(beam, draw(0.5, 3.0), trial % 2 == 0);
    std::vector<ChangingLoad> loads;
    for (int i = 0; i < 5; ++i) {
      const double from_m = draw(beam.supports_m.front(), beam.supports_m.back() - 0.8);
      const double least_kn = draw(0.0, 1.0);
      loads.push_back(load_at(beam, from_m, from_m + draw(0.0, 0.8), least_kn, least_kn + draw(0.0, 3.0)));
    }
    const auto sections = compare_sections(beam, loads, allowance);
    double worst[2] = {-1e300, -1e300};
    const int n = 4000;
    for (int i = 0; i < n; ++i) {
      const double x_m = beam.supports_m.front() + (i + 0.5) / n * (beam.supports_m.back() - beam.supports_m.front());
      double up = 0.0, down = 0.0, allowed_up = 0.0, allowed_down = 0.0, together = 0.0;
      for (const ChangingLoad& load : loads) {
        const double m = physics::beam_moment_knm(beam, load.of_one_kn, x_m);
        up += std::max(load.least_kn * m, load.greatest_kn * m);
        down += std::min(load.least_kn * m, load.greatest_kn * m);
      }
      for (const physics::BeamResponse& span : allowance.is_by_turns ? allowance.parts : allowance.spans) {
        const double m = physics::beam_moment_knm(beam, span, x_m);
        allowed_up += std::max(0.0, m);
        allowed_down += std::min(0.0, m);
        together += m;
      }
      if (!allowance.is_by_turns) {
        allowed_up = std::max(0.0, together);
        allowed_down = std::min(0.0, together);
      }
      worst[0] = std::max(worst[0], up - allowed_up);
      worst[1] = std::max(worst[1], allowed_down - down);
    }
    for (int i = 0; i < 2; ++i) {
      const double found = sections[static_cast<std::size_t>(i)].excess;
      EXPECT_GE(found, worst[i] - 1e-9) << "trial " << trial;
      EXPECT_NEAR(found, worst[i], 0.02 * (1.0 + std::fabs(worst[i]))) << "trial " << trial;
    }
  }
}

TEST(Sections, ShearOfPartOfASpanByHand) {
  // 2 kN/m on the left half of 4 m alone: at 1 m 2 kN from the right part of the loaded half, at 3 m -1 kN.
  const Beam beam{{0.0, 4.0}, false};
  const std::vector<ChangingLoad> loads = {load_at(beam, 0.0, 2.0, 0.0, 4.0)};
  const auto sections = compare_sections(beam, loads, make_even_allowance(beam, 2.0, false));
  for (const Section& one : sections) EXPECT_FALSE(is_beyond(one)) << words_from(one.effect) << one.excess;
}

TEST(Sections, AShearAllowanceIsNeverMoreThanPartsOfTheFigureBring) {
  const Beam beam{{0.0, 3.0, 7.0, 9.0}, false};
  for (const bool is_by_turns : {false, true}) {
    for (int i = 1; i < 90; ++i) {
      const double x_m = 0.1 * i + 0.013;
      // A heavy load at x shows the section there with its allowance; its own shear does not matter.
      const double step_m = 0.01;
      double best = 0.0;
      double best_down = 0.0;
      double together = 0.0;
      for (double s_m = 0.5 * step_m; s_m < 9.0; s_m += step_m) {
        const double one = physics::beam_shear_kn(beam, solve_beam(beam, {s_m, s_m, 1.5 * step_m}), x_m);
        best += std::max(0.0, one);
        best_down -= std::min(0.0, one);
        together += one;
      }
      best = std::max(best, best_down);
      const std::vector<ChangingLoad> loads = {load_at(beam, x_m, x_m, 0.0, 1e6)};
      const auto sections = compare_sections(beam, loads, make_even_allowance(beam, 1.5, is_by_turns));
      const Section& shear = of(sections, Effect::shear_up);
      if (std::fabs(shear.at_m - x_m) > 1e-6) continue;
      EXPECT_LE(shear.allowance, best + 0.02) << x_m;
      EXPECT_GE(shear.allowance, together - 0.02) << x_m;
    }
  }
}

TEST(Sections, MirroredBeamMirrorsSections) {
  const Beam beam{{0.0, 3.0, 7.5}, false};
  const Beam mirrored{{-7.5, -3.0, 0.0}, false};
  const std::vector<ChangingLoad> loads = {load_at(beam, 0.5, 1.7, 0.4, 2.0), load_at(beam, 4.0, 4.0, 0.0, 5.0)};
  const std::vector<ChangingLoad> turned = {load_at(mirrored, -1.7, -0.5, 0.4, 2.0),
                                            load_at(mirrored, -4.0, -4.0, 0.0, 5.0)};
  const auto a = compare_sections(beam, loads, make_even_allowance(beam, 1.0, true));
  const auto b = compare_sections(mirrored, turned, make_even_allowance(mirrored, 1.0, true));
  const std::pair<Effect, Effect> pairs[] = {{Effect::sagging, Effect::sagging},
                                             {Effect::hogging, Effect::hogging},
                                             {Effect::shear_up, Effect::shear_down},
                                             {Effect::reaction, Effect::reaction},
                                             {Effect::lift, Effect::lift}};
  for (const auto& [one, other] : pairs) {
    EXPECT_NEAR(of(a, one).excess, of(b, other).excess, 1e-9) << words_from(one);
    EXPECT_NEAR(of(a, one).demand, of(b, other).demand, 1e-6) << words_from(one);
  }
}

TEST(Sections, ALoadCutInTwoBringsTheSame) {
  const Beam beam{{0.0, 3.0, 7.5}, false};
  const SpanAllowance allowance = make_even_allowance(beam, 1.0, false);
  const std::vector<ChangingLoad> whole = {load_at(beam, 2.0, 4.0, 2.0, 2.0)};
  const std::vector<ChangingLoad> halves = {load_at(beam, 2.0, 3.0, 1.0, 1.0), load_at(beam, 3.0, 4.0, 1.0, 1.0)};
  const auto a = compare_sections(beam, whole, allowance);
  const auto b = compare_sections(beam, halves, allowance);
  for (std::size_t i = 0; i < 6; ++i) EXPECT_NEAR(a[i].excess, b[i].excess, 1e-9);
}

TEST(Sections, WeightsUpsideDownAreRefused) {
  const Beam beam{{0.0, 3.0}, false};
  const std::vector<ChangingLoad> loads = {load_at(beam, 0.0, 1.0, 2.0, 1.0)};
  EXPECT_THROW((void)compare_sections(beam, loads, make_even_allowance(beam, 1.0, false)), ContractViolation);
}

TEST(Beams, ReactionsHoldTheLoad) {
  std::mt19937_64 random(7);
  for (int trial = 0; trial < 50; ++trial) {
    Beam beam{{0.0}, trial % 2 == 0};
    for (int k = 0; k <= trial % 5; ++k) beam.supports_m.push_back(beam.supports_m.back() + 1.0 + 0.3 * (trial % 7));
    const double from_m = 0.01 * static_cast<double>(random() % 100) * beam.supports_m.back() * 0.9;
    const double to_m = from_m + 0.1 * beam.supports_m.back() * (trial % 2);
    const physics::BeamResponse response = solve_beam(beam, {from_m, to_m, 3.0});
    double sum_kn = 0.0, turn_knm = 0.0;
    for (std::size_t k = 0; k < beam.supports_m.size(); ++k) {
      sum_kn += response.reactions_kn[k];
      turn_knm += response.reactions_kn[k] * beam.supports_m[k];
    }
    EXPECT_NEAR(sum_kn, 3.0, 1e-11);
    // The ends' own moments hold the rest where they are built in.
    const double ends_knm = response.support_moments_knm.back() - response.support_moments_knm.front();
    EXPECT_NEAR(turn_knm + ends_knm, 3.0 * 0.5 * (from_m + to_m), 1e-9 * (1.0 + std::fabs(turn_knm)));
  }
  EXPECT_THROW((void)solve_beam({{0.0}, false}, {0.0, 0.0, 1.0}), ContractViolation);
  EXPECT_THROW((void)solve_beam({{0.0, 1.0}, false}, {0.5, 1.5, 1.0}), ContractViolation);
  EXPECT_THROW((void)solve_beam({{0.0, 0.0}, false}, {0.0, 0.0, 1.0}), ContractViolation);
}

}  // namespace
}  // namespace houseleek::checks
