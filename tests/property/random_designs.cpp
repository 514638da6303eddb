// Draws the parts of a design and writes them as its file.
#include "property/random_designs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string_view>
#include <vector>

#include "base/random.hpp"
#include "climate/calendar.hpp"
#include "geometry/outline.hpp"

namespace houseleek::tests {
namespace {

/// A row of random numbers of one design.
class Draws {
 public:
  Draws(std::uint64_t seed, std::uint32_t number)
      : variable_(random_variable(seed, "random design")), number_(number) {}

  double uniform(double least, double most) { return least + (most - least) * next(); }
  /// Evenly by orders of magnitude.
  double spread(double least, double most) { return least * std::pow(most / least, next()); }
  int whole(int least, int most) { return least + static_cast<int>(next() * (most - least + 1)); }
  bool chance(double share) { return next() < share; }
  template <class List>
  const auto& one_of(const List& list) {
    return list[static_cast<std::size_t>(whole(0, static_cast<int>(std::size(list)) - 1))];
  }

 private:
  double next() { return random_uniform(variable_, {.draw = number_, .day = 0, .index = n_drawn_++}); }
  RandomVariable variable_;
  std::uint32_t number_;
  std::uint32_t n_drawn_ = 0;
};

// One line of the file. A call holds one draw at most: in which order a compiler works out arguments is its own affair.
void put(std::string& text, std::string_view key, double value, int n_decimals) {
  text += fmt::format("{} = {:.{}f}\n", key, value, n_decimals);
}
void put(std::string& text, std::string_view key, bool value) { text += fmt::format("{} = {}\n", key, value); }
void put(std::string& text, std::string_view key, std::string_view value) {
  text += fmt::format("{} = \"{}\"\n", key, value);
}

// --- site and climate

/// A year as mean and half swing; summer is July in the north.
struct Climate {
  double least_latitude_deg;
  double most_latitude_deg;
  double mean_c;
  double swing_k;
  double daily_range_k;
  double humidity_percent;
  double humidity_summer_percent;  // added in midsummer, taken off in midwinter
  double rain_mm;                  // of a mean month
  double rain_summer_frac;         // added in midsummer, taken off in midwinter
  double sunshine_frac;            // of the hours of daylight
  double wind_m_per_s;
};

constexpr Climate climates[n_random_climates] = {
    {24, 34, 24, 10, 15, 35, -12, 8, -0.9, 0.80, 3.5},   // hot and dry
    {24, 34, 20, 9, 9, 76, 4, 110, 0.5, 0.45, 2.5},      // warm and humid
    {42, 54, 10, 8, 8, 76, -8, 60, 0.1, 0.38, 4.0},      // temperate
    {46, 58, 2, 19, 10, 70, -6, 40, 0.6, 0.45, 3.0},     // cold, far from the sea
    {2, 14, 26.5, 1.2, 8, 82, 3, 210, 0.7, 0.42, 1.6}};  // tropical and wet

std::string list_text(const std::vector<double>& values, int n_decimals) {
  std::string text;
  for (const double value : values) text += fmt::format("{}{:.{}f}", text.empty() ? "" : ", ", value, n_decimals);
  return "[" + text + "]";
}

/// Hours between sunrise and sunset by the usual formula of spherical astronomy; good to a quarter of an hour.
double daylight_h(double latitude_deg, double day) {
  const double rad = std::numbers::pi / 180.0;
  const double declination_rad = 23.44 * rad * std::sin(2.0 * std::numbers::pi * (day - 80.0) / 365.0);
  const double cosine = -std::tan(latitude_deg * rad) * std::tan(declination_rad);
  return 24.0 / std::numbers::pi * std::acos(std::clamp(cosine, -1.0, 1.0));
}

std::string site_and_climate_text(Draws& draws, std::uint32_t number) {
  const Climate& climate = climates[number % n_random_climates];
  const bool is_south = (number / n_random_climates) % 2 == 1;
  const double latitude_deg =
      (is_south ? -1.0 : 1.0) * draws.uniform(climate.least_latitude_deg, climate.most_latitude_deg);
  const int zone_h = draws.whole(-9, 11);
  const double longitude_deg = std::clamp(15.0 * zone_h + draws.uniform(-20.0, 20.0), -179.0, 179.0);
  constexpr std::string_view surroundings[] = {"open", "suburb", "town"};
  std::string text = "[site]\n";
  put(text, "latitude_deg", latitude_deg, 3);
  put(text, "longitude_deg", longitude_deg, 3);
  put(text, "elevation_m", draws.spread(1.0, 2500.0), 0);
  put(text, "time_zone", fmt::format("Etc/GMT{:+d}", -zone_h));
  put(text, "surroundings", draws.one_of(surroundings));
  const double mean_c = climate.mean_c + draws.uniform(-3.0, 3.0);
  const double swing_k = climate.swing_k * draws.uniform(0.8, 1.2);
  const double range_k = climate.daily_range_k * draws.uniform(0.8, 1.2);
  const double rain = draws.uniform(0.6, 1.4);
  std::vector<double> max_c, min_c, rain_mm, rain_days, humidity, sunshine_h, wind;
  for (int month = 0; month < climate::n_months; ++month) {
    const double summer = (is_south ? 1.0 : -1.0) * std::cos(2.0 * std::numbers::pi * (month - 0.3) / 12.0);
    const double middle_c = mean_c + swing_k * summer;
    max_c.push_back(middle_c + 0.5 * range_k);
    min_c.push_back(middle_c - 0.5 * range_k);
    const double wet = 1.0 + climate.rain_summer_frac * summer;
    rain_mm.push_back(std::round(climate.rain_mm * rain * wet));
    rain_days.push_back(rain_mm.back() == 0.0 ? 0.0 : std::min(24.0, 1.0 + rain_mm.back() / draws.uniform(7.0, 14.0)));
    humidity.push_back(std::clamp(climate.humidity_percent + climate.humidity_summer_percent * summer, 10.0, 95.0));
    const double middle_day = climate::first_day_of_month[static_cast<std::size_t>(month)] + 15.0;
    sunshine_h.push_back(28.0 * climate.sunshine_frac * daylight_h(latitude_deg, middle_day));
    wind.push_back(climate.wind_m_per_s * draws.uniform(0.6, 1.4));
  }
  text += fmt::format("[climate]\nseed = {}\n[climate.normals]\nmax_c = {}\nmin_c = {}\nrain_mm = {}\n",
                      draws.whole(1, 1000000), list_text(max_c, 1), list_text(min_c, 1), list_text(rain_mm, 0));
  // What is left out is estimated by the program.
  if (draws.chance(0.7)) text += "rain_days = " + list_text(rain_days, 1) + "\n";
  if (draws.chance(0.7)) text += "relative_humidity_percent = " + list_text(humidity, 0) + "\n";
  if (draws.chance(0.7)) text += "sunshine_h = " + list_text(sunshine_h, 0) + "\n";
  if (draws.chance(0.7)) text += "wind_m_per_s = " + list_text(wind, 1) + "\n";
  return text;
}

// --- roof

struct DeckLayer {
  std::string_view material;
  double least_mm;
  double most_mm;
};

const std::vector<DeckLayer> decks[n_random_decks - 1] = {
    {{"bitumen felt", 4, 12},
     {"lightweight screed", 30, 90},
     {"reinforced concrete", 100, 250},
     {"lime plaster", 8, 20}},
    {{"bitumen felt", 4, 10}, {"XPS board", 30, 180}, {"dense concrete", 120, 220}, {"gypsum plaster", 8, 20}},
    {{"EPDM membrane", 1, 2}, {"OSB", 15, 25}, {"cellulose", 80, 240}, {"plasterboard", 9, 25}},
    {{"PVC membrane", 1.2, 2}, {"EPS board", 40, 160}, {"steel sheet", 0.7, 1.5}},
    {{"steel sheet", 0.6, 3}},  // nothing else between the sky and the room
    {{"asphalt", 10, 30}, {"cement screed", 30, 70}, {"medium concrete", 120, 200}},
    {{"bitumen felt", 5, 10}, {"cement mortar", 20, 40}, {"solid brick", 115, 240}, {"gypsum plaster, dense", 8, 15}},
    {{"bitumen felt", 3, 8}, {"plywood", 12, 22}, {"wood fibre board", 60, 200}, {"hardwood", 18, 30}},
    {{"EPDM membrane", 1, 2}, {"expanded cork board", 40, 160}, {"soft limestone", 80, 400}}};

/// Whatever the file of decks names, in any order: the layers a person would not lay that way included.
std::string any_deck_text(Draws& draws) {
  constexpr std::string_view all[] = {"reinforced concrete",
                                      "reinforced concrete, 1 % steel",
                                      "dense concrete",
                                      "medium concrete",
                                      "medium concrete, 2000",
                                      "light concrete, 1800",
                                      "cement screed",
                                      "lightweight screed",
                                      "cement mortar",
                                      "gypsum plaster",
                                      "gypsum plaster, dense",
                                      "lime plaster",
                                      "plasterboard",
                                      "bitumen felt",
                                      "asphalt",
                                      "EPDM membrane",
                                      "PVC membrane",
                                      "expanded cork board",
                                      "wood fibre board",
                                      "cellulose",
                                      "solid brick",
                                      "soft limestone",
                                      "hardwood",
                                      "OSB",
                                      "plywood",
                                      "building mineral wool",
                                      "steel sheet"};
  std::string text;
  const int n_layers = draws.whole(1, 6);
  for (int i = 0; i < n_layers; ++i) {
    text += "[[roof.deck]]\n";
    put(text, "material", draws.one_of(all));
    put(text, "thickness_mm", draws.spread(0.6, 250.0), 1);
  }
  return text;
}

std::string deck_text(Draws& draws, std::uint32_t number) {
  const std::uint32_t kind = (number + 3 * (number / n_random_decks)) % n_random_decks;  // the next ten: other climates
  if (kind == n_random_decks - 1) return any_deck_text(draws);
  std::string text;
  for (const DeckLayer& layer : decks[kind]) {
    text += "[[roof.deck]]\n";
    put(text, "material", layer.material);
    put(text, "thickness_mm", draws.uniform(layer.least_mm, layer.most_mm), 1);
  }
  return text;
}

std::string outline_text(const geometry::RectangleM& r) {
  return fmt::format("[[{0:.3f}, {1:.3f}], [{2:.3f}, {1:.3f}], [{2:.3f}, {3:.3f}], [{0:.3f}, {3:.3f}]]", r.left_m,
                     r.bottom_m, r.right_m, r.top_m);
}

// --- rooms

std::string room_text(Draws& draws, const geometry::RectangleM& plan, int index) {
  constexpr std::string_view masses[] = {"very_light", "light", "medium", "heavy", "very_heavy"};
  const double area_m2 = (plan.right_m - plan.left_m) * (plan.top_m - plan.bottom_m);
  std::string text = fmt::format("[[room]]\nname = \"room {}\"\noutline = {}\n", index + 1, outline_text(plan));
  put(text, "height_m", draws.uniform(2.2, 4.0), 2);
  put(text, "thermal_mass", draws.one_of(masses));
  put(text, "infiltration_per_h", draws.spread(0.05, 2.0), 2);
  if (draws.chance(0.5)) {
    put(text, "gains_day_w", draws.uniform(0.0, 500.0), 0);
    put(text, "gains_night_w", draws.uniform(0.0, 200.0), 0);
  }
  if (draws.chance(0.4)) {
    put(text, "heat_to_c", draws.uniform(15.0, 21.0), 1);
    put(text, "cool_to_c", draws.uniform(23.0, 29.0), 1);
  }
  if (draws.chance(0.75)) {
    text += "[room.window_rule]\n";
    put(text, "open_above_c", draws.uniform(18.0, 30.0), 1);
    put(text, "opening_per_h", draws.chance(0.15) ? 0.0 : draws.spread(0.5, 20.0), 1);
    put(text, "from_hour", draws.whole(0, 24), 0);
    put(text, "to_hour", draws.whole(0, 24), 0);
    const bool is_only_when_cooler = draws.chance(0.7);
    put(text, "only_when_outside_cooler", is_only_when_cooler);
  }
  constexpr double bearings_deg[] = {0, 90, 180, 270, 225};
  for (int i = draws.whole(0, 2); i > 0; --i) {
    text += "[[room.window]]\n";
    put(text, "area_m2", draws.uniform(0.2, 0.12 * area_m2 + 0.3), 2);
    put(text, "u_value_w_per_m2_k", draws.uniform(0.8, 5.8), 2);
    put(text, "g_value", draws.uniform(0.3, 0.85), 2);
    put(text, "facing_deg", draws.one_of(bearings_deg), 0);
    put(text, "shading_frac", draws.uniform(0.0, 1.0), 2);
  }
  for (int i = draws.whole(0, 2); i > 0; --i) {
    text += "[[room.wall]]\n";
    put(text, "area_m2", draws.uniform(2.0, 14.0), 2);
    put(text, "facing_deg", draws.one_of(bearings_deg), 0);
    put(text, "u_value_w_per_m2_k", draws.spread(0.15, 3.5), 2);
    put(text, "solar_absorptance", draws.uniform(0.2, 0.9), 2);
  }
  return text;
}

// --- recipes

struct MaterialNames {
  std::vector<std::string> tops;    // may lie on top as a medium
  std::vector<std::string> media;   // hold water
  std::vector<std::string> cores;   // anything
  std::vector<std::string> sheets;  // known as a screen
};

MaterialNames names_from(const catalogue::Catalogue& catalogue) {
  MaterialNames names;
  for (const catalogue::Material& one : catalogue.materials) {
    const bool is_store = catalogue::holds_water(one);
    if (is_store) names.media.push_back(one.name);
    if (is_store && one.albedo_dry && one.albedo_wet && one.emissivity) names.tops.push_back(one.name);
    if (one.solar_transmittance_frac && one.solar_reflectance_frac && one.open_area_frac && one.emissivity) {
      names.sheets.push_back(one.name);
    }
    names.cores.push_back(one.name);
  }
  return names;
}

struct Module {
  double length_m = 0.0;
  double width_m = 0.0;
  bool has_spacer = false;
};

std::string layer_text(Draws& draws, std::string_view role, const std::vector<std::string>& materials, double least_mm,
                       double most_mm) {
  std::string text = "[[recipe.layer]]\n";
  put(text, "role", role);
  put(text, "material", draws.one_of(materials));
  put(text, "thickness_mm", draws.spread(least_mm, most_mm), 2);
  return text;
}

std::string watering_text(Draws& draws) {
  std::string text = "[recipe.watering]\n";
  if (draws.chance(0.5)) {
    put(text, "when_store_below_frac", draws.uniform(0.0, 1.0), 2);
  } else {
    put(text, "summer_every_days", draws.whole(0, 10), 0);
    if (draws.chance(0.7)) put(text, "between_every_days", draws.whole(0, 30), 0);
    if (draws.chance(0.5)) put(text, "winter_every_days", draws.whole(0, 60), 0);
  }
  put(text, "litres_per_module", draws.spread(0.5, 60.0), 1);
  put(text, "hour", draws.whole(0, 24), 0);
  return text;
}

std::string plants_text(Draws& draws, const catalogue::Catalogue& catalogue) {
  std::string text;
  const int n_kinds = draws.whole(1, 4);
  const bool has_shares = draws.chance(0.5);
  for (int i = 0; i < n_kinds; ++i) {
    text += "[[recipe.plant]]\n";
    put(text, "name", draws.one_of(catalogue.plants).name);
    if (has_shares) put(text, "cover_frac", draws.uniform(0.01, 0.998 / n_kinds), 3);
  }
  if (draws.chance(0.3)) {
    text += "[recipe.canopy]\n";
    put(text, "leaf_area_index", draws.spread(0.06, 12.0), 2);
    put(text, "least_stomatal_resistance_s_per_m", draws.spread(20.0, 5000.0), 0);
  }
  return text;
}

std::string recipe_text(Draws& draws, const catalogue::Catalogue& catalogue, const MaterialNames& names, int index,
                        Module& module) {
  module.length_m = 0.001 * 10.0 * draws.whole(30, 150);
  module.width_m = 0.001 * 10.0 * draws.whole(20, 120);
  module.has_spacer = draws.chance(0.6);
  std::string text = fmt::format("[[recipe]]\nname = \"recipe {}\"\nlength_mm = {:.0f}\nwidth_mm = {:.0f}\n", index + 1,
                                 1000.0 * module.length_m, 1000.0 * module.width_m);
  if (draws.chance(0.35)) {
    text += "[recipe.cover]\n";
    put(text, "material", draws.one_of(names.sheets));
    put(text, "thickness_mm", draws.spread(0.06, 10.0), 2);
  }
  if (draws.chance(0.3)) {
    text += "[recipe.net]\n";
    put(text, "material", draws.one_of(names.sheets));
    put(text, "height_mm", draws.spread(20.0, 1500.0), 0);
  }
  if (module.has_spacer) {
    text += "[recipe.spacer]\n";
    put(text, "height_mm", draws.spread(3.0, 400.0), 0);
    put(text, "edges", draws.chance(0.6) ? std::string_view("open") : "closed");
    put(text, "blocked_frac", draws.uniform(0.0, 0.5), 2);
  }
  text += layer_text(draws, "medium", names.tops, 3.0, 250.0);
  for (int i = draws.whole(0, 3); i > 0; --i) {
    const int role = draws.whole(0, 3);
    if (role == 0) text += layer_text(draws, "medium", names.media, 3.0, 150.0);
    if (role == 1) text += layer_text(draws, "core", names.cores, 3.0, 150.0);
    if (role == 2) text += layer_text(draws, "filter", names.cores, 0.06, 29.0);
    if (role == 3) text += layer_text(draws, "sheet", names.cores, 0.06, 29.0);
  }
  if (draws.chance(0.8)) text += plants_text(draws, catalogue);
  if (draws.chance(0.7)) text += watering_text(draws);
  return text;
}

// --- patches

/// Blocks on a grid of 0.1 m that lie on the roof, off the obstacle and off each other; some touch.
std::string patches_text(Draws& draws, const std::vector<Module>& modules, const geometry::RectangleM& roof,
                         std::vector<geometry::RectangleM> taken) {
  std::string text;
  const int n_wanted = draws.whole(1, 4);
  int n_laid = 0;
  for (int i = 0; i < 200 && n_laid < n_wanted; ++i) {
    const int recipe = draws.whole(0, static_cast<int>(modules.size()) - 1);
    const Module& module = modules[static_cast<std::size_t>(recipe)];
    const bool is_turned = draws.chance(0.3);
    const int columns = draws.whole(1, 5);
    const int rows = draws.whole(1, 4);
    constexpr double edges_mm[] = {0, 3, 20, 50, 51, 100, 150, 250, 400, 900};
    const double spacing_mm = draws.chance(0.5) ? draws.one_of(edges_mm) : std::round(draws.uniform(0.0, 500.0));
    const double along_x_m = is_turned ? module.width_m : module.length_m;
    const double along_y_m = is_turned ? module.length_m : module.width_m;
    geometry::RectangleM block;
    block.left_m = 0.1 * std::floor(10.0 * draws.uniform(0.0, roof.right_m));
    block.bottom_m = 0.1 * std::floor(10.0 * draws.uniform(0.0, roof.top_m));
    block.right_m = block.left_m + columns * along_x_m + 0.001 * (columns - 1) * spacing_mm;
    block.top_m = block.bottom_m + rows * along_y_m + 0.001 * (rows - 1) * spacing_mm;
    if (block.right_m > roof.right_m || block.top_m > roof.top_m) continue;
    if (std::any_of(taken.begin(), taken.end(),
                    [&](const auto& one) { return geometry::is_overlapping(one, block); })) {
      continue;
    }
    taken.push_back(block);
    ++n_laid;
    text += fmt::format(
        "[[patch]]\nrecipe = \"recipe {}\"\ncolumns = {}\nrows = {}\norigin = [{:.1f}, {:.1f}]\n"
        "spacing_mm = {:.0f}\nturned = {}\n",
        recipe + 1, columns, rows, block.left_m, block.bottom_m, spacing_mm, is_turned);
    if (module.has_spacer) put(text, "placed", draws.chance(0.6) ? std::string_view("raised") : "flat");
  }
  return text;
}

}  // namespace

std::string random_design_text(std::uint64_t seed, std::uint32_t number, const catalogue::Catalogue& catalogue) {
  Draws draws(seed, number);
  std::string text = fmt::format("format = 1\nname = \"house {}\"\n", number);
  text += site_and_climate_text(draws, number);

  // Rooms stand in a row, walls between neighbours; beyond them a strip of roof over no room.
  const int n_rooms = draws.whole(1, 4);
  const double depth_m = 0.1 * draws.whole(30, 80);
  std::vector<geometry::RectangleM> rooms;
  double right_m = 0.0;
  for (int i = 0; i < n_rooms; ++i) {
    const double left_m = right_m;
    right_m += 0.1 * draws.whole(20, 50);
    rooms.push_back({left_m, 0.0, right_m, depth_m});
  }
  const double over_no_room_m = draws.chance(0.3) ? 0.1 * draws.whole(3, 20) : 0.0;
  const geometry::RectangleM roof{0.0, 0.0, right_m + over_no_room_m, depth_m};
  text += "[roof]\noutline = " + outline_text(roof) + "\n";
  put(text, "north_deg", draws.whole(0, 359), 0);
  if (draws.chance(0.5)) {
    put(text, "fall_mm_per_m", draws.whole(0, 60), 0);
    put(text, "fall_towards_deg", draws.whole(0, 359), 0);
  }
  if (draws.chance(0.5)) {
    put(text, "finish", draws.one_of(catalogue.finishes).name);
  } else {
    text += "[roof.finish]\n";
    const double albedo = draws.uniform(0.04, 0.85);
    put(text, "albedo", albedo, 2);
    // Only bright metal radiates little. Dark and radiating little is a solar collector, well above 100 degC.
    put(text, "emissivity", draws.uniform(albedo > 0.4 ? 0.2 : 0.8, 0.96), 2);
  }
  text += deck_text(draws, number);
  std::vector<geometry::RectangleM> taken;
  if (draws.chance(0.4)) {
    taken.push_back({0.5, 0.5, 1.4, 1.2});
    text += fmt::format("[[roof.obstacle]]\nname = \"hatch\"\noutline = {}\n", outline_text(taken.back()));
  }

  for (int i = 0; i < n_rooms; ++i) text += room_text(draws, rooms[static_cast<std::size_t>(i)], i);
  for (int i = 1; i < n_rooms; ++i) {
    text += fmt::format("[[partition]]\nbetween = [\"room {}\", \"room {}\"]\n", i, i + 1);
    put(text, "area_m2", 2.4 * depth_m, 1);
    put(text, "u_value_w_per_m2_k", draws.spread(0.2, 4.0), 2);
  }

  const MaterialNames names = names_from(catalogue);
  std::vector<Module> modules(static_cast<std::size_t>(draws.whole(1, 3)));
  for (std::size_t i = 0; i < modules.size(); ++i) {
    text += recipe_text(draws, catalogue, names, static_cast<int>(i), modules[i]);
  }
  text += patches_text(draws, modules, roof, taken);
  text +=
      "[[material]]\nname = \"steel sheet\"\ndensity_kg_per_m3 = 7800\nconductivity_w_per_m_k = 50\n"
      "heat_capacity_j_per_kg_k = 450\n";
  return text;
}

}  // namespace houseleek::tests
