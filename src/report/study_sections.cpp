// What stands under each question of a householder: its figures, its charts, or that it is not computed yet.
#include "report/study_sections.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "report/chart_parts.hpp"
#include "report/damp_section.hpp"
#include "report/figure_html.hpp"
#include "report/money_section.hpp"
#include "report/plants_section.hpp"
#include "report/roof_sections.hpp"
#include "report/study_words.hpp"

namespace houseleek::report {
namespace {

struct PlaceQuestion {
  std::string_view place;
  int question;
};
constexpr PlaceQuestion place_questions[] = {{"roof", 0},    {"load", 1},   {"wind", 1},   {"fire", 2},
                                             {"recipes", 2}, {"damp", 3},   {"rooms", 4},  {"drainage", 5},
                                             {"water", 6},   {"plants", 7}, {"upkeep", 8}, {"work", 10}};

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

Html words_with_list(std::string_view words, const Json& names) {
  if (names.empty()) return {};
  Html list;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) list += html_from(", ");
    list += name_from(names[i].get<std::string>());
  }
  return element("p", {}, html_from(words) + list + html_from("."));
}

/// A table of one field for each room and each cover, the house below.
Html room_table(const Json& document, std::string_view caption, const std::vector<std::string_view>& fields,
                const std::vector<std::string_view>& field_words) {
  Matrix matrix;
  matrix.caption = html_from(caption);
  matrix.heads = {html_from("cover")};
  const Json& rooms = document.at("rooms");
  const auto add_heads = [&](const Html& name) {
    for (const std::string_view words : field_words) {
      matrix.heads.push_back(field_words.size() == 1 ? name : name + html_from(fmt::format(", {}", words)));
    }
  };
  for (const Json& room : rooms) add_heads(name_from(text_at(room, "name")));
  add_heads(html_from("all rooms"));
  for (const CoverWords& cover : cover_words) {
    MatrixRow row{html_from(cover.words), {}};
    for (std::size_t room = 0; room <= rooms.size(); ++room) {
      const std::string place = room < rooms.size() ? fmt::format("/rooms/{}", room) : std::string("/house");
      for (const std::string_view field : fields)
        row.cells.push_back({fmt::format("{}/{}/{}", place, cover.key, field)});
    }
    matrix.rows.push_back(std::move(row));
  }
  return table_of_matrix(document, matrix);
}

void add_placed(std::vector<FigureRow>& rows, const std::string& place, std::string_view form) {
  const auto words = [&](std::string_view text) { return html_from(fmt::format("{}, {}", form, text)); };
  rows.push_back({words("U-value dry"), "W/m\u00B2K", {place + "/u_value_dry_w_per_m2_k"}});
  rows.push_back({words("U-value wet"), "W/m\u00B2K", {place + "/u_value_wet_w_per_m2_k"}});
  rows.push_back({words("decrement factor"), "", {place + "/decrement_factor"}});
  rows.push_back({words("time lag"), "h", {place + "/time_lag_h"}});
}

/// May one eat what grows in a recipe, watered from the tap and from the roof.
Html food_words(const Json& edible) {
  const auto reasons = [](const Json& list) {
    std::string text;
    for (const Json& one : list) text += "; " + one.get<std::string>();
    return text;
  };
  const std::string word = text_at(edible, "word");
  std::string text = word == "yes" ? "Food from it: nothing known against it" : "Food from it: " + word;
  text += reasons(edible.at("because"));
  const std::string water = text_at(edible, "with_roof_water");
  if (water != "yes")
    text += ". Watered with what ran over this roof: " + water + reasons(edible.at("roof_water_because"));
  return element("p", {}, html_from(text + "."));
}

