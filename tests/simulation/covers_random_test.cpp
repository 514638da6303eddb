// Seeded random patches on the terrace house: areas close, every stack and link can be stepped.
#include <gtest/gtest.h>

#include <numeric>
#include <random>

#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "simulation/sideways.hpp"
#include "support/catalogue_files.hpp"
#include "support/example_house.hpp"

namespace houseleek::simulation {
namespace {

std::string random_patches(std::mt19937_64& random) {
  const auto pick = [&random](int n) { return static_cast<int>(random() % static_cast<std::uint64_t>(n)); };
  constexpr const char* recipes[] = {"thin stonecrop", "deeper herbs"};
  std::string text;
  const int n_patches = 1 + pick(4);
  for (int i = 0; i < n_patches; ++i) {
    const int recipe = pick(2);
    text += "[[patch]]\nrecipe = \"" + std::string(recipes[recipe]) + "\"\n";
    text += "columns = " + std::to_string(1 + pick(4)) + "\nrows = " + std::to_string(1 + pick(3)) + "\n";
    text += "origin = [" + std::to_string(0.05 * pick(150)) + ", " + std::to_string(0.05 * pick(130)) + "]\n";
    constexpr int spacings_mm[] = {0, 3, 20, 50, 51, 100, 250, 400, 900};
    text += "spacing_mm = " + std::to_string(spacings_mm[pick(9)]) + "\n";
    if (recipe == 0 && pick(2) == 0) text += "placed = \"flat\"\n";
    if (pick(2) == 0) text += "turned = true\n";
  }
  return text;
}

TEST(CoversRandom, AreasCloseAndStepsHold) {
  std::string text = tests::with_text(tests::terrace_house_text(), "length_mm = 1000", "length_mm = 800");
  const climate::WeatherYear year = tests::year_of(tests::read_valid(text));
  const catalogue::Catalogue catalogue = tests::shipped_catalogue();
  std::mt19937_64 random(20240817);
  int n_tried = 0;
  int n_valid = 0;
  for (; n_valid < 25 && n_tried < 4000; ++n_tried) {
    const std::string patches = random_patches(random);
    const Result<design::ValidDesign> read =
        design::read_design(tests::with_patches(text, patches), "roof.toml", catalogue);
    if (!read) continue;
    ++n_valid;
    const design::ValidDesign& design = read.value();
    const plan::Layout layout = plan::make_layout(design);
    for (const Cover cover : {Cover::planted, Cover::board_same_squares}) {
      const CoverGroup made = make_cover_group(design, layout, year, cover, {});
      std::vector<double> sums_m2(layout.rooms.size(), 0.0);
      std::vector<StackMeshes> meshes;
      for (const Stack& stack : made.group.stacks) {
        EXPECT_GT(stack.area_m2, 1e-5) << patches;
        sums_m2[static_cast<std::size_t>(stack.room)] += stack.area_m2;
        meshes.emplace_back();
        meshes.back().deck = make_mesh(stack.deck, 1);
      }
      for (std::size_t i = 0; i < sums_m2.size(); ++i) {
        EXPECT_NEAR(sums_m2[i], layout.rooms[i].area_m2, 1e-9) << patches;
      }
      for (const SideLink& link : made.group.side_links) {
        EXPECT_GT(link.edge_length_m, 0.0);
        EXPECT_GT(link.distance_m, 0.0);
      }
      std::vector<std::size_t> order(meshes.size());
      std::iota(order.begin(), order.end(), std::size_t{0});
      EXPECT_LE(make_sideways(made.group, meshes, order).largest_z(600.0), 2.0 + 1e-9) << patches;
    }
    if (n_valid > 4) continue;
    RunOptions options;
    options.first_hour = 24 * 100;
    options.n_hours = 24;
    options.spin_up_hours = 24;
    const results::GroupYear result = run_group(
        make_cover_group(design, layout, year, Cover::planted, {}).group,
        [&year](int hour, double part) { return climate::forcing_at(year, hour, part); }, options);
    for (const results::StackYear& stack : result.stacks) EXPECT_LT(stack.heat_residual_max_frac, 1e-8) << patches;
  }
  EXPECT_EQ(n_valid, 25) << n_tried;
}

}  // namespace
}  // namespace houseleek::simulation
