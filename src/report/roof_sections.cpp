// What a report says of load, wind, water and fire: figures, maps of the roof, and what they assume.
#include "report/roof_sections.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/chart_map.hpp"
#include "report/figure_html.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }
bool is_known(const Json& figure) { return !figure.at("value").is_null(); }
double value_of(const Json& figure) { return figure.at("value").get<double>(); }
double low_of(const Json& figure) { return figure.value("low", value_of(figure)); }
double high_of(const Json& figure) { return figure.value("high", value_of(figure)); }

Html sentence(std::string_view text) { return element("p", {}, html_from(sentence_in_print(text))); }
Html note(std::string_view text) { return element("p", {{"class", "key"}}, html_from(sentence_in_print(text))); }

Html list_of(std::string_view words, const Json& texts) {
  if (texts.empty()) return {};
  Html items;
  for (const Json& text : texts) items += element("li", {}, html_from(sentence_in_print(text.get<std::string>())));
  return element_of("p", words) + element("ul", {}, items);
}

Html statements_of(const Json& parts) {
  Html items;
  for (const Json& part : parts) items += element("li", {}, html_from(sentence_in_print(text_at(part, "statement"))));
  return items.is_empty() ? items : element("ul", {}, items);
}

Html patch_words(const Json& patch) {
  return html_from(fmt::format("patch {}, ", patch.at("patch").get<int>() + 1)) + name_from(text_at(patch, "recipe"));
}

/// Rows of the list of assumptions whose path begins like one of these.
Html assumed_by(const Json& document, const std::vector<std::string_view>& beginnings) {
  std::vector<FigureRow> rows;
  const Json& assumed = document.at("assumed");
  Html head = element("td", {}, {});
  for (const std::string_view words : {"low", "likely", "high", "unit"}) {
    head += element("th", {{"scope", "col"}}, html_from(words));
  }
  Html body;
  for (std::size_t i = 0; i < assumed.size(); ++i) {
    const std::string path = text_at(assumed[i], "path");
    const auto begins = [&path](std::string_view beginning) { return path.starts_with(beginning); };
    if (std::none_of(beginnings.begin(), beginnings.end(), begins)) continue;
    Html cells = element("th", {{"scope", "row"}}, html_from(text_at(assumed[i], "name")));
    for (const std::string_view end : {"low", "likely", "high"}) {
      cells += element("td", {{"class", "n"}}, number_at(document, fmt::format("/assumed/{}/{}", i, end)));
    }
    body += element("tr", {}, cells + element("td", {{"class", "u"}}, html_from(text_at(assumed[i], "unit"))));
  }
  if (body.is_empty()) return {};
  return element("div", {{"class", "scroll"}, {"tabindex", "0"}},
                 element("table", {},
                         element_of("caption", "Assumed here, because the description does not say") +
                             element("thead", {}, element("tr", {}, head)) + element("tbody", {}, body)));
}

/// A map of one list of squares.
struct MapWords {
  std::string id;
  std::string title;
  std::string caption;
  std::string description;
  std::vector<std::string> heads;  // of the table, after the square's name
};

Html map_of(const Json& document, const MapWords& words, std::vector<MapSquare> squares,
            const std::vector<std::vector<std::string>>& cells) {
  const Json& grid = document.at("roof").at("squares");
  if (squares.empty()) {
    return element("p", {{"class", "not-yet"}},
                   html_from("No map of " + words.heads.front() + ": nothing is laid on the roof."));
  }
  ChartFigure figure;
  figure.id = words.id;
  figure.title = words.title;
  figure.caption = words.caption + fmt::format(" Squares of {} m from the plan's lower left corner.",
                                               number_in_print(grid.at("side_m").get<double>()));
  figure.table.heads = {"square"};
  figure.table.heads.insert(figure.table.heads.end(), words.heads.begin(), words.heads.end());
  for (std::size_t i = 0; i < squares.size(); ++i) {
    std::vector<std::string> row = {squares[i].name};
    row.insert(row.end(), cells[i].begin(), cells[i].end());
    figure.table.rows.push_back(std::move(row));
  }
  SquareMap map;
  map.columns = grid.at("columns").get<int>();
  map.rows = grid.at("rows").get<int>();
  map.squares = std::move(squares);
  map.drawing.id = words.id + "-drawing";
  map.drawing.title = words.title;
  map.drawing.description = words.description;
  figure.panels = {html_from(std::move(map))};
  figure.is_wide = true;
  return html_from(figure);
}

