// All checks of a roof of a thousand squares: loads, sections, places, wind, fire, strips, and rain; accuracy beside speed.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <string>
#include <vector>

#include "checks/clear_strips.hpp"
#include "checks/drainage.hpp"
#include "checks/fire_load.hpp"
#include "checks/foot_pressure.hpp"
#include "checks/joist_sag.hpp"
#include "checks/load_cases.hpp"
#include "checks/load_map.hpp"
#include "checks/next_places.hpp"
#include "checks/span_load.hpp"
#include "checks/uniform_load.hpp"
#include "checks/wind_uplift.hpp"
#include "support/example_house.hpp"

namespace {

using namespace houseleek;

constexpr double bar_s = 1.0;
constexpr double books_bar_frac = 1.0e-9;

/// Processor time of this process: other work on the machine does not count.
double now_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// The terrace house under two return periods of three durations; invented.
std::string house_text() {
  std::string text = tests::terrace_house_text();
  text += "\n[design_rain]\nsource = \"invented\"\n";
  struct Row {
    int years, minutes, mm_per_h;
  };
  for (const Row row :
       {Row{10, 5, 150}, Row{10, 15, 96}, Row{10, 60, 42}, Row{100, 5, 230}, Row{100, 15, 150}, Row{100, 60, 66}}) {
    text += "[[design_rain.intensity]]\nreturn_years = " + std::to_string(row.years) +
            "\nduration_min = " + std::to_string(row.minutes) +
            "\nintensity_mm_per_h = " + std::to_string(row.mm_per_h) + "\n";
  }
  return text;
}

checks::DrainageOptions of_squares(int most) {
  checks::DrainageOptions options;
  options.levels.most_squares = most;
  return options;
}

template <class Work>
double time_s(const char* what, const Work& work) {
  const double start = now_s();
  work();
  const double seconds = now_s() - start;
  std::printf("  %-44s %8.1f ms\n", what, 1e3 * seconds);
  return seconds;
}

/// Books of a storm of 15 minutes over the likely deck, and how far half its step moves the deepest water.
bool print_accuracy(const design::ValidDesign& design) {
  const checks::DrainageDeck deck =
      checks::make_drainage_deck(design, of_squares(1100).levels, checks::DrainageEnd::likely);
  checks::RunOff rain;
  rain.columns_mm_per_min = {std::vector<double>(15, 2.5)};
  for (const double area_m2 : deck.squares.deck.area_m2) rain.column_of_square.push_back(area_m2 > 0.0 ? 0 : -1);
  const auto deepest_mm = [](const checks::Routed& routed) {
    return 1000.0 * *std::max_element(routed.max_depth_m.begin(), routed.max_depth_m.end());
  };
  const checks::Routed coarse = checks::route_runoff(deck.squares, rain, {.step_s = 30.0, .minutes_after = 60});
  const checks::Routed fine = checks::route_runoff(deck.squares, rain, {.step_s = 15.0, .minutes_after = 60});
  const checks::Routed finer = checks::route_runoff(deck.squares, rain, {.step_s = 7.5, .minutes_after = 60});
  const double open_frac = std::fabs(coarse.stored_m3 + coarse.left_m3 - coarse.arrived_m3) / coarse.arrived_m3;
  std::printf("  a storm of 150 mm/h for 15 minutes: books open by %.1e of the rain (bar %.0e)\n", open_frac,
              books_bar_frac);
  std::printf("  deepest water %.3f mm; steps of 15 s: %+.3f mm, of 7.5 s: %+.3f mm more\n", deepest_mm(coarse),
              deepest_mm(fine) - deepest_mm(coarse), deepest_mm(finer) - deepest_mm(fine));
  return open_frac <= books_bar_frac;
}

}  // namespace

int main() {
  const design::ValidDesign design = tests::read_valid(house_text());
  checks::DrainageCheck drainage;
  checks::SpanLoad span;
  std::printf("All checks of the terrace house on one core, processor time.\n");
  double all_s = time_s("uniform load and its cases", [&] {
    (void)checks::check_uniform_load(design);
    (void)checks::compute_load_cases(design);
  });
  all_s += time_s("bending and shear, sag of joists", [&] {
    span = checks::check_span_load(design);
    (void)checks::compute_joist_sags(design, span);
  });
  all_s += time_s("map of loads on squares of 0.25 m, feet", [&] {
    (void)checks::make_load_map(design, 0.25);
    (void)checks::compute_foot_pressures(design);
  });
  all_s += time_s("the next ten places", [&] { (void)checks::find_next_places(design, 0, design::Placed::raised); });
  all_s += time_s("wind, fire, clear strips", [&] {
    (void)checks::check_wind_uplift(design);
    (void)checks::compute_recipe_fuels(design);
    (void)checks::check_clear_strips(design);
  });
  all_s += time_s("rain and drainage", [&] { drainage = checks::check_drainage(design, of_squares(1100)); });
  std::printf("  %zu squares, %zu cases of rain: all checks %.2f s (bar %.0f s)\n", drainage.shape.level_m.size(),
              drainage.cases.size(), all_s, bar_s);
  bool is_met = print_accuracy(design);
  if (!is_met) std::printf("MISSED: the books\n");
  if (all_s > bar_s) {
    std::printf("MISSED: over %.0f s\n", bar_s);
    is_met = false;
  }
  return is_met ? 0 : 1;
}