Html recipes_answer(const Json& document) {
  Html content = table_of_figures(document, html_from("The bare deck"),
                                  {{html_from("U-value"), "W/m\u00B2K", {"/roof/bare/u_value_w_per_m2_k"}},
                                   {html_from("decrement factor"), "", {"/roof/bare/decrement_factor"}},
                                   {html_from("time lag"), "h", {"/roof/bare/time_lag_h"}}});
  const Json& recipes = document.at("recipes");
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    const Json& recipe = recipes[i];
    const std::string place = fmt::format("/recipes/{}", i);
    content += words_with_list("Not counted in its weight: ", recipe.at("mass_not_counted"));
    std::vector<FigureRow> rows = {{html_from("weight dry"), "kg/m\u00B2", {place + "/mass_dry_kg_per_m2"}},
                                   {html_from("weight drained"), "kg/m\u00B2", {place + "/mass_drained_kg_per_m2"}},
                                   {html_from("weight soaked"), "kg/m\u00B2", {place + "/mass_soaked_kg_per_m2"}}};
    add_placed(rows, place + "/flat", "flat");
    if (!recipe.at("raised").is_null()) add_placed(rows, place + "/raised", "raised");
    rows.push_back({html_from("floats in water of"), "mm", {place + "/floats_at_mm"}});
    content += table_of_figures(
        document,
        name_from(text_at(recipe, "name")) + html_from(fmt::format(", {} laid", recipe.at("modules").get<int>())),
        rows);
    content += food_words(recipe.at("edible"));
    content += element("p", {{"class", "key"}}, html_from(text_at(recipe.at("flat"), "note")));
    if (!recipe.at("raised").is_null()) {
      content += element("p", {{"class", "key"}}, html_from(text_at(recipe.at("raised"), "note")));
    }
  }
  return content;
}

Html stacks_table(const Json& document) {
  Matrix matrix;
  const Json& stacks = document.at("stacks");
  matrix.caption = html_from("Closed covers over the largest room");
  for (const std::string_view words :
       {"cover", "membrane at most, \u00B0C", "membrane at least, \u00B0C", "ceiling at most, \u00B0C",
        "heat in, summer, kWh/m\u00B2", "heat out, winter, kWh/m\u00B2", "evaporates, mm"}) {
    matrix.heads.push_back(html_from(words));
  }
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    const std::string form = text_at(stacks[i], "form");
    Html name = name_from(text_at(stacks[i], "name"));
    if (form == "flat" || form == "raised") name += html_from(", " + form);
    MatrixRow row{std::move(name), {}};
    for (const std::string_view field :
         {"membrane_max_c", "membrane_min_c", "ceiling_max_c", "heat_gain_summer_kwh_per_m2",
          "heat_loss_winter_kwh_per_m2", "evapotranspiration_mm"}) {
      row.cells.push_back({fmt::format("/stacks/{}/{}", i, field)});
    }
    matrix.rows.push_back(std::move(row));
  }
  return table_of_matrix(document, matrix);
}

/// What the modules change, on the same hours: a figure of its own, because medians cannot be subtracted.
Html difference_table(const Json& document) {
  Matrix matrix;
  matrix.caption = html_from("Planted minus bare");
  for (const std::string_view words : {"room", "hottest, K", "coldest, K", "hours above", "with fans",
                                       "degree-hours above, K h", "heat to add, kWh", "heat to remove, kWh"}) {
    matrix.heads.push_back(html_from(words));
  }
  const Json& rooms = document.at("rooms");
  for (std::size_t room = 0; room <= rooms.size(); ++room) {
    const bool is_room = room < rooms.size();
    const std::string place = is_room ? fmt::format("/rooms/{}", room) : std::string("/house");
    MatrixRow row{is_room ? name_from(text_at(rooms[room], "name")) : html_from("all rooms"), {}};
    for (const std::string_view field :
         {"operative_max_k", "operative_min_k", "hours_above_limit", "hours_above_limit_with_fan",
          "degree_hours_above_k_h", "heat_to_add_kwh", "heat_to_remove_kwh"}) {
      row.cells.push_back({fmt::format("{}/planted_minus_bare/{}", place, field)});
    }
    matrix.rows.push_back(std::move(row));
  }
  return table_of_matrix(document, matrix);
}

Html rooms_answer(const ChartSource& source) {
  const Json& document = source.document;
  Html content = difference_table(document);
  content += room_table(document, "Highest operative temperature, \u00B0C", {"operative_max_c"}, {"highest"});
  content += room_table(document, "Lowest operative temperature, \u00B0C", {"operative_min_c"}, {"lowest"});
  content += membrane_chart(source) + ceiling_chart(source) + stacks_table(document);
  content += ceiling_map(source) + room_maps(source);
  return content + damp_section(document);
}