std::vector<std::string> ends_of(const Json& figure, double factor) {
  return {number_in_print(factor * low_of(figure)), number_in_print(factor * value_of(figure)),
          number_in_print(factor * high_of(figure))};
}

Html load_map(const Json& document) {
  const Json& load = document.at("load");
  const bool has_figure = load.at("missing").empty();
  std::vector<MapSquare> squares;
  std::vector<std::vector<std::string>> cells;
  double most = 0.0;
  for (const Json& square : load.at("squares")) most = std::max(most, high_of(square.at("soaked_kn_per_m2")));
  const Json* heaviest = nullptr;
  for (const Json& square : load.at("squares")) {
    const Json& shown = square.at(has_figure ? "use_frac" : "soaked_kn_per_m2");
    if (heaviest == nullptr || high_of(shown) > high_of(heaviest->at(has_figure ? "use_frac" : "soaked_kn_per_m2"))) {
      heaviest = &square;
    }
    const std::string text =
        has_figure ? fmt::format("{:.0f}", 100.0 * high_of(shown)) : number_in_print(high_of(shown));
    squares.push_back({text_at(square, "name"), text, has_figure ? high_of(shown) : high_of(shown) / most,
                       fmt::format("{}: {} {}", text_at(square, "name"), text, has_figure ? "%" : "kN/m\u00B2")});
    std::vector<std::string> row = ends_of(square.at("soaked_kn_per_m2"), 1.0);
    if (has_figure) {
      for (const std::string& end : ends_of(shown, 100.0)) row.push_back(end);
    }
    cells.push_back(std::move(row));
  }
  MapWords words;
  words.id = "map-load";
  words.heads = {"kN/m\u00B2 low", "likely", "high"};
  if (has_figure) {
    words.title = "How much of the engineer\u2019s figure each square takes, soaked, in per cent.";
    words.caption =
        "The high end for the heaviest thing that reaches into the square, evenly; bending along the spans is another "
        "test. The tint is deepest at 100 %.";
    for (const char* head : {"% of the figure low", "likely", "high"}) words.heads.emplace_back(head);
  } else {
    words.title = "What presses on each square, soaked, in kN/m\u00B2.";
    words.caption = "The high end, mean over the square. There is no complete figure to compare it with.";
  }
  if (heaviest != nullptr) words.description = fmt::format("The heaviest square is {}.", text_at(*heaviest, "name"));
  return map_of(document, words, std::move(squares), cells);
}

Html wind_map(const Json& document) {
  const Json& wind = document.at("wind");
  const Json& of_place = wind.at("gust_of_place_km_per_h");
  double scale = 0.0;
  for (const Json& square : wind.at("squares")) {
    scale = std::max(scale, low_of(square.at("not_shown_above_km_per_h")));
  }
  if (is_known(of_place)) scale = value_of(of_place);
  std::vector<MapSquare> squares;
  std::vector<std::vector<std::string>> cells;
  std::string weakest;
  double least = 1e300;
  for (const Json& square : wind.at("squares")) {
    const Json& gust = square.at("not_shown_above_km_per_h");
    const double low = low_of(gust);
    if (low < least) {
      least = low;
      weakest = text_at(square, "name");
    }
    const std::string text = fmt::format("{:.0f}", low);
    squares.push_back({text_at(square, "name"), text, 1.0 - low / scale,
                       fmt::format("{}: not shown to stay above {} km/h", text_at(square, "name"), text)});
    cells.push_back(ends_of(gust, 1.0));
    cells.back().push_back(number_in_print(square.at("suction_coefficient").get<double>()));
  }
  MapWords words;
  words.id = "map-wind";
  words.title = "Above which gust the weakest module of a square is not shown to stay, in km/h.";
  words.caption = "Dry; the low end, which is the one to go by. The deeper the tint, the sooner.";
  words.description = fmt::format("The weakest square is {}.", weakest);
  words.heads = {"km/h low", "likely", "high", "suction coefficient"};
  return map_of(document, words, std::move(squares), cells);
}

