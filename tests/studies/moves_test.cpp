// Nothing but shape is a defect: for every number of an answer, an input that must move it, and which way.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "report/study_json.hpp"
#include "studies/moved_inputs.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

using report::Json;
using tests::all_changes;
using tests::Change;

// ---- Numbers of a document by their path.

using Numbers = std::map<std::string, double>;

/// What stands for an item of a list: its name, or its place.
std::string item_words(const Json& item, std::size_t index) {
  if (!item.is_object() || !item.contains("name")) return std::to_string(index);
  std::string words = item.at("name").get<std::string>();
  for (const char* more : {"form", "extent"}) {
    if (item.contains(more)) words += fmt::format("/{}", item.at(more).get<std::string>());
  }
  return words;
}

/// Numbers and flags; of a figure its value alone. Texts, and fields without a value, are left out.
void collect(const Json& node, const std::string& path, Numbers& numbers) {
  if (node.is_boolean()) numbers[path] = node.get<bool>() ? 1.0 : 0.0;
  if (node.is_number()) numbers[path] = node.get<double>();
  if (node.is_object()) {
    for (const auto& [key, child] : node.items()) {
      if (key == "low" || key == "high") continue;
      collect(child, key == "value" ? path : (path.empty() ? key : path + "." + key), numbers);
    }
  }
  if (node.is_array()) {
    for (std::size_t i = 0; i < node.size(); ++i) {
      collect(node[i], fmt::format("{}[{}]", path, item_words(node[i], i)), numbers);
    }
  }
}

Numbers numbers_of(Json document) {
  document.erase("assumed");  // the inputs again
  Numbers numbers;
  collect(document, "", numbers);
  return numbers;
}

/// '*' stands for any letters.
bool is_match(std::string_view pattern, std::string_view text) {
  if (pattern.empty()) return text.empty();
  if (pattern.front() != '*') {
    return !text.empty() && pattern.front() == text.front() && is_match(pattern.substr(1), text.substr(1));
  }
  for (std::size_t skipped = 0; skipped <= text.size(); ++skipped) {
    if (is_match(pattern.substr(1), text.substr(skipped))) return true;
  }
  return false;
}

// ---- What is changed.

// ---- Which way what moves.

enum class Way { up, down, any };

struct Row {
  std::string_view pattern;
  std::string_view change;
  Way way = Way::any;
};

