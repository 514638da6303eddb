// Cases of the load, feet, sag of joists, the map and the containers: sums by hand.
#include "checks/load_cases.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "checks/foot_pressure.hpp"
#include "checks/joist_sag.hpp"
#include "checks/load_map.hpp"
#include "checks/uniform_load.hpp"
#include "checks/weights.hpp"
#include "support/small_design.hpp"

namespace houseleek::checks {
namespace {

using tests::edited;
using tests::small_design_text;
using tests::valid_design;

constexpr double g = 9.80665;

std::string with(const std::string& before_room, const std::string& before_rivals = "",
                 const std::vector<tests::Edit>& more = {}) {
  std::vector<tests::Edit> edits = more;
  edits.push_back({"[[room]]\n", before_room + "\n[[room]]\n"});
  edits.push_back({"[rivals]", before_rivals + "\n[rivals]"});
  return edited(small_design_text(), edits);
}

constexpr const char* all_actions = R"([roof.actions]
ground_snow_kn_per_m2 = 0.75
hail_mm = 50
blocked_outlet_mm = 50
stack_modules = 3
person_kn = 1)";

const LoadCase& named(const std::vector<LoadCase>& cases, std::string_view name) {
  for (const LoadCase& one : cases) {
    if (one.name == name) return one;
  }
  ADD_FAILURE() << name;
  return cases.front();
}

TEST(LoadCases, ByHand) {
  const auto cases = compute_load_cases(valid_design(with(all_actions)));
  ASSERT_EQ(cases.size(), 10U);
  EXPECT_NEAR(named(cases, "dry").heaviest_kn_per_m2.likely, 52.625 * g / 1000.0, 1e-12);
  EXPECT_NEAR(named(cases, "drained").heaviest_kn_per_m2.likely, 88.375 * g / 1000.0, 1e-12);
  EXPECT_NEAR(named(cases, "soaked").whole_roof_kn.likely, 4.0 * 102.525 * g / 1000.0, 1e-12);
  const LoadCase& snow = named(cases, "soaked with snow");
  EXPECT_NEAR(snow.added_kn_per_m2.likely, 0.60, 1e-12);  // 0.8 x 0.75
  EXPECT_NEAR(snow.heaviest_kn_per_m2.likely, 102.525 * g / 1000.0 + 0.60, 1e-12);
  EXPECT_NEAR(snow.factored_kn_per_m2.likely, 1.35 * 102.525 * g / 1000.0 + 1.5 * 0.60, 1e-12);
  EXPECT_NEAR(snow.whole_roof_kn.likely, 4.0 * 102.525 * g / 1000.0 + 12.0 * 0.60, 1e-12);
  EXPECT_EQ(snow.uniform, LoadVerdict::within);  // high 1.12 + 0.60
  EXPECT_NEAR(named(cases, "soaked with hail").added_kn_per_m2.likely, 0.05 * 600.0 * g / 1000.0, 1e-12);
  EXPECT_NEAR(named(cases, "blocked outlet").added_kn_per_m2.likely, 0.4905, 1e-12);
  EXPECT_NEAR(named(cases, "a stack of wet modules being moved").added_kn_per_m2.likely, 3.0 * 102.525 * g / 1000.0,
              1e-12);
  EXPECT_EQ(named(cases, "a stack of wet modules being moved").uniform, LoadVerdict::above);
  EXPECT_FALSE(named(cases, "a person").is_computed);
}

TEST(LoadCases, WhatIsCarriedApartIsNotComparedButShown) {
  const std::vector<tests::Edit> apart = {
      {"includes = \"old screed\"\n", "includes = \"old screed\"\nsnow_apart = true\naveraging_area_m2 = 4\n"},
      {"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 1.2"}};
  const auto cases = compute_load_cases(valid_design(with(all_actions, "", apart)));
  const LoadCase& snow = named(cases, "soaked with snow");
  EXPECT_EQ(snow.uniform, LoadVerdict::within);
  EXPECT_NE(snow.statement.find("0.60 of it is carried besides the figure, the rest is within the"), std::string::npos);
  EXPECT_EQ(named(cases, "blocked outlet").uniform, LoadVerdict::above);
  // A person on 4 m2 adds 0.25 kN/m2.
  EXPECT_NEAR(named(cases, "a person").added_kn_per_m2.likely, 0.25, 1e-9);
}

TEST(LoadCases, ADriftStandsAgainstTheHighestThingOnTheRoof) {
  const auto drift_of = [](const std::string& actions, const std::string& parapet) {
    const std::string text = edited(with(actions), {{"finish = {", parapet + "finish = {"}});
    return named(compute_load_cases(valid_design(text)), "soaked with drifted snow");
  };
  // Snow as deep as the parapet is high: 2 kN/m3 x 0.5 m; and no deeper however high it is than 2.0 x 0.75.
  const LoadCase half_metre = drift_of(all_actions, "parapet_height_mm = 500\n");
  ASSERT_TRUE(half_metre.is_computed) << half_metre.statement;
  EXPECT_NEAR(half_metre.added_kn_per_m2.likely, 1.0, 1e-12);
  EXPECT_NE(half_metre.because.find("the parapet (0.5 m high)"), std::string::npos) << half_metre.because;
  EXPECT_NEAR(drift_of(all_actions, "parapet_height_mm = 1900\n").added_kn_per_m2.likely, 1.5, 1e-12);
  const LoadCase low = drift_of(all_actions, "parapet_height_mm = 100\n");
  EXPECT_FALSE(low.is_computed);
  EXPECT_NE(low.statement.find("nothing described stands high enough"), std::string::npos) << low.statement;
  const LoadCase none = drift_of("[roof.actions]\nground_snow_kn_per_m2 = 0\n", "parapet_height_mm = 500\n");
  EXPECT_FALSE(none.is_computed);
  EXPECT_NE(none.statement.find("no snow falls there"), std::string::npos) << none.statement;
}

TEST(LoadCases, WithoutInputsEachSaysWhatIsMissing) {
  const auto cases = compute_load_cases(valid_design(small_design_text()));
  for (const char* name : {"soaked with snow", "soaked with drifted snow", "soaked with hail", "blocked outlet",
                           "hail on a blocked outlet", "a stack of wet modules being moved", "a person"}) {
    EXPECT_FALSE(named(cases, name).is_computed) << name;
    EXPECT_NE(named(cases, name).statement.find("not worked out, because"), std::string::npos) << name;
    EXPECT_EQ(named(cases, name).uniform, LoadVerdict::none) << name;
  }
}

constexpr const char* pot = R"([[container]]
name = "lemon tree"
at = [3.2, 1.5]
diameter_mm = 600
medium = "crushed brick"
fill_mm = 400
empty_kg = 6
plant_kg = 10
feet = { count = 3, area_mm2 = 2000 })";