Html water_map(const Json& document) {
  const Json& drainage = document.at("drainage");
  std::vector<MapSquare> squares;
  std::vector<std::vector<std::string>> cells;
  std::string deepest;
  double most = -1.0;
  for (const Json& square : drainage.at("squares")) {
    const Json& depth = square.at("depth_mm");
    const Json& free = square.at("freeboard_mm");
    const double gap_mm = value_of(depth) + value_of(free);
    if (value_of(depth) > most) {
      most = value_of(depth);
      deepest = text_at(square, "name");
    }
    constexpr double least_film_mm = 1.0;
    const double depth_frac = gap_mm > 0.0 ? value_of(depth) / gap_mm : value_of(depth) >= least_film_mm ? 1.0 : 0.0;
    squares.push_back({text_at(square, "name"), fmt::format("{:.0f}", value_of(depth)), depth_frac,
                       fmt::format("{}: {} mm deep, {} mm free", text_at(square, "name"),
                                   number_in_print(value_of(depth)), number_in_print(value_of(free)))});
    cells.push_back(ends_of(depth, 1.0));
    for (const std::string& end : ends_of(free, 1.0)) cells.back().push_back(end);
  }
  MapWords words;
  words.id = "map-water";
  words.title = fmt::format("How deep the water stands under modules, in mm: {}.", text_at(drainage, "squares_case"));
  for (const Json& one : drainage.at("cases")) {
    const Json& rain = one.at("rain_mm_per_h");
    if (one.at("case") != drainage.at("squares_case") || !is_known(rain)) continue;
    words.title = fmt::format("How deep the water stands under modules, in mm: {}, {} mm/h.",
                              text_at(drainage, "squares_case"), number_in_print(value_of(rain)));
  }
  words.caption =
      "Likely depth, the deepest of each square. The tint is deepest where the gap under the module is full; flat "
      "modules have none.";
  words.description = fmt::format("The deepest square is {}.", deepest);
  words.heads = {"depth mm low", "likely", "high", "free mm low", "likely", "high"};
  return map_of(document, words, std::move(squares), cells);
}

Html cases_table(const Json& document) {
  Matrix matrix;
  matrix.caption = html_from("Case by case, kN/m\u00B2 and kN");
  for (const std::string_view words :
       {"case", "comes on top", "heaviest square", "whole roof, kN", "times EN 1990 factors"}) {
    matrix.heads.push_back(html_from(words));
  }
  const Json& cases = document.at("load").at("cases");
  for (std::size_t i = 0; i < cases.size(); ++i) {
    MatrixRow row{html_from(text_at(cases[i], "name")), {}};
    for (const std::string_view field :
         {"added_kn_per_m2", "heaviest_kn_per_m2", "whole_roof_kn", "factored_kn_per_m2"}) {
      row.cells.push_back({fmt::format("/load/cases/{}/{}", i, field)});
    }
    matrix.rows.push_back(std::move(row));
  }
  return table_of_matrix(document, matrix);
}

Html feet_table(const Json& document) {
  const Json& feet = document.at("load").at("feet");
  std::vector<FigureRow> rows;
  for (std::size_t i = 0; i < feet.size(); ++i) {
    const Html name = name_from(text_at(feet[i], "name"));
    rows.push_back({name + html_from(", a foot"), "kPa", {fmt::format("/load/feet/{}/soaked_kpa", i)}});
    rows.push_back({name + html_from(", one foot loose"), "kPa", {fmt::format("/load/feet/{}/uneven_kpa", i)}});
  }
  if (rows.empty()) return {};
  return table_of_figures(document, html_from("Pressure under the feet, soaked"), rows) + statements_of(feet);
}

Html sag_table(const Json& document) {
  const Json& sag = document.at("load").at("sag");
  if (!is_known(sag.at("first_mm"))) return note(text_at(sag, "statement"));
  return sentence(text_at(sag, "statement")) +
         table_of_figures(document, html_from("Sag of the most loaded joist"),
                          {{html_from("when laid"), "mm", {"/load/sag/first_mm"}},
                           {html_from("after years"), "mm", {"/load/sag/final_mm"}},
                           {html_from("with the water it then holds"), "mm", {"/load/sag/with_water_mm"}}});
}

Html next_list(const Json& document) {
  Html content = element_of("h3", "Where the next ten may go");
  const Json& all = document.at("load").at("next");
  for (std::size_t i = 0; i < all.size(); ++i) {
    content += sentence(text_at(all[i], "statement"));
    const Json& places = all[i].at("places");
    if (places.empty()) continue;
    Html items;
    for (std::size_t k = 0; k < places.size(); ++k) {
      const std::string place = fmt::format("/load/next/{}/places/{}", i, k);
      items += element("li", {},
                       html_from("lower left corner at x ") + number_at(document, place + "/left_m") +
                           html_from(" m, y ") + number_at(document, place + "/bottom_m") + html_from(" m"));
    }
    content += element("ul", {}, items);
  }
  return content;
}

}  // namespace

Html caution_from(const Json& caution) {
  return html_from(sentence_in_print(text_at(caution, "text"))) + html_from(" ") +
         element("span", {{"class", "source"}}, html_from(sentence_in_print(text_at(caution, "source"))));
}

