// What to build next on an empty roof of some sixty squares over four rooms, both tests of the load at every step.
#include <cstdio>
#include <ctime>
#include <optional>
#include <string>

#include "studies/build_order.hpp"
#include "studies/water_answers.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"

namespace {

using namespace houseleek;

constexpr double bar_s = 5.0;
constexpr int least_places = 60;

/// Processor time of this process: other work on the machine does not count.
double now_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// Invented: 11 m by 9 m over three spans, four rooms of different windows.
std::string house_text() {
  std::string text = R"toml(format = 1
name = "Sixty squares"
[site]
latitude_deg = 40
longitude_deg = 15
elevation_m = 50
time_zone = "Europe/Rome"
[climate]
seed = 3
[climate.normals]
max_c = [13, 14, 17, 20, 25, 30, 33, 33, 29, 23, 18, 14]
min_c = [5, 6, 8, 10, 14, 18, 21, 21, 18, 14, 10, 7]
rain_mm = [70, 60, 50, 30, 20, 8, 4, 6, 22, 60, 80, 90]
[roof]
outline = [[0, 0], [11, 0], [11, 9], [0, 9]]
[[roof.deck]]
material = "reinforced concrete"
thickness_mm = 160
[[roof.outlet]]
at = [10.8, 8.8]
diameter_mm = 80
[roof.allowable_load]
load_kn_per_m2 = 2.5
who = "invented"
when = 2024-01-01
includes = "nothing else"
averaging_area_m2 = 4
spans_by_turns = true
[roof.structure]
kind = "one_way_slab"
spans_along = "x"
supports_at_m = [0, 3.7, 7.3, 11]
[roof.clear_strips]
edge_mm = 400
[[recipe]]
name = "mat"
length_mm = 1000
width_mm = 1000
placed = "flat"
[[recipe.layer]]
role = "medium"
material = "mineral roof medium"
thickness_mm = 70
)toml";
  for (int room = 0; room < 4; ++room) {
    const double left = room % 2 == 0 ? 0.0 : 5.5;
    const double bottom = room / 2 == 0 ? 0.0 : 4.5;
    char buffer[400];
    std::snprintf(buffer, sizeof buffer,
                  "[[room]]\nname = \"room %d\"\noutline = [[%g, %g], [%g, %g], [%g, %g], [%g, %g]]\n[[room.window]]\n"
                  "area_m2 = %g\nfacing_deg = %d\n",
                  room + 1, left, bottom, left + 5.5, bottom, left + 5.5, bottom + 4.5, left, bottom + 4.5, 1.0 + room,
                  90 * room);
    text += buffer;
  }
  return text;
}

}  // namespace

int main() {
  const std::string text = house_text();
  const catalogue::Catalogue catalogue = tests::shipped_catalogue();
  const Result<design::RawDesign> description = design::parse_design(text, "sixty.toml");
  const Result<design::ValidDesign> design = design::validate_design(description.value(), catalogue);
  if (!design) {
    std::printf("MISSED: %s\n", design.error().front().message.c_str());
    return 1;
  }
  const Result<climate::WeatherYear> weather = studies::make_weather(design.value(), std::nullopt);
  const plan::Layout layout = plan::make_layout(design.value());
  const studies::LimitsByDay limits = studies::adaptive_limits_by_day(weather.value());
  const studies::RunInputs year = studies::run_inputs_of(design.value(), layout, weather.value(), limits);
  studies::OrderWanted wanted;
  wanted.budgets = {150.0, 150.0};
  const double start = now_s();
  const report::OrderAnswer answer =
      studies::order({description.value(), catalogue, year}, wanted, studies::run_in_turn, {});
  const double seconds = now_s() - start;
  std::printf("What to build next, one core, processor time; four runs of a whole year in it.\n");
  std::printf("  %d places over 4 rooms, %zu steps in two seasons, loss at most %.1f %%: %.2f s (bar %.0f s)\n",
              answer.about.n_places, answer.steps.size(),
              answer.about.gain_k_h > 0.0 ? 100.0 * answer.about.most_loss_k_h / answer.about.gain_k_h : 0.0, seconds,
              bar_s);
  bool is_met = true;
  if (answer.about.n_places < least_places || answer.steps.empty()) {
    std::printf("MISSED: %s\n", answer.about.statement.c_str());
    is_met = false;
  }
  if (seconds > bar_s) {
    std::printf("MISSED: over %.0f s\n", bar_s);
    is_met = false;
  }
  return is_met ? 0 : 1;
}
