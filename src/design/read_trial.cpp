// [[trial]]: sides, places, what is read there and how.
#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "design/read_tables.hpp"
#include "design/trial_limits.hpp"

namespace houseleek::design {
namespace {

constexpr std::pair<std::string_view, TrialMeasure> measure_words[] = {
    {"maximum", TrialMeasure::maximum}, {"minimum", TrialMeasure::minimum},           {"swing", TrialMeasure::swing},
    {"lag", TrialMeasure::lag},         {"degree_hours", TrialMeasure::degree_hours}, {"litres", TrialMeasure::litres}};
constexpr std::pair<std::string_view, TrialReadings> readings_words[] = {{"by_hand", TrialReadings::by_hand},
                                                                         {"loggers", TrialReadings::loggers}};
constexpr std::pair<std::string_view, TrialLayout> layout_words[] = {
    {"blocks", TrialLayout::blocks}, {"free", TrialLayout::free}, {"latin_square", TrialLayout::latin_square}};
constexpr std::pair<std::string_view, Probe> probe_words[] = {{"membrane", Probe::membrane},
                                                              {"ceiling", Probe::ceiling},
                                                              {"surface", Probe::surface},
                                                              {"room_air", Probe::room_air}};

/// The index of a name among others; absent: nullopt; unknown: nullopt and an issue.
template <class Named>
std::optional<int> read_index(DesignReader& reader, const TableView& table, std::string_view key, std::string_view what,
                              const std::vector<Named>& all) {
  const std::optional<std::string> name = read_text(reader.fields, table, key);
  if (!name) return std::nullopt;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (folded_name(all[i].name) == folded_name(*name)) return static_cast<int>(i);
    names.push_back(all[i].name);
  }
  add_unknown_name(reader.fields, *find_member(*table.node, key), path_from(table, key), what, names);
  return std::nullopt;
}

double hour_or(DesignReader& reader, const TableView& table, std::string_view key, double usual) {
  NumberRule rule = limits::trial_hour;
  rule.key = key;
  return read_number(reader.fields, table, rule).value_or(usual);
}

TrialSpread read_trial_spread(DesignReader& reader, const TableView& trial) {
  TrialSpread spread;
  const std::optional<TableView> table = read_table(reader.fields, trial, "spread");
  if (!table) return spread;
  constexpr std::string_view known[] = {"module_sd", "day_sd", "day_correlation", "reading_sd", "instrument_offset_sd",
                                        "source"};
  check_keys(reader.fields, *table, known);
  const auto sd = [&](std::string_view key) {
    NumberRule rule = limits::spread_sd;
    rule.key = key;
    rule.is_least_open = key == "day_sd";
    return read_number(reader.fields, *table, rule);
  };
  spread.module_sd = sd("module_sd");
  spread.day_sd = sd("day_sd");
  spread.day_correlation = read_number(reader.fields, *table, limits::day_correlation);
  spread.reading_sd = sd("reading_sd");
  spread.instrument_offset_sd = sd("instrument_offset_sd");
  spread.source = read_text(reader.fields, *table, "source").value_or("");
  return spread;
}

/// A recipe by its name; "bare" is the deck with nothing on it, unless a recipe is called so.
std::optional<int> read_recipe_of_side(DesignReader& reader, const TableView& table,
                                       const std::vector<Recipe>& recipes) {
  const TomlNode* node = find_member(*table.node, "recipe");
  const bool is_bare = node != nullptr && node->kind == TomlKind::text && folded_name(node->text) == "bare";
  const bool is_recipe = std::any_of(recipes.begin(), recipes.end(),
                                     [](const Recipe& recipe) { return folded_name(recipe.name) == "bare"; });
  if (is_bare && !is_recipe) return bare_deck;
  return read_index(reader, table, "recipe", "recipe", recipes);
}

std::vector<TrialSide> read_sides(DesignReader& reader, const TableView& trial, const std::vector<Recipe>& recipes) {
  constexpr std::string_view known[] = {"name", "what", "recipe", "placed"};
  std::vector<TrialSide> sides;
  std::vector<std::string> names;
  for (const TableView& table : read_counted_tables(reader, trial, "side", limits::most_sides)) {
    check_keys(reader.fields, table, known);
    TrialSide side;
    side.name = read_required_text(reader.fields, table, "name", "add name = \"raised\"");
    side.what = read_text(reader.fields, table, "what").value_or("");
    side.recipe = read_recipe_of_side(reader, table, recipes);
    side.placed = read_choice<Placed>(reader.fields, table, "placed", placed_words);
    const TomlNode* placed = find_member(*table.node, "placed");
    const bool is_bare = side.recipe == bare_deck;
    if (side.placed && (is_bare || find_member(*table.node, "recipe") == nullptr)) {
      add_issue(reader.fields, IssueCode::inconsistent, *placed, path_from(table, "placed"), "a side with a recipe",
                fmt::format("{} says how modules lie, but the side has none", path_from(table, "placed")),
                "add recipe = \"the name of a recipe\"");
    }
    if (side.placed == Placed::raised && side.recipe && !is_bare &&
        recipes[static_cast<std::size_t>(*side.recipe)].spacer.height_mm == 0.0) {
      add_issue(reader.fields, IssueCode::inconsistent, *placed, path_from(table, "placed"), "a recipe with spacers",
                fmt::format("{} is \"raised\", but the recipe has no spacer", path_from(table, "placed")),
                "add spacer = { height_mm = 20 } to the recipe");
    }
    check_unique_name(reader, table, names, side.name);
    names.push_back(side.name);
    sides.push_back(std::move(side));
  }
  return sides;
}

std::vector<TrialPlace> read_places(DesignReader& reader, const TableView& trial, const std::vector<TrialSide>& sides,
                                    const std::vector<Room>& rooms) {
  constexpr std::string_view known[] = {"name",   "side",   "block", "second_block", "row",
                                        "column", "logger", "probe", "room"};
  std::vector<TrialPlace> places;
  std::vector<std::string> names;
  for (const TableView& table : read_counted_tables(reader, trial, "place", limits::most_trial_places)) {
    check_keys(reader.fields, table, known);
    const auto whole = [&](std::string_view key, std::size_t usual) {
      NumberRule rule = limits::trial_row;
      rule.key = key;
      return static_cast<int>(read_integer(reader.fields, table, rule).value_or(static_cast<std::int64_t>(usual)));
    };
    TrialPlace place;
    place.name = read_required_text(reader.fields, table, "name", "add name = \"A1\", as the logbook calls it");
    place.side = read_index(reader, table, "side", "side", sides);
    place.block = read_text(reader.fields, table, "block").value_or("");
    place.second_block = read_text(reader.fields, table, "second_block").value_or("");
    // Without rows and columns the places stand in the order in which they are written.
    place.row = whole("row", 0);
    place.column = whole("column", places.size());
    place.logger = read_text(reader.fields, table, "logger").value_or(place.name);
    place.probe = read_choice<Probe>(reader.fields, table, "probe", probe_words).value_or(Probe::membrane);
    place.room = read_index(reader, table, "room", "room", rooms);
    check_unique_name(reader, table, names, place.name);
    names.push_back(place.name);
    places.push_back(std::move(place));
  }
  return places;
}

Trial read_trial(DesignReader& reader, const TableView& table, const std::vector<Recipe>& recipes,
                 const std::vector<Room>& rooms) {
  constexpr std::string_view known[] = {
      "name",           "measure",         "readings",       "layout",    "wanted_difference",
      "base_c",         "confidence_frac", "power_frac",     "most_days", "instrument",
      "one_instrument", "morning_hour",    "afternoon_hour", "first_day", "last_day",
      "seed",           "against",         "outdoor_logger", "spread",    "side",
      "place"};
  check_keys(reader.fields, table, known);
  FieldReader& fields = reader.fields;
  Trial trial;
  trial.name = read_required_text(fields, table, "name", "add name = \"raised or flat\"");
  trial.measure = read_choice<TrialMeasure>(fields, table, "measure", measure_words).value_or(TrialMeasure::maximum);
  trial.readings =
      read_choice<TrialReadings>(fields, table, "readings", readings_words).value_or(TrialReadings::by_hand);
  trial.layout = read_choice<TrialLayout>(fields, table, "layout", layout_words).value_or(TrialLayout::blocks);
  trial.wanted_difference = read_required_number(fields, table, limits::wanted_difference);
  trial.base_c = read_number(fields, table, limits::base_c).value_or(limits::usual_base_c);
  trial.confidence_frac =
      read_number(fields, table, limits::trial_confidence_frac).value_or(limits::usual_confidence_frac);
  trial.power_frac = read_number(fields, table, limits::power_frac).value_or(limits::usual_power_frac);
  trial.most_days = static_cast<int>(read_integer(fields, table, limits::most_days).value_or(limits::usual_most_days));
  trial.instrument = read_text(fields, table, "instrument").value_or(std::string(limits::usual_instrument));
  trial.is_one_instrument =
      read_flag(fields, table, "one_instrument").value_or(trial.readings == TrialReadings::by_hand);
  trial.morning_hour = hour_or(reader, table, "morning_hour", limits::usual_morning_hour);
  trial.afternoon_hour = hour_or(reader, table, "afternoon_hour", limits::usual_afternoon_hour);
  trial.first_day = read_day(reader, table, "first_day");
  trial.last_day = read_day(reader, table, "last_day");
  if (trial.first_day && trial.last_day && *trial.last_day < *trial.first_day) {
    add_issue(fields, IssueCode::inconsistent, *find_member(*table.node, "last_day"), path_from(table, "last_day"),
              "not before first_day",
              fmt::format("{} is before first_day, {}", path_from(table, "last_day"), text_from_day(*trial.first_day)),
              "");
  }
  if (trial.morning_hour >= trial.afternoon_hour) {
    const TomlNode* hour = find_member(*table.node, "morning_hour");
    if (hour == nullptr) hour = find_member(*table.node, "afternoon_hour");
    if (hour != nullptr) {
      add_issue(fields, IssueCode::inconsistent, *hour, path_from(table, "morning_hour"), "before afternoon_hour",
                fmt::format("{}: the morning's look, {} h, is not before the afternoon's, {} h", table.path,
                            trial.morning_hour, trial.afternoon_hour),
                "hours of standard time, 6 and 16 or so");
    }
  }
  trial.seed = static_cast<std::uint64_t>(
      read_integer(fields, table, limits::trial_seed).value_or(static_cast<std::int64_t>(limits::usual_trial_seed)));
  trial.outdoor_logger = read_text(fields, table, "outdoor_logger").value_or("");
  trial.spread = read_trial_spread(reader, table);
  if (has_entries(fields, table, "side", "add two tables [[trial.side]], each with a name")) {
    trial.sides = read_sides(reader, table, recipes);
    if (trial.sides.size() == 1) {
      add_issue(fields, IssueCode::out_of_range, *find_member(*table.node, "side"), path_from(table, "side"),
                "at least 2 sides",
                fmt::format("{} has one side; a trial holds two or more against each other", table.path),
                "bare roof or paint can be a side");
    }
  }
  trial.against = read_index(reader, table, "against", "side", trial.sides);
  trial.places = read_places(reader, table, trial.sides, rooms);
  return trial;
}

}  // namespace

std::vector<Trial> read_trials(DesignReader& reader, const TableView& root, const std::vector<Recipe>& recipes,
                               const std::vector<Room>& rooms) {
  std::vector<Trial> trials;
  std::vector<std::string> names;
  for (const TableView& table : read_counted_tables(reader, root, "trial", limits::most_trials)) {
    trials.push_back(read_trial(reader, table, recipes, rooms));
    check_unique_name(reader, table, names, trials.back().name);
    names.push_back(trials.back().name);
  }
  return trials;
}

}  // namespace houseleek::design