TEST(Containers, WeighTheirFillAndThemselves) {
  const design::ValidDesign design = valid_design(with("", pot));
  const ContainerWeights weights = compute_container_weights(design->containers[0]);
  const double base_m2 = std::numbers::pi * 0.09;
  EXPECT_NEAR(weights.dry_kg.likely, 16.0 + base_m2 * 0.4 * 1150.0, 1e-9);
  EXPECT_NEAR(weights.soaked_kg.likely, 16.0 + base_m2 * 0.4 * (1150.0 + 500.0), 1e-9);
  const UniformLoad load = check_uniform_load(design);
  ASSERT_EQ(load.containers.size(), 1U);
  EXPECT_NEAR(load.containers[0].soaked_kn_per_m2.likely, (16.0 / base_m2 + 660.0) * g / 1000.0, 1e-9);
  EXPECT_EQ(load.heaviest_kn_per_m2, load.containers[0].soaked_kn_per_m2);
  EXPECT_EQ(load.verdict, LoadVerdict::above);
}

TEST(FootPressure, ByHandAndAgainstWhatSomebodySaid) {
  const std::string feet = "mass_kg_per_module = 0.5\nfeet = { count = 5, area_mm2 = 10000 }";
  const auto rows = compute_foot_pressures(valid_design(
      with("[roof.bearing]\nmembrane_kpa = 40\nwho = \"the maker\"", pot, {{"mass_kg_per_module = 0.5", feet}})));
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_NEAR(rows[0].soaked_kpa.likely, 102.525 * g / 1000.0 / 0.05, 1e-9);
  EXPECT_NEAR(rows[0].uneven_kpa.likely, 102.525 * g / 1000.0 / 0.04, 1e-9);
  EXPECT_EQ(rows[0].verdict, LoadVerdict::within);
  EXPECT_NE(rows[0].statement.find("within the 40 kPa that the maker gave for the membrane"), std::string::npos);
  EXPECT_EQ(rows[1].verdict, LoadVerdict::above);  // a tub on three small feet
  const auto unknown = compute_foot_pressures(valid_design(with("", pot)));
  EXPECT_EQ(unknown[0].because, "count and area of the spacer's feet are not given");
  EXPECT_EQ(unknown[1].verdict, LoadVerdict::none);
  EXPECT_NE(unknown[1].statement.find("no verdict"), std::string::npos);
}