constexpr Row rows[] = {
    {"is_invented", "said to be invented", Way::up},
    {"engine.seed", "another seed", Way::up},
    {"engine.first_hour", "a day later", Way::up},
    {"engine.n_hours", "a day more", Way::up},
    {"engine.spin_up_hours", "longer settling", Way::up},
    {"engine.n_runs", "no spacers", Way::down},
    {"engine.n_stacks", "one patch more", Way::up},
    {"engine.n_slices", "thicker medium", Way::up},
    {"engine.n_steps", "a day more", Way::up},
    {"engine.n_newton_iterations", "a day more", Way::up},
    {"engine.n_hours_redone", "tighter bound", Way::up},
    {"engine.largest_split", "tighter bound", Way::up},
    {"engine.largest_error_k", "tighter bound", Way::down},
    {"engine.n_years", "a second year", Way::up},
    {"engine.n_runs", "a second year", Way::up},
    {"engine.n_draws", "more draws", Way::up},
    {"engine.heat_residual_frac", "another seed"},
    {"engine.water_residual_m", "another seed"},
    {"weather.summer_months*", "hot quarter turned round"},
    {"weather.winter_months*", "cold quarter turned round"},
    {"weather.air_max_c", "hotter summer", Way::up},
    {"weather.air_min_c", "colder winter", Way::down},
    {"plants.coldest_night_c", "colder winter", Way::down},
    {"plants.places*.medium_depth_mm", "thicker medium", Way::up},
    {"plants.places*.dry_days", "hardly ever watered", Way::up},
    {"plants.places*.counts.likely", "thicker medium", Way::up},
    {"plants.places*.counts.doubtful", "thicker medium"},
    {"plants.places*.counts.no", "thicker medium", Way::down},
    {"plants.places*.counts.refused", "in Spain", Way::up},
    {"roof.area_m2", "larger roof and room", Way::up},
    {"roof.covered_m2", "fewer modules", Way::down},
    {"roof.modules", "fewer modules", Way::down},
    {"roof.bare.u_value_w_per_m2_k", "thicker concrete", Way::down},
    {"roof.bare.decrement_factor", "thicker concrete", Way::down},
    {"roof.bare.time_lag_h", "thicker concrete", Way::up},
    {"load.allowable_kn_per_m2", "higher allowable", Way::up},
    {"load.soaked_max_kn_per_m2", "thicker medium", Way::up},
    {"load.utilisation_local_max_frac", "higher allowable", Way::down},
    {"load.utilisation_local_max_frac", "thicker medium", Way::up},
    {"load.patches[0].soaked_kn_per_m2", "thicker medium", Way::up},
    {"roof.squares.left_m", "roof far to the left", Way::down},
    {"roof.squares.bottom_m", "roof far to the left", Way::down},
    {"roof.squares.side_m", "roof far to the left", Way::up},
    {"roof.squares.columns", "roof far to the left", Way::up},
    {"roof.squares.rows", "larger roof and room", Way::up},
    {"load.utilisation_span_max_frac", "higher allowable", Way::down},
    {"load.utilisation_span_max_frac", "thicker medium", Way::up},
    {"load.cases*.heaviest_kn_per_m2", "thicker medium", Way::up},
    {"load.cases*.whole_roof_kn", "thicker medium", Way::up},
    {"load.cases*.factored_kn_per_m2", "thicker medium", Way::up},
    {"load.cases[soaked with snow].added_kn_per_m2", "more snow and hail", Way::up},
    {"load.cases[soaked with drifted snow].added_kn_per_m2", "higher parapet", Way::up},
    {"load.cases[soaked with hail].added_kn_per_m2", "more snow and hail", Way::up},
    {"load.cases[*blocked outlet].added_kn_per_m2", "higher parapet", Way::up},
    {"load.cases[a stack*].added_kn_per_m2", "thicker medium", Way::up},
    {"load.feet*.soaked_kpa", "thicker medium", Way::up},
    {"load.feet*.uneven_kpa", "thicker medium", Way::up},
    {"load.feet*.limit_kpa", "stronger membrane", Way::up},
    {"load.next*.left_m", "modules farther right"},
    {"load.next*.bottom_m", "roof far to the left"},
    {"load.squares*", "thicker medium", Way::up},
    {"drainage.outlets*.catchment_m2", "larger roof and room", Way::up},
    {"drainage.standing_mm", "a puddle", Way::up},
    {"drainage.days_to_dry", "a puddle", Way::up},
    {"drainage.cases[0].rain_mm_per_h", "higher spacers", Way::up},
    {"drainage.cases[1].rain_mm_per_h", "harder rain", Way::up},
    {"drainage.cases[3].rain_mm_per_h", "harder rain", Way::up},
    {"drainage.cases[1].duration_min", "longer and rarer rain", Way::up},
    {"drainage.cases[1].return_years", "longer and rarer rain", Way::up},
    {"drainage.cases[0].*_mm", "higher spacers"},
    {"drainage.cases[0].water_kn", "higher spacers", Way::up},
    {"drainage.cases[0].heaviest_kn_per_m2", "higher spacers", Way::up},
    {"drainage.cases[1].max_depth_mm", "harder rain", Way::up},
    {"drainage.cases[1].water_kn", "harder rain", Way::up},
    {"drainage.cases[1].heaviest_kn_per_m2", "harder rain", Way::up},
    {"drainage.cases[1].minutes_to_drain", "longer and rarer rain"},
    {"drainage.cases*.freeboard_mm", "higher spacers"},
    {"drainage.cases[2].*", "higher parapet"},
    {"drainage.cases[3].*_mm", "higher parapet"},
    {"drainage.cases[3].water_kn", "harder rain", Way::up},
    {"drainage.cases[3].heaviest_kn_per_m2", "harder rain", Way::up},
    {"drainage.cases[4].*", "higher parapet"},
    {"drainage.cases[4].water_kn", "more snow and hail", Way::up},
    {"drainage.advice*.needs_spacer_mm", "harder rain", Way::up},
    {"drainage.advice*.spacer_mm", "lower spacers", Way::down},
    {"drainage.squares*.depth_mm", "harder rain", Way::up},
    {"drainage.squares*.freeboard_mm", "higher spacers", Way::up},
    {"wind.gust_of_place_km_per_h", "windier place", Way::up},
    {"wind.peak_pressure_kn_per_m2", "windier place", Way::up},
    {"wind.not_shown_above_km_per_h", "thicker medium", Way::up},
    {"wind.edge_m", "roof far to the left", Way::up},
    {"wind.patches*.suction_coefficient", "longer modules", Way::down},
    {"wind.patches*.dry_kn_per_m2", "thicker medium", Way::up},
    {"wind.patches*.not_shown_above_km_per_h", "thicker medium", Way::up},
    {"wind.patches*.linked_*", "thicker medium", Way::up},
    {"wind.patches*.ballast_kg_per_m2", "windier place", Way::up},
    {"wind.squares*.suction_coefficient", "longer modules", Way::down},
    {"wind.squares*.not_shown_above_km_per_h", "thicker medium", Way::up},
    {"fire.recipes*.fuel_mj_per_m2", "thicker jute", Way::up},
    {"fire.recipes*.plants_mj_per_m2", "fewer plants", Way::down},
    {"fire.recipes*.burning_frac", "thicker medium"},
    {"fire.recipes*.mineral_mm", "thicker medium", Way::up},
    {"fire.strips*.width_mm", "wider strips", Way::up},
    {"fire.strips*.reached_into", "wider strips", Way::up},
    {"fire.left_m2", "wider strips", Way::down},
    {"damp.surface.needed_factor", "bitter winter", Way::up},
    {"damp.surface.deck_factor", "thicker concrete", Way::up},
    {"damp.surface.month", "cold quarter turned round"},
    {"recipes*.modules", "fewer modules", Way::down},
    {"recipes*.mass_*", "thicker medium", Way::up},
    {"recipes*.flat.u_value_dry_w_per_m2_k", "thicker medium", Way::down},
    {"recipes*.flat.u_value_wet_w_per_m2_k", "thicker medium", Way::down},
    {"recipes*.flat.decrement_factor", "thicker medium", Way::down},
    {"recipes*.flat.time_lag_h", "thicker medium", Way::up},
    {"recipes*.raised.u_value_*", "thicker concrete", Way::down},
    {"recipes*.raised.decrement_factor", "thicker concrete", Way::down},
    {"recipes*.raised.time_lag_h", "thicker concrete", Way::up},
    {"recipes*.floats_at_mm", "higher spacers", Way::up},
    {"stacks*.membrane_max_c", "hotter summer", Way::up},
    {"stacks*.membrane_min_c", "colder winter", Way::down},
    {"stacks*.ceiling_max_c", "more gains", Way::up},
    {"stacks*.heat_gain_summer_kwh_per_m2", "more gains", Way::down},
    {"stacks*.heat_loss_winter_kwh_per_m2", "more gains", Way::up},
    {"stacks[bare/bare].membrane_max_c", "darker roof", Way::up},
    {"stacks[bare/bare].heat_gain_summer_kwh_per_m2", "darker roof", Way::up},
    {"stacks[white/rival].heat_gain_summer_kwh_per_m2", "whiter paint", Way::down},
    {"stacks[net/rival].heat_gain_summer_kwh_per_m2", "denser net", Way::down},
    {"stacks[board/rival].heat_loss_winter_kwh_per_m2", "thinner board", Way::up},
    {"stacks[thin stonecrop/*].fire_dry_days", "a thin medium, no rain and no water", Way::up},
    {"stacks[thin stonecrop/flat].heat_loss_winter_kwh_per_m2", "thicker medium", Way::down},
    {"stacks*.evapotranspiration_mm", "drier air", Way::up},
    {"stacks*.heat_residual_frac", "another seed"},
    {"stacks*.water_residual_m", "another seed"},
    {"rooms*.is_bedroom", "no bedroom", Way::down},
    {"rooms*.has_fan", "no fan", Way::down},
    {"rooms*.operative_max_c", "more gains", Way::up},
    {"rooms*.operative_min_c", "more gains", Way::up},
    {"rooms*.hours_above_limit", "more gains", Way::up},
    {"rooms*.hours_above_limit_with_fan", "more gains", Way::up},
    {"rooms*.hours_below_limit", "more gains", Way::down},
    {"rooms*.hours_without_limit", "bitter winter", Way::up},
    {"rooms*.degree_hours_above_k_h", "more gains", Way::up},
    {"rooms*.heat_to_add_kwh", "more gains", Way::down},
    {"rooms*.heat_to_remove_kwh", "more gains", Way::up},
    {"rooms*.fan_energy_kwh", "more gains", Way::up},
    {"rooms*.bare.fan_energy_kwh", "stronger fan motor", Way::up},
    {"rooms*.heat_gain_summer_kwh", "more gains", Way::down},
    {"rooms*.planted_minus_bare.operative_*", "fewer modules"},
    {"rooms*.planted_minus_bare.hours_*", "fewer modules"},
    {"rooms*.planted_minus_bare.degree_hours_above_k_h", "fewer modules", Way::up},
    {"rooms*.planted_minus_bare.heat_*", "fewer modules"},
    {"rooms*.planted_minus_bare.fan_energy_kwh", "fewer modules"},
    {"rooms*.planted_minus_bare.night.*", "hotter summer"},
    {"rooms[bedroom].bare.operative_max_c", "darker roof", Way::up},
    {"rooms[bedroom].bare.degree_hours_above_k_h", "darker roof", Way::up},
    {"rooms[bedroom].planted.degree_hours_above_k_h", "fewer modules", Way::up},
    {"rooms[bedroom].white.*.operative_max_c", "whiter paint", Way::down},
    {"rooms[bedroom].white.*.heat_to_remove_kwh", "whiter paint", Way::down},
    {"rooms[bedroom].net.*.operative_max_c", "denser net", Way::down},
    {"rooms[bedroom].net.*.heat_to_remove_kwh", "denser net", Way::down},
    {"rooms[bedroom].board.*.heat_to_add_kwh", "thinner board", Way::up},
    {"house.is_bedroom", "no bedroom", Way::down},
    {"house.has_fan", "no fan", Way::down},
    {"house*.operative_max_c", "more gains", Way::up},
    {"house*.operative_min_c", "more gains", Way::up},
    {"house*.hours_above_limit", "more gains", Way::up},
    {"house*.hours_above_limit_with_fan", "more gains", Way::up},
    {"house*.hours_below_limit", "more gains", Way::down},
    {"house*.hours_without_limit", "bitter winter", Way::up},
    {"house*.degree_hours_above_k_h", "more gains", Way::up},
    {"house*.heat_to_add_kwh", "more gains", Way::down},
    {"house*.heat_to_remove_kwh", "more gains", Way::up},
    {"house*.fan_energy_kwh", "more gains", Way::up},
    {"house*.bare.fan_energy_kwh", "stronger fan motor", Way::up},
    {"house*.heat_gain_summer_kwh", "more gains", Way::down},
    {"house.planted_minus_bare.operative_*", "fewer modules"},
    {"house.planted_minus_bare.hours_*", "fewer modules"},
    {"house.planted_minus_bare.degree_hours_above_k_h", "fewer modules", Way::up},
    {"house.planted_minus_bare.heat_*", "fewer modules"},
    {"house.planted_minus_bare.fan_energy_kwh", "fewer modules"},
    {"house.planted_minus_bare.night.*", "hotter summer"},
    {"water.rain_mm", "more rain", Way::up},
    {"water*.retained_frac", "more rain", Way::down},
    {"water*.watering_l_per_module", "watered earlier", Way::up},
    {"water*.can_wait_days_by_month*", "watered earlier", Way::down},
    {"money.outlay", "dear wool", Way::up},
    {"money.replacement_per_year", "dear wool", Way::up},
    {"money.water_per_year", "dear water", Way::up},
    {"money.comfort_kwh_per_year", "darker roof", Way::up},
    {"money.heating_less_kwh_per_year", "fewer modules", Way::down},
    {"money.recipes*.modules", "fewer modules", Way::down},
    {"money.recipes*.per_module", "dear wool", Way::up},
    {"money.recipes*.outlay", "dear wool", Way::up},
    {"money.recipes*.replacement_per_year", "dear wool", Way::up},
    {"planted_degree_hours_less_per_outlay_k_h", "dear wool", Way::down},
    {"money.cash_saving_per_year", "larger bills", Way::up},
    {"money.net_present_value", "dear wool", Way::down},
    {"money.net_present_value", "bills that pay", Way::up},
    {"money.pays_back.draws", "bills too small to pay", Way::down},
    {"money.pays_back.of", "more draws", Way::up},
    {"money.years_counted", "more years counted", Way::up},
    {"money.own_hours.hours", "more own hours", Way::up},
    {"money.own_hours.wage_per_h", "a wage", Way::up},
    {"money.internal_rates.draws_without", "bills too small to pay", Way::up},
    {"money.internal_rates.draws_with_one", "bills too small to pay", Way::down},
    {"money.flow*.out", "dear wool", Way::up},
    {"money.flow*.saved", "larger bills"},
    {"money.flow*.balance", "dear wool", Way::down},
    {"money.over_all_years.outlay", "dear wool", Way::up},
    {"money.over_all_years.own_hours", "a wage", Way::up},
    {"money.over_all_years.renewal", "dear wool", Way::up},
    {"money.over_all_years.water", "dear water", Way::up},
    {"money.over_all_years.leaks", "more leaks", Way::up},
    {"money.over_all_years.lifting", "membrane about to go", Way::up},
    {"money.over_all_years.disposal", "dear disposal", Way::up},
    {"money.sensitivities*", "bills that pay"},
    {"money.break_even*.is_reached", "bills too small to pay", Way::down},
    {"money.break_even*.electricity_per_kwh", "dear wool", Way::up},
    {"money.break_even*.cooling_kwh_per_year", "dear wool", Way::up},
    {"money.break_even*.outlay", "bills that pay", Way::up},
    {"money.quick_payback*.cost_per_m2", "dear wool", Way::up},
    {"money.quick_payback*.electricity_per_kwh", "dear electricity", Way::up},
    {"money.quick_payback*.cooling_kwh_for_*", "dear electricity", Way::down},
    {"carbon.made_kg", "thicker medium", Way::up},
    {"carbon.renewed_kg_per_year", "thicker jute", Way::up},
    {"carbon.saved_kg_per_year", "larger bills"},
    // More is made, and more is saved: which wins is not said.
    {"carbon.left_kg", "thicker medium"},
    {"carbon.pays_back.draws", "bills too small to pay", Way::down},
    {"carbon.pays_back.of", "more draws", Way::up},
    {"money.internal_rates.draws_with_several", "dear disposal", Way::up},
    {"carbon.years.likely", "larger bills"},
    {"money.payback_years.likely", "larger bills", Way::down},
    {"money.discounted_payback_years.likely", "larger bills", Way::down},
    {"money.internal_rates.likely_frac*", "larger bills", Way::up},
    {"money.internal_rates.rate_frac", "larger bills", Way::up},
    {"rivals*.payback_years.likely", "larger bills"},
    {"rivals*.discounted_payback_years.likely", "larger bills"},
    {"order*.left_m", "roof far to the left"},
    {"order*.bottom_m", "roof far to the left"},
    {"order*.cost", "dear wool", Way::up},
    {"order*.gain_k_h", "hotter summer"},
    {"order_about.places", "a ban"},
    {"order_about.cost", "dear wool", Way::up},
    {"order_about.gain_k_h", "hotter summer", Way::up},
    {"order_about.responses*", "fewer modules"},
    {"rivals*.cash_saving_per_year", "larger bills"},
    {"rivals*.net_present_value", "dear rivals", Way::down},
    {"rivals*.pays_back.of", "more draws", Way::up},
    {"rivals*.pays_back.draws", "bills too small to pay"},
    {"rivals*/same_squares].area_m2", "fewer modules", Way::down},
    {"rivals*/whole_roof].area_m2", "larger roof and room", Way::up},
    {"rivals*.outlay", "dear rivals", Way::up},
    {"rivals*.replacement_per_year", "dear rivals", Way::up},
    {"rivals[net*.mass_soaked_kg_per_m2", "denser net", Way::up},
    {"rivals[board*.mass_soaked_kg_per_m2", "heavier ballast", Way::up},
    {"rivals*.degree_hours_less_per_outlay_k_h", "dear rivals", Way::down},
    {"rivals*.better_for_its_money.of", "more draws", Way::up},
    {"rivals[white*.better_for_its_money.draws", "dear rivals", Way::down},
    {"rivals[net*.better_for_its_money.draws", "cheap rivals", Way::up},
    {"rivals[board*.better_for_its_money.draws", "cheap rivals", Way::up},
    {"rivals[white*.is_better_for_its_money", "dear rivals", Way::down},
    {"rivals[net*.is_better_for_its_money", "cheap rivals", Way::up},
    {"rivals[board*.is_better_for_its_money", "cheap rivals", Way::up},
};

