// Damp in a deep solid after a step of humidity and temperature at its face.
#include <gtest/gtest.h>

#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "physics/air.hpp"
#include "physics/damp_law.hpp"
#include "simulation/damp.hpp"
#include "support/reference_check.hpp"

namespace houseleek::tests {
namespace {

using physics::DampPoint;
using simulation::DampClimate;
using simulation::DampDeck;
using simulation::DampLayer;
using simulation::DampMoment;
using simulation::DampRun;
using simulation::DampSheet;
using simulation::DampSide;

/// The material of EN 15026 Annex A; its functions as a public transcription has them (text seen).
class BenchmarkLaw final : public physics::DampLaw {
 public:
  [[nodiscard]] DampPoint at(double w, double t) const override {
    DampPoint p = values(w, t);
    const double dw = 1e-4;
    const double dk = 1e-3;
    const DampPoint up = values(w + dw, t);
    const DampPoint down = values(w - dw, t);
    const DampPoint warm = values(w, t + dk);
    const DampPoint cold = values(w, t - dk);
    const auto slope = [](double high, double low, double step) { return (high - low) / (2.0 * step); };
    p.humidity_by_w = slope(up.humidity, down.humidity, dw);
    p.humidity_by_k = slope(warm.humidity, cold.humidity, dk);
    p.capillary_pressure_by_w = slope(up.capillary_pressure_pa, down.capillary_pressure_pa, dw);
    p.vapour_permeability_by_w =
        slope(up.vapour_permeability_kg_per_m_s_pa, down.vapour_permeability_kg_per_m_s_pa, dw);
    p.vapour_permeability_by_k =
        slope(warm.vapour_permeability_kg_per_m_s_pa, cold.vapour_permeability_kg_per_m_s_pa, dk);
    p.liquid_conductivity_by_w =
        slope(up.liquid_conductivity_kg_per_m_s_pa, down.liquid_conductivity_kg_per_m_s_pa, dw);
    p.liquid_diffusivity_m2_per_s = p.liquid_conductivity_kg_per_m_s_pa * p.capillary_pressure_by_w;
    const double up2_pa = values(w + 2.0 * dw, t).capillary_pressure_pa;
    const double down2_pa = values(w - 2.0 * dw, t).capillary_pressure_pa;
    p.liquid_diffusivity_by_w =
        slope(up.liquid_conductivity_kg_per_m_s_pa * slope(up2_pa, p.capillary_pressure_pa, dw),
              down.liquid_conductivity_kg_per_m_s_pa * slope(p.capillary_pressure_pa, down2_pa, dw), dw);
    p.conductivity_by_w = 15.8e-3;
    p.heat_by_w = 4187.0 * t;
    p.heat_by_k = 1.824e6 + 4187.0 * w;
    return p;
  }
  [[nodiscard]] double water_kg_per_m3(double humidity, double t) const override {
    return 146.0 / std::pow(1.0 + std::pow(-8e-8 * 1000.0 * 461.524 * (t + 273.15) * std::log(humidity), 1.6), 0.375);
  }

