// Outlets, pipes, gutters, sheets of rain, coarse layers, hard rain: against published and recomputed values.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "physics/design_rain.hpp"
#include "physics/outlet.hpp"
#include "physics/sheet_flow.hpp"
#include "support/reference_check.hpp"

namespace houseleek::tests {
namespace {

using physics::DrainedLayer;
using physics::Gutter;
using physics::Opening;
using physics::RainedPlane;
using physics::RoundOutlet;

constexpr const char* en12056_outlets = "[en12056] Table 7 (from memory), recomputed from the remembered formula";

TEST(OutletFlow, RoundOutlets) {
  struct Row {
    const char* name;
    double diameter_mm, head_mm, l_per_s;
  };
  constexpr Row rows[] = {{"a", 100, 15, 0.775}, {"b", 100, 25, 1.667}, {"c", 100, 35, 2.761}, {"d", 100, 50, 4.714},
                          {"e", 100, 75, 5.774}, {"f", 75, 35, 2.071},  {"g", 150, 35, 4.141}};
  for (const Row& row : rows) {
    check_reference({.id = std::string("OUTLET-01") + row.name,
                     .what = "flow into a round outlet without a grate, l/s",
                     .source = en12056_outlets,
                     .expected = row.l_per_s,
                     .got = physics::round_outlet_flow({row.diameter_mm, false}, row.head_mm).l_per_s,
                     .tolerance = 5.1e-4,
                     .reason = "half of the last digit given",
                     .function = "physics::round_outlet_flow"});
  }
  check_reference({.id = "OUTLET-02",
                   .what = "the same outlet of 100 mm under a grate at 35 mm, l/s",
                   .source = "[en12056] Table 7 (from memory): half",
                   .expected = 2.761 / 2,
                   .got = physics::round_outlet_flow({100.0, true}, 35.0).l_per_s,
                   .tolerance = 5.1e-4,
                   .reason = "half of the last digit given",
                   .function = "physics::round_outlet_flow"});
  check_reference({.id = "OUTLET-03",
                   .what = "weir and orifice law at half the diameter: 150 mm at 75 mm, l/s",
                   .source = "[en12056] Table 7 (from memory), orifice law by hand: 150^2 75^0.5/15000",
                   .expected = 12.9904,
                   .got = physics::round_outlet_flow({150.0, false}, 75.0).l_per_s,
                   .tolerance = 1e-3,
                   .reason = "the weir law is in use there: both must agree",
                   .function = "physics::round_outlet_flow"});
}

TEST(OutletFlow, OpeningsAndEdges) {
  check_reference({.id = "OUTLET-04",
                   .what = "weir length 400 mm at 35 mm, l/s",
                   .source = en12056_outlets,
                   .expected = 3.451,
                   .got = physics::opening_flow({400.0, std::nullopt}, 35.0).l_per_s,
                   .tolerance = 5.1e-4,
                   .reason = "half of the last digit given",
                   .function = "physics::opening_flow"});
  check_reference(
      {.id = "OUTLET-05",
       .what = "orifice of 1e4 mm2 at 35 mm, as 200 x 50 mm: weir 1.726 governs; at 500 mm the orifice, l/s",
       .source = "[en12056] Table 7 (from memory), by hand: 1e4 500^0.5/12000",
       .expected = 18.634,
       .got = physics::opening_flow({200.0, 50.0}, 500.0).l_per_s,
       .tolerance = 5.1e-4,
       .reason = "half of the last digit given",
       .function = "physics::opening_flow"});
  check_reference({.id = "OUTLET-06",
                   .what = "lesser of weir (3.451) and orifice (4.930) for 400 mm, 1e4 mm2 at 35 mm, l/s",
                   .source = en12056_outlets,
                   .expected = 3.451,
                   .got = physics::opening_flow({400.0, 25.0}, 35.0).l_per_s,
                   .tolerance = 5.1e-4,
                   .reason = "half of the last digit given",
                   .function = "physics::opening_flow"});
  check_reference({.id = "OUTLET-07",
                   .what = "head on a 200 mm wide opening at 3 l/s, mm",
                   .source = en12056_outlets,
                   .expected = 50.61,
                   .got = physics::open_edge_head_mm(200.0, 3.0),
                   .tolerance = 0.01,
                   .reason = "the last digit given",
                   .function = "physics::open_edge_head_mm"});
  check_reference({.id = "OUTLET-08",
                   .what = "broad crest 0.3 m wide under 0.05 m, l/s",
                   .source = "[chow1959] critical depth over the crest, recomputed",
                   .expected = 5.717,
                   .got = physics::broad_crest_flow_l_per_s(0.3, 0.05),
                   .tolerance = 1e-3,
                   .reason = "the last digit given",
                   .function = "physics::broad_crest_flow_l_per_s"});
  check_reference({.id = "OUTLET-08b",
                   .what = "broad crest 1 m wide under 0.1 m, l/s",
                   .source = "[chow1959] critical depth over the crest, recomputed",
                   .expected = 53.90,
                   .got = physics::broad_crest_flow_l_per_s(1.0, 0.1),
                   .tolerance = 0.01,
                   .reason = "the last digit given",
                   .function = "physics::broad_crest_flow_l_per_s"});
  check_reference({.id = "OUTLET-08c",
                   .what = "head on a 200 mm broad crest at 3 l/s is 42.62 mm: flow at that head, l/s",
                   .source = "[chow1959] critical depth over the crest, recomputed",
                   .expected = 3.0,
                   .got = physics::broad_crest_flow_l_per_s(0.2, 0.04262),
                   .tolerance = 1e-3,
                   .reason = "the head has four digits",
                   .function = "physics::broad_crest_flow_l_per_s"});
  check_reference({.id = "OUTLET-09",
                   .what = "sharp plate 1 m wide under 1 m, l/s",
                   .source = "[chow1959] C_d 0.62 (from memory), recomputed: 1.8305 m^0.5/s",
                   .expected = 1830.5,
                   .got = physics::sharp_crest_flow_l_per_s(1.0, 1.0),
                   .tolerance = 0.4,
                   .reason = "1.8305 was worked out with g = 9.81",
                   .function = "physics::sharp_crest_flow_l_per_s"});
  check_reference({.id = "OUTLET-10",
                   .what = "hole of 50 mm under 100 mm, l/s",
                   .source = "[chow1959] C_d 0.6 (from memory), recomputed",
                   .expected = 1.650,
                   .got = physics::orifice_flow_l_per_s(50.0, 100.0),
                   .tolerance = 1e-3,
                   .reason = "the last digit given",
                   .function = "physics::orifice_flow_l_per_s"});
}

TEST(OutletFlow, PipesAndGutters) {
  struct Pipe {
    const char* name;
    double diameter_mm, l_per_s;
  };
  constexpr Pipe pipes[] = {{"a", 50, 1.69},   {"b", 60, 2.74},   {"c", 70, 4.14},   {"d", 75, 4.97},
                            {"e", 80, 5.91},   {"f", 90, 8.09},   {"g", 100, 10.71}, {"h", 110, 13.81},
                            {"i", 125, 19.42}, {"j", 150, 31.59}, {"k", 200, 68.03}};
  for (const Pipe& row : pipes) {
    check_reference({.id = std::string("OUTLET-11") + row.name,
                     .what = "upright pipe filled to 0.33, l/s",
                     .source = "[wyly1961] as in [en12056] Table 8 (from memory), recomputed from the formula",
                     .expected = row.l_per_s,
                     .got = physics::upright_pipe_flow_l_per_s(row.diameter_mm, 0.33),
                     .tolerance = 0.006,
                     .reason = "half of the last digit given",
                     .function = "physics::upright_pipe_flow_l_per_s"});
  }
  check_reference({.id = "OUTLET-12",
                   .what = "upright pipe of 100 mm filled to 0.20, l/s",
                   .source = "[wyly1961] (from memory), recomputed from the formula; tables print 4.6",
                   .expected = 4.65,
                   .got = physics::upright_pipe_flow_l_per_s(100.0, 0.20),
                   .tolerance = 0.006,
                   .reason = "half of the last digit given",
                   .function = "physics::upright_pipe_flow_l_per_s"});
  check_reference({.id = "OUTLET-13",
                   .what = "upright pipe of 100 mm as tables print it, l/s",
                   .source = "[en12056] Table 8 (from memory)",
                   .expected = 10.7,
                   .got = physics::upright_pipe_flow_l_per_s(100.0, 0.33),
                   .tolerance = 0.05,
                   .reason = "half of the last digit printed",
                   .function = "physics::upright_pipe_flow_l_per_s"});
  struct Row {
    const char* id;
    Gutter gutter;
    double l_per_s;
  };
  constexpr Row gutters[] = {{"OUTLET-14a", Gutter::half_round, 2.103},
                             {"OUTLET-14b", Gutter::rectangular_eaves, 2.633},
                             {"OUTLET-14c", Gutter::valley, 2.943}};
  for (const Row& row : gutters) {
    check_reference({.id = row.id,
                     .what = "nominal flow of a level gutter of 8000 mm2, l/s",
                     .source = "[en12056] section 5 (from memory), recomputed from the formula",
                     .expected = row.l_per_s,
                     .got = physics::gutter_flow_l_per_s(row.gutter, 8000.0),
                     .tolerance = 1e-3,
                     .reason = "the last digit given",
                     .function = "physics::gutter_flow_l_per_s"});
  }
  check_reference({.id = "OUTLET-14d",
                   .what = "design flow of the half-round one, l/s",
                   .source = "[en12056] section 5 (from memory), recomputed from the formula",
                   .expected = 1.893,
                   .got = physics::gutter_design_frac * physics::gutter_flow_l_per_s(Gutter::half_round, 8000.0),
                   .tolerance = 1e-3,
                   .reason = "the last digit given",
                   .function = "physics::gutter_flow_l_per_s"});
}

TEST(OutletFlow, RisesAndMeets) {
  // Each law grows with the head; at half the diameter the two meet; slopes are those of the flow.
  for (const RoundOutlet outlet : {RoundOutlet{80.0, true}, RoundOutlet{150.0, false}}) {
    double before = 0.0;
    for (int k = 1; k <= 600; ++k) {
      const double head_mm = 0.25 * k;
      const physics::HeadFlow flow = physics::round_outlet_flow(outlet, head_mm);
      EXPECT_GT(flow.l_per_s, before);
      const double step_mm = 1e-5;
      const double slope = (physics::round_outlet_flow(outlet, head_mm).l_per_s -
                            physics::round_outlet_flow(outlet, head_mm - step_mm).l_per_s) /
                           step_mm;
      EXPECT_NEAR(flow.l_per_s_per_mm, slope, 1e-5) << head_mm;
      before = flow.l_per_s;
    }
    const double at_mm = 0.5 * outlet.diameter_mm;
    const double below = physics::round_outlet_flow(outlet, at_mm).l_per_s;
    const double above = physics::round_outlet_flow(outlet, std::nextafter(at_mm, 1e9)).l_per_s;
    EXPECT_NEAR(above, below, 1e-14 * below);
    EXPECT_EQ(physics::round_outlet_flow(outlet, 0.0).l_per_s, 0.0);
    EXPECT_EQ(physics::round_outlet_flow(outlet, -5.0).l_per_s, 0.0);
  }
  // An opening changes from weir to orifice where both take the same: h = 2 height of the opening.
  const Opening opening{150.0, 60.0};
  EXPECT_NEAR(physics::opening_flow(opening, 120.0).l_per_s, physics::opening_flow(opening, 120.0 + 1e-9).l_per_s,
              1e-9);
  EXPECT_LT(physics::opening_flow(opening, 200.0).l_per_s, physics::opening_flow({150.0, std::nullopt}, 200.0).l_per_s);
}

TEST(SheetFlow, PlanesUnderSteadyRain) {
  struct Row {
    const char* name;
    double roughness, depth_mm, minutes;
  };
  constexpr Row rows[] = {
      {"a", 0.011, 1.588, 0.953}, {"b", 0.024, 2.535, 1.521}, {"c", 0.15, 7.613, 4.568}, {"d", 0.24, 10.093, 6.056}};
  for (const Row& row : rows) {
    const RainedPlane plane{
        .length_m = 10.0, .slope = 0.02, .roughness_s_per_m13 = row.roughness, .rain_mm_per_h = 100.0};
    check_reference({.id = std::string("SHEET-01") + row.name,
                     .what = "depth at the foot of 10 m at 2 % under 100 mm/h, mm",
                     .source = "[chow1988] kinematic sheet flow, recomputed",
                     .expected = row.depth_mm,
                     .got = 1000.0 * physics::sheet_depth_at_foot_m(plane),
                     .tolerance = 6e-4,
                     .reason = "half of the last digit given",
                     .function = "physics::sheet_depth_at_foot_m"});
    check_reference({.id = std::string("SHEET-02") + row.name,
                     .what = "time until all of that plane runs, min",
                     .source = "[henderson1964] kinematic wave, recomputed",
                     .expected = row.minutes,
                     .got = physics::time_until_all_runs_s(plane) / 60.0,
                     .tolerance = 6e-4,
                     .reason = "half of the last digit given",
                     .function = "physics::time_until_all_runs_s"});
    EXPECT_NEAR(physics::sheet_flow_m2_per_s(physics::sheet_depth_at_foot_m(plane), 0.02, row.roughness),
                100.0 / 3.6e6 * 10.0, 1e-12);
  }
}

TEST(SheetFlow, CoarseLayers) {
  const DrainedLayer coarse{.length_m = 5.0, .conductivity_m_per_s = 0.1, .rain_mm_per_h = 25.0};
  const DrainedLayer fine{.length_m = 5.0, .conductivity_m_per_s = 0.01, .rain_mm_per_h = 25.0};
  check_reference({.id = "SHEET-03a",
                   .what = "depth in a layer of K 0.1 m/s on 5 m of level deck under 25 mm/h, mm",
                   .source = "[bear1972] (from memory), recomputed",
                   .expected = 41.67,
                   .got = 1000.0 * physics::level_layer_depth_m(coarse),
                   .tolerance = 0.006,
                   .reason = "half of the last digit given",
                   .function = "physics::level_layer_depth_m"});
  check_reference({.id = "SHEET-03b",
                   .what = "the same with K 0.01 m/s, mm",
                   .source = "[bear1972] (from memory), recomputed",
                   .expected = 131.76,
                   .got = 1000.0 * physics::level_layer_depth_m(fine),
                   .tolerance = 0.006,
                   .reason = "half of the last digit given",
                   .function = "physics::level_layer_depth_m"});
  check_reference({.id = "SHEET-04",
                   .what = "the same with K 0.1 m/s on 2 %, mm",
                   .source = "[bear1972] (from memory), recomputed",
                   .expected = 17.36,
                   .got = 1000.0 * physics::sloping_layer_depth_m(coarse, 0.02),
                   .tolerance = 0.006,
                   .reason = "half of the last digit given",
                   .function = "physics::sloping_layer_depth_m"});
  check_reference({.id = "SHEET-05",
                   .what = "demand along 10 m of deck, 300 l/(s ha), half of it running off, l/(s m)",
                   .source = "definition, by hand",
                   .expected = 0.15,
                   .got = physics::layer_demand_l_per_s_m(108.0, 10.0, 0.5),
                   .tolerance = 1e-12,
                   .reason = "rounding",
                   .function = "physics::layer_demand_l_per_s_m"});
}

TEST(DesignRain, Units) {
  check_reference({.id = "RAIN-01",
                   .what = "300 l/(s ha) in mm/h",
                   .source = "definition, by hand; a handbook page quoting [en12056] gives 1.8 mm/min (text seen)",
                   .expected = 108.0,
                   .got = physics::mm_per_h_from_l_per_s_ha(300.0),
                   .tolerance = 1e-12,
                   .reason = "rounding",
                   .function = "physics::mm_per_h_from_l_per_s_ha"});
  check_reference({.id = "RAIN-02a",
                   .what = "flow off 120 m2 under 108 mm/h, all running off, l/s",
                   .source = "[en12056] Q = r A C (text seen), by hand",
                   .expected = 3.60,
                   .got = physics::roof_flow_l_per_s(108.0, 120.0, 1.0),
                   .tolerance = 1e-12,
                   .reason = "rounding",
                   .function = "physics::roof_flow_l_per_s"});
  check_reference({.id = "RAIN-02b",
                   .what = "75 mm/h off one square metre, l/s",
                   .source = "definition, by hand",
                   .expected = 0.020833,
                   .got = physics::roof_flow_l_per_s(75.0, 1.0, 1.0),
                   .tolerance = 5e-7,
                   .reason = "half of the last digit given",
                   .function = "physics::roof_flow_l_per_s"});
}

TEST(DesignRain, ChicagoTenMinutes) {
  const physics::Gumbel gumbel = physics::gumbel_from_moments(0.649, 0.177);
  const std::string source = "[chow1988] Example 12.2.1 (from memory), recomputed";
  check_reference({.id = "RAIN-05a",
                   .what = "scale of ten-minute maxima at Chicago, inch",
                   .source = source,
                   .expected = 0.138,
                   .got = gumbel.scale,
                   .tolerance = 5e-4,
                   .reason = "half of the last digit printed",
                   .function = "physics::gumbel_from_moments"});
  check_reference({.id = "RAIN-05b",
                   .what = "location of the same, inch",
                   .source = source,
                   .expected = 0.569,
                   .got = gumbel.location,
                   .tolerance = 5e-4,
                   .reason = "half of the last digit printed",
                   .function = "physics::gumbel_from_moments"});
  struct Row {
    const char* name;
    double years, inch, factor;
  };
  constexpr Row rows[] = {{"a", 5, 0.7763, 0.7195}, {"b", 10, 0.8799, 1.3046}, {"c", 50, 1.1078, 2.5923}};
  for (const Row& row : rows) {
    check_reference({.id = std::string("RAIN-06") + row.name,
                     .what = "depth once in so many years at Chicago, inch",
                     .source = source,
                     .expected = row.inch,
                     .got = physics::gumbel_quantile(gumbel, row.years),
                     .tolerance = 3e-4,
                     .reason = "recomputed with scale and location rounded to three digits",
                     .function = "physics::gumbel_quantile"});
  }
  constexpr Row factors[] = {{"a", 2, 0, -0.1643}, {"b", 5, 0, 0.7195},  {"c", 10, 0, 1.3046},
                             {"d", 25, 0, 2.0438}, {"e", 50, 0, 2.5923}, {"f", 100, 0, 3.1367}};
  for (const Row& row : factors) {
    check_reference({.id = std::string("RAIN-06-K") + row.name,
                     .what = "frequency factor: standard deviations above the mean",
                     .source = "[chow1988] Eq. 12.3.8 (from memory), recomputed",
                     .expected = row.factor,
                     .got = physics::gumbel_quantile(physics::gumbel_from_moments(0.0, 1.0), row.years),
                     .tolerance = 6e-5,
                     .reason = "half of the last digit given",
                     .function = "physics::gumbel_quantile"});
  }
}

// Made up for this test: the deepest quarter of an hour of twenty years, mm.
const std::vector<double> twenty_years_mm = {15.1, 18.2, 9.6,  22.4, 12.8, 30.5, 16.7, 14.3, 19.9, 25.2,
                                             11.4, 13.6, 17.5, 21.0, 28.3, 10.7, 16.0, 12.1, 20.4, 23.6};

TEST(DesignRain, ThreeFitsToTwentyYears) {
  struct Row {
    const char* name;
    const char* what;
    double scale, location, ten, hundred;
    physics::Gumbel fit;
  };
  const Row rows[] = {
      {"RAIN-07", "moments", 4.59518, 15.31259, 25.653, 36.451, physics::fit_gumbel_by_moments(twenty_years_mm)},
      {"RAIN-08", "L-moments", 4.93212, 15.11810, 26.217, 37.807, physics::fit_gumbel_by_l_moments(twenty_years_mm)},
      {"RAIN-09", "likelihood", 4.65411, 15.25580, 25.729, 36.665, physics::fit_gumbel_by_likelihood(twenty_years_mm)}};
  for (const Row& row : rows) {
    const std::string source = std::string("Gumbel by ") + row.what + ", made-up data, recomputed by a separate script";
    struct Figure {
      const char* id;
      const char* what;
      double expected, got, tolerance;
      const char* function;
    };
    const Figure figures[] = {{"scale", "scale", row.scale, row.fit.scale, 1e-5, "physics::fit_gumbel"},
                              {"location", "location", row.location, row.fit.location, 1e-5, "physics::fit_gumbel"},
                              {"ten years", "depth once in ten years", row.ten, physics::gumbel_quantile(row.fit, 10.0),
                               1e-3, "physics::gumbel_quantile"},
                              {"hundred years", "depth once in a hundred years", row.hundred,
                               physics::gumbel_quantile(row.fit, 100.0), 1e-3, "physics::gumbel_quantile"}};
    for (const Figure& figure : figures) {
      check_reference({.id = std::string(row.name) + " " + figure.id,
                       .what = std::string(figure.what) + " by " + row.what + ", mm",
                       .source = source,
                       .expected = figure.expected,
                       .got = figure.got,
                       .tolerance = figure.tolerance,
                       .reason = "the last digit given",
                       .function = figure.function});
    }
  }
  check_reference({.id = "RAIN-09 logarithm",
                   .what = "logarithm of the greatest likelihood",
                   .source = "Gumbel, made-up data, recomputed by a separate script",
                   .expected = -62.39721,
                   .got = physics::gumbel_log_likelihood(rows[2].fit, twenty_years_mm),
                   .tolerance = 1e-5,
                   .reason = "the last digit given",
                   .function = "physics::gumbel_log_likelihood"});
  const physics::QuantileRange range = physics::gumbel_quantile_range(twenty_years_mm, 10.0);
  check_reference({.id = "RAIN-10",
                   .what = "half width of 95 % of the ten-year depth, mm",
                   .source = "[kimball1946] (from memory), by a separate script: 1.959964 4.65411 (1 + 0.60793 "
                             "(0.42278 + 2.25037)^2)^0.5/20^0.5",
                   .expected = 4.71527,
                   .got = range.high - range.likely,
                   .tolerance = 1e-4,
                   .reason = "the scale has six digits",
                   .function = "physics::gumbel_quantile_range"});
  EXPECT_LT(range.low, 25.653);
  EXPECT_GT(range.high, 26.217);
}

TEST(GumbelRange, CoversTheTruth) {
  // Thirty years drawn 500 times from a known distribution: its ten-year depth lies in nearly all ranges.
  const physics::Gumbel truth{15.0, 5.0};
  const double ten_years = physics::gumbel_quantile(truth, 10.0);
  const RandomVariable variable = random_variable(11, "hard rain");
  int n_within = 0;
  constexpr int n_draws = 500;
  for (std::uint32_t draw = 0; draw < n_draws; ++draw) {
    std::vector<double> maxima;
    for (std::uint32_t year = 0; year < 30; ++year) {
      const double u = random_uniform(variable, {.draw = draw, .day = 0, .index = year});
      maxima.push_back(truth.location - truth.scale * std::log(-std::log(u)));
    }
    const physics::QuantileRange range = physics::gumbel_quantile_range(maxima, 10.0);
    if (range.low <= ten_years && ten_years <= range.high) ++n_within;
  }
  // 95 % within 500 draws: 475, and three standard deviations of 4.9 more; too narrow a range for few years.
  EXPECT_GE(n_within, 455);
  EXPECT_LE(n_within, 495);
}

}  // namespace
}  // namespace houseleek::tests