Html cautions_beside(const Json& document, std::string_view place) {
  Html content;
  for (const Json& caution : document.at("cautions")) {
    if (text_at(caution, "beside") != place) continue;
    content += element("p", {{"class", "caution"}}, element_of("strong", "Caution") + caution_from(caution));
  }
  return content;
}

Html load_section(const Json& document) {
  const Json& load = document.at("load");
  Html content = sentence(text_at(load, "statement"));
  if (!load.at("missing").empty()) content += list_of("Not written down:", load.at("missing"));
  std::vector<FigureRow> rows = {
      {html_from("soaked, the heaviest square"), "kN/m\u00B2", {"/load/soaked_max_kn_per_m2"}},
      {html_from("of the figure, on the heaviest square"), "%", {"/load/utilisation_local_max_frac", Form::percent}},
      {html_from("of the figure, along the spans"), "%", {"/load/utilisation_span_max_frac", Form::percent}}};
  const Json& patches = load.at("patches");
  for (std::size_t i = 0; i < patches.size(); ++i) {
    rows.push_back({patch_words(patches[i]) + html_from(", soaked"),
                    "kN/m\u00B2",
                    {fmt::format("/load/patches/{}/soaked_kn_per_m2", i)}});
  }
  content += table_of_figures(document, html_from("What presses on the deck"), rows);
  content += load_map(document) + cases_table(document);
  content += statements_of(load.at("cases"));
  content += note(
      "Unfactored, as the engineer\u2019s figure is taken to be; with the factors of EN 1990 for whoever checks it. "
      "A screening: no figure here replaces an engineer or the local code");
  content += feet_table(document) + sag_table(document) + next_list(document);
  return content;
}

Html wind_section(const Json& document) {
  const Json& wind = document.at("wind");
  Html content = element("h3", {{"id", "wind"}}, html_from("Does it stay down?")) + cautions_beside(document, "wind");
  content += sentence(text_at(wind, "statement"));
  content += table_of_figures(
      document, html_from("Gusts at the roof"),
      {{html_from("of the place"), "km/h", {"/wind/gust_of_place_km_per_h"}},
       {html_from("peak pressure of the place"), "kN/m\u00B2", {"/wind/peak_pressure_kn_per_m2"}},
       {html_from("the weakest module is not shown to stay above"), "km/h", {"/wind/not_shown_above_km_per_h"}}});
  const Json& patches = wind.at("patches");
  if (!patches.empty()) {
    Matrix matrix;
    matrix.caption = html_from("The weakest module of each patch, dry");
    for (const std::string_view words : {"patch", "weighs dry, kN/m\u00B2", "not shown above, km/h",
                                         "four tied together, km/h", "nine, km/h", "ballast more, kg/m\u00B2"}) {
      matrix.heads.push_back(html_from(words));
    }
    for (std::size_t i = 0; i < patches.size(); ++i) {
      MatrixRow row{patch_words(patches[i]), {}};
      for (const std::string_view field : {"dry_kn_per_m2", "not_shown_above_km_per_h", "linked_4_km_per_h",
                                           "linked_9_km_per_h", "ballast_kg_per_m2"}) {
        row.cells.push_back({fmt::format("/wind/patches/{}/{}", i, field)});
      }
      matrix.rows.push_back(std::move(row));
    }
    content += table_of_matrix(document, matrix);
    content += note("Ballast is load: it counts against the engineer\u2019s figure too");
  }
  content += wind_map(document);
  content += list_of("Taken at its severest, because the description does not say:", wind.at("taken_severest"));
  content += list_of("Not looked at:", wind.at("not_counted"));
  return content + assumed_by(document, {"wind."});
}

