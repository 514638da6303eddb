// The second program against known steady states of surface, canopy, net and gap, before it judges the first.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "second_opinion.hpp"
#include "support/reference_check.hpp"
#include "system.hpp"
#include "test_groups.hpp"

namespace houseleek::tests::second_opinion {
namespace {

constexpr const char* judge = "tests/second_opinion (the second program)";

/// A canopy over one thin slice whose temperature is given, soaked so that no factor but the given ones acts.
struct CanopyCase {
  double cover_frac, leaf_area_index, stomatal_s_per_m, soil_s_per_m, slice_w_per_m2_k;
};

simulation::Group canopy_group(const CanopyCase& c, double film_w_per_m2_k) {
  simulation::Stack stack;
  stack.has_canopy = true;
  stack.canopy.cover_frac = c.cover_frac;
  stack.canopy.leaf_area_index = c.leaf_area_index;
  stack.canopy.extinction_short = 0.6;
  stack.canopy.extinction_long = 0.9;
  stack.canopy.leaf_albedo = 0.23;
  stack.canopy.leaf_emissivity = 0.96;
  stack.canopy.ground_resistance_s_per_m = 60.0;
  stack.canopy.stomatal_min_s_per_m = c.stomatal_s_per_m;  // least equals most: open or closed, it is this
  stack.canopy.stomatal_max_s_per_m = c.stomatal_s_per_m;
  stack.surface.albedo = 0.15;
  stack.surface.emissivity = 0.95;
  stack.surface.is_evaporating = true;
  stack.surface.cover_resistance_s_per_m = c.soil_s_per_m - std::exp(8.206 - 4.255);  // the rest of a soaked soil's
  stack.outside_film.is_fixed = true;
  stack.outside_film.fixed_w_per_m2_k = film_w_per_m2_k;
  simulation::Layer layer = plain_layer(0.04, 0.5 * 0.04 * c.slice_w_per_m2_k, 2.0e3);  // so light that it is one slice
  layer.saturated_frac = 0.5;
  layer.field_capacity_frac = 0.3;
  layer.wilting_frac = 0.1;
  layer.residual_frac = 0.05;
  layer.initial_water_frac = 0.5;
  layer.root_frac = 1.0;
  stack.module = {layer};
  stack.deck = {plain_layer(0.1, 1.0, 2.0e6)};
  stack.under = simulation::Under::contact;
  stack.initial_temperature_c = 26.0;
  simulation::Group group;
  group.stacks = {stack};
  group.rooms.resize(1);
  group.rooms[0].is_prescribed = true;
  return group;
}

/// Leaves without change: bisection on what they gain.
StackNow steady_foliage(const simulation::Group& group, const climate::Forcing& forcing, double& foliage_c) {
  System system(group, 1);
  EXPECT_EQ(system.mesh(0).module.size(), 1U);
  system.begin_moment(forcing, 12);
  std::vector<double> state = system.initial_state();
  std::vector<double> slope(system.size());
  double low_c = 0.0;
  double high_c = 90.0;
  for (int i = 0; i < 60; ++i) {
    foliage_c = 0.5 * (low_c + high_c);
    state[system.foliage_at(0)] = foliage_c;
    EXPECT_TRUE(system.derivative(0.0, state.data(), slope.data()));
    (slope[system.foliage_at(0)] > 0.0 ? low_c : high_c) = foliage_c;
  }
  return system.now(0);
}

struct CanopyRow {
  const char* what;
  double moist, dry;
};
// The two-source balance solved apart from both programs.
constexpr CanopyRow canopy_rows[] = {
    {"foliage temperature, degC", 33.95842, 46.78304},         {"surface temperature, degC", 34.40242, 49.87012},
    {"canopy air temperature, degC", 33.76637, 46.14652},      {"sensible heat of leaves, W/m2", 49.10896, 120.56799},
    {"sensible heat of the ground, W/m2", 12.54992, 73.46995}, {"latent heat of leaves, W/m2", 355.32894, 171.05836},
    {"latent heat of the ground, W/m2", 81.56880, 52.35686},   {"heat into the medium, W/m2", 67.21938, 71.61037}};

TEST(SecondOpinion, CanopyReferenceStates) {
  climate::Forcing forcing;
  forcing.air_temperature_c = 28.0;
  forcing.vapour_pressure_pa = 0.45 * 610.8 * std::exp(17.27 * 28.0 / (28.0 + 237.3));
  forcing.global_w_per_m2 = 850.0;
  forcing.sky_longwave_w_per_m2 = 370.0;
  // Logarithmic law over a canopy 0.10 m high, wind 2 m/s at 2 m.
  const double above_m = 2.0 - 0.667 * 0.10;
  const double r_a = std::log(above_m / 0.0123) * std::log(above_m / 0.00123) / (0.41 * 0.41 * 2.0);
  const double density = 101325.0 / (287.05 * 301.15);
  const double film = density * 1010.0 / r_a;
  const CanopyCase moist{0.9, 3.0, 100.0, 150.0, 8.0};
  const CanopyCase dry{0.8, 2.5, 1500.0, 3000.0, 3.0};
  for (int i = 0; i < 2; ++i) {
    double foliage_c = 0.0;
    const StackNow now = steady_foliage(canopy_group(i == 0 ? moist : dry, film), forcing, foliage_c);
    const double got[] = {foliage_c,
                          now.surface_c,
                          now.nodes.canopy_air_c,
                          now.fluxes.leaf_sensible_w_per_m2,
                          now.fluxes.ground_sensible_w_per_m2,
                          now.fluxes.leaf_latent_w_per_m2,
                          now.fluxes.ground_latent_w_per_m2,
                          now.fluxes.into_layers_w_per_m2};
    for (std::size_t row = 0; row < std::size(canopy_rows); ++row) {
      const CanopyRow& expected = canopy_rows[row];
      check_reference({.id = std::string("SECOND-01") + (i == 0 ? "A." : "B.") + std::to_string(row + 1),
                       .what = expected.what,
                       .source = "[shuttleworth1985] two-source balance (structure from memory), recomputed",
                       .expected = i == 0 ? expected.moist : expected.dry,
                       .got = got[row],
                       .tolerance = row < 3 ? 1e-4 : 1e-3,
                       .reason = "the last given digit, and what 1e-4 K makes of a flux",
                       .function = judge});
    }
  }
}

TEST(SecondOpinion, ShortWaveIsSharedWithoutLoss) {
  simulation::Stack stack;
  stack.has_canopy = true;
  stack.canopy.cover_frac = 0.7;
  stack.canopy.extinction_short = 1e3;  // the covered part is closed: ss = 0.7
  stack.canopy.leaf_albedo = 0.23;
  stack.surface.albedo = 0.15;
  const SunShares bare = sun_shares(stack);
  const auto compare_share = [](const char* id, double expected_w_per_m2, double got_w_per_m2) {
    check_reference({.id = id,
                     .what = "short-wave split of 800 W/m2",
                     .source = "closed form, recomputed",
                     .expected = expected_w_per_m2,
                     .got = got_w_per_m2,
                     .tolerance = 6e-7,
                     .reason = "six decimals are given",
                     .function = judge});
  };
  compare_share("SECOND-02 leaves", 451.084204, 800.0 * bare.leaves);
  compare_share("SECOND-02 ground", 209.048522, 800.0 * bare.ground);
  compare_share("SECOND-02 reflected", 139.867275, 800.0 * bare.reflected_below);

  stack.has_net = true;
  stack.net.transmittance = 0.45;
  stack.net.reflectance = 0.2;
  const SunShares shaded = sun_shares(stack);
  const double out = stack.net.reflectance + stack.net.transmittance * shaded.reflected_below * shaded.below_net;
  EXPECT_NEAR(shaded.net + shaded.leaves + shaded.ground + out, 1.0, 1e-14);
}

TEST(SecondOpinion, ANetOfNothingChangesNothing) {
  CanopyCase c{0.6, 2.0, 300.0, 200.0, 20.0};
  simulation::Group open = canopy_group(c, 15.0);
  open.stacks[0].outside_film.is_fixed = false;
  simulation::Group netted = open;
  netted.stacks[0].has_net = true;
  netted.stacks[0].net = {1.0, 0.0, 0.0, 1.0};
  climate::Forcing forcing;
  forcing.wind_m_per_s = 2.0;
  forcing.global_w_per_m2 = 500.0;
  double open_c = 0.0;
  double netted_c = 0.0;
  const StackNow a = steady_foliage(open, forcing, open_c);
  const StackNow b = steady_foliage(netted, forcing, netted_c);
  EXPECT_NEAR(open_c, netted_c, 1e-9);
  EXPECT_NEAR(a.surface_c, b.surface_c, 1e-9);
}

TEST(SecondOpinion, ANetIsWarmedByWhatItTakes) {
  // Radiation of the whole system closes: what net, leaves and ground gain is what the sky and the stack lose.
  CanopyCase c{0.6, 2.0, 300.0, 200.0, 20.0};
  simulation::Group group = canopy_group(c, 15.0);
  group.stacks[0].has_net = true;
  climate::Forcing forcing;
  forcing.global_w_per_m2 = 700.0;
  double foliage_c = 0.0;
  const StackNow now = steady_foliage(group, forcing, foliage_c);
  const simulation::Net net = group.stacks[0].net;
  const SunShares sun = sun_shares(group.stacks[0]);
  const double h = 15.0;
  const double net_convection = 2.0 * h * (now.nodes.net_c - forcing.air_temperature_c);
  const double gamma = 1010.0 * 101325.0 / (0.622 * (2.501e6 - 2361.0 * forcing.air_temperature_c));
  const double canopy_heat = h * (now.nodes.canopy_air_c - forcing.air_temperature_c) +
                             h * (now.nodes.canopy_vapour_k - forcing.vapour_pressure_pa / gamma);
  const double out_of_stack = net_convection + canopy_heat + now.fluxes.into_layers_w_per_m2;
  // Long-wave from the net's two faces and through its openings, from the stack's own state.
  const auto black = [](double celsius) { return 5.670374419e-8 * std::pow(celsius + 273.15, 4.0); };
  const double sl = 0.6 * (1.0 - std::exp(-0.9 * 2.0));
  const double l_d = (1.0 - net.emissivity) * forcing.sky_longwave_w_per_m2 + net.emissivity * black(now.nodes.net_c);
  const double x = 0.96 * 0.95 / (0.96 + 0.95 - 0.96 * 0.95) * (black(now.surface_c) - black(foliage_c));
  const double l_below =
      sl * (0.96 * (l_d - black(foliage_c)) + x) + (1.0 - sl) * 0.95 * (l_d - black(now.surface_c)) - sl * x;
  const double l_up = (1.0 - net.emissivity) * (l_d - l_below) + net.emissivity * black(now.nodes.net_c);
  const double absorbed = 700.0 * (sun.net + sun.leaves + sun.ground) + forcing.sky_longwave_w_per_m2 - l_up;
  EXPECT_NEAR(absorbed, out_of_stack, 1e-6);
}

TEST(SecondOpinion, NonlinearSteadyRoof) {
  struct Row {
    const char* id;
    double absorptance, sun_w_per_m2, sky_w_per_m2, film_w_per_m2_k, air_k, through_w_per_m2_k, inside_k, expected_k;
  };
  constexpr Row rows[] = {{"a", 0.9, 900.0, 370.0, 10.0, 303.15, 2.5, 299.15, 339.531749},
                          {"b", 0.9, 900.0, 370.0, 20.0, 303.15, 2.5, 299.15, 327.434006},
                          {"c", 0.25, 900.0, 370.0, 10.0, 303.15, 2.5, 299.15, 309.519104},
                          {"d", 0.9, 0.0, 290.0, 6.0, 288.15, 2.5, 297.15, 282.994996},
                          {"e", 0.9, 0.0, 290.0, 6.0, 288.15, 0.32, 297.15, 280.158107}};
  for (const Row& row : rows) {
    simulation::Stack stack;
    stack.surface.albedo = 1.0 - row.absorptance;
    stack.surface.emissivity = 0.9;
    stack.outside_film.is_fixed = true;
    stack.outside_film.fixed_w_per_m2_k = row.film_w_per_m2_k;
    stack.inside_film.is_fixed = true;
    stack.inside_film.fixed_w_per_m2_k = 10.0;
    stack.deck = {plain_layer(0.1, 0.1 / (1.0 / row.through_w_per_m2_k - 0.1), 1.0e5)};
    simulation::Group group;
    group.stacks = {stack};
    group.rooms.resize(1);
    group.rooms[0].is_prescribed = true;
    group.rooms[0].prescribed_c = row.inside_k - 273.15;
    climate::Forcing forcing;
    forcing.air_temperature_c = row.air_k - 273.15;
    forcing.global_w_per_m2 = row.sun_w_per_m2;
    forcing.sky_longwave_w_per_m2 = row.sky_w_per_m2;
    const auto steady = [&](int, double) { return forcing; };
    const HourMarks marks = second_opinion_run(group, steady, 0, 72, 1e-8, 1).front();
    check_reference({.id = std::string("SECOND-03") + row.id,
                     .what = "steady temperature of a radiating roof, K",
                     .source = "one equation solved by bracketing, recomputed",
                     .expected = row.expected_k,
                     .got = marks.surface_c.back() + 273.15,
                     .tolerance = 1e-5,
                     .reason = "six decimals are given; the solver holds about 1e-6 K",
                     .function = judge});
  }
}

TEST(SecondOpinion, GapLaws) {
  struct Row {
    double rayleigh, nusselt;
  };
  constexpr Row rows[] = {{1e3, 1.0},    {1708.0, 1.0}, {2000.0, 1.2102}, {5000.0, 1.9481},
                          {1e4, 2.3911}, {1e5, 3.9944}, {1e6, 6.9937}};
  for (const Row& row : rows) {
    check_reference({.id = "SECOND-04 at Ra " + std::to_string(static_cast<int>(row.rayleigh)),
                     .what = "convection number of a closed layer heated from below",
                     .source = "[hollands1976] (coefficients from memory), recomputed",
                     .expected = row.nusselt,
                     .got = closed_gap_nusselt(row.rayleigh),
                     .tolerance = 6e-5,
                     .reason = "four decimals are given",
                     .function = judge});
  }
  // Walls held at 40 and 20 degC: radiation alone is left when the still air's part is taken off.
  GapKnown gap;
  gap.under = simulation::Under::closed_gap;
  gap.height_m = 0.02;
  gap.radiation_factor = 1.0 / (1.0 / 0.9 + 1.0 / 0.9 - 1.0);
  gap.above_c = 40.0;
  gap.below_c = 20.0;
  gap.above_conductance_w_per_m2_k = 1e9;
  gap.below_conductance_w_per_m2_k = 1e9;
  GapNodes nodes{40.0, 20.0};
  ASSERT_TRUE(solve_gap(gap, nodes));
  const double flux = gap.below_conductance_w_per_m2_k * (nodes.membrane_c - gap.below_c);
  check_reference({.id = "SECOND-05",
                   .what = "radiation between parallel plates, W/m2",
                   .source = "[incropera] parallel plates, recomputed",
                   .expected = 103.5134,
                   .got = flux - 20.0 * 0.026248 / 0.02,
                   .tolerance = 1e-4,
                   .reason = "four decimals are given; the stiff walls lose 1e-5 W/m2",
                   .function = judge});
}

}  // namespace
}  // namespace houseleek::tests::second_opinion
