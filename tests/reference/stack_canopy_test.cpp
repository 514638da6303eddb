// Canopy, outside film and the gap under a module, each law by itself and as the stepper uses it.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "numerics/lane.hpp"
#include "physics/canopy.hpp"
#include "physics/film.hpp"
#include "physics/gap.hpp"
#include "simulation/run.hpp"
#include "support/reference_check.hpp"
#include "support/stack_cases.hpp"

namespace houseleek::tests {
namespace {

using simulation::Layer;
using simulation::run_group;
using simulation::RunOptions;
using simulation::Stack;
using simulation::Under;

constexpr const char* stepper = "simulation::run_group";

struct CanopyCase {
  const char* name;
  double cover_frac, leaf_area_index, stomatal_s_per_m, ground_s_per_m, depth_w_per_m2_k;
  double foliage_c, surface_c, evapotranspiration_mm_per_h, into_medium_w_per_m2;
};
constexpr CanopyCase canopy_cases[] = {
    {"A, moist grass", 0.9, 3.0, 100.0, 150.0, 8.0, 33.95842, 34.40242, 0.64596, 67.21938},
    {"B, dry succulent", 0.8, 2.5, 1500.0, 3000.0, 3.0, 46.78304, 49.87012, 0.33032, 71.61037}};

/// One slice so full of water that neither its temperature nor its dryness moves within the hour: the deep temperature.
Layer endless_store(const CanopyCase& c) {
  Layer layer = solid_layer(0.04, 0.5 * 0.04 * c.depth_w_per_m2_k, 1.0, 1000.0);
  layer.saturated_frac = 1e6;
  layer.initial_water_frac = 1e6 * (8.206 - std::log(c.ground_s_per_m)) / 4.255;
  layer.holds_frac = 0.9e6;
  layer.field_capacity_frac = 1e4;
  layer.saturated_conductivity_m_per_s = 1e-6;
  layer.root_frac = 1.0;
  return layer;
}

TEST(StackCanopy, ReferenceStates) {
  // Logarithmic law over a canopy 0.10 m high, wind 2 m/s at 2 m; air at 28 degC, 45 % humid.
  const double above_m = 2.0 - 0.667 * 0.10;
  const double aerodynamic_s_per_m = std::log(above_m / 0.0123) * std::log(above_m / 0.00123) / (0.41 * 0.41 * 2.0);
  climate::Forcing forcing;
  forcing.air_temperature_c = 28.0;
  forcing.vapour_pressure_pa = 0.45 * 610.8 * std::exp(17.27 * 28.0 / (28.0 + 237.3));
  forcing.global_w_per_m2 = 850.0;
  forcing.sky_longwave_w_per_m2 = 370.0;
  for (const CanopyCase& c : canopy_cases) {
    Stack stack;
    stack.has_canopy = true;
    stack.canopy = {.cover_frac = c.cover_frac,
                    .leaf_area_index = c.leaf_area_index,
                    .extinction_short = 0.6,
                    .extinction_long = 0.9,
                    .leaf_albedo = 0.23,
                    .leaf_emissivity = 0.96,
                    .ground_resistance_s_per_m = 60.0,
                    .stomatal_min_s_per_m = c.stomatal_s_per_m,  // least equals most: open or closed, it is this
                    .stomatal_max_s_per_m = c.stomatal_s_per_m,
                    .leaf_heat_capacity_j_per_m2_k = 1.0};
    stack.surface = {.albedo = 0.15, .emissivity = 0.95, .is_evaporating = true};
    stack.outside_film.is_fixed = true;
    stack.outside_film.fixed_w_per_m2_k = 101325.0 / (287.05 * 301.15) * 1010.0 / aerodynamic_s_per_m;
    stack.module = {endless_store(c)};
    stack.under = Under::contact;
    stack.deck = {solid_layer(0.1, 1.0, 2000.0, 1000.0)};
    stack.initial_temperature_c = 26.0;
    const auto result = run_group(over_given_room(stack, 26.0), steady_weather(forcing), from_rest(2)).stacks[0];
    const auto check_state = [&](const char* id, const char* what, double expected, double got, double tolerance) {
      check_reference({.id = std::string(id) + " " + c.name,
                       .what = what,
                       .source = "[shuttleworth1985] two-source balance (structure from memory), recomputed",
                       .expected = expected,
                       .got = got,
                       .tolerance = tolerance,
                       .reason = "1e-4 K, and what it makes of a flux; five digits are given",
                       .function = stepper});
    };
    check_state("CANOPY-04", "steady foliage, degC", c.foliage_c, result.foliage_c.back(), 1e-4);
    check_state("CANOPY-05", "steady surface of the medium, degC", c.surface_c, result.surface_c.back(), 1e-4);
    check_state("CANOPY-06", "evapotranspiration, mm/h", c.evapotranspiration_mm_per_h,
                result.evapotranspiration_mm.back(), 1.5e-5);
    check_state("CANOPY-07", "heat into the medium, W/m2", c.into_medium_w_per_m2,
                c.depth_w_per_m2_k * (result.surface_c.back() - 26.0), 8e-4);
  }
}

TEST(StackCanopy, ShortWaveShares) {
  const auto check_share = [&](const char* what, double expected_w_per_m2, double got_frac) {
    check_reference({.id = std::string("CANOPY-01 ") + what,
                     .what = "of 800 W/m2 on leaves (0.7 of the light, albedo 0.23) over a medium (albedo 0.15), W/m2",
                     .source = "[deardorff1978] two-source form closed by its reflections, recomputed",
                     .expected = expected_w_per_m2,
                     .got = 800.0 * got_frac,
                     .tolerance = 6e-7,
                     .reason = "six decimals are given",
                     .function = "physics::shortwave_shares"});
  };
  const auto shares = physics::shortwave_shares({.shading_frac = 0.7, .leaf_albedo = 0.23, .ground_albedo = 0.15});
  check_share("leaves", 451.084204, shares.leaves_frac);
  check_share("medium", 209.048522, shares.ground_frac);
  check_share("reflected", 139.867275, shares.reflected_frac);
  check_reference({.id = "CANOPY-01 shading",
                   .what = "light that meets a leaf: cover 0.8, extinction 0.6, leaf area 2.5",
                   .source = "[monteith2013] Beer's law (from memory), by hand: 0.8 (1 - exp(-1.5))",
                   .expected = 0.6214958719,
                   .got = physics::leaf_shading_frac(0.8, 0.6, 2.5),
                   .tolerance = 1e-10,
                   .reason = "ten decimals are given",
                   .function = "physics::leaf_shading_frac"});
}

TEST(StackCanopy, StomataAndMediumSurface) {
  struct Row {
    const char* name;
    physics::StomatalInputs inputs;
    double resistance_s_per_m;
  };
  // By hand, factor by factor: light, water, dryness of the air, warmth.
  const Row rows[] = {
      {"bright, 0.744 1 0.75 0.999964", {200.0, 5000.0, 2.0, 500.0, 1.0, 1000.0, 25.0}, 358.4358428},
      {"dim and cool, 0.282927 0.5 0.5 0.844764", {100.0, 5000.0, 3.0, 100.0, 0.5, 2000.0, 15.0}, 1673.595351},
      {"hot dry air, 0.785398 0.8 0.25 0.835164", {150.0, 5000.0, 2.5, 800.0, 0.8, 4000.0, 35.0}, 1143.403664},
      {"dark: the most", {200.0, 5000.0, 2.0, 0.0, 1.0, 500.0, 20.0}, 5000.0},
      {"no water: the most", {200.0, 5000.0, 2.0, 500.0, 0.0, 1000.0, 25.0}, 5000.0}};
  for (const Row& row : rows) {
    check_reference({.id = std::string("CANOPY-02 ") + row.name,
                     .what = "stomatal resistance, s/m",
                     .source = "[noilhan1989] factors (coefficients from memory), by hand",
                     .expected = row.resistance_s_per_m,
                     .got = physics::stomatal_resistance_s_per_m(row.inputs),
                     .tolerance = 1e-6,
                     .reason = "ten digits are given",
                     .function = "physics::stomatal_resistance_s_per_m"});
  }
  struct MediumRow {
    const char* name;
    double saturation_frac, resistance_s_per_m;
  };
  constexpr MediumRow medium_rows[] = {{"dry", 0.0, 3662.861678},
                                       {"quarter", 0.25, 1264.269798},
                                       {"half", 0.5, 436.3741423},
                                       {"soaked", 1.0, 51.98732818}};
  for (const MediumRow& row : medium_rows) {
    check_reference({.id = std::string("CANOPY-03 ") + row.name,
                     .what = "resistance of a medium's surface, s/m",
                     .source = "[sellers1992] (coefficients from memory), by hand",
                     .expected = row.resistance_s_per_m,
                     .got = physics::medium_surface_resistance_s_per_m(row.saturation_frac),
                     .tolerance = 1e-6,
                     .reason = "ten digits are given",
                     .function = "physics::medium_surface_resistance_s_per_m"});
  }
}

double film(double wind_m_per_s, double length_m, double difference_k) {
  const physics::FilmLaw law = physics::outside_film_law(wind_m_per_s, length_m);
  return physics::film_at(law.forced_cubed, law.unstable_cubed, law.stable_cubed, difference_k).value_w_per_m2_k;
}

/// The film that the stepper sees: a deck so thin that its surface is as warm as the room, under air without a sky.
double stepped_film(double wind_m_per_s, double length_m, double surface_c, double air_c) {
  Stack stack = calm_stack(0.0, 1e6);
  stack.outside_film = {.roof_length_m = length_m, .wind_to_roof_frac = 1.0};
  stack.deck = {solid_layer(0.01, 1e4, 1000.0, 1000.0)};
  stack.initial_temperature_c = surface_c;
  climate::Forcing forcing;
  forcing.air_temperature_c = air_c;
  forcing.wind_m_per_s = wind_m_per_s;
  RunOptions options = from_rest(1);
  options.newton_w_per_m2 = 1e-7;
  options.error_bound_k = 1e9;
  const auto result = run_group(over_given_room(stack, surface_c), steady_weather(forcing), options).stacks[0];
  return -result.ceiling_flux_w_per_m2.back() / (result.surface_c.back() - air_c);
}

TEST(StackCanopy, OutsideFilm) {
  struct Row {
    const char* name;
    double wind_m_per_s, length_m, difference_k, film_w_per_m2_k, tolerance;
    const char* source;
    const char* reason;
  };
  constexpr const char* at_film_temperature =
      "[incropera] Sec. 9.6, properties of air at the film's temperature (from memory), recomputed";
  constexpr const char* at_300_k =
      "[incropera] Secs. 7.2, 9.6, properties of air at 300 K (from memory), by hand, floor 0.1 W/m2K";
  constexpr const char* coarse = "we take air at 300 K at every temperature: a few percent";
  constexpr const char* fine = "as many decimals as are given";
  constexpr Row rows[] = {{"FILM-01 warm, 0.25 m, tabled", 0.0, 0.25, 20.0, 4.7225, 0.15, at_film_temperature, coarse},
                          {"FILM-01 warm, 0.25 m", 0.0, 0.25, 20.0, 4.858615854, 1e-8, at_300_k, fine},
                          {"FILM-01 warm, 2 m", 0.0, 2.0, 20.0, 4.858615854, 1e-8, at_300_k, fine},
                          {"FILM-01 cold, 0.25 m, tabled", 0.0, 0.25, -10.0, 1.7744, 0.03, at_film_temperature, coarse},
                          {"FILM-01 cold, 0.25 m", 0.0, 0.25, -10.0, 1.754838443, 1e-8, at_300_k, fine},
                          {"FILM-02 3 m/s, 5 m", 3.0, 5.0, 0.0, 10.5351, 2e-4, at_300_k,
                           "the given viscosity is rounded to 1e-5 of itself"},
                          {"FILM-02 5 m/s, 10 m", 5.0, 10.0, 0.0, 13.8011, 2e-4, at_300_k,
                           "the given viscosity is rounded to 1e-5 of itself"},
                          {"FILM-02 3 m/s, 5 m, warm", 3.0, 5.0, 20.0, 10.86880401, 1e-7, at_300_k, fine},
                          {"FILM-02 3 m/s, 5 m, cold", 3.0, 5.0, -10.0, 10.53674411, 1e-7, at_300_k, fine}};
  for (const Row& row : rows) {
    check_reference({.id = row.name,
                     .what = "outside film over a flat plate, W/m2K",
                     .source = row.source,
                     .expected = row.film_w_per_m2_k,
                     .got = film(row.wind_m_per_s, row.length_m, row.difference_k),
                     .tolerance = row.tolerance,
                     .reason = row.reason,
                     .function = "physics::film_at"});
  }
  struct SteppedRow {
    const char* name;
    double wind_m_per_s, length_m, surface_c, film_w_per_m2_k;
  };
  constexpr SteppedRow stepped_rows[] = {{"FILM-03 warm", 0.0, 0.25, 40.0, 4.858615854},
                                         {"FILM-03 cold", 0.0, 0.25, 10.0, 1.754838443},
                                         {"FILM-03 wind, warm", 3.0, 5.0, 40.0, 10.86880401},
                                         {"FILM-03 wind, cold", 3.0, 5.0, 10.0, 10.53674411}};
  for (const SteppedRow& row : stepped_rows) {
    const double got = stepped_film(row.wind_m_per_s, row.length_m, row.surface_c, 20.0);
    check_reference({.id = row.name,
                     .what = "outside film found from the stepper's steady flux, W/m2K",
                     .source = at_300_k,
                     .expected = row.film_w_per_m2_k,
                     .got = got,
                     .tolerance = 1e-3,
                     .reason = "the surface stands 1e-4 K beside the room",
                     .function = stepper});
  }
}

/// Steady heat from a room at 40 degC up to air at 20 degC (or down) through a gap between faces that conduct without loss.
results::StackYear through_gap(Under under, double height_m, double emissivity, double above_c, double room_c) {
  Stack stack = calm_stack(1e6, 1e6);
  stack.module = {solid_layer(0.01, 1e4, 1000.0, 1000.0)};
  stack.deck = {solid_layer(0.01, 1e4, 1000.0, 1000.0)};
  stack.under = under;
  stack.gap.height_m = height_m;
  stack.gap.emissivity_above = emissivity;
  stack.gap.emissivity_below = emissivity;
  stack.initial_temperature_c = 0.5 * (above_c + room_c);
  RunOptions options = from_rest(2);
  options.newton_w_per_m2 = 1e-7;
  options.error_bound_k = 1e9;
  return run_group(over_given_room(stack, room_c), steady_air(above_c), options).stacks[0];
}

TEST(StackCanopy, ClosedGap) {
  struct Row {
    const char* name;
    double rayleigh, nusselt;
  };
  constexpr Row rows[] = {{"1e3", 1e3, 1.0},        {"1708", 1708.0, 1.0}, {"2000", 2000.0, 1.2102},
                          {"5000", 5000.0, 1.9481}, {"1e4", 1e4, 2.3911},  {"1e5", 1e5, 3.9944},
                          {"1e6", 1e6, 6.9937}};
  for (const Row& row : rows) {
    check_reference({.id = std::string("GAP-01 Ra ") + row.name,
                     .what = "Nusselt number of a closed layer heated from below",
                     .source = "[hollands1976] (coefficients from memory), recomputed",
                     .expected = row.nusselt,
                     .got = physics::closed_gap_nusselt(row.rayleigh, 1.0).value,
                     .tolerance = 6e-5,
                     .reason = "four decimals are given",
                     .function = "physics::closed_gap_nusselt"});
  }
  EXPECT_EQ(physics::closed_gap_nusselt(1e6, -1.0).value, 1.0) << "heated from above it only conducts";

  // Faces at 40 and 20 degC: radiation between parallel plates, and k/b for 20 K.
  const auto calm = through_gap(Under::closed_gap, 0.02, 0.9, 40.0, 20.0);
  check_reference({.id = "GAP-02 from above",
                   .what = "heat down through a closed gap of 20 mm, faces at 40 and 20 degC, emissivities 0.9, W/m2",
                   .source = "[incropera] parallel plates 103.5134 W/m2, recomputed, and 20 K * 0.026248/0.02",
                   .expected = 103.5134 + 20.0 * 0.026248 / 0.02,
                   .got = calm.ceiling_flux_w_per_m2.back(),
                   .tolerance = 0.005,
                   .reason = "the faces stand 3e-4 K beside what they are held to",
                   .function = stepper});
  struct RollingRow {
    const char* name;
    double height_m, flux_w_per_m2;
  };
  constexpr RollingRow rolling_rows[] = {{"Ra 2000", 0.01020985343, 165.7403081},
                                         {"Ra 1e4", 0.01745860378, 175.4108002},
                                         {"Ra 1e5", 0.03761342163, 159.2615681},
                                         {"Ra 1e6", 0.08103566038, 148.8197415}};
  for (const RollingRow& row : rolling_rows) {
    const auto rolling = through_gap(Under::closed_gap, row.height_m, 0.9, 20.0, 40.0);
    check_reference({.id = std::string("GAP-02 from below ") + row.name,
                     .what = "heat up through a closed gap, faces at 40 and 20 degC, emissivities 0.9, W/m2",
                     .source = "[hollands1976] with radiation between parallel plates, by hand, air at 300 K",
                     .expected = row.flux_w_per_m2,
                     .got = -rolling.ceiling_flux_w_per_m2.back(),
                     .tolerance = 0.01,
                     .reason = "the faces stand 3e-4 K beside what they are held to",
                     .function = stepper});
  }
}

TEST(StackCanopy, SweptGap) {
  // The published case has one warm wall (Nusselt number 4.861); ours are two walls at one temperature (7.541). At the
  // same number of transfer units the air leaves as warm.
  const physics::GapSweep sweep = physics::swept_gap(0.03, 1.0, 0.2, 3491.514084);
  check_reference({.id = "GAP-03 film",
                   .what = "film on each wall of a swept gap of 30 mm, W/m2K",
                   .source = "[incropera] Table 8.1 Nusselt number 7.541 (from memory) on twice the height, by hand",
                   .expected = 3.298936133,
                   .got = sweep.wall_w_per_m2_k,
                   .tolerance = 1e-8,
                   .reason = "ten digits are given",
                   .function = "physics::swept_gap"});
  const double units = 2.0 * sweep.wall_w_per_m2_k * 1.0 / (3491.514084 * 0.2 * 0.03);
  check_reference({.id = "GAP-03 outlet",
                   .what = "air leaving a gap with walls at 40 degC, entering at 30 degC, 0.314948 transfer units, K",
                   .source = "[incropera] Eq. 8.41b (from memory), recomputed",
                   .expected = 305.85173,
                   .got = 303.15 + 10.0 * units * sweep.entering_frac,
                   .tolerance = 1e-5,
                   .reason = "five decimals are given",
                   .function = "physics::swept_gap",
                   .scale = 10.0});

  // Through the stepper: the upper wall is kept from heat, so it is as warm as the air in the gap.
  Stack stack = calm_stack(1e-9, 1e6);
  stack.module = {solid_layer(0.1, 0.04, 10.0, 1000.0)};
  stack.deck = {solid_layer(0.01, 1e4, 1000.0, 1000.0)};
  stack.under = Under::ventilated_gap;
  stack.gap = {.height_m = 0.03,
               .length_m = 1.0,
               .emissivity_above = 1e-12,
               .emissivity_below = 1e-12,
               .wind_frac = 0.0,
               .still_speed_m_per_s = 0.2};
  stack.initial_temperature_c = 24.0;
  RunOptions options = from_rest(48);
  options.newton_w_per_m2 = 1e-7;
  options.error_bound_k = 1e9;
  const auto swept = run_group(over_given_room(stack, 40.0), steady_air(20.0), options).stacks[0];
  const char* const source = "[incropera] Eq. 8.41b (from memory) with the balance of walls and air, by hand";
  check_reference({.id = "GAP-04 wall",
                   .what = "wall kept from heat over a swept gap, deck at 40 degC, air at 20 degC, degC",
                   .source = source,
                   .expected = 24.12268457,
                   .got = swept.surface_c.back(),
                   .tolerance = 1e-4,
                   .reason = "the deck stands 1e-4 K beside the room",
                   .function = stepper});
  check_reference({.id = "GAP-04 heat",
                   .what = "heat from that deck into the air, W/m2",
                   .source = source,
                   .expected = 52.37824956,
                   .got = -swept.ceiling_flux_w_per_m2.back(),
                   .tolerance = 1e-3,
                   .reason = "the deck stands 1e-4 K beside the room",
                   .function = stepper});
}

}  // namespace
}  // namespace houseleek::tests