 private:
  [[nodiscard]] static DampPoint values(double w, double t) {
    const double suction_pa = 0.125e8 * std::pow(std::pow(146.0 / w, 1.0 / 0.375) - 1.0, 0.625);
    const double y = w - 73.0;
    const double dry = 1.0 - w / 146.0;
    DampPoint p;
    p.humidity = std::exp(-suction_pa / (1000.0 * 461.524 * (t + 273.15)));
    p.capillary_pressure_pa = -suction_pa;
    p.vapour_permeability_kg_per_m_s_pa =
        0.018 / 8.314 / (t + 273.15) * 26.1e-6 / 200.0 * dry / (0.503 * dry * dry + 0.497);
    p.liquid_conductivity_kg_per_m_s_pa = std::exp(-39.2619 + 0.0704 * y - 1.7420e-4 * y * y - 2.7953e-6 * y * y * y -
                                                   1.1566e-7 * std::pow(y, 4) + 2.5969e-9 * std::pow(y, 5));
    p.conductivity_w_per_m_k = 1.5 + 15.8e-3 * w;
    p.heat_j_per_m3 = (1.824e6 + 4187.0 * w) * t;
    return p;
  }
};

DampSide steady_side(double temperature_c, double vapour_pa, int n_hours) {
  DampSide side;
  side.temperature_c.assign(static_cast<std::size_t>(n_hours) + 1, temperature_c);
  side.vapour_pressure_pa.assign(static_cast<std::size_t>(n_hours) + 1, vapour_pa);
  return side;
}

double saturation_pa(double temperature_c) { return physics::saturation_vapour_pressure_pa(temperature_c); }

/// The value at a depth by a straight line between the middles of slices.
double at_depth(const std::vector<double>& thickness_m, std::span<const double> values, double depth_m) {
  double top = 0.0;
  double before_depth = 0.0;
  for (std::size_t i = 0; i < thickness_m.size(); ++i) {
    const double middle = top + 0.5 * thickness_m[i];
    if (middle >= depth_m) {
      const double share = (depth_m - before_depth) / (middle - before_depth);
      return values[i - 1] + share * (values[i] - values[i - 1]);
    }
    before_depth = middle;
    top += thickness_m[i];
  }
  return values.back();
}

constexpr const char* profile_source =
    "[en15026] Annex A: material functions seen in a public transcription, its table of results not had (not "
    "confirmed); "
    "recomputed by a similarity solution, tests/reference/damp_recompute.py";

struct ProfileRow {
  const char* id;
  int days;
  double depth_m, water_kg_per_m3;
  const char* temperature_id;
  double temperature_c;
};

// Halving the slices moves the water by less than the tolerance.
constexpr ProfileRow profile_rows[] = {
    {"DAMP-20", 7, 0.01, 51.901, "DAMP-20T", 29.9464},   {"DAMP-21", 7, 0.02, 43.392, "DAMP-21T", 29.8785},
    {"DAMP-22", 30, 0.02, 52.768, "DAMP-22T", 29.9486},  {"DAMP-23", 30, 0.04, 43.510, "DAMP-23T", 29.8833},
    {"DAMP-24", 365, 0.05, 64.092, "DAMP-24T", 29.9655}, {"DAMP-25", 365, 0.10, 46.040, "DAMP-25T", 29.9208},
};

TEST(DampReference, AStepOfHumidityAndTemperatureGoesIntoADeepSolid) {
  const BenchmarkLaw law;
  const auto layer = [&](double thickness_m, int n) { return DampLayer{&law, thickness_m, n, 0.5, 20.0}; };
  const DampDeck deck{{layer(0.04, 90), layer(0.3, 60), layer(4.0, 20), layer(40.0, 15)}, std::vector<DampSheet>(5)};
  constexpr int n_hours = 365 * 24;
  DampClimate climate{steady_side(30.0, 0.95 * saturation_pa(30.0), n_hours),
                      steady_side(20.0, 0.5 * saturation_pa(20.0), n_hours)};
  climate.top.is_wet_contact = true;
  climate.bottom.vapour_film_resistance_m2_s_pa_per_kg = 1e20;
  const std::vector<double> thickness_m = make_damp_mesh(deck, 1).thickness_m;
  const DampRun run = run_damp(deck, climate, {.n_hours = n_hours}, [&](const DampMoment& moment) {
    for (const ProfileRow& row : profile_rows) {
      if (moment.hour != row.days * 24) continue;
      const std::string where =
          std::to_string(row.days) + " d after a step, " + std::to_string(row.depth_m) + " m deep";
      check_reference({.id = row.id,
                       .what = "water " + where + ", kg/m3",
                       .source = profile_source,
                       .expected = row.water_kg_per_m3,
                       .got = at_depth(thickness_m, moment.water_kg_per_m3, row.depth_m),
                       .tolerance = 0.15,
                       .reason = "slices of 0.5 mm and hours",
                       .function = "simulation::run_damp"});
      check_reference({.id = row.temperature_id,
                       .what = "temperature " + where + ", degC",
                       .source = profile_source,
                       .expected = row.temperature_c,
                       .got = at_depth(thickness_m, moment.temperature_c, row.depth_m),
                       .tolerance = 0.01,
                       .reason = "slices of 0.5 mm and hours",
                       .function = "simulation::run_damp"});
    }
  });
  check_reference({.id = "DAMP-26",
                   .what = "water taken up in a year after a step, kg/m2",
                   .source = profile_source,
                   .expected = 3.2527,
                   .got = run.came_in_above_kg_per_m2,
                   .tolerance = 0.01,
                   .reason = "slices of 0.5 mm and hours",
                   .function = "simulation::run_damp"});
  EXPECT_LT(std::abs(run.water_residual_kg_per_m2), 1e-9);
  EXPECT_LT(run.heat_residual_frac, 1e-8);
  RecordProperty("newton_iterations", static_cast<int>(run.n_newton_iterations));
}

}  // namespace
}  // namespace houseleek::tests