Html drainage_section(const Json& document) {
  const Json& drainage = document.at("drainage");
  Html content = statements_of(drainage.at("cases"));
  content += note("Rain: " + text_at(drainage, "rain_note"));
  content += note("Levels: " + text_at(drainage, "levels_from"));
  Matrix matrix;
  matrix.caption = html_from("Water on the roof");
  for (const std::string_view words : {"case", "rain, mm/h", "deepest, mm", "free under modules, mm", "water, kN",
                                       "at the deepest, kN/m\u00B2", "minutes to drain"}) {
    matrix.heads.push_back(html_from(words));
  }
  const Json& cases = drainage.at("cases");
  for (std::size_t i = 0; i < cases.size(); ++i) {
    MatrixRow row{html_from(text_at(cases[i], "case")), {}};
    for (const std::string_view field :
         {"rain_mm_per_h", "max_depth_mm", "freeboard_mm", "water_kn", "heaviest_kn_per_m2", "minutes_to_drain"}) {
      row.cells.push_back({fmt::format("/drainage/cases/{}/{}", i, field)});
    }
    matrix.rows.push_back(std::move(row));
  }
  content += table_of_matrix(document, matrix);
  content += note("Whether the deck bears that water is for an engineer; local codes say how many outlets it needs");
  content += table_of_figures(document, html_from("Puddles"),
                              {{html_from("deepest that stays"), "mm", {"/drainage/standing_mm"}},
                               {html_from("until it is dry"), "days", {"/drainage/days_to_dry"}}});
  content += water_map(document);
  if (!drainage.at("advice").empty()) {
    content += element_of("h3", "Spacers to change") + statements_of(drainage.at("advice"));
  }
  Html outlets;
  for (std::size_t i = 0; i < drainage.at("outlets").size(); ++i) {
    outlets +=
        element("li", {},
                name_from(text_at(drainage.at("outlets")[i], "name")) + html_from(" takes the rain of ") +
                    number_at(document, fmt::format("/drainage/outlets/{}/catchment_m2", i)) + html_from(" m\u00B2"));
  }
  if (!outlets.is_empty()) content += element("ul", {}, outlets);
  return content + assumed_by(document, {"drainage.", "roof.parapet_height_mm"});
}

Html fire_section(const Json& document) {
  const Json& fire = document.at("fire");
  Html content = element("h3", {{"id", "fire"}}, html_from("Fire")) + cautions_beside(document, "fire");
  content += statements_of(fire.at("recipes"));
  std::vector<FigureRow> rows;
  const Json& recipes = fire.at("recipes");
  for (std::size_t i = 0; i < recipes.size(); ++i) {
    const Html name = name_from(text_at(recipes[i], "name"));
    const std::string place = fmt::format("/fire/recipes/{}", i);
    rows.push_back({name + html_from(", can burn"), "MJ/m\u00B2", {place + "/fuel_mj_per_m2"}});
    rows.push_back({name + html_from(", its plants"), "MJ/m\u00B2", {place + "/plants_mj_per_m2"}});
    rows.push_back({name + html_from(", burns of media and cores"), "%", {place + "/burning_frac", Form::percent}});
  }
  if (!rows.empty()) content += table_of_figures(document, html_from("Dry fuel"), rows);
  std::vector<FigureRow> dry;
  const Json& stacks = document.at("stacks");
  for (std::size_t i = 0; i < stacks.size(); ++i) {
    const std::string& form = text_at(stacks[i], "form");
    if (form != "flat" && form != "raised") continue;
    const std::string place = fmt::format("/stacks/{}/fire_dry_days", i);
    dry.push_back({name_from(text_at(stacks[i], "name")) + html_from(", " + form), "days a year", {place}});
  }
  if (!dry.empty()) {
    content += table_of_figures(document, html_from("Dry enough to burn, watered as described"), dry);
    content += sentence(
        "A day counts in a spell of three or more on which less than a tenth of the water is left that the module "
        "holds for "
        "its plants: our own rule. Dead leaves, mulch and nets dry sooner, on any rainless day.");
  }
  for (const Json& recipe : recipes) {
    content += list_of("What speaks against the usual presumption for \u201C" + text_at(recipe, "name") + "\u201D:",
                       recipe.at("against"));
    content += list_of("Burns, and is not counted:", recipe.at("not_counted"));
  }
  content += sentence(text_at(fire, "statement"));
  std::vector<FigureRow> strips;
  Html sources;
  for (std::size_t i = 0; i < fire.at("strips").size(); ++i) {
    const Json& strip = fire.at("strips")[i];
    const std::string place = fmt::format("/fire/strips/{}", i);
    Html words = html_from("beside " + text_at(strip, "beside") + ": ") + number_at(document, place + "/width_mm") +
                 html_from(" mm, ");
    words += strip.at("reached_into") == 0 ? html_from("nothing reaches into it")
                                           : number_at(document, place + "/reached_into") + html_from(" reach into it");
    sources += element("li", {}, words + html_from(" (" + text_at(strip, "source") + ")"));
  }
  content += element_of("p", "Strips that stay bare:") + element("ul", {}, sources);
  content += element("p", {},
                     html_from("Outside strips and obstacles ") + number_at(document, "/fire/left_m2") +
                         html_from(" m\u00B2 are left. The fire authority and local codes decide."));
  return content + assumed_by(document, {"fire."});
}

}  // namespace houseleek::report
