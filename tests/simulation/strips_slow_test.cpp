// The strips along an edge against many narrow ones: how much heat passes sideways into a room.
#include <gtest/gtest.h>

#include <algorithm>

#include "simulation/cover_strips.hpp"
#include "simulation/covers.hpp"
#include "simulation/run.hpp"
#include "support/example_house.hpp"

namespace houseleek::simulation {
namespace {

constexpr double edge_m = 10.0;
constexpr double side_m = 1.5;  // planted on one side of the edge, bare on the other

/// A stack of each side, from the terrace house, over one room.
struct Sides {
  Stack planted;
  Stack bare;
  Room room;
  double pressure_pa = 101325.0;
};

Sides sides_of(const design::ValidDesign& design, const climate::WeatherYear& year) {
  const CoverGroup made = make_cover_group(design, plan::make_layout(design), year, Cover::planted, {});
  Sides sides;
  for (std::size_t i = 0; i < made.origins.size(); ++i) {
    if (made.origins[i].form == StackForm::raised) sides.planted = made.group.stacks[i];
  }
  sides.bare = made.group.stacks[0];
  sides.planted.room = sides.bare.room = 0;
  sides.room = made.group.rooms[0];
  sides.pressure_pa = made.group.pressure_pa;
  return sides;
}

/// Strips on both sides, ending at these distances from the edge.
Group strips_group(const Sides& sides, const std::vector<double>& ends_m, bool is_capped) {
  Group group;
  group.rooms = {sides.room};
  group.pressure_pa = sides.pressure_pa;
  const auto half_m = [&](double width_m) { return is_capped ? half_width_m(width_m) : 0.5 * width_m; };
  double from_m = 0.0;
  double before_m = 0.0;
  for (const double to_m : ends_m) {
    const int place = static_cast<int>(group.stacks.size());
    for (const Stack* side : {&sides.planted, &sides.bare}) {
      group.stacks.push_back(*side);
      group.stacks.back().area_m2 = edge_m * (to_m - from_m);
    }
    const double own_m = half_m(to_m - from_m);
    if (place == 0) {
      group.side_links.push_back({0, 1, edge_m, 2.0 * own_m});
    } else {
      group.side_links.push_back({place - 2, place, edge_m, own_m + before_m});
      group.side_links.push_back({place - 1, place + 1, edge_m, own_m + before_m});
    }
    before_m = own_m;
    from_m = to_m;
  }
  return group;
}

double heat_w_per_m(const Group& group, const climate::WeatherYear& year, int first_day) {
  RunOptions options;
  options.first_hour = 24 * first_day;
  options.n_hours = 24 * 6;
  options.spin_up_hours = 24 * 8;
  const results::GroupYear result = run_group(
      group, [&year](int hour, double part) { return climate::forcing_at(year, hour, part); }, options);
  double sum_w = 0.0;
  for (const results::StackYear& stack : result.stacks) {
    for (const double flux : stack.ceiling_flux_w_per_m2) sum_w += stack.area_m2 * flux / options.n_hours;
  }
  return sum_w / edge_m;
}

TEST(Strips, TwoStripsAndAReachComeNearManyStrips) {
  const design::ValidDesign design = tests::read_valid(tests::terrace_house_text());
  const climate::WeatherYear year = tests::year_of(design);
  Sides sides = sides_of(design, year);
  std::vector<double> many_m;
  for (int i = 1; i <= 24; ++i) many_m.push_back(0.025 * i);
  for (int i = 7; i <= 14; ++i) many_m.push_back(0.1 * i);
  many_m.push_back(side_m);
  for (const bool is_prescribed : {false, true}) {
    sides.room.is_prescribed = is_prescribed;
    sides.room.prescribed_c = 27.0;
    const auto exchange = [&](const std::vector<double>& ends_m, bool is_capped) {
      Group alone = strips_group(sides, {side_m}, true);
      alone.side_links.clear();
      return heat_w_per_m(strips_group(sides, ends_m, is_capped), year, 196) - heat_w_per_m(alone, year, 196);
    };
    const double many = exchange(many_m, false);
    EXPECT_GT(many, 0.2);
    const double fine = exchange({0.05, 0.15, side_m}, true);
    const double coarse = exchange({0.15, side_m}, true);
    // Seen: 2 and 10 %. Without the reach the same strips miss a quarter.
    EXPECT_NEAR(fine / many, 1.0, 0.05);
    EXPECT_NEAR(coarse / many, 1.0, 0.15);
    EXPECT_LT(exchange({0.05, 0.15, side_m}, false) / many, 0.85);
  }
}

}  // namespace
}  // namespace houseleek::simulation