TEST(JoistSag, OneJoistUnderEvenModulesByHand) {
  const std::string joists = R"([roof.structure]
kind = "joists"
spans_along = "x"
supports_at_m = [0, 4]
[roof.structure.joist]
spacing_mm = 500
first_at_m = 0
width_mm = 60
height_mm = 200
modulus_n_per_mm2 = 10000
service_class = 1)";
  const std::vector<tests::Edit> closed = {
      {"columns = 2\nrows = 2\norigin = [0.5, 0.4]\nspacing_mm = 50", "columns = 4\nrows = 2\norigin = [0, 0]"}};
  const design::ValidDesign design = valid_design(with(joists, "", closed));
  const SpanLoad load = check_span_load(design);
  const JoistSags sags = compute_joist_sags(design, load);
  ASSERT_EQ(sags.spans.size(), load.lines.size());
  // EI = 10000 x 60 x 200^3/12 N mm2 = 400 kN m2; 0.5 m of 1.00543 kN/m2 on 4 m: 5/384 w l4/EI.
  const double expected_mm = 1000.0 * 5.0 / 384.0 * 0.5 * 102.525 * g / 1000.0 * 256.0 / 400.0;
  EXPECT_NEAR(sags.spans[1].first_mm.likely, expected_mm, 1e-9);
  EXPECT_NEAR(sags.spans[1].final_mm.likely, 1.6 * expected_mm, 1e-9);
  const double ponding = 9.81 * 0.5 * 256.0 / (std::pow(std::numbers::pi, 4) * 400.0);
  EXPECT_NEAR(sags.spans[1].ponding_frac, ponding, 1e-9);
  EXPECT_NEAR(sags.spans[1].with_water_mm.likely, 1.6 * expected_mm / (1.0 - ponding), 1e-9);
  EXPECT_EQ(compute_joist_sags(valid_design(small_design_text()), {}).because, "the deck is not said to have joists");
}

double whole_weight_kn(const LoadMap& map) {
  double sum_kn = 0.0;
  for (const double load : map.soaked_kn_per_m2) sum_kn += load * map.squares.side_m * map.squares.side_m;
  return sum_kn;
}

TEST(LoadMap, KeepsTheWeightWhereverModulesLie) {
  for (const char* origin : {"origin = [0.5, 0.4]", "origin = [0.37, 0.81]", "origin = [1.9, 0.9]"}) {
    const design::ValidDesign design = valid_design(
        edited(small_design_text(), {{"origin = [0.5, 0.4]", origin}, {"at = [3.8, 2.8]", "at = [0.2, 0.2]"}}));
    for (const double side_m : {0.25, 0.37, 1.0}) {
      EXPECT_NEAR(whole_weight_kn(make_load_map(design, side_m)), 4.0 * 102.525 * g / 1000.0, 1e-11)
          << origin << side_m;
    }
    double sum_kn = 0.0;
    for (const Footprint& one : find_footprints(design)) sum_kn += one.soaked_kn.likely;
    EXPECT_EQ(sum_kn, find_footprints(valid_design(small_design_text()))[0].soaked_kn.likely * 4.0) << origin;
  }
}

}  // namespace
}  // namespace houseleek::checks