/// Numbers that no input of today may move, each with its reason. The list may only become shorter.
constexpr std::string_view fixed[] = {
    "engine.n_years_failed",  // no change of this list makes a year fail; tests/studies/ensemble_test.cpp does
    "is_valid",               // an answer with issues is another document
    "money.flow[0].saved",    // nothing is saved before anything is built
    "money.flow*.year",
    "money.break_even*.years",  // those that are asked for
    "order_about.is_exact",     // the places of this roof are few enough; tests/buildorder have more
    "order_about.most_loss_k_h",
    "order*.season",          // a study looks at one; tests/buildorder have several
    "load.patches[0].patch",  // the place in the design's list
    "wind.patches[0].patch", "drainage.advice[0].patch",
    "drainage.advice[0].is_better_empty",  // no rain of this list stands above 100 mm; tests/studies/roof_answers_test.cpp
    "damp.surface.edge_factor",            // one estimate for all upstands
    // Nothing in this concrete deck rots; tests/studies/damp_answer_slow_test.cpp runs decks in which something does.
    "damp.is_run", "damp.first_month", "damp.years", "damp.runs", "damp.water_residual_kg_per_m2",
    "damp.heat_residual_frac",
    "drainage.walled_in_m2",  // no obstacle of this roof cuts anything off; tests/checks/drainage_test.cpp does
};

