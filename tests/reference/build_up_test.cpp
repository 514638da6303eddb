// Steady and periodic transmittance of build-ups against recomputed values; the standards' own tables are from memory.
#include "physics/build_up.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/contract.hpp"
#include "support/reference_check.hpp"

namespace houseleek::physics {
namespace {

using tests::check_reference;

// Inside to outside, without films: a plastered slab with screed and felt, and what is laid on it.
const ThermalLayer plaster = thermal_layer({0.015, 0.57, 1300.0, 1000.0});
const ThermalLayer concrete_160 = thermal_layer({0.160, 2.0, 2400.0, 1000.0});
const ThermalLayer concrete_180 = thermal_layer({0.180, 2.0, 2400.0, 1000.0});
const ThermalLayer concrete_200 = thermal_layer({0.200, 1.8, 2400.0, 1000.0});
const ThermalLayer screed = thermal_layer({0.060, 0.41, 1200.0, 1000.0});
const ThermalLayer bitumen = thermal_layer({0.010, 0.23, 1100.0, 1000.0});
const ThermalLayer polystyrene = thermal_layer({0.100, 0.035, 20.0, 1450.0});
const ThermalLayer air{0.16, 0.0};
const ThermalLayer tray = thermal_layer({0.003, 0.50, 980.0, 1800.0});
const ThermalLayer wet_medium = thermal_layer({0.080, 0.90, 1400.0, 1900.0});
const ThermalLayer dry_medium = thermal_layer({0.080, 0.25, 1000.0, 1000.0});
const ThermalLayer wool = thermal_layer({0.050, 0.040, 25.0, 1700.0});

using BuildUp = std::vector<ThermalLayer>;
const BuildUp r1{plaster, concrete_160, screed, bitumen};
const BuildUp r2{plaster, concrete_180, polystyrene, bitumen};
const BuildUp r3{plaster, concrete_160, screed, bitumen, air, tray, wet_medium};
const BuildUp r4{plaster, concrete_160, screed, bitumen, air, tray, dry_medium};
const BuildUp r5{plaster, concrete_160, screed, bitumen, wool, tray, wet_medium};
const BuildUp c1{concrete_200};

BuildUp with_films(const BuildUp& solid, double inside_m2_k_per_w) {
  BuildUp layers{{inside_m2_k_per_w, 0.0}};
  layers.insert(layers.end(), solid.begin(), solid.end());
  layers.push_back({outside_surface_resistance_m2_k_per_w, 0.0});
  return layers;
}

struct Row {
  std::string id;
  const char* what;
  double expected;
  double got;
  double tolerance;
  const char* function;
};

void check_rows(const std::string& source, const std::string& reason, std::initializer_list<Row> rows) {
  for (const Row& row : rows) {
    check_reference({.id = row.id,
                     .what = row.what,
                     .source = source,
                     .expected = row.expected,
                     .got = row.got,
                     .tolerance = row.tolerance,
                     .reason = reason,
                     .function = row.function});
  }
}

TEST(BuildUp, SurfaceResistances) {
  const char* function = "physics::surface_resistance_m2_k_per_w";
  check_rows(
      "[iso6946] annex C (formulas from memory), recomputed", "last digit given",
      {{"BUILDUP-01a", "inside, up, m2 K/W", 0.0986, surface_resistance_m2_k_per_w(5.0, 0.9, 293.15), 6e-5, function},
       {"BUILDUP-01b", "inside, horizontal, m2 K/W", 0.1308, surface_resistance_m2_k_per_w(2.5, 0.9, 293.15), 6e-5,
        function},
       {"BUILDUP-01c", "inside, down, m2 K/W", 0.1712, surface_resistance_m2_k_per_w(0.7, 0.9, 293.15), 6e-5,
        function}});
  const char* fixed = "physics::inside_surface_resistance_m2_k_per_w";
  check_rows(
      "[iso6946] Table 7 (from memory)", "the standard fixes the number",
      {{"BUILDUP-01d", "inside, up, m2 K/W", 0.10, inside_surface_resistance_m2_k_per_w(HeatDirection::up), 0.0, fixed},
       {"BUILDUP-01e", "inside, horizontal, m2 K/W", 0.13,
        inside_surface_resistance_m2_k_per_w(HeatDirection::horizontal), 0.0, fixed},
       {"BUILDUP-01f", "inside, down, m2 K/W", 0.17, inside_surface_resistance_m2_k_per_w(HeatDirection::down), 0.0,
        fixed}});
  struct Outside {
    double wind_m_per_s, at_10_c, at_0_c;
    const char* id;
  };
  constexpr Outside outside[] = {{1.0, 0.0792, 0.0822, "1 m/s"}, {2.0, 0.0601, 0.0619, "2 m/s"},
                                 {3.0, 0.0485, 0.0496, "3 m/s"}, {5.0, 0.0349, 0.0355, "5 m/s"},
                                 {7.0, 0.0273, 0.0277, "7 m/s"}, {10.0, 0.0206, 0.0208, "10 m/s"}};
  for (const Outside& row : outside) {
    const double convection = outside_convection_w_per_m2_k(row.wind_m_per_s);
    check_rows("[iso6946] annex C (formulas from memory), recomputed", "last digit given",
               {{std::string("BUILDUP-02 10 degC ") + row.id, "outside, m2 K/W", row.at_10_c,
                 surface_resistance_m2_k_per_w(convection, 0.9, 283.15), 6e-5, function},
                {std::string("BUILDUP-02 0 degC ") + row.id, "outside, m2 K/W", row.at_0_c,
                 surface_resistance_m2_k_per_w(convection, 0.9, 273.15), 6e-5, function}});
  }
}

TEST(BuildUp, AirLayers) {
  struct Layer {
    double thickness_mm, up, horizontal, down;
    double table_up, table_horizontal, table_down;
    const char* id;
  };
  constexpr Layer layers[] = {{5.0, 0.1085, 0.1085, 0.1085, 0.11, 0.11, 0.11, "5 mm"},
                              {10.0, 0.1490, 0.1490, 0.1490, 0.15, 0.15, 0.15, "10 mm"},
                              {15.0, 0.1623, 0.1701, 0.1701, 0.16, 0.17, 0.17, "15 mm"},
                              {25.0, 0.1623, 0.1831, 0.1918, 0.16, 0.18, 0.19, "25 mm"},
                              {50.0, 0.1623, 0.1831, 0.2122, 0.16, 0.18, 0.21, "50 mm"},
                              {100.0, 0.1623, 0.1831, 0.2201, 0.16, 0.18, 0.22, "100 mm"},
                              {300.0, 0.1623, 0.1831, 0.2264, 0.16, 0.18, 0.23, "300 mm"}};
  const char* function = "physics::air_layer_resistance_m2_k_per_w";
  const std::string computed = "[iso6946] annex D (formulas from memory), recomputed";
  for (const Layer& layer : layers) {
    const double thickness_m = 1e-3 * layer.thickness_mm;
    const double up = air_layer_resistance_m2_k_per_w({thickness_m, HeatDirection::up});
    const double horizontal = air_layer_resistance_m2_k_per_w({thickness_m, HeatDirection::horizontal});
    const double down = air_layer_resistance_m2_k_per_w({thickness_m, HeatDirection::down});
    const std::string id = std::string("BUILDUP-10 ") + layer.id;
    check_rows(computed, "four decimals are given",
               {{id + " up", "air layer, m2 K/W", layer.up, up, 6e-5, function},
                {id + " horizontal", "air layer, m2 K/W", layer.horizontal, horizontal, 6e-5, function},
                {id + " down", "air layer, m2 K/W", layer.down, down, 6e-5, function}});
    check_rows("[iso6946] Table 8 (from memory)", "the table has two decimals",
               {{id + " up, table", "air layer, m2 K/W", layer.table_up, up, 0.005, function},
                {id + " horizontal, table", "air layer, m2 K/W", layer.table_horizontal, horizontal, 0.005, function},
                {id + " down, table", "air layer, m2 K/W", layer.table_down, down, 0.005, function}});
  }
  const auto bright = [](HeatDirection direction) {
    return air_layer_resistance_m2_k_per_w({.thickness_m = 0.025, .direction = direction, .emissivity_a_frac = 0.05});
  };
  check_rows(
      computed, "four decimals are given",
      {{"BUILDUP-11a", "25 mm, one bright face, up, m2 K/W", 0.4533, bright(HeatDirection::up), 6e-5, function},
       {"BUILDUP-11b", "25 mm, one bright face, horizontal, m2 K/W", 0.6640, bright(HeatDirection::horizontal), 6e-5,
        function},
       {"BUILDUP-11c", "25 mm, one bright face, down, m2 K/W", 0.7962, bright(HeatDirection::down), 6e-5, function}});
}

TEST(BuildUp, AirLayersWithOpenings) {
  EXPECT_EQ(air_layer_ventilation(500.0), AirLayerVentilation::unventilated);
  EXPECT_EQ(air_layer_ventilation(501.0), AirLayerVentilation::slight);
  EXPECT_EQ(air_layer_ventilation(1500.0), AirLayerVentilation::slight);
  EXPECT_EQ(air_layer_ventilation(1501.0), AirLayerVentilation::well);
  check_reference({.id = "BUILDUP-12",
                   .what = "total resistance with 750 mm2 of openings, m2 K/W",
                   .source = "[iso6946] slightly ventilated layers (formula from memory), by hand",
                   .expected = 0.8,
                   .got = ventilated_total_resistance_m2_k_per_w({0.9, 0.5}, 750.0),
                   .tolerance = 1e-12,
                   .reason = "exact arithmetic",
                   .function = "physics::ventilated_total_resistance_m2_k_per_w"});
  EXPECT_EQ(ventilated_total_resistance_m2_k_per_w({0.9, 0.5}, 100.0), 0.9);
  EXPECT_EQ(ventilated_total_resistance_m2_k_per_w({0.9, 0.5}, 2000.0), 0.5);
}

TEST(BuildUp, SteadyTransmittance) {
  const std::string own = "own case by [iso6946], recomputed apart from this program";
  const char* r = "physics::thermal_layer";
  const char* total = "physics::total_resistance_m2_k_per_w";
  const char* u = "physics::transmittance_w_per_m2_k";
  const BuildUp bare = with_films(r1, 0.10);
  const BuildUp wet = with_films(r3, 0.10);
  const BuildUp dry = with_films(r4, 0.10);
  const BuildUp warm = with_films(r5, 0.10);
  check_rows(
      own, "last digit given",
      {{"BUILDUP-20a", "plaster, m2 K/W", 0.026316, plaster.resistance_m2_k_per_w, 6e-7, r},
       {"BUILDUP-20b", "concrete, m2 K/W", 0.080000, concrete_160.resistance_m2_k_per_w, 6e-7, r},
       {"BUILDUP-20c", "screed, m2 K/W", 0.146341, screed.resistance_m2_k_per_w, 6e-7, r},
       {"BUILDUP-20d", "bitumen, m2 K/W", 0.043478, bitumen.resistance_m2_k_per_w, 6e-7, r},
       {"BUILDUP-20e", "bare slab, total, m2 K/W", 0.4361355, total_resistance_m2_k_per_w(bare), 6e-8, total},
       {"BUILDUP-20f", "with wet medium, total, m2 K/W", 0.6910244, total_resistance_m2_k_per_w(wet), 6e-8, total},
       {"BUILDUP-20g", "with dry medium, total, m2 K/W", 0.9221355, total_resistance_m2_k_per_w(dry), 6e-8, total},
       {"BUILDUP-20h", "with wool and wet medium, total, m2 K/W", 1.7810244, total_resistance_m2_k_per_w(warm), 6e-8,
        total},
       {"BUILDUP-21a", "bare slab, U, W/(m2 K)", 2.292865, transmittance_w_per_m2_k(bare), 6e-7, u},
       {"BUILDUP-21b", "with wet medium, U, W/(m2 K)", 1.447127, transmittance_w_per_m2_k(wet), 6e-7, u},
       {"BUILDUP-21c", "with dry medium, U, W/(m2 K)", 1.084439, transmittance_w_per_m2_k(dry), 6e-7, u},
       {"BUILDUP-21d", "with wool and wet medium, U, W/(m2 K)", 0.561475, transmittance_w_per_m2_k(warm), 6e-7, u}});
  const std::vector<AreaShare> shares{{0.85, 1.44712690}, {0.15, 2.29286533}};
  check_rows(own, "last digit given",
             {{"BUILDUP-22", "85 % under wet modules, U, W/(m2 K)", 1.573988,
               side_by_side_transmittance_w_per_m2_k(shares), 6e-7, "physics::side_by_side_transmittance_w_per_m2_k"}});
  const std::vector<double> bare_c = face_temperatures_c(bare, 20.0, -5.0);
  const std::vector<double> dry_c = face_temperatures_c(dry, 20.0, -5.0);
  constexpr double bare_expected_c[] = {14.26784, 12.75937, 8.17364, -0.21489, -2.70713};
  constexpr double dry_expected_c[] = {17.28890, 16.57545, 14.40658, 10.43912, 9.26038, 4.92262, 4.75995, -3.91556};
  ASSERT_EQ(bare_c.size(), std::size(bare_expected_c));
  ASSERT_EQ(dry_c.size(), std::size(dry_expected_c));
  for (std::size_t i = 0; i < bare_c.size(); ++i) {
    check_rows(own, "five decimals are given",
               {{"BUILDUP-23 bare " + std::to_string(i), "temperature between layers, degC", bare_expected_c[i],
                 bare_c[i], 6e-6, "physics::face_temperatures_c"}});
  }
  for (std::size_t i = 0; i < dry_c.size(); ++i) {
    check_rows(own, "five decimals are given",
               {{"BUILDUP-23 dry " + std::to_string(i), "temperature between layers, degC", dry_expected_c[i], dry_c[i],
                 6e-6, "physics::face_temperatures_c"}});
  }
}

TEST(BuildUp, SunOnADarkSlab) {
  struct Case {
    double film_w_per_m2_k, lost_w_per_m2, sol_air_c, flux_w_per_m2, surface_c;
    const char* id;
  };
  constexpr Case cases[] = {{25.0, 0.0, 62.4, 71.9175, 59.5233, "film 25"},
                            {15.0, 0.0, 84.0, 108.8584, 76.7428, "film 15"},
                            {15.0, 72.0, 79.2, 99.8494, 72.5434, "film 15, sky"}};
  for (const Case& one : cases) {
    const double sol_air_c = sol_air_temperature_c({30.0, 810.0, one.lost_w_per_m2, one.film_w_per_m2_k});
    BuildUp layers{{0.17, 0.0}};
    layers.insert(layers.end(), r1.begin(), r1.end());
    layers.push_back({1.0 / one.film_w_per_m2_k, 0.0});
    const double flux = (sol_air_c - 26.0) * transmittance_w_per_m2_k(layers);
    const std::string id = std::string("BUILDUP-24 ") + one.id;
    check_rows(
        "own case, recomputed apart from this program", "last digit given",
        {{id, "sol-air temperature, degC", one.sol_air_c, sol_air_c, 1e-9, "physics::sol_air_temperature_c"},
         {id + " flux", "flux into the room, W/m2", one.flux_w_per_m2, flux, 6e-5, "physics::transmittance_w_per_m2_k"},
         {id + " surface", "outer surface, degC", one.surface_c, face_temperatures_c(layers, 26.0, sol_air_c).back(),
          6e-5, "physics::face_temperatures_c"}});
  }
}

struct Periodic {
  const BuildUp* build_up;
  double inside_m2_k_per_w;
  double u, y12, f, lag_h, kappa1_kj, kappa2_kj;
  const char* id;
};

// Rsi 0.10, 0.13 and 0.17; Rse 0.04; 24 h.
const Periodic periodic_rows[] = {
    {&r1, 0.10, 2.29286533, 0.72692209, 0.31703654, 7.253504, 92.999662, 71.896507, "R1 up"},
    {&r2, 0.10, 0.31676274, 0.06224696, 0.19650973, 7.603007, 88.937249, 13.484687, "R2 up"},
    {&r3, 0.10, 1.44712690, 0.24297331, 0.16790049, 11.525118, 90.632927, 134.681460, "R3 up"},
    {&c1, 0.10, 3.98230088, 2.18765260, 0.54934387, 5.483324, 103.173330, 170.688691, "C1 up"},
    {&r1, 0.17, 1.97575545, 0.50728574, 0.25675533, 7.557278, 64.900218, 70.172657, "R1 down"},
    {&r2, 0.17, 0.30989140, 0.04320381, 0.13941598, 7.892180, 61.728770, 13.220278, "R2 down"},
    {&r3, 0.17, 1.31401831, 0.16934550, 0.12887605, 11.819941, 63.168576, 133.686882, "R3 down"},
    {&r1, 0.13, 2.14529889, 0.61363316, 0.28603621, 7.410865, 78.505905, 71.045527, "R1 horizontal"},
    {&r3, 0.13, 1.38691561, 0.20496266, 0.14778308, 11.677934, 76.454347, 134.157932, "R3 horizontal"},
    {&c1, 0.13, 3.55731225, 1.82707113, 0.51361000, 5.675689, 86.167709, 170.874914, "C1 horizontal"}};

TEST(BuildUp, PeriodicValues) {
  const std::string source = "[iso13786] (equations from memory), recomputed; a finite-volume solution agrees to 1e-7";
  const char* function = "physics::periodic_values";
  for (const Periodic& row : periodic_rows) {
    const BuildUp layers = with_films(*row.build_up, row.inside_m2_k_per_w);
    const PeriodicValues got = periodic_values(layers);
    const std::string at = std::string(" ") + row.id;
    check_rows(source, "last digit given",
               {{"BUILDUP-32" + at, "U, W/(m2 K)", row.u, transmittance_w_per_m2_k(layers), 6e-9,
                 "physics::transmittance_w_per_m2_k"},
                {"BUILDUP-33" + at, "periodic transmittance, W/(m2 K)", row.y12, got.periodic_transmittance_w_per_m2_k,
                 6e-9, function},
                {"BUILDUP-34" + at, "decrement", row.f, got.decrement_frac, 6e-9, function},
                {"BUILDUP-35" + at, "time lag, h", row.lag_h, got.time_lag_h, 6e-7, function},
                {"BUILDUP-36" + at, "inside capacity, kJ/(m2 K)", row.kappa1_kj, 1e-3 * got.inside_capacity_j_per_m2_k,
                 6e-7, function},
                {"BUILDUP-37" + at, "outside capacity, kJ/(m2 K)", row.kappa2_kj,
                 1e-3 * got.outside_capacity_j_per_m2_k, 6e-7, function}});
  }
  struct Admittance {
    const BuildUp* build_up;
    double y11, lead11_h, y22, lead22_h;
    const char* id;
  };
  const Admittance admittances[] = {{&r1, 6.332873, 0.99202, 4.712942, 1.55533, "R1 up"},
                                    {&r2, 6.429141, 0.93417, 0.918388, 4.37194, "R2 up"},
                                    {&r3, 6.349931, 0.96081, 9.588797, 2.64981, "R3 up"},
                                    {&c1, 6.830088, 1.14048, 11.476360, 1.88342, "C1 up"}};
  for (const Admittance& row : admittances) {
    const PeriodicValues got = periodic_values(with_films(*row.build_up, 0.10));
    const std::string at = std::string(" ") + row.id;
    check_rows(
        source, "last digit given",
        {{"BUILDUP-38" + at, "inside admittance, W/(m2 K)", row.y11, got.inside_admittance_w_per_m2_k, 6e-7, function},
         {"BUILDUP-38a" + at, "its lead, h", row.lead11_h, got.inside_admittance_lead_h, 6e-6, function},
         {"BUILDUP-39" + at, "outside admittance, W/(m2 K)", row.y22, got.outside_admittance_w_per_m2_k, 6e-7,
          function},
         {"BUILDUP-39a" + at, "its lead, h", row.lead22_h, got.outside_admittance_lead_h, 6e-6, function}});
  }
}

TEST(BuildUp, PeriodicMatrixOfTheBareSlab) {
  const PeriodicMatrix z = periodic_matrix(with_films(r1, 0.10));
  const char* function = "physics::periodic_matrix";
  check_rows("[iso13786] (equations from memory), recomputed", "eight decimals are given",
             {{"BUILDUP-30a", "z11, real", -4.83159073, z.z11.re, 6e-9, function},
              {"BUILDUP-30b", "z11, imaginary", 7.24934140, z.z11.im, 6e-9, function},
              {"BUILDUP-30c", "z12, real, m2 K/W", 0.44338739, z.z12.re, 6e-9, function},
              {"BUILDUP-30d", "z12, imaginary, m2 K/W", -1.30225075, z.z12.im, 6e-9, function},
              {"BUILDUP-30e", "z21, real, W/(m2 K)", 34.20547050, z.z21.re, 6e-9, function},
              {"BUILDUP-30f", "z21, imaginary, W/(m2 K)", -23.04250289, z.z21.im, 6e-9, function},
              {"BUILDUP-30g", "z22, real", -4.34939313, z.z22.re, 6e-9, function},
              {"BUILDUP-30h", "z22, imaginary", 4.80806846, z.z22.im, 6e-9, function}});
  check_rows("recomputed by hand: a resistance without mass", "exact arithmetic",
             {{"BUILDUP-31", "z12 of 2.0 with films of 0.10 and 0.04, m2 K/W", -2.14,
               periodic_matrix(with_films({{2.0, 0.0}}, 0.10)).z12.re, 1e-12, function}});
}

TEST(BuildUp, PeriodicValuesKeepTheirIdentities) {
  const PeriodicValues light = periodic_values(with_films({{2.0, 0.0}}, 0.10));
  EXPECT_NEAR(light.decrement_frac, 1.0, 1e-14);
  EXPECT_NEAR(light.time_lag_h, 0.0, 1e-14);
  EXPECT_NEAR(light.inside_capacity_j_per_m2_k, 0.0, 1e-9);
  EXPECT_NEAR(light.outside_capacity_j_per_m2_k, 0.0, 1e-9);
  for (const BuildUp* build_up : {&r1, &r2, &r3, &r4, &r5, &c1}) {
    const PeriodicMatrix z = periodic_matrix(with_films(*build_up, 0.13));
    // The determinant is one whatever the layers.
    const double re = z.z11.re * z.z22.re - z.z11.im * z.z22.im - (z.z12.re * z.z21.re - z.z12.im * z.z21.im);
    const double im = z.z11.re * z.z22.im + z.z11.im * z.z22.re - (z.z12.re * z.z21.im + z.z12.im * z.z21.re);
    EXPECT_NEAR(re, 1.0, 1e-9);
    EXPECT_NEAR(im, 0.0, 1e-9);
    // A layer cut in two is the same layer.
    BuildUp cut;
    for (const ThermalLayer& layer : *build_up) {
      cut.push_back({0.3 * layer.resistance_m2_k_per_w, 0.3 * layer.capacity_j_per_m2_k});
      cut.push_back({0.7 * layer.resistance_m2_k_per_w, 0.7 * layer.capacity_j_per_m2_k});
    }
    const PeriodicValues whole = periodic_values(with_films(*build_up, 0.13));
    const PeriodicValues parts = periodic_values(with_films(cut, 0.13));
    EXPECT_NEAR(parts.periodic_transmittance_w_per_m2_k / whole.periodic_transmittance_w_per_m2_k, 1.0, 1e-12);
    EXPECT_NEAR(parts.time_lag_h, whole.time_lag_h, 1e-10);
    // Over a very long period the swing passes as steady heat does.
    EXPECT_NEAR(periodic_values(with_films(*build_up, 0.13), 1e10).decrement_frac, 1.0, 1e-6);
  }
}

TEST(BuildUp, RefusesWhatIsOutsideItsRange) {
  EXPECT_THROW((void)thermal_layer({0.0, 1.0, 1000.0, 1000.0}), ContractViolation);
  EXPECT_THROW((void)total_resistance_m2_k_per_w({}), ContractViolation);
  EXPECT_THROW((void)periodic_matrix(with_films(r1, 0.0)), ContractViolation);
  EXPECT_THROW((void)air_layer_resistance_m2_k_per_w({0.31, HeatDirection::up}), ContractViolation);
  const std::vector<AreaShare> short_of_one{{0.5, 1.0}, {0.4, 1.0}};
  EXPECT_THROW((void)side_by_side_transmittance_w_per_m2_k(short_of_one), ContractViolation);
  const BuildUp far_too_thick{thermal_layer({10.0, 1.0, 2000.0, 1000.0})};
  EXPECT_THROW((void)periodic_matrix(far_too_thick), ContractViolation);
}

}  // namespace
}  // namespace houseleek::physics
