// The house under each cover: areas, order, mirror, splitting, strips, sideways exchange, the deck's transmittance.
#include "simulation/covers.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "climate/facade.hpp"
#include "physics/build_up.hpp"
#include "simulation/cover_layers.hpp"
#include "simulation/cover_strips.hpp"
#include "simulation/run.hpp"
#include "simulation/sideways.hpp"
#include "support/catalogue_files.hpp"
#include "support/example_house.hpp"

namespace houseleek::simulation {
namespace {

using tests::patches_of;
using tests::read_valid;
using tests::terrace_house_text;
using tests::with_patches;
using tests::with_text;

constexpr Cover all_covers[] = {Cover::bare,
                                Cover::planted,
                                Cover::white_same_squares,
                                Cover::white_whole_roof,
                                Cover::net_same_squares,
                                Cover::net_whole_roof,
                                Cover::board_same_squares,
                                Cover::board_whole_roof};
constexpr int hot_day = 196;

CoverGroup group_of(const design::ValidDesign& design, const climate::WeatherYear& year, Cover cover,
                    const CoverOptions& options = {}) {
  return make_cover_group(design, plan::make_layout(design), year, cover, options);
}

results::GroupYear run_days(const Group& group, const climate::WeatherYear& year, int n_days, int spin_up_days = 1) {
  RunOptions options;
  options.first_hour = 24 * hot_day;
  options.n_hours = 24 * n_days;
  options.spin_up_hours = 24 * spin_up_days;
  return run_group(
      group, [&year](int hour, double fraction) { return climate::forcing_at(year, hour, fraction); }, options);
}

/// Mean heat from all ceilings of a room, W.
double ceiling_w(const results::GroupYear& result, int room) {
  double sum_w = 0.0;
  for (const results::StackYear& stack : result.stacks) {
    if (stack.room != room) continue;
    for (const double flux : stack.ceiling_flux_w_per_m2) {
      sum_w += stack.area_m2 * flux / static_cast<double>(stack.ceiling_flux_w_per_m2.size());
    }
  }
  return sum_w;
}

void expect_equal_bits(const results::GroupYear& a, const results::GroupYear& b) {
  ASSERT_EQ(a.rooms.size(), b.rooms.size());
  ASSERT_EQ(a.stacks.size(), b.stacks.size());
  for (std::size_t i = 0; i < a.rooms.size(); ++i) {
    EXPECT_EQ(a.rooms[i].air_c, b.rooms[i].air_c) << a.rooms[i].name;
    EXPECT_EQ(a.rooms[i].operative_c, b.rooms[i].operative_c) << a.rooms[i].name;
  }
  for (std::size_t i = 0; i < a.stacks.size(); ++i) {
    EXPECT_EQ(a.stacks[i].name, b.stacks[i].name);
    EXPECT_EQ(a.stacks[i].surface_c, b.stacks[i].surface_c) << a.stacks[i].name;
    EXPECT_EQ(a.stacks[i].ceiling_c, b.stacks[i].ceiling_c) << a.stacks[i].name;
    EXPECT_EQ(a.stacks[i].water_mm, b.stacks[i].water_mm) << a.stacks[i].name;
  }
}

TEST(Covers, AreasSumToEachRoomsArea) {
  const design::ValidDesign design = read_valid(terrace_house_text());
  const climate::WeatherYear year = tests::year_of(design);
  const plan::Layout layout = plan::make_layout(design);
  for (const Cover cover : all_covers) {
    for (const bool has_fine_strips : {true, false}) {
      const CoverGroup made = make_cover_group(design, layout, year, cover, {.has_fine_strips = has_fine_strips});
      ASSERT_EQ(made.origins.size(), made.group.stacks.size());
      std::vector<double> sums_m2(layout.rooms.size(), 0.0);
      double covered_m2 = 0.0;
      for (std::size_t i = 0; i < made.origins.size(); ++i) {
        const Stack& stack = made.group.stacks[i];
        EXPECT_EQ(stack.room, made.origins[i].room);
        sums_m2[static_cast<std::size_t>(stack.room)] += stack.area_m2;
        if (made.origins[i].form != StackForm::bare) covered_m2 += stack.area_m2;
      }
      for (std::size_t i = 0; i < sums_m2.size(); ++i) EXPECT_NEAR(sums_m2[i], layout.rooms[i].area_m2, 1e-9);
      const bool is_whole =
          cover == Cover::white_whole_roof || cover == Cover::net_whole_roof || cover == Cover::board_whole_roof;
      EXPECT_NEAR(covered_m2, cover == Cover::bare ? 0.0 : is_whole ? 63.84 : 24.0, 2e-3);
    }
  }
}

TEST(Covers, WhatLiesWhere) {
  const design::ValidDesign design = read_valid(terrace_house_text());
  const climate::WeatherYear year = tests::year_of(design);
  const CoverGroup planted = group_of(design, year, Cover::planted);
  int n_middles = 0;
  for (std::size_t i = 0; i < planted.origins.size(); ++i) {
    const StackOrigin& origin = planted.origins[i];
    const Stack& stack = planted.group.stacks[i];
    EXPECT_EQ(stack.deck, planted.group.stacks[0].deck);
    EXPECT_EQ(stack.outside_film.wind_to_roof_frac, design->site.wind_factor);
    if (origin.form == StackForm::bare) {
      EXPECT_EQ(origin.recipe, -1);
      EXPECT_TRUE(stack.module.empty());
      EXPECT_LT(origin.distance_to_edge_m, 0.0);
      continue;
    }
    EXPECT_GT(origin.distance_to_edge_m, 0.0);
    EXPECT_EQ(origin.form == StackForm::raised, origin.recipe == 0);
    EXPECT_EQ(stack.under, origin.recipe == 0 ? Under::ventilated_gap : Under::contact);
    EXPECT_EQ(stack.waterings.size(), origin.recipe == 0 ? 3U : 1U);
    n_middles += origin.is_middle ? 1 : 0;
  }
  EXPECT_EQ(n_middles, 6);  // a recipe over a room: six of them

  const CoverGroup white = group_of(design, year, Cover::white_whole_roof);
  ASSERT_EQ(white.group.stacks.size(), 4U);
  EXPECT_EQ(white.group.stacks[0].surface.albedo, 0.62);
  EXPECT_TRUE(white.group.side_links.empty());
  const CoverGroup net = group_of(design, year, Cover::net_whole_roof);
  EXPECT_TRUE(net.group.stacks[0].has_net);
  EXPECT_NEAR(net.group.stacks[0].net.emissivity, 0.92 * 0.6, 1e-12);
  EXPECT_NEAR(net.group.stacks[0].net.transmittance, 0.45, 1e-12);
  const CoverGroup board = group_of(design, year, Cover::board_whole_roof);
  EXPECT_EQ(board.group.stacks[0].under, Under::contact);
  ASSERT_EQ(board.group.stacks[0].module.size(), 2U);
  EXPECT_NEAR(board.group.stacks[0].module[1].thickness_m, 0.08, 1e-12);
  EXPECT_EQ(board.group.stacks[0].surface.albedo, 0.3);
  const CoverGroup held = group_of(design, year, Cover::bare, {.is_held = true});
  EXPECT_TRUE(held.group.rooms[0].is_held);
}

TEST(Covers, OrderOfPatchesChangesNoBit) {
  const std::string text = terrace_house_text();
  std::vector<std::string> patches = patches_of(text);
  std::string shuffled = patches[2] + patches[0] + patches[3] + patches[1];
  const design::ValidDesign design = read_valid(text);
  const design::ValidDesign other = read_valid(with_patches(text, shuffled));
  const climate::WeatherYear year = tests::year_of(design);
  expect_equal_bits(run_days(group_of(design, year, Cover::planted).group, year, 3),
                    run_days(group_of(other, year, Cover::planted).group, year, 3));
}

// The same sun with north and south swapped, on a house turned the same way.
TEST(Covers, MirroredHouseInMirroredSunGivesEqualBits) {
  std::string text = terrace_house_text();
  text = with_text(text, "facing_deg = 180", "facing_deg = south");
  text = with_text(text, "facing_deg = 0\n", "facing_deg = 180\n");
  text = with_text(text, "facing_deg = south", "facing_deg = 0");
  const design::ValidDesign design = read_valid(terrace_house_text());
  const design::ValidDesign mirrored = read_valid(text);
  const climate::WeatherYear year = tests::year_of(design);
  const climate::WeatherYear mirrored_year = climate::mirrored_north_south(year);
  const CoverGroup here = group_of(design, year, Cover::planted);
  const CoverGroup there = group_of(mirrored, mirrored_year, Cover::planted);
  const double facing_sum_w = here.group.rooms[1].solar_gain_w[24 * hot_day + 12];
  EXPECT_GT(facing_sum_w, 0.0);
  EXPECT_NE(facing_sum_w, group_of(mirrored, year, Cover::planted).group.rooms[1].solar_gain_w[24 * hot_day + 12]);
  for (std::size_t i = 0; i < here.group.rooms.size(); ++i) {
    EXPECT_EQ(here.group.rooms[i].solar_gain_w, there.group.rooms[i].solar_gain_w) << i;
  }
  expect_equal_bits(run_days(here.group, year, 3), run_days(there.group, mirrored_year, 3));
}

TEST(Covers, SplittingALayerChangesNoBit) {
  std::string text = terrace_house_text();
  text = with_text(text, "material = \"reinforced concrete\"\nthickness_mm = 160",
                   "material = \"reinforced concrete\"\nthickness_mm = 80\n[[roof.deck]]\n"
                   "material = \"reinforced concrete\"\nthickness_mm = 80");
  text = with_text(text, "material = \"light compost-perlite-coir mix\"\nthickness_mm = 50",
                   "material = \"light compost-perlite-coir mix\"\nthickness_mm = 25\n[[recipe.layer]]\n"
                   "role = \"medium\"\nmaterial = \"light compost-perlite-coir mix\"\nthickness_mm = 25");
  const design::ValidDesign design = read_valid(terrace_house_text());
  const design::ValidDesign split = read_valid(text);
  ASSERT_EQ(split->roof.deck.size(), design->roof.deck.size() + 1);
  ASSERT_EQ(split->recipes[0].layers.size(), design->recipes[0].layers.size() + 1);
  const climate::WeatherYear year = tests::year_of(design);
  expect_equal_bits(run_days(group_of(design, year, Cover::planted).group, year, 3),
                    run_days(group_of(split, year, Cover::planted).group, year, 3));
}

/// Rings of four 1 m by 0.8 m modules, 0.5 m apart, in a row.
CellKind spaced_kind() {
  CellKind kind;
  kind.module_length_m = 1.0;
  kind.module_width_m = 0.8;
  kind.spacing_m = 0.5;
  kind.n_modules = 4.0;
  kind.covered_m2 = 3.2;
  kind.open_m2 = 1.2;
  kind.between_edge_m = 4.8;
  kind.bare_edge_m = 9.6;
  return kind;
}

TEST(CoverStrips, RingsUnderAndBetweenSpacedModules) {
  const std::vector<Strip> under = strips_under(spaced_kind());
  ASSERT_EQ(under.size(), 3U);
  // Corners included: 1.0 x 0.8, then 0.9 x 0.7, then 0.7 x 0.5.
  EXPECT_NEAR(under[0].area_m2, 4.0 * (0.80 - 0.63), 1e-12);
  EXPECT_NEAR(under[1].area_m2, 4.0 * (0.63 - 0.35), 1e-12);
  EXPECT_NEAR(under[2].area_m2, 4.0 * 0.35, 1e-12);
  EXPECT_NEAR(under[0].onward_edge_m, 4.0 * 3.2, 1e-12);
  EXPECT_NEAR(under[1].onward_edge_m, 4.0 * 2.4, 1e-12);
  EXPECT_EQ(under[2].onward_edge_m, 0.0);
  EXPECT_NEAR(under[2].to_m, 0.4, 1e-12);
  const std::vector<Strip> between = strips_between(spaced_kind());
  ASSERT_EQ(between.size(), 3U);
  // Half of the space is 0.25 m: rings of 1.1 x 0.9, 1.3 x 1.1, 1.5 x 1.3 around a module.
  const double ring_m2 = 1.5 * 1.3 - 0.8;
  EXPECT_NEAR(between[0].area_m2, 1.2 * (0.99 - 0.80) / ring_m2, 1e-12);
  EXPECT_NEAR(between[1].area_m2, 1.2 * (1.43 - 0.99) / ring_m2, 1e-12);
  EXPECT_NEAR(between[2].area_m2, 1.2 * (1.95 - 1.43) / ring_m2, 1e-12);
  EXPECT_NEAR(between[0].onward_edge_m, 4.8 * 4.0 / 3.6, 1e-12);
  EXPECT_NEAR(between[1].onward_edge_m, 4.8 * 4.8 / 3.6, 1e-12);
}

TEST(CoverStrips, NarrowBandsHaveFewerStrips) {
  CellKind kind = spaced_kind();
  kind.spacing_m = 0.2;
  EXPECT_EQ(strips_between(kind).size(), 1U);
  kind.spacing_m = 0.3;
  EXPECT_EQ(strips_between(kind).size(), 2U);
  kind.module_width_m = 0.16;
  kind.covered_m2 = 0.64;
  EXPECT_EQ(strips_under(kind).size(), 1U);
  kind.open_m2 = 0.0;
  EXPECT_TRUE(strips_between(kind).empty());
}

TEST(CoverStrips, ClosedBlockHasRingsOfItsOwn) {
  CellKind kind;
  kind.spacing_m = 0.0;
  kind.covered_m2 = kind.block_m2 = 6.0;  // 3 m by 2 m
  kind.narrowest_block_m = 2.0;
  kind.inner_m2 = {2.9 * 1.9, 2.7 * 1.7};
  kind.inner_edge_m = {9.6, 8.8};
  const std::vector<Strip> under = strips_under(kind);
  ASSERT_EQ(under.size(), 3U);
  EXPECT_NEAR(under[0].area_m2, 6.0 - 5.51, 1e-12);
  EXPECT_NEAR(under[1].area_m2, 5.51 - 4.59, 1e-12);
  EXPECT_NEAR(under[2].area_m2, 4.59, 1e-12);
  EXPECT_EQ(under[1].onward_edge_m, 8.8);
  EXPECT_TRUE(strips_between(kind).empty());
  const std::vector<Strip> coarse = coarser(under);
  ASSERT_EQ(coarse.size(), 2U);
  EXPECT_NEAR(coarse[0].area_m2, 6.0 - 4.59, 1e-12);
  EXPECT_EQ(coarse[0].onward_edge_m, 8.8);
}

TEST(CoverStrips, JointsSeeLittleSky) {
  EXPECT_NEAR(joint_sky_frac(0.0, 0.02), 1.0, 1e-15);
  EXPECT_NEAR(joint_sky_frac(0.75, 1.0), 0.5, 1e-15);  // a triangle of 3, 4, 5
  EXPECT_NEAR(joint_sky_frac(0.15, 0.02), 0.0664, 5e-5);
}

TEST(Covers, EveryLinkJoinsStripsOfOneRoomAndEdgesAreCountedOnce) {
  const design::ValidDesign design = read_valid(terrace_house_text());
  const climate::WeatherYear year = tests::year_of(design);
  const plan::Layout layout = plan::make_layout(design);
  const CoverGroup made = group_of(design, year, Cover::planted);
  std::vector<double> to_bare_m(layout.rooms.size(), 0.0);
  for (const SideLink& link : made.group.side_links) {
    const StackOrigin& a = made.origins[static_cast<std::size_t>(link.first)];
    const StackOrigin& b = made.origins[static_cast<std::size_t>(link.second)];
    EXPECT_EQ(a.room, b.room);
    EXPECT_GT(link.edge_length_m, 0.0);
    EXPECT_GE(link.distance_m, 0.0299);
    if ((a.form == StackForm::bare) != (b.form == StackForm::bare)) {
      to_bare_m[static_cast<std::size_t>(a.room)] += link.edge_length_m;
    }
  }
  for (const plan::RoomLayout& room : layout.rooms) {
    double edges_m = 0.0;
    for (const plan::Cell& cell : room.cells) edges_m += cell.bare_edge_m + cell.between_edge_m;
    EXPECT_NEAR(to_bare_m[static_cast<std::size_t>(room.room)], edges_m, 0.15) << room.room;
  }
}

// Explicit sideways terms must not force shorter steps, however narrow a joint or well conducting a deck.
TEST(Covers, SidewaysExchangeNeverForcesShorterSteps) {
  std::string text = with_text(terrace_house_text(), "spacing_mm = 20", "spacing_mm = 3");
  text = with_text(text, "[[roof.outlet]]", "[[roof.deck]]\nmaterial = \"plate\"\nthickness_mm = 2\n[[roof.outlet]]");
  text +=
      "\n[[material]]\nname = \"plate\"\ndensity_kg_per_m3 = 7800\nconductivity_w_per_m_k = 50\n"
      "heat_capacity_j_per_kg_k = 450\n";
  const design::ValidDesign design = read_valid(text);
  const climate::WeatherYear year = tests::year_of(design);
  const CoverGroup made = group_of(design, year, Cover::planted);
  std::vector<StackMeshes> meshes;
  for (const Stack& stack : made.group.stacks) {
    StackMeshes mesh;
    mesh.deck = make_mesh(stack.deck, 1);
    meshes.push_back(mesh);
  }
  std::vector<std::size_t> order(meshes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const double z = make_sideways(made.group, meshes, order).largest_z(600.0);
  EXPECT_LE(z, 2.0 + 1e-9);
  EXPECT_GT(z, 1.0);
}

// Two slabs that lose nothing but to each other end at their common mean.
TEST(Covers, SidewaysExchangeConservesHeat) {
  Stack slab;
  Layer concrete;
  concrete.thickness_m = 0.16;
  concrete.conductivity_dry_w_per_m_k = 2.5;
  concrete.heat_capacity_dry_j_per_m3_k = 2.4e6;
  slab.deck = {concrete};
  slab.surface.emissivity = 0.0;
  slab.surface.albedo = 1.0;
  slab.outside_film.is_fixed = true;
  slab.outside_film.fixed_w_per_m2_k = 1e-9;
  slab.inside_film.is_fixed = true;
  slab.inside_film.fixed_w_per_m2_k = 1e-9;
  Room room;
  room.is_prescribed = true;
  Group group;
  group.rooms = {room};
  group.stacks = {slab, slab};
  group.stacks[0].area_m2 = 0.05;
  group.stacks[0].initial_temperature_c = 10.0;
  group.stacks[1].area_m2 = 0.15;
  group.stacks[1].initial_temperature_c = 30.0;
  group.side_links = {{0, 1, 1.0, 0.1}};
  RunOptions options;
  options.n_hours = 48;
  options.spin_up_hours = 0;
  const results::GroupYear result = run_group(
      group, [](int, double) { return climate::Forcing{}; }, options);
  EXPECT_NEAR(result.stacks[0].ceiling_c.back(), 25.0, 1e-5);
  EXPECT_NEAR(result.stacks[1].ceiling_c.back(), 25.0, 1e-5);
  EXPECT_GT(result.stacks[1].ceiling_c.front() - result.stacks[0].ceiling_c.front(), 1.0);
}

TEST(Covers, BooksCloseWithStripsAndLinks) {
  const design::ValidDesign design = read_valid(terrace_house_text());
  const climate::WeatherYear year = tests::year_of(design);
  for (const Cover cover : {Cover::planted, Cover::board_same_squares}) {
    const results::GroupYear result = run_days(group_of(design, year, cover).group, year, 3);
    for (const results::StackYear& stack : result.stacks) {
      EXPECT_LT(stack.heat_residual_max_frac, 1e-8) << stack.name;
      EXPECT_LT(stack.water_residual_max_m, 1e-9) << stack.name;
    }
    for (const results::RoomYear& room : result.rooms) EXPECT_LT(room.heat_residual_max_frac, 1e-8) << room.name;
  }
}

// Heat that enters bare deck spreads sideways to where it cannot leave upwards: more comes in than area-weighted
// sorts say.
TEST(Covers, SpacedModulesLetInMoreHeatThanAreaWeightedSorts) {
  for (const auto& [n, spacing] : {std::pair{"3", "100"}, std::pair{"3", "200"}, std::pair{"2", "1000"}}) {
    const std::string patch = std::string("[[patch]]\nrecipe = \"deeper herbs\"\norigin = [0.2, 0.2]\ncolumns = ") + n +
                              "\nrows = " + n + "\nspacing_mm = " + spacing;
    const design::ValidDesign design = read_valid(with_patches(terrace_house_text(), patch));
    const climate::WeatherYear year = tests::year_of(design);
    const double exchanged_w = ceiling_w(run_days(group_of(design, year, Cover::planted).group, year, 4, 6), 0);
    const double coarse_w =
        ceiling_w(run_days(group_of(design, year, Cover::planted, {.has_fine_strips = false}).group, year, 4, 6), 0);
    const double sorted_w =
        ceiling_w(run_days(group_of(design, year, Cover::planted, {.has_sideways = false}).group, year, 4, 6), 0);
    const double bare_w = ceiling_w(run_days(group_of(design, year, Cover::bare).group, year, 4, 6), 0);
    EXPECT_GT(exchanged_w, 1.02 * sorted_w) << spacing;
    EXPECT_GT(coarse_w, 1.02 * sorted_w) << spacing;
    EXPECT_NEAR((coarse_w - sorted_w) / (exchanged_w - sorted_w), 1.0, 0.25) << spacing;
    EXPECT_LT(exchanged_w, bare_w) << spacing;
  }
}

TEST(Covers, TransmittanceOfTheAssembledDeck) {
  const design::ValidDesign design = read_valid(terrace_house_text());
  const climate::WeatherYear year = tests::year_of(design);
  CoverGroup made = group_of(design, year, Cover::bare);
  std::vector<physics::ThermalLayer> layers = {{0.1}};
  for (const design::Layer& layer : design->roof.deck) {
    layers.push_back(physics::thermal_layer({0.001 * layer.thickness_mm, layer.material.conductivity_w_per_m_k.likely,
                                             layer.material.density_kg_per_m3.likely,
                                             layer.material.heat_capacity_j_per_kg_k.likely}));
  }
  layers.push_back({physics::outside_surface_resistance_m2_k_per_w});
  const double u_w_per_m2_k = physics::transmittance_w_per_m2_k(layers);
  // Steady through the stepper: 0 degC outside, 20 degC inside, films of the standard, no radiation outside.
  Group& group = made.group;
  for (Room& room : group.rooms) {
    room.is_prescribed = true;
    room.prescribed_c = 20.0;
  }
  for (Stack& stack : group.stacks) {
    stack.surface.emissivity = 0.0;
    stack.outside_film.is_fixed = true;
    stack.outside_film.fixed_w_per_m2_k = 25.0;
    stack.inside_film.is_fixed = true;
    stack.inside_film.fixed_w_per_m2_k = 10.0;
  }
  climate::Forcing cold;
  cold.air_temperature_c = 0.0;
  cold.rain_temperature_c = 0.0;
  RunOptions options;
  options.n_hours = 1;
  options.spin_up_hours = 24 * 20;
  const results::GroupYear result = run_group(
      group, [&cold](int, double) { return cold; }, options);
  EXPECT_NEAR(result.stacks[0].ceiling_flux_w_per_m2.front(), -20.0 * u_w_per_m2_k, 1e-8);
}

TEST(Covers, OneRecipeAloneOverTheLargestRoom) {
  const design::ValidDesign design = read_valid(terrace_house_text());
  const climate::WeatherYear year = tests::year_of(design);
  const plan::Layout layout = plan::make_layout(design);
  const CoverGroup made = make_recipe_group(design, layout, year, 1, design::Placed::flat);
  ASSERT_EQ(made.group.stacks.size(), 1U);
  ASSERT_EQ(made.group.rooms.size(), 1U);
  EXPECT_EQ(made.group.rooms[0].name, "living room");
  EXPECT_NEAR(made.group.stacks[0].area_m2, 18.48, 1e-9);
  EXPECT_EQ(made.group.stacks[0].under, Under::contact);
  EXPECT_EQ(made.origins[0].recipe, 1);
  EXPECT_TRUE(made.origins[0].is_middle);
  const results::GroupYear result = run_days(made.group, year, 2);
  EXPECT_GT(result.stacks[0].evapotranspiration_mm[12], 0.0);
}

// Sun and sky meet the ballast: a design that does not say how is refused before a group is made.
TEST(Covers, BallastNeedsAKnownSurface) {
  const std::string text = terrace_house_text() + "\n[rivals]\nballast_material = \"solid brick\"\n";
  const Result<design::ValidDesign> read = design::read_design(text, "roof.toml", tests::shipped_catalogue());
  ASSERT_FALSE(read.has_value());
  ASSERT_EQ(read.error().size(), 1U);
  EXPECT_EQ(read.error()[0].path, "rivals.ballast_material");
  EXPECT_EQ(read.error()[0].code, IssueCode::inconsistent);
}

// Which squares a patch takes in which room, seen through the answer: a room without modules is bare.
TEST(Covers, RoomWithoutModulesIsBare) {
  const std::string patch = "[[patch]]\nrecipe = \"deeper herbs\"\ncolumns = 2\nrows = 2\norigin = [0.6, 0.6]\n";
  const design::ValidDesign design = read_valid(with_patches(terrace_house_text(), patch));
  const climate::WeatherYear year = tests::year_of(design);
  for (const Cover cover : {Cover::planted, Cover::white_same_squares}) {
    const CoverGroup made = group_of(design, year, cover);
    for (const StackOrigin& origin : made.origins) {
      EXPECT_TRUE(origin.room == 0 || origin.form == StackForm::bare);
    }
    EXPECT_EQ(std::count_if(made.origins.begin(), made.origins.end(),
                            [](const StackOrigin& origin) { return origin.room == 1; }),
              1);
  }
}

}  // namespace
}  // namespace houseleek::simulation