bool is_fixed(const std::string& path) {
  return std::any_of(std::begin(fixed), std::end(fixed),
                     [&](std::string_view pattern) { return is_match(pattern, path); });
}

/// Differences move their own way: rows mean them by name only.
bool names(const Row& row, std::string_view path) {
  constexpr std::string_view difference = "planted_minus_bare";
  const bool is_meant =
      path.find(difference) == std::string_view::npos || row.pattern.find(difference) != std::string_view::npos;
  return is_meant && is_match(row.pattern, path);
}

std::string words_of(const Row& row) { return fmt::format("\"{}\" by \"{}\"", row.pattern, row.change); }

struct Runs {
  Numbers base;
  std::map<std::string_view, Numbers> changed;
};

/// With bills, so that there is cash to be saved.
std::string text_with_bills() {
  return tests::edited(tests::checked_design_text(), {{"[rivals]", R"([bills]
cooling_kwh_per_year = 900
heating_kwh_per_year = 2000
[money]
years_counted = 10
wage_per_h = 1
[carbon]
electricity_kg_per_kwh = 0.2
[tariff]
electricity_per_kwh = 0.25
[rivals])"}});
}

Runs run_all() {
  Runs runs;
  runs.base = numbers_of(report::json_from(tests::study_of(text_with_bills())));
  for (const Change& change : all_changes()) {
    StudyOptions options = tests::short_options();
    if (change.options != nullptr) change.options(options);
    const std::string text = tests::edited(text_with_bills(), change.edits);
    runs.changed[change.name] = numbers_of(report::json_from(tests::study_of(text, options)));
  }
  return runs;
}

void expect_moved(const Row& row, const Runs& runs) {
  ASSERT_TRUE(runs.changed.contains(row.change)) << words_of(row);
  const Numbers& after = runs.changed.at(row.change);
  int n_named = 0;
  for (const auto& [path, before] : runs.base) {
    if (!names(row, path) || is_fixed(path)) continue;
    ++n_named;
    const auto found = after.find(path);
    if (found == after.end()) {
      ADD_FAILURE() << words_of(row) << ": " << path << " is gone";
      continue;
    }
    const double moved = found->second - before;
    const bool is_right = row.way == Way::up ? moved > 0.0 : row.way == Way::down ? moved < 0.0 : moved != 0.0;
    EXPECT_TRUE(is_right) << words_of(row) << ": " << path << " from " << before << " to " << found->second;
  }
  EXPECT_GT(n_named, 0) << words_of(row) << " names nothing";
}

// One test, because the runs are its cost.
TEST(Moves, EveryNumberOfTheAnswerIsMovedByAnInputAndTheRightWay) {
  const Runs runs = run_all();
  for (const Row& row : rows) expect_moved(row, runs);
  for (const auto& [path, value] : runs.base) {
    if (is_fixed(path)) continue;
    bool has_row = false;
    for (const Row& row : rows) has_row = has_row || names(row, path);
    EXPECT_TRUE(has_row) << path << " = " << value << ": nothing is said to move it";
  }
  for (const std::string_view pattern : fixed) {
    int n_named = 0;
    for (const auto& [path, value] : runs.base) {
      if (!is_match(pattern, path)) continue;
      ++n_named;
      for (const auto& [name, numbers] : runs.changed) {
        const auto found = numbers.find(path);
        if (found == numbers.end()) continue;
        EXPECT_EQ(found->second, value) << path << ": " << name;
      }
    }
    EXPECT_GT(n_named, 0) << pattern << " names nothing";
  }
}

TEST(MovesTable, SeesAFieldThatNothingMoves) {
  EXPECT_TRUE(is_match("rooms*.night.*", "rooms[a].bare.night.hours"));
  EXPECT_FALSE(is_match("rooms*.hours", "rooms[a].hours_above"));
  Numbers numbers;
  collect(Json{{"a", {{"value", 3.0}, {"low", 1.0}, {"high", 4.0}, {"from", "x"}}}, {"b", nullptr}, {"c", true}}, "",
          numbers);
  EXPECT_EQ(numbers, (Numbers{{"a", 3.0}, {"c", 1.0}}));
}

}  // namespace
}  // namespace houseleek::studies
