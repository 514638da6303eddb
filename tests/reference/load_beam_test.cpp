// Beams, slabs and timber against tables of handbooks.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "physics/beam.hpp"
#include "physics/slab_panel.hpp"
#include "physics/timber.hpp"
#include "support/reference_check.hpp"

namespace houseleek::tests {
namespace {

using physics::Beam;
using physics::BeamResponse;
using physics::solve_beam;

constexpr const char* beam_tables =
    "[timoshenko1955] and the tables of beams in any handbook (from memory, recomputed)";
constexpr const char* plate_tables = "[timoshenko1959] Tables 8 and 20 (from memory, recomputed from the series)";
constexpr double digit = 6e-5;  // half of the last of four printed digits, and rounding

void check_beam(const std::string& id, const std::string& what, double expected, double got, double tolerance = digit) {
  check_reference({.id = id,
                   .what = what,
                   .source = beam_tables,
                   .expected = expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = "half of the last printed digit",
                   .function = "physics::solve_beam"});
}

/// Spans of 1 m with 1 kN/m on some of them: figures are shares of w l and w l2.
std::vector<BeamResponse> unit_spans(const Beam& beam, const std::vector<int>& loaded) {
  std::vector<BeamResponse> responses;
  for (const int k : loaded) responses.push_back(solve_beam(beam, {1.0 * k, 1.0 * k + 1.0, 1.0}));
  return responses;
}

double moment_of(const Beam& beam, const std::vector<BeamResponse>& responses, double x_m) {
  double sum = 0.0;
  for (const BeamResponse& one : responses) sum += physics::beam_moment_knm(beam, one, x_m);
  return sum;
}

double reaction_of(const std::vector<BeamResponse>& responses, std::size_t support) {
  double sum = 0.0;
  for (const BeamResponse& one : responses) sum += one.reactions_kn[support];
  return sum;
}

double greatest_moment(const Beam& beam, const std::vector<BeamResponse>& responses, double from_m, double to_m) {
  double best = -1e9;
  for (int i = 0; i <= 10000; ++i) {
    best = std::max(best, moment_of(beam, responses, from_m + (to_m - from_m) * 1e-4 * i));
  }
  return best;
}

TEST(BeamTables, OneSpanWithPartOfItLoaded) {
  const Beam five{{0.0, 5.0}, false};
  const BeamResponse part = solve_beam(five, {1.0, 3.0, 4.0});
  check_beam("LOAD-01", "left reaction, 2 kN/m on 1 to 3 m of 5 m, kN", 2.4, part.reactions_kn[0]);
  check_beam("LOAD-02", "greatest bending of it, at 2.2 m, kNm", 3.84, physics::beam_moment_knm(five, part, 2.2));
  check_beam("LOAD-03", "the same, anywhere, kNm", 3.84, greatest_moment(five, {part}, 0.0, 5.0));
  const BeamResponse full = solve_beam(five, {0.0, 5.0, 10.0});
  check_beam("LOAD-04", "shear at the support, 2 kN/m on 5 m, kN", 5.0, physics::beam_shear_kn(five, full, 0.0));
  check_beam("LOAD-05", "greatest bending of it, kNm", 6.25, physics::beam_moment_knm(five, full, 2.5));
  const Beam four{{0.0, 4.0}, false};
  const BeamResponse left = solve_beam(four, {0.0, 1.5, 4.5});
  check_beam("LOAD-06", "left reaction, 3 kN/m on the first 1.5 m of 4 m, kN", 3.6562, left.reactions_kn[0]);
  check_beam("LOAD-07", "greatest bending of it, kNm", 2.2280, greatest_moment(four, {left}, 0.0, 4.0));
}

TEST(BeamTables, TwoEqualSpans) {
  const Beam beam{{0.0, 1.0, 2.0}, false};
  const auto both = unit_spans(beam, {0, 1});
  check_beam("LOAD-08", "two spans, both loaded: outer reaction / wl", 0.375, reaction_of(both, 0));
  check_beam("LOAD-09", "inner reaction / wl", 1.25, reaction_of(both, 1));
  check_beam("LOAD-10", "bending over the support / wl2", -0.125, moment_of(beam, both, 1.0));
  check_beam("LOAD-11", "bending in the span / wl2", 0.0703, greatest_moment(beam, both, 0.0, 1.0));
  const auto one = unit_spans(beam, {0});
  check_beam("LOAD-12", "one loaded: outer reaction / wl", 0.4375, reaction_of(one, 0));
  check_beam("LOAD-13", "inner reaction / wl", 0.625, reaction_of(one, 1));
  check_beam("LOAD-14", "far reaction / wl: it lifts", -0.0625, reaction_of(one, 2));
  check_beam("LOAD-15", "bending over the support / wl2", -0.0625, moment_of(beam, one, 1.0));
  check_beam("LOAD-16", "bending in the loaded span / wl2", 0.0957, greatest_moment(beam, one, 0.0, 1.0));
}

TEST(BeamTables, ThreeEqualSpans) {
  const Beam beam{{0.0, 1.0, 2.0, 3.0}, false};
  const auto all = unit_spans(beam, {0, 1, 2});
  check_beam("LOAD-17", "three spans, all loaded: outer reaction / wl", 0.4, reaction_of(all, 0));
  check_beam("LOAD-18", "inner reaction / wl", 1.1, reaction_of(all, 1));
  check_beam("LOAD-19", "bending in the outer span / wl2", 0.08, greatest_moment(beam, all, 0.0, 1.0));
  check_beam("LOAD-20", "bending in the middle span / wl2", 0.025, greatest_moment(beam, all, 1.0, 2.0));
  const auto outer = unit_spans(beam, {0, 2});
  check_beam("LOAD-21", "outer spans loaded: bending in them / wl2", 0.1012, greatest_moment(beam, outer, 0.0, 1.0),
             6e-5);
  check_beam("LOAD-22", "bending in the empty middle / wl2", -0.05, moment_of(beam, outer, 1.5));
  const auto first_two = unit_spans(beam, {0, 1});
  check_beam("LOAD-23", "first two loaded: bending between them / wl2", -0.1167, moment_of(beam, first_two, 1.0));
  check_beam("LOAD-24", "the other support / wl2", -0.0333, moment_of(beam, first_two, 2.0));
}

TEST(BeamTables, FixedEndMoments) {
  const Beam beam{{0.0, 1.0}, true};
  const BeamResponse full = solve_beam(beam, {0.0, 1.0, 1.0});
  check_beam("LOAD-45", "built in, uniform: end moment / wl2", -0.08333, full.support_moments_knm[0], 6e-6);
  check_beam("LOAD-46", "middle / wl2", 0.04167, physics::beam_moment_knm(beam, full, 0.5), 6e-6);
  const BeamResponse middle = solve_beam(beam, {0.5, 0.5, 1.0});
  check_beam("LOAD-47", "built in, load in the middle: end moment / Pl", -0.125, middle.support_moments_knm[1]);
  const BeamResponse third = solve_beam(beam, {1.0 / 3.0, 1.0 / 3.0, 1.0});
  check_beam("LOAD-48", "load at a third: near end, a b2/l2", -0.14815, third.support_moments_knm[0], 6e-6);
  check_beam("LOAD-49", "far end, a2 b/l2", -0.07407, third.support_moments_knm[1], 6e-6);
  const BeamResponse half = solve_beam(beam, {0.0, 0.5, 0.5});
  check_beam("LOAD-50", "uniform on the left half: near end, 11/192", -0.05729, half.support_moments_knm[0], 6e-6);
  check_beam("LOAD-51", "far end, 5/192", -0.02604, half.support_moments_knm[1], 6e-6);
}

TEST(BeamTables, Sag) {
  const Beam beam{{0.0, 1.0}, false};
  const std::vector<BeamResponse> full = {solve_beam(beam, {0.0, 1.0, 1.0})};
  check_beam("LOAD-25", "sag of a span under w, 5/384 wl4/EI", 0.0130208, physics::beam_sag_m(beam, full, 0.5, 1.0),
             1e-7);
  const std::vector<BeamResponse> middle = {solve_beam(beam, {0.5, 0.5, 1.0})};
  check_beam("LOAD-26", "sag under P in the middle, Pl3/48EI", 0.0208333, physics::beam_sag_m(beam, middle, 0.5, 1.0),
             1e-7);
  const Beam fixed{{0.0, 1.0}, true};
  const std::vector<BeamResponse> built_in = {solve_beam(fixed, {0.0, 1.0, 1.0})};
  check_beam("LOAD-27", "sag of a built-in span, 1/384 wl4/EI", 0.0026042,
             physics::beam_sag_m(fixed, built_in, 0.5, 1.0), 1e-7);
}

physics::SlabMoments in_the_middle(const physics::SlabPanel& panel, const physics::SlabPatch& patch) {
  const double x_m = 0.5 * panel.length_x_m;
  const double y_m = 0.5 * panel.length_y_m;
  return physics::slab_moments(panel, std::span(&patch, 1), std::span(&x_m, 1), std::span(&y_m, 1)).front();
}

void check_slab(const std::string& id, const std::string& what, double expected, double got, double tolerance) {
  check_reference({.id = id,
                   .what = what,
                   .source = plate_tables,
                   .expected = expected,
                   .got = got,
                   .tolerance = tolerance,
                   .reason = "half of the last printed digit, and the series cut at 60 terms",
                   .function = "physics::slab_moments"});
}

TEST(SlabTables, UniformLoad) {
  const auto middle = [](double ratio) { return in_the_middle({1.0, ratio, 0.3, 1.0}, {0.0, 1.0, 0.0, ratio, 1.0}); };
  check_slab("LOAD-30", "square slab, nu 0.3, middle / qa2", 0.0479, middle(1.0).x_knm_per_m, 6e-5);
  check_slab("LOAD-31", "sides 1 to 1.2, short way / qa2", 0.0627, middle(1.2).x_knm_per_m, 6e-5);
  check_slab("LOAD-32", "sides 1 to 1.2, long way / qa2", 0.0501, middle(1.2).y_knm_per_m, 6e-5);
  check_slab("LOAD-33", "sides 1 to 2, short way / qa2", 0.1017, middle(2.0).x_knm_per_m, 6e-5);
  check_slab("LOAD-34", "sides 1 to 2, long way / qa2", 0.0464, middle(2.0).y_knm_per_m, 6e-5);
}

TEST(SlabTables, PatchInTheMiddle) {
  const auto patch = [](double u, double v) {
    return in_the_middle({1.0, 1.0, 0.3, 1.0},
                         {0.5 - 0.5 * u, 0.5 + 0.5 * u, 0.5 - 0.5 * v, 0.5 + 0.5 * v, 1.0 / (u * v)});
  };
  check_slab("LOAD-35", "patch a tenth of the side, bending / P", 0.2841, patch(0.1, 0.1).x_knm_per_m, 4e-4);
  check_slab("LOAD-36", "patch 0.2 of the side / P", 0.2124, patch(0.2, 0.2).x_knm_per_m, 2e-4);
  check_slab("LOAD-37", "patch 0.5 of the side / P", 0.1177, patch(0.5, 0.5).x_knm_per_m, 1e-4);
  check_slab("LOAD-38", "patch 0.2 x 0.4, along the short side / P", 0.1787, patch(0.2, 0.4).x_knm_per_m, 2e-4);
  check_slab("LOAD-39", "the same, along the long side / P", 0.1606, patch(0.2, 0.4).y_knm_per_m, 2e-4);
}

TEST(TimberTables, StrengthCreepStiffness) {
  using physics::TimberDuration;
  const auto check_timber = [](const std::string& id, const std::string& what, double expected, double got) {
    check_reference({.id = id,
                     .what = what,
                     .source = "[en1995] Tables 3.1 and 3.2 (from memory)",
                     .expected = expected,
                     .got = got,
                     .tolerance = 1e-9,
                     .reason = "a figure of the table itself",
                     .function = "physics::timber_strength_frac"});
  };
  check_timber("LOAD-40", "k_mod, permanent, class 2", 0.60,
               physics::timber_strength_frac(TimberDuration::permanent, 2));
  check_timber("LOAD-41", "k_mod, short term, class 3", 0.70,
               physics::timber_strength_frac(TimberDuration::short_term, 3));
  check_timber("LOAD-42", "k_def, class 3", 2.0, physics::timber_creep_frac(3));
  check_beam("LOAD-43", "stiffness of 60 x 220 mm of 11000 N/mm2, kNm2", 585.64,
             physics::joist_stiffness_knm2(60.0, 220.0, 11000.0), 1e-9);
  // 9.81 x 0.6 x 4^4/(pi^4 x 585.64), by hand.
  check_beam("LOAD-44", "ponding share of it, 0.6 m apart, 4 m long", 0.02641, physics::ponding_frac(0.6, 4.0, 585.64),
             1e-5);
}

}  // namespace
}  // namespace houseleek::tests