Html fans_answer(const ChartSource& source) {
  const Json& document = source.document;
  Html content = hours_chart(source);
  content += hours_by_month(source);
  content += room_table(document, "Hours above the comfort limit", {"hours_above_limit"}, {"hours"});
  content += room_table(document, "The same with the fans that are there", {"hours_above_limit_with_fan"}, {"hours"});
  if (document.at("house").at("bare").contains("night")) {
    Matrix matrix;
    matrix.caption = html_from("Bedrooms, 22 to 7 h, added up");
    for (const std::string_view words : {"cover", "hours above", "with fans", "degree-hours, K h"}) {
      matrix.heads.push_back(html_from(words));
    }
    for (const CoverWords& cover : cover_words) {
      MatrixRow row{html_from(cover.words), {}};
      for (const std::string_view field :
           {"hours_above_limit", "hours_above_limit_with_fan", "degree_hours_above_k_h"}) {
        row.cells.push_back({fmt::format("/house/{}/night/{}", cover.key, field)});
      }
      matrix.rows.push_back(std::move(row));
    }
    content += table_of_matrix(document, matrix);
  }
  Matrix house;
  house.caption = html_from("All rooms: too cold, too warm, and the heat that machines would move");
  for (const std::string_view words : {"cover", "hours below", "hours without a limit", "degree-hours above, K h",
                                       "heat to add, kWh", "heat to remove, kWh", "fans, kWh"}) {
    house.heads.push_back(html_from(words));
  }
  for (const CoverWords& cover : cover_words) {
    MatrixRow row{html_from(cover.words), {}};
    for (const std::string_view field : {"hours_below_limit", "hours_without_limit", "degree_hours_above_k_h",
                                         "heat_to_add_kwh", "heat_to_remove_kwh", "fan_energy_kwh"}) {
      row.cells.push_back({fmt::format("/house/{}/{}", cover.key, field)});
    }
    house.rows.push_back(std::move(row));
  }
  return content + table_of_matrix(document, house);
}

Html water_answer(const ChartSource& source) {
  const Json& document = source.document;
  Html content =
      table_of_figures(document, html_from("A year of water"),
                       {{html_from("rain"), "mm", {"/water/rain_mm"}},
                        {html_from("kept of rain and watering"), "%", {"/water/retained_frac", Form::percent}},
                        {html_from("watering, mean module"), "l a year", {"/water/watering_l_per_module"}}});
  if (!source.columns.modules.empty()) content += water_chart(source);
  const Json& recipes = document.at("water").at("recipes");
  Matrix matrix;
  matrix.caption = html_from("Days a full module can wait");
  matrix.heads = {html_from("month"), html_from("least of all")};
  for (const Json& recipe : recipes) matrix.heads.push_back(name_from(text_at(recipe, "name")));
  for (std::size_t month = 0; month < 12; ++month) {
    MatrixRow row{html_from(month_letters[month]), {{fmt::format("/water/can_wait_days_by_month/{}", month)}}};
    for (std::size_t i = 0; i < recipes.size(); ++i) {
      row.cells.push_back({fmt::format("/water/recipes/{}/can_wait_days_by_month/{}", i, month)});
    }
    matrix.rows.push_back(std::move(row));
  }
  content += table_of_matrix(document, matrix);
  return content + element("p", {{"class", "key"}}, html_from(text_at(document.at("water"), "can_wait_means")));
}

}  // namespace

int question_of_place(std::string_view place) {
  const auto found = std::find_if(std::begin(place_questions), std::end(place_questions),
                                  [place](const PlaceQuestion& one) { return one.place == place; });
  expects(found != std::end(place_questions), "a place that cautions can stand beside");
  return found->question;
}

Html answer_to(int question, const ChartSource& source) {
  switch (question) {
    case 0:
      return element(
          "p", {{"class", "not-yet"}},
          html_from(fmt::format("The state of roof and membrane, permissions, insurance: {}.", not_yet_words)));
    case 1:
      return load_section(source.document) + weights_chart(source) + wind_section(source.document);
    case 2:
      return recipes_answer(source.document) + fire_section(source.document);
    case 3:
      return rooms_answer(source);
    case 4:
      return fans_answer(source);
    case 5:
      return drainage_section(source.document);
    case 6:
      return water_answer(source);
    case 7:
      return plants_section(source.document);
    case 8:
      return money_section(source);
    case 9:
      return order_section(source.document);
    default:
      return part_at(source.document, "/worksheet", "Shopping, cutting, steps");
  }
}

}  // namespace houseleek::report
