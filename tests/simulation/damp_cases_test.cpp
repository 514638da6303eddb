// Damp: the curves of materials, liquid that is sucked up, vapour that condenses below a tight membrane.
#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "physics/porous.hpp"
#include "simulation/damp.hpp"

namespace houseleek::simulation {
namespace {

using physics::Porous;
using physics::PorousLaw;

DampSide steady_side(double temperature_c, double vapour_pa, int n_hours) {
  DampSide side;
  side.temperature_c.assign(static_cast<std::size_t>(n_hours) + 1, temperature_c);
  side.vapour_pressure_pa.assign(static_cast<std::size_t>(n_hours) + 1, vapour_pa);
  return side;
}

TEST(DampCurves, SorptionPassesThroughItsPoints) {
  const physics::Sorption sorption = physics::sorption_through({40.0, 60.0, 150.0});
  // Recomputed by damp_recompute.py: 40 kg/m3 at 50 %, 60 at 80 %, 150 free.
  EXPECT_NEAR(physics::water_held_kg_per_m3(sorption, 0.65), 47.55791, 1e-5);
  EXPECT_NEAR(physics::water_held_kg_per_m3(sorption, 0.93), 86.09462, 1e-5);
  EXPECT_NEAR(physics::water_held_kg_per_m3(sorption, 0.5), 40.0, 1e-8);
  EXPECT_FALSE(physics::can_pass_through({60.0, 40.0, 150.0}));
  EXPECT_FALSE(physics::can_pass_through({1.0, 60.0, 61.0}));  // bends more than the form can
}

TEST(DampCurves, AirLetsVapourThrough) {
  // [iso12572], from memory: 1.95e-10 kg/(m s Pa) at 23 degC.
  EXPECT_NEAR(1e10 * physics::air_vapour_permeability_kg_per_m_s_pa(23.0, 101325.0), 1.95, 0.01);
}

TEST(DampCurves, DryDiffusivityFollowsFromTheUptake) {
  // Square of sorptivity over diffusivity [lockington1999], from memory; recomputed from its formula.
  EXPECT_NEAR(1.0 / physics::liquid_diffusivity_dry_m2_per_s(1.0, 1.0), 123.131, 0.001);
}

/// A material that sucks; figures of no real one.
Porous sucking(double absorption_kg_per_m2_s05) {
  Porous material;
  material.density_kg_per_m3 = 1800.0;
  material.heat_capacity_j_per_kg_k = 900.0;
  material.conductivity_w_per_m_k = 0.8;
  material.moisture_conversion = 4.0;
  material.sorption = physics::sorption_through({8.0, 12.0, 200.0});
  material.water_absorption_kg_per_m2_s05 = absorption_kg_per_m2_s05;
  material.vapour_resistance_factor_dry = 16.0;
  material.vapour_resistance_factor_wet = 10.0;
  return material;
}

TEST(Damp, ADrySolidSucksAsItsCoefficientSays) {
  const PorousLaw law(sucking(0.1));
  constexpr int n_hours = 4;
  // Wet front after 4 h: 0.1 sqrt(14400) / 200 = 60 mm.
  const DampDeck deck{{{&law, 0.1, 400, 0.5, 20.0}}, std::vector<DampSheet>(2)};
  // Just above saturation: the face is as wet as it gets.
  DampClimate climate{steady_side(20.0, 2339.0, n_hours), steady_side(20.0, 40.0, n_hours)};
  climate.top.is_wet_contact = true;
  climate.bottom.vapour_film_resistance_m2_s_pa_per_kg = 1e20;
  const DampRun run = run_damp(deck, climate, {.n_hours = n_hours, .steps_per_hour = 12});
  // Of A_w sqrt(t), from 8 of 200 kg/m3: similarity solution by damp_recompute.py.
  EXPECT_NEAR(run.came_in_above_kg_per_m2 / (0.1 * std::sqrt(3600.0 * n_hours)), 0.97532, 0.003);
  EXPECT_LT(std::abs(run.water_residual_kg_per_m2), 1e-9);
}

TEST(Damp, VapourCondensesBelowATightMembrane) {
  Porous still_air = sucking(0.0);
  still_air.density_kg_per_m3 = 1.2;
  still_air.heat_capacity_j_per_kg_k = 1000.0;
  still_air.conductivity_w_per_m_k = 0.04;
  still_air.moisture_conversion = 0.0;
  still_air.sorption = physics::sorption_through({0.05, 0.09, 50.0});
  still_air.vapour_resistance_factor_dry = 1.0;
  still_air.vapour_resistance_factor_wet = 1.0;
  const PorousLaw law(still_air);
  constexpr int n_hours = 24 * 20;
  const DampDeck deck{{{&law, 0.1, 200, 0.5, 15.0}}, std::vector<DampSheet>(2)};
  DampClimate climate{steady_side(5.0, 600.0, n_hours), steady_side(20.0, 1403.0, n_hours)};
  climate.top.vapour_film_resistance_m2_s_pa_per_kg = 1e20;
  climate.bottom.heat_film_resistance_m2_k_per_w = 0.1;
  climate.bottom.vapour_film_resistance_m2_s_pa_per_kg = 1.0 / 2.5e-8;
  // The last day of twenty: what comes in is what condenses.
  double water_before = 0.0;
  double water_after = 0.0;
  const std::vector<double> thickness_m = make_damp_mesh(deck, 1).thickness_m;
  (void)run_damp(deck, climate, {.n_hours = n_hours}, [&](const DampMoment& moment) {
    double sum = 0.0;
    for (std::size_t i = 0; i < thickness_m.size(); ++i) sum += thickness_m[i] * moment.water_kg_per_m3[i];
    if (moment.hour == n_hours - 24) water_before = sum;
    if (moment.hour == n_hours) water_after = sum;
  });
  // The steady method of [iso13788]: 9.3454e-7 kg/(m2 s) by damp_recompute.py. The wet slices are not all at the
  // membrane's temperature.
  EXPECT_NEAR(1000.0 * (water_after - water_before), 80.744, 0.5);
}

}  // namespace
}  // namespace houseleek::simulation
